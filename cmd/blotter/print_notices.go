package main

import (
	"cmp"
	"context"
	"maps"
	"slices"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
	"blotter/ledger/work"
	"blotter/render/document"
)

// noticesPrint tells whoever holds a duplicate that its gathering was named
// anew.
func noticesPrint() printKind {
	return printKind{
		Name: "notices", Says: "letters to whoever holds a duplicate of what was named anew since --since; as .csv the list",
		Flags: []*flag{flagSince, flagPartner}, Make: makeNotices,
	}
}

// notice is one new name that one partner is told of.
type notice struct {
	sheet            ledger.Number
	theirs           string
	collector, date  string
	was, now         string
	by, day, grounds string
}

func makeNotices(ctx context.Context, d *desk, words []string) (*document.Document, error) {
	if len(words) > 0 {
		return nil, misuse("%q is too much; the sheets are those named anew", words[0])
	}
	since := d.opts.text("since")
	if since == "" {
		return nil, misuse("since when?").try("blotter print notices --since published", "blotter print notices --since 2026-01-01")
	}
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	notices, err := d.notices(ctx, w, since)
	if err != nil {
		return nil, err
	}
	doc := &document.Document{Title: "New names of duplicates, since " + since, Letters: true}
	only := ""
	if p := d.opts.text("partner"); p != "" {
		only = w.PartnerWords(p)
	}
	var all [][]string
	for _, partner := range slices.Sorted(maps.Keys(notices)) {
		if only != "" && partner != only {
			continue
		}
		for _, n := range notices[partner] {
			all = append(all, []string{partner, n.theirs, string(n.sheet), n.collector, n.date, n.was, n.now, n.by, n.day, n.grounds})
		}
		if len(doc.Blocks) > 0 {
			doc.Page()
		}
		d.noticeLetter(doc, w, partner, notices[partner])
	}
	if len(all) == 0 {
		doc.Say("Nobody holds a duplicate of a sheet that was named anew.")
		return doc, nil
	}
	doc.Data = &document.Block{Kind: document.Table, Heads: []string{"partner", "their number", "our number", "collector", "collected", "was", "now", "by", "date", "why"}, Rows: all}
	return doc, nil
}

// noticeLetter is the letter to one partner, with the words of the slips.
func (d *desk) noticeLetter(doc *document.Document, w *work.Works, partner string, list []notice) {
	doc.Heading("To " + partner)
	if p := w.PartnerOf(partner); p != nil {
		doc.Lines(leafList(p.Address)...)
	}
	doc.Say("You hold duplicates of " + count(len(list), "gathering") + " of ours that " + verb(len(list), "was", "were") + " named anew from our " + verb(len(list), "sheet", "sheets") +
		". Nobody has looked at yours: whether the new name is right for it is for you to say, and we should be glad to hear.")
	var rows [][]string
	for _, n := range list {
		rows = append(rows, []string{n.theirs, string(n.sheet), n.collector, n.was, n.now})
	}
	doc.Table([]string{"yours", "ours", "collector", "was", "now"}, rows)
	doc.Names("was", "now")
	doc.Heading("Words for the slips")
	for _, n := range list {
		doc.Lines(n.now, n.grounds, joinNonEmpty(", ", "det. "+n.by, n.day), joinNonEmpty(", ", "on the duplicate "+string(n.sheet), d.museum.Name.Text))
	}
}

// notices are the new names since a revision, by partner.
func (d *desk) notices(ctx context.Context, w *work.Works, since string) (map[string][]notice, error) {
	id, err := d.revision(ctx, since)
	if err != nil {
		return nil, err
	}
	before, err := d.repo.At(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	now := d.source()
	var files [2][]ledger.File
	for i, src := range []ledger.Source{before, now} {
		if files[i], err = src.Files(ctx); err != nil {
			return nil, stuck("%v", err)
		}
	}
	sheets, _ := alteredFiles(files)
	was := &book.Loader{Source: before}
	load := w.Book().Loader(now, d.cache())
	out := map[string][]notice{}
	for _, n := range slices.Sorted(maps.Keys(sheets)) {
		e, old := w.Book().Find(n), sheets[n][0]
		if e == nil || old == "" {
			continue // new, or taken away
		}
		former := (&book.Shown{Number: n, Path: e.Path, Blob: old}).Entry()
		then, err := was.Record(ctx, &former)
		if err != nil {
			return nil, stuck("read %s: %v", e.Path, err)
		}
		r, err := load.Record(ctx, e)
		if err != nil {
			return nil, stuck("read %s: %v", e.Path, err)
		}
		a, b := d.standing(then), d.standing(r)
		if a.key == b.key && a.words == b.words || b.words == "" {
			continue
		}
		one := d.noticeOf(n, r, a, b)
		for _, h := range w.Holders(e, r) {
			one.theirs = h.Number
			out[h.Partner] = append(out[h.Partner], one)
		}
	}
	return out, nil
}

func (d *desk) noticeOf(n ledger.Number, r *ledger.Record, was, now standing) notice {
	x := notice{sheet: n, collector: joinNonEmpty(" ", r.Collector.Text, r.CollNo.Text), date: r.Date.Text, was: cmp.Or(was.shown, "not yet named"), now: now.shown}
	read := reading.Of(r, reading.ConventionsOf(d.museum))
	if _, at := read.Current(); at >= 0 {
		o := &read.Opinions[at]
		x.by, x.day, x.grounds = joinNonEmpty(", ", o.Given.By.Text, o.Given.At.Text), d.shownReading(o.Date), o.Given.Why.Text
	}
	return x
}
