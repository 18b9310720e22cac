package main

import (
	"cmp"
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/ledger/work/printed"
	"blotter/render/label"
	"blotter/render/paper"
)

// sheetsToPrint are the sheets that are typed; of them, or of all when none is
// typed, those that --unprinted or --changed chooses.
func (d *desk) sheetsToPrint(ctx context.Context, words []string) ([]ledger.Number, error) {
	never, changed := d.opts.on("unprinted"), d.opts.on("changed")
	if !never && !changed {
		return d.sheetsOr(ctx, words)
	}
	if never && changed {
		return nil, misuse("--unprinted and --changed are both given; what was never printed cannot have changed since")
	}
	if len(words) == 0 && !d.opts.given("where") {
		words = []string{"all"}
	}
	ns, err := d.sheetsOr(ctx, words)
	if err != nil {
		return nil, err
	}
	kind, _, err := d.printKind()
	if err != nil {
		return nil, err
	}
	if never {
		return d.neverPrinted(ctx, kind, ns)
	}
	changes, err := d.changedPapers(ctx, kind, ns)
	if err != nil {
		return nil, err
	}
	var out []ledger.Number
	for _, c := range changes {
		out = append(out, c.Number)
	}
	return out, nil
}

// sheetsOr are the sheets that are named; a query that none matches is refused.
func (d *desk) sheetsOr(ctx context.Context, words []string) ([]ledger.Number, error) {
	ns, _, err := d.sheets(ctx, words)
	if where := d.opts.text("where"); err == nil && len(ns) == 0 && where != "" {
		return nil, misuse("no sheet matches %s", where)
	}
	return ns, err
}

// neverPrinted are those of ns for which the paper was not printed yet. Of
// labels, those of new material alone: what was gathered before has its label.
// Of slips and type labels all stay, since each entry has one: the kind looks
// at them.
func (d *desk) neverPrinted(ctx context.Context, kind printKind, ns []ledger.Number) ([]ledger.Number, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	var out []ledger.Number
	for _, n := range ns {
		switch e := w.Book().Find(n); {
		case e == nil:
			continue
		case kind.Name == printed.Slips, kind.Name == printed.Types:
		case kind.Name == printed.Labels:
			if !printed.MayWait(w, e, d.newFrom()) {
				continue
			}
			_, _, r, err := d.record(n)
			if err != nil {
				return nil, err
			}
			if printed.HasLabel(r) {
				continue
			}
		default:
			if _, ok := printed.Last(w, n, kind.Name); ok || e.Fate != "" {
				continue
			}
		}
		out = append(out, n)
	}
	return out, nil
}

// newFrom is the day from which gatherings are new material, whose labels are
// printed here: habits.labels.strict_from.
func (d *desk) newFrom() dates.Day {
	habits := ledger.WithStandard(d.museum)
	return dates.DayOf(atoi(habits.Labels.StrictFrom.Text), 1, 1)
}

// changedPaper is a sheet whose paper would now read otherwise than it was
// printed.
type changedPaper struct {
	printed.Sheet
	Differ []printed.Difference
	Lost   bool // the revision that it was printed from is not in this ledger any more
}

// changedPapers are the papers of a kind, of these sheets, that would now read
// otherwise. Each is set twice by today's settings, from the record as it was
// and as it is, so that what no paper shows does not count.
func (d *desk) changedPapers(ctx context.Context, kind printKind, ns []ledger.Number) ([]changedPaper, error) {
	if kind.Again == nil {
		return nil, misuse("--changed is not for %s", kind.Name)
	}
	if d.repo == nil {
		return nil, stuck("this folder has no git repository, so nobody knows what was printed")
	}
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	chosen := make(map[ledger.Number]bool, len(ns))
	for _, n := range ns {
		chosen[n] = true
	}
	var out []changedPaper
	for _, b := range printed.Batches(w, kind.Name) {
		b.Sheets = slices.DeleteFunc(b.Sheets, func(s printed.Sheet) bool { return !chosen[s.Number] })
		some, err := d.changedSince(ctx, kind, w, b)
		if err != nil {
			return nil, err
		}
		out = append(out, some...)
	}
	slices.SortFunc(out, func(a, b changedPaper) int { return strings.Compare(string(a.Number), string(b.Number)) })
	return out, nil
}

// changedSince looks through what was printed from one revision.
func (d *desk) changedSince(ctx context.Context, kind printKind, w *work.Works, b printed.Batch) ([]changedPaper, error) {
	var out []changedPaper
	if b.Revision == "" || len(b.Sheets) == 0 {
		return nil, nil
	}
	then, err := d.stateOf(ctx, b.Revision)
	if err != nil {
		return nil, err
	}
	if then == nil {
		for _, s := range b.Sheets {
			out = append(out, changedPaper{Sheet: s, Lost: true})
		}
		return out, nil
	}
	for _, s := range b.Sheets {
		e := w.Book().Find(s.Number)
		if e == nil || e.Fate != "" {
			continue
		}
		path := s.Bore.Path()
		blob, err := then(path)
		if err != nil {
			return nil, stuck("%v", err)
		}
		if blob == e.Blob || blob == "" {
			continue
		}
		was, err := d.recordThen(ctx, path, blob)
		if err != nil {
			return nil, err
		}
		_, _, is, err := d.record(s.Number)
		if err != nil {
			return nil, err
		}
		before, err := kind.Again(ctx, d, was)
		if err != nil {
			return nil, err
		}
		after, err := kind.Again(ctx, d, is)
		if err != nil {
			return nil, err
		}
		if differ := printed.Differ(before, after); len(differ) > 0 {
			out = append(out, changedPaper{Sheet: s, Differ: differ})
		}
	}
	return out, nil
}

// paperWords are the words of papers, part by part.
func paperWords(blocks []*paper.Block) []printed.Words {
	all := make([]printed.Words, len(blocks))
	for i, b := range blocks {
		for _, p := range b.Parts {
			all[i] = append(all[i], printed.Part{Name: p.Name, Text: p.Text})
		}
	}
	return all
}

// mostParts is into how many parts a paper is divided to be compared: more than
// anybody prints.
const mostParts = 20

// printedAgain makes Again of what sets the papers of one record.
func printedAgain(set func(d *desk, in *label.Input) ([]*paper.Block, []label.Refusal)) func(context.Context, *desk, *ledger.Record) ([]printed.Words, error) {
	return func(ctx context.Context, d *desk, r *ledger.Record) ([]printed.Words, error) {
		ins, err := d.paperInputs(ctx, []*ledger.Record{r})
		if err != nil {
			return nil, err
		}
		blocks, refused := set(d, ins[0])
		out := paperWords(blocks)
		for _, no := range refused {
			out = append(out, printed.Words{{Name: "not printed", Text: no.Why}})
		}
		return out, nil
	}
}

// asPrinted is the record as it was when a paper was last printed for it; nil
// when that was never, or nobody knows from which revision.
func (d *desk) asPrinted(ctx context.Context, paper string, r *ledger.Record) (*ledger.Record, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	last, ok := printed.Last(w, ledger.Number(r.Specimen.Text), paper)
	if !ok {
		return nil, nil
	}
	blob, err := d.blobThen(ctx, last.Revision, r.Path)
	if err != nil {
		return nil, err
	}
	return d.recordThen(ctx, r.Path, blob)
}

// listChanged is `print --changed`: every paper that would now read otherwise,
// with what is on it and what would be.
func (d *desk) listChanged(ctx context.Context) error {
	n, next := 0, ""
	for _, k := range printKinds() {
		if k.Again == nil {
			continue
		}
		changes, err := d.changedPapers(ctx, k, d.numbers())
		if err != nil {
			return err
		}
		for _, c := range changes {
			if n++; n > 1 {
				d.say("")
			}
			d.sayChanged(k, c)
		}
		if len(changes) > 0 && next == "" {
			next = k.Name
		}
	}
	switch n {
	case 0:
		d.say("Every paper that was printed here would read the same now.")
	case 1:
		d.say("\n1 paper would now read otherwise.")
	default:
		d.say("\n%s papers would now read otherwise.", thousands(n))
	}
	if next != "" {
		d.next("blotter print %s --changed --to %s.pdf", next, next)
	}
	return nil
}

func (d *desk) sayChanged(k printKind, c changedPaper) {
	d.say("%s  %s, printed %s (%s)", c.Number, k.Name, dates.Words(c.Day), c.Work)
	if c.Lost {
		d.say("%s", wrap("  printed from revision "+c.Revision+", which is not in this ledger any more: nobody can tell", d.Width, "  "))
		return
	}
	for _, x := range c.Differ {
		d.say("%s", hang("  "+pad(x.Part, labelWidth)+"  ", cmp.Or(x.Was, "-"), d.Width))
		d.say("%s", hang("  "+pad("now", labelWidth)+"  ", cmp.Or(x.Is, "-"), d.Width))
	}
}
