package check

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Report is what the judging of changes found.
type Report struct {
	// Findings are those of the changed records, of the groups of records in
	// which one of them takes part (on each record of the group), and of changed
	// files that lie where they should not; sorted. When Whole, those of all
	// records.
	Findings []ledger.Finding
	Museum   *book.Museum
	Whole    bool // a file of the museum changed, so that all records were judged
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
		return &Report{Findings: Run(b, o), Museum: b.Museum, Whole: true, Judged: b.Len()}, nil
	}
	if err != nil {
		return nil, err
	}
	return &Report{Findings: touched(p, changes, has, o), Museum: p.Museum, Judged: len(p.After)}, nil
}

func touched(p *book.Partial, changes []ledger.Change, has func(string) bool, o Options) []ledger.Finding {
	around := o.around(p.Museum, has)
	var out []ledger.Finding
	changed := map[*book.Entry]bool{}
	for _, e := range p.After {
		changed[e] = true
		out = append(out, e.Findings...)
		out = append(out, unsettled(e, join(e, around))...)
	}
	for _, key := range p.Keys() {
		same := p.Group(key)
		if !slices.ContainsFunc(same, func(e *book.Entry) bool { return changed[e] }) {
			continue
		}
		name, rest, _ := strings.Cut(key, "|")
		for _, g := range sorted().groupings {
			if g.Name == name {
				out = append(out, g.judge(&group{rest, same, around})...)
			}
		}
	}
	for _, c := range changes {
		if c.New != "" {
			out = append(out, book.Misplaced(ledger.File{Path: c.Path, Blob: c.New, Link: c.Link})...)
		}
	}
	return finish(slices.Clip(out), p.Museum)
}
