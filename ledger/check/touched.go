package check

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/work"
)

// Report is what judging found.
type Report struct {
	// Findings are sorted, without those that are settled, severities raised as
	// the museum has it. When not Whole they are those of the changed records,
	// those between one of them and another record (on either), and those of
	// changed files that lie where they should not.
	Findings []ledger.Finding
	Settled  []Settled // by sic entries, in the same order
	Museum   *book.Museum
	Whole    bool // all records were judged; of changes: because a file of the museum is among them
	Judged   int  // records judged
}

// Touched judges the changes from base to the version that src holds, by the
// same rules as Run and with the same findings, without loading the records
// that no change touches. The index that this takes is kept in the cache;
// when there is none yet it is made, with progress. has tells whether the new
// version has a picture; nil: pictures are not looked for.
func Touched(ctx context.Context, base book.Base, src ledger.Source, changes []ledger.Change, has func(path string) bool, load book.Options, o Options) (*Report, error) {
	load.Judge = Judge()
	p, err := book.LoadPartial(ctx, base, src, changes, load)
	if errors.Is(err, book.ErrMuseum) {
		b, err := book.Load(ctx, src, load)
		if err != nil {
			return nil, err
		}
		if o.Works, err = works(ctx, src, b, changes, load); err != nil {
			return nil, err
		}
		return Whole(b, o), nil
	}
	if err != nil {
		return nil, err
	}
	if touchesWork(changes) {
		b, err := book.Load(ctx, src, load)
		if err != nil {
			return nil, err
		}
		if o.Works, err = works(ctx, src, b, changes, load); err != nil {
			return nil, err
		}
	}
	return touched(p, changes, has, o), nil
}

// works are the files of work/ when a change is among them. Who changes none
// does not wait until they are read.
func works(ctx context.Context, src ledger.Source, b *book.Book, changes []ledger.Change, load book.Options) (*work.Works, error) {
	if !touchesWork(changes) {
		return nil, nil
	}
	return work.LoadKept(ctx, src, b, load.Cache)
}

func touchesWork(changes []ledger.Change) bool {
	return slices.ContainsFunc(changes, func(c ledger.Change) bool { return strings.HasPrefix(c.Path, ledger.WorkDir+"/") })
}

func touched(p *book.Partial, changes []ledger.Change, has func(string) bool, o Options) *Report {
	j := newJudging(o.around(p.Museum, has))
	j.changed = map[*book.Entry]bool{}
	for _, e := range p.After {
		j.changed[e] = true
		j.record(e)
		j.summed(e, p)
	}
	for _, key := range p.Keys() {
		same := p.Group(key)
		if !slices.ContainsFunc(same, func(e *book.Entry) bool { return j.changed[e] }) {
			continue
		}
		name, rest, _ := strings.Cut(key, "|")
		for _, g := range sorted().groupings {
			if g.Name == name {
				j.group(g, &group{key: rest, same: same, around: j.around})
			}
		}
	}
	for _, e := range p.After { // of others nobody knows all groups
		j.idle(e)
	}
	for _, c := range changes {
		if c.New != "" {
			j.open = append(j.open, book.Misplaced(ledger.File{Path: c.Path, Blob: c.New, Link: c.Link})...)
		}
	}
	if o.Works != nil {
		only := map[string]bool{}
		for _, c := range changes {
			only[c.Path] = true
		}
		j.works(o.Works, only)
	}
	r := j.report(p.Museum)
	r.Judged = len(p.After)
	return r
}
