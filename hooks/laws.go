package hooks

import (
	"context"
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
	first, err := b.at(ctx, parents[0])
	if err != nil {
		return Verdict{}, err
	}
	own, err := b.toldOn(ctx, parents, parents[0])
	if err != nil {
		return Verdict{}, err
	}
	own = own.and(toldBy(message))
	olds, err := sidesOf(ctx, first, changes, oldSide)
	if err != nil || len(olds.records)+len(olds.works) == 0 && len(parents) == 1 && len(own.moves) == 0 { // only new files: nothing was shared yet
		return Verdict{}, err
	}
	children, err := sidesOf(ctx, after, changes, newSide)
	if err != nil {
		return Verdict{}, err
	}
	var v Verdict
	v.Findings = workLaws(olds.works, children.works, own)
	child := func(n ledger.Number) (history.Version, error) { return children.records.of(n), nil }
	for _, n := range olds.records.numbers() {
		fs, err := own.judge(n, olds.records.of(n), child)
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, fs...)
	}
	if len(parents) == 1 {
		fs, err := movesTrue(own.moves, olds.records, children.records, func(n ledger.Number) (history.Version, error) { return olds.records.of(n), nil })
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, fs...)
	}
	for _, parent := range parents[1:] {
		w, err := b.otherParent(ctx, parents, parent, first, children, toldBy(message))
		if err != nil {
			return Verdict{}, err
		}
		v.join(w)
	}
	ledger.SortFindings(v.Findings)
	return v, nil
}

// otherParent holds a merge against a parent that is not its first. What one
// side corrected, with its reason, the other side need not correct again.
func (b Bench) otherParent(ctx context.Context, parents []string, parent string, first ledger.Source, merged sides, own told) (Verdict, error) {
	between, err := b.changed(ctx, parents[0], parent)
	if err != nil {
		return Verdict{}, err
	}
	src, err := b.Repo.At(ctx, parent)
	if err != nil {
		return Verdict{}, err
	}
	theirs, err := sidesOf(ctx, src, between, newSide)
	if err != nil {
		return Verdict{}, err
	}
	kept, err := sidesOf(ctx, first, between, oldSide)
	if err != nil {
		return Verdict{}, err
	}
	others, err := b.toldOn(ctx, parents, parent)
	if err != nil {
		return Verdict{}, err
	}
	own = others.and(own)
	child := func(n ledger.Number) (history.Version, error) {
		if c, inMerge := merged.records[n.Key()]; inMerge {
			return c.Version, nil
		}
		return kept.records.of(n), nil // the merge left it as the first parent has it
	}
	var v Verdict
	for _, n := range theirs.records.numbers() {
		fs, err := own.judge(n, theirs.records.of(n), child)
		if err != nil {
			return Verdict{}, err
		}
		v.Findings = append(v.Findings, fs...)
	}
	for n, w := range merged.works {
		kept.works[n] = w
	}
	v.Findings = append(v.Findings, workLaws(theirs.works, kept.works, own)...)
	return v, nil
}

// sides are the records and works that changed, as one side has them.
type sides struct {
	records byNumber
	works   byWork
}

func sidesOf(ctx context.Context, src ledger.Source, changes []ledger.Change, side func(ledger.Change) ledger.BlobID) (s sides, err error) {
	if s.records, err = versions(ctx, src, changes, side); err == nil {
		s.works, err = workVersions(ctx, src, changes, side)
	}
	return s, err
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
