package hooks

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/dates"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// Bench is what judging needs besides the commit: where the repository is,
// what day it is, what earlier runs kept.
type Bench struct {
	Repo     *gitrepo.Repo
	Cache    *disk.Cache // nil: everything is read anew
	Today    dates.Day
	Progress func(done, total int) // nil: silent
}

// Verdict is what judging an entry found.
type Verdict struct {
	Findings []ledger.Finding // what this entry brings in, warnings too; any Error refuses it
	Older    int              // errors that stood before, elsewhere: counted, never a reason to refuse
	Entries  int              // how many entries Range judged
}

// Refused reports whether an error is among the findings.
func (v Verdict) Refused() bool {
	return slices.ContainsFunc(v.Findings, func(f ledger.Finding) bool { return f.Severity == ledger.Error })
}

// join adds the findings of another verdict.
func (v *Verdict) join(w Verdict) {
	v.Findings = append(v.Findings, w.Findings...)
	v.Older += w.Older
	ledger.SortFindings(v.Findings)
	v.Findings = slices.Compact(v.Findings)
}

// Contents judges the files of a version of the ledger against the version
// before it, "" for none: refused are errors in files that it changes, and
// errors between records in which a changed file takes part.
func (b Bench) Contents(ctx context.Context, before string, after ledger.Source, changes []ledger.Change) (Verdict, error) {
	if len(changes) == 0 {
		return Verdict{}, nil
	}
	base, err := b.base(ctx, before)
	if err != nil {
		return Verdict{}, err
	}
	load := book.Options{Cache: b.Cache, Judge: check.Judge(), Progress: b.Progress}
	report, err := check.Touched(ctx, base, after, changes, nil, load, check.Options{Today: b.Today, Former: b.former(ctx, before)})
	if err != nil {
		return Verdict{}, fmt.Errorf("check the files: %w", err)
	}
	forms, err := workForms(ctx, after, changes)
	if err != nil {
		return Verdict{}, err
	}
	report.Findings = append(report.Findings, forms...)
	ledger.SortFindings(report.Findings)
	if report.Whole {
		return b.againstAll(ctx, base, report, changes, load)
	}
	changed := map[string]bool{}
	for _, c := range changes {
		changed[c.Path] = true
	}
	var v Verdict
	for _, f := range report.Findings {
		if changed[f.Path] || between()[f.Code] {
			v.Findings = append(v.Findings, f)
		} else if f.Severity == ledger.Error {
			v.Older++
		}
	}
	return v, nil
}

// former finds the last record that a number had before it was taken away, for
// a number that the version before does not have: one number, one plant, for
// ever. The history is read only when there is such a number.
func (b Bench) former(ctx context.Context, before string) func(ledger.Number) *ledger.Record {
	var view *history.View
	blobAt := b.Repo.BlobsAt(ctx, before)
	return func(n ledger.Number) *ledger.Record {
		if before == "" {
			return nil
		}
		if blob, err := blobAt(n.Path()); err != nil || blob != "" {
			return nil
		}
		if view == nil {
			var err error
			if view, err = b.Repo.History(ctx, b.Cache, before); err != nil {
				return nil // pre-push and the server judge again
			}
		}
		revisions := view.Borne(n)
		if len(revisions) == 0 || revisions[len(revisions)-1].Blob != "" {
			return nil // never was, or is in another folder
		}
		if _, on := history.MovedTo(history.Moves(view.Message(revisions[len(revisions)-1].Place)), n); on {
			return nil // its plant goes on under another number, which it got before anybody else had it
		}
		for _, r := range slices.Backward(revisions) {
			if r.Blob == "" {
				continue
			}
			content, err := b.Repo.Blob(ctx, r.Blob)
			if err != nil {
				return nil
			}
			record, _ := ledger.Decode(n.Path(), content)
			return record
		}
		return nil
	}
}

// between are the codes of rules about several records.
var between = sync.OnceValue(func() map[string]bool {
	codes := map[string]bool{}
	for _, r := range check.Rules() {
		codes[r.Code] = r.Group != nil
	}
	return codes
})

// againstAll is for a change of the museum's own files, by which every record
// is judged anew: what stood before is taken off.
func (b Bench) againstAll(ctx context.Context, base book.Base, report *check.Report, changes []ledger.Change, load book.Options) (Verdict, error) {
	old, err := book.Load(ctx, base.Source, load)
	if err != nil {
		return Verdict{}, err
	}
	stood := map[string]bool{}
	for _, f := range check.Run(old, check.Options{Today: b.Today}) {
		stood[f.Path+"\x00"+f.Code+"\x00"+f.Message] = true
	}
	changed := map[string]bool{}
	for _, c := range changes {
		changed[c.Path] = true
	}
	var v Verdict
	for _, f := range report.Findings {
		if changed[f.Path] || !stood[f.Path+"\x00"+f.Code+"\x00"+f.Message] {
			v.Findings = append(v.Findings, f)
		} else if f.Severity == ledger.Error {
			v.Older++
		}
	}
	return v, nil
}

// base is a commit as the version that changes are judged against.
func (b Bench) base(ctx context.Context, commit string) (book.Base, error) {
	if commit == "" {
		return book.Base{Source: nothing{}}, nil
	}
	src, err := b.Repo.At(ctx, commit)
	if err != nil {
		return book.Base{}, err
	}
	return book.Base{Tree: commit, Source: src, Changed: func(ctx context.Context, from string) ([]ledger.Change, error) {
		return b.changed(ctx, from, commit)
	}}, nil
}

// changed is gitrepo's list of differences in the words of ledger.
func (b Bench) changed(ctx context.Context, from, to string) ([]ledger.Change, error) {
	list, err := b.Repo.Changed(ctx, from, to)
	if err != nil {
		return nil, err
	}
	return changesOf(list), nil
}

// head is the commit that an entry will stand on, "" before the first.
func (b Bench) head(ctx context.Context) (string, error) {
	head, err := b.Repo.Head(ctx)
	if errors.Is(err, gitrepo.ErrNoCommits) {
		return "", nil
	}
	return head, err
}

// nothing is the ledger before its first commit.
type nothing struct{}

func (nothing) Files(context.Context) ([]ledger.File, error) { return nil, nil }

func (nothing) Read(_ context.Context, f ledger.File) ([]byte, error) {
	return nil, fmt.Errorf("read %s: the ledger is empty", f.Path)
}
