package hooks

import (
	"context"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/history"
)

// laws holds one commit against each of its parents by the law of opinions:
// what was shared is neither altered nor removed, unless the message corrects
// it. changes are those against the first parent; what other parents have
// otherwise is found here.
func (b Bench) laws(ctx context.Context, parents []string, after ledger.Source, changes []ledger.Change, message string) (Verdict, error) {
	if len(parents) == 0 {
		return Verdict{}, nil
	}
	own := toldBy(message)
	olds, err := sidesOf(ctx, b.Repo.Stored(), changes, oldSide)
	if err != nil || len(olds.records)+len(olds.works) == 0 && len(parents) == 1 && len(own.moves) == 0 { // only new files: nothing was shared yet
		return Verdict{}, err
	}
	children, err := sidesOf(ctx, after, changes, newSide)
	if err != nil {
		return Verdict{}, err
	}
	v, err := b.against(ctx, parents, parents[0], olds, children, own)
	if err != nil {
		return Verdict{}, err
	}
	if len(parents) == 1 {
		fs, err := movesTrue(own.moves, olds.records, children.records, func(n ledger.Number) (history.Version, error) { return olds.records.of(n), nil })
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, fs...)
	}
	if len(parents) == 2 {
		fs, err := b.carried(ctx, parents, b.merged(ctx, parents[0], changes, children), own)
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, fs...)
	}
	for _, parent := range parents[1:] {
		w, err := b.otherParent(ctx, parents, parent, children, own)
		if err != nil {
			return Verdict{}, err
		}
		v.join(w)
	}
	ledger.SortFindings(v.Findings)
	return v, nil
}

// merged finds the version of a record that a merge has: one that changed
// against the first parent, else that of the first parent.
func (b Bench) merged(ctx context.Context, first string, changes []ledger.Change, children sides) versionOf {
	return func(n ledger.Number) (version, error) {
		if v, ok := children.records[n.Key()]; ok {
			return version{record: v.Record, broken: v.Unread}, nil
		}
		gone := func(c ledger.Change) bool {
			x, ok := ledger.NumberOfPath(c.Path)
			return ok && x.Key() == n.Key() && c.New == ""
		}
		if slices.ContainsFunc(changes, gone) {
			return version{}, nil
		}
		return b.inItsFolder(ctx, n, first)
	}
}

// otherParent holds a merge against a parent that is not its first.
func (b Bench) otherParent(ctx context.Context, parents []string, parent string, merged sides, own told) (Verdict, error) {
	between, err := b.changed(ctx, parents[0], parent)
	if err != nil {
		return Verdict{}, err
	}
	theirs, err := sidesOf(ctx, b.Repo.Stored(), between, newSide)
	if err != nil {
		return Verdict{}, err
	}
	kept, err := sidesOf(ctx, b.Repo.Stored(), between, oldSide)
	if err != nil {
		return Verdict{}, err
	}
	maps.Copy(kept.records, merged.records) // what the merge did not touch is as the first parent has it
	maps.Copy(kept.works, merged.works)
	return b.against(ctx, parents, parent, theirs, kept, own)
}

// against holds a child against one parent. What one side of a merge
// corrected or renumbered, with its reason, the other side need not tell again;
// that is looked up only when it is needed, and excuses what that side changed
// and nothing else (history.Elsewhere).
func (b Bench) against(ctx context.Context, parents []string, parent string, olds, child sides, own told) (Verdict, error) {
	if len(parents) > 1 {
		child.join()
	}
	found, err := olds.against(child, own)
	if err != nil || len(found) == 0 || len(parents) == 1 {
		return Verdict{Findings: found}, err
	}
	j, err := b.joining(ctx, parents, parent, own)
	if err != nil {
		return Verdict{}, err
	}
	for _, f := range found {
		s := subjectOf(f.Path)
		e, err := j.elsewhere(ctx, s)
		if err != nil {
			return Verdict{}, err
		}
		if v, ok := olds.records[s.number.Key()]; ok {
			v.Elsewhere = e
			olds.records[s.number.Key()] = v
		}
		if v, ok := olds.works[s.work]; ok {
			v.Elsewhere = e
			olds.works[s.work] = v
		}
	}
	found, err = olds.against(child, told{own.corrections, j.moves})
	return Verdict{Findings: found}, err
}

// sides are the records and works that changed, as one side has them.
type sides struct {
	records byNumber
	works   byWork
}

// against holds the sides of a child against those of a parent.
func (s sides) against(child sides, own told) ([]ledger.Finding, error) {
	all := workLaws(s.works, child.works, own)
	of := func(n ledger.Number) (history.Version, error) { return child.records.of(n), nil }
	for _, n := range s.records.numbers() {
		found, err := own.judge(n, s.records.of(n), of)
		if err != nil {
			return nil, err
		}
		all = append(all, found...)
	}
	return all, nil
}

func sidesOf(ctx context.Context, src ledger.Source, changes []ledger.Change, side func(ledger.Change) ledger.BlobID) (s sides, err error) {
	if s.records, err = versions(ctx, src, changes, side); err == nil {
		s.works, err = workVersions(ctx, src, changes, side)
	}
	return s, err
}

// join says of every version that its commit has several parents.
func (s sides) join() {
	for key, v := range s.records {
		v.Joined = true
		s.records[key] = v
	}
	for key, v := range s.works {
		v.Joined = true
		s.works[key] = v
	}
}

// byNumber is one version of some records, by the key of their numbers.
type byNumber map[string]numbered

type numbered struct {
	number ledger.Number
	history.Version
}

func (m byNumber) of(n ledger.Number) history.Version { return m[n.Key()].Version }

// numbers lists those that have a version, in order.
func (m byNumber) numbers() []ledger.Number {
	var all []ledger.Number
	for _, v := range m {
		all = append(all, v.number)
	}
	slices.Sort(all)
	return all
}

func oldSide(c ledger.Change) ledger.BlobID { return c.Old }
func newSide(c ledger.Change) ledger.BlobID { return c.New }

// versions reads the changed records as one side has them. A number whose file
// is on that side nowhere is left out.
func versions(ctx context.Context, src ledger.Source, changes []ledger.Change, side func(ledger.Change) ledger.BlobID) (byNumber, error) {
	all := byNumber{}
	for _, c := range changes {
		n, ok := ledger.NumberOfPath(c.Path)
		if !ok || side(c) == "" {
			continue
		}
		content, err := src.Read(ctx, ledger.File{Path: c.Path, Blob: side(c), Size: -1})
		if err != nil {
			return nil, err
		}
		r, fs := ledger.Decode(c.Path, content)
		all[n.Key()] = numbered{n, history.Version{Record: r, Unread: history.Unreadable(fs)}}
	}
	return all, nil
}
