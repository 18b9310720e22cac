package main

import (
	"context"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// printState is the state of the ledger that a paper is printed from.
type printState struct {
	id      string    // of its revision; "": nothing is entered, or there is no git
	when    time.Time // of the revision; zero without one
	entered bool      // all that is on the paper stands in the revision
}

// headState is the revision that the desk is turned to, else the last one.
func (d *desk) headState(ctx context.Context) (s printState, err error) {
	if d.repo == nil {
		return s, nil
	}
	if d.past != nil {
		s.id = d.past.id
	} else if s.id, err = d.head(ctx); err != nil || s.id == "" {
		return s, err
	}
	commit, err := d.repo.Revision(ctx, s.id)
	if err != nil {
		return s, stuck("%v", err)
	}
	s.when = commit.Committer.When
	return s, nil
}

// printedFrom is the state that the records of a paper are printed from. What
// is not entered could be changed and leave no trace of what was printed, so it
// is refused but for a draft and a trial.
func (p *printing) printedFrom(ctx context.Context, of []ledger.Number) (printState, error) {
	s, err := p.headState(ctx)
	if err != nil || p.repo == nil {
		return s, err
	}
	if p.past != nil {
		s.entered = true
		return s, nil
	}
	files := p.museumPaths()
	for _, n := range of {
		files = append(files, p.pathOf(n))
	}
	dirty, err := p.repo.Dirty(ctx, files)
	if err != nil {
		return s, stuck("%v", err)
	}
	s.entered = s.id != "" && len(dirty) == 0
	if s.entered || p.opts.on("draft") || p.opts.on("trial") {
		return s, nil
	}
	var names []string
	for _, path := range dirty[:min(len(dirty), 10)] {
		names = append(names, p.briefPath(path))
	}
	if n := len(dirty) - len(names); n > 0 {
		names = append(names, "and "+thousands(n)+" more")
	}
	return s, stuck("%s: edits not yet entered; a paper is printed from what is entered, so that it can be told later what stood on it", strings.Join(names, ", ")).
		try("blotter enter", "What was entered last: add --at "+s.short(), "Only to look at it: add --draft, or --trial to try the printer")
}

func (s printState) short() string { return s.id[:min(len(s.id), 7)] }

// foot is what stands in the strip below the last cut.
func (p *printing) foot(s printState) paper.Foot {
	f := paper.Foot{File: filepath.Base(p.opts.text("to"))}
	switch {
	case p.repo == nil:
		f.Revision = "a ledger without git: no revision, not kept"
		return f
	case s.id == "":
		f.Revision = "nothing entered yet, not kept"
		return f
	}
	at := s.when.In(p.zone)
	f.Day, f.Revision = dates.Words(dates.DayOf(at.Year(), int(at.Month()), at.Day())), s.short()
	switch {
	case !s.entered:
		f.Revision += " and edits not entered"
	case p.opts.on("draft"):
		f.Revision += ", a draft"
	case p.opts.on("trial"):
		f.Revision += ", a trial"
	}
	return f
}

// recordsToPrint are the records of the sheets that are typed, as the desk has
// them. Those of which nothing may be printed are refused: withdrawn ones, and
// without --draft those that are not finished.
func (d *desk) recordsToPrint(ctx context.Context, words []string) ([]*ledger.Record, []refusedPaper, error) {
	return d.recordsRefusing(ctx, words, func(n ledger.Number, r *ledger.Record) (bool, refusedPaper) {
		return true, d.notToPrint(n, r)
	})
}

// recordsWith are those of the sheets that are typed which have what the paper
// tells of, finished or not. Withdrawn ones are refused, unless it was
// --unprinted or --changed that chose them: then they are passed over.
func (d *desk) recordsWith(ctx context.Context, words []string, has func(*ledger.Record) bool) ([]*ledger.Record, []refusedPaper, error) {
	passed := d.opts.on("unprinted") || d.opts.on("changed")
	return d.recordsRefusing(ctx, words, func(n ledger.Number, r *ledger.Record) (bool, refusedPaper) {
		if !has(r) {
			return false, refusedPaper{}
		}
		no := d.notToPrint(n, r)
		if no.Code != sheetWithdrawn {
			return true, refusedPaper{}
		}
		return !passed, no
	})
}

// recordsRefusing reads the sheets that are typed. judge says whether one
// counts at all, and, when it has an Of, why it is refused.
func (d *desk) recordsRefusing(ctx context.Context, words []string, judge func(ledger.Number, *ledger.Record) (bool, refusedPaper)) (all []*ledger.Record, refused []refusedPaper, err error) {
	ns, err := d.sheetsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	for _, n := range ns {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		_, _, r, err := d.record(n)
		if err != nil {
			return nil, nil, err
		}
		switch counts, no := judge(n, r); {
		case !counts:
		case no.Of != "":
			refused = append(refused, no)
		default:
			all = append(all, r)
		}
	}
	return all, refused, nil
}

// sheetWithdrawn is the code of the refusal to print what is not here any more.
const sheetWithdrawn = "sheet-withdrawn"

// notToPrint is the reason why nothing is printed of a record; without Of
// there is none.
func (d *desk) notToPrint(n ledger.Number, r *ledger.Record) refusedPaper {
	read := reading.Of(r, reading.ConventionsOf(d.museum))
	switch {
	case read.Fate != "":
		f := r.Fate[len(r.Fate)-1]
		return refusedPaper{Of: n, Code: sheetWithdrawn, Why: "was withdrawn on " + d.shownDate(f.Date.Text) + prefixedAny(": ", f.Why.Text)}
	case !read.Full() && !d.opts.on("draft"):
		return refusedPaper{Of: n, Code: "sheet-unfinished", Why: "is a " + r.Entry.Text + ", not yet ready",
			Try: "Finish it: blotter edit " + d.brief(n) + "   To look at it, with DRAFT across: add --draft"}
	}
	return refusedPaper{}
}
