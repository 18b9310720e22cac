package hooks

import (
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
)

// byWork is one version of some files of work/.
type byWork map[ledger.WorkNumber]history.WorkVersion

func (m byWork) numbers() []ledger.WorkNumber {
	var all []ledger.WorkNumber
	for n := range m {
		all = append(all, n)
	}
	slices.Sort(all)
	return all
}

// workVersions reads the changed files of work/ as one side has them.
func workVersions(ctx context.Context, src ledger.Source, changes []ledger.Change, side func(ledger.Change) ledger.BlobID) (byWork, error) {
	all := byWork{}
	for _, c := range changes {
		n, ok := ledger.WorkNumberOfPath(c.Path)
		if !ok || side(c) == "" {
			continue
		}
		w, found, err := readWork(ctx, src, c.Path, side(c))
		if err != nil {
			return nil, err
		}
		all[n] = history.WorkVersion{Work: w, Unread: history.Unreadable(found)}
	}
	return all, nil
}

func readWork(ctx context.Context, src ledger.Source, path string, blob ledger.BlobID) (*ledger.Work, []ledger.Finding, error) {
	content, err := src.Read(ctx, ledger.File{Path: path, Blob: blob, Size: -1})
	if err != nil {
		return nil, nil, err
	}
	w, found := ledger.DecodeWork(path, content)
	return w, found, nil
}

// workForms are the findings about the form of the changed files of work/.
func workForms(ctx context.Context, after ledger.Source, changes []ledger.Change) ([]ledger.Finding, error) {
	var all []ledger.Finding
	for _, c := range changes {
		if _, ok := ledger.WorkNumberOfPath(c.Path); !ok || c.New == "" || c.Link {
			continue
		}
		_, found, err := readWork(ctx, after, c.Path, c.New)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

// workChanges pairs the files of work/ among changed files, and gives the
// others without them.
func workChanges(ctx context.Context, before, after ledger.Source, changes []ledger.Change, others []string) ([]history.WorkChange, []string, error) {
	olds, err := workVersions(ctx, before, changes, oldSide)
	if err != nil {
		return nil, nil, err
	}
	news, err := workVersions(ctx, after, changes, newSide)
	if err != nil {
		return nil, nil, err
	}
	var out []history.WorkChange
	for _, c := range changes {
		if n, ok := ledger.WorkNumberOfPath(c.Path); ok {
			out = append(out, history.WorkChange{Number: n, Old: olds[n].Work, New: news[n].Work})
		}
	}
	return out, slices.DeleteFunc(others, func(p string) bool { _, ok := ledger.WorkNumberOfPath(p); return ok }), nil
}

// workLaws holds the works of one commit against those of one parent.
// One that goes on under another number is held against what that one has.
func workLaws(parent, child byWork, t told) []ledger.Finding {
	var all []ledger.Finding
	for _, n := range parent.numbers() {
		fs := history.JudgeWork(n, []history.WorkVersion{parent[n]}, child[n], t.corrections)
		if m, moved := history.MovedTo(t.moves, ledger.Number(n)); moved && len(fs) > 0 {
			to, was := ledger.WorkNumber(m.To), parent[n]
			if was.Work != nil {
				w := *was.Work
				w.Work.Text = string(to)
				was.Work = &w
			}
			if there := history.JudgeWork(to, []history.WorkVersion{was}, child[to], t.corrections); len(there) == 0 {
				fs = nil
			}
		}
		all = append(all, fs...)
	}
	return all
}
