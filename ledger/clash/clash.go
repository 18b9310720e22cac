// Package clash finds the numbers that two copies of a ledger gave meanwhile to
// different plants, or to different works: to be asked before the two are
// joined, so that the one not yet shared gets another number. It is pure: it
// reads through Sources, and decides nothing.
package clash

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/merge"
	"blotter/ledger/work"
	"blotter/ledger/work/printed"
)

// Side is one copy since both had the same: its version, and what that has
// otherwise than the common one.
type Side struct {
	Source  ledger.Source
	Changes []ledger.Change
}

// Clash is one number that was given twice.
type Clash struct {
	Number ledger.Number     // of a specimen; "" for a work
	Work   ledger.WorkNumber // of a work; "" for a specimen
	Field  string            // by which the two differ
	Path   string            // of mine
	Mine   []byte            // the file of the copy that is not yet shared
	Theirs []byte
}

// Name is the number.
func (c Clash) Name() string {
	if c.Number != "" {
		return string(c.Number)
	}
	return string(c.Work)
}

// Find lists what both sides made since they had the same, under one number
// and not of one thing, in order of path. What two people typed of one sheet
// (merge.Twice) is none of it.
func Find(ctx context.Context, mine, theirs Side) ([]Clash, error) {
	made := map[string]ledger.Change{}
	for _, c := range theirs.Changes {
		if key, ok := keyOf(c); ok {
			made[key] = c
		}
	}
	var out []Clash
	for _, c := range mine.Changes {
		key, ok := keyOf(c)
		t, both := made[key]
		if !ok || !both || c.New == t.New {
			continue
		}
		x := Clash{Path: c.Path}
		var err error
		if x.Mine, err = read(ctx, mine.Source, c); err != nil {
			return nil, err
		}
		if x.Theirs, err = read(ctx, theirs.Source, t); err != nil {
			return nil, err
		}
		if x.Field = merge.Twice(c.Path, x.Mine, x.Theirs); x.Field == "" {
			continue
		}
		if n, ok := ledger.NumberOfPath(c.Path); ok {
			x.Number = n
		} else {
			x.Work, _ = ledger.WorkNumberOfPath(c.Path)
		}
		out = append(out, x)
	}
	slices.SortFunc(out, func(a, b Clash) int { return strings.Compare(a.Path, b.Path) })
	return out, nil
}

// keyOf is the key of the number whose file a change makes; false for others.
func keyOf(c ledger.Change) (string, bool) {
	if c.Old != "" || c.New == "" || c.Link {
		return "", false
	}
	if n, ok := ledger.NumberOfPath(c.Path); ok {
		return "sheet " + n.Key(), true
	}
	n, ok := ledger.WorkNumberOfPath(c.Path)
	return "work " + string(n), ok
}

func read(ctx context.Context, src ledger.Source, c ledger.Change) ([]byte, error) {
	b, err := src.Read(ctx, ledger.File{Path: c.Path, Blob: c.New, Size: -1})
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", c.Path, err)
	}
	return b, nil
}

// Papers are what was printed of a number, as a ledger's works tell: labels,
// tags, strips and slips with it are about, and may be stuck on a sheet. Newest
// first.
func Papers(w *work.Works, n ledger.Number) []printed.Printing {
	var all []printed.Printing
	for _, paper := range ledger.PaperWords {
		all = append(all, printed.Of(w, n, paper)...)
	}
	slices.SortStableFunc(all, func(a, b printed.Printing) int { return int(b.Day) - int(a.Day) })
	return all
}
