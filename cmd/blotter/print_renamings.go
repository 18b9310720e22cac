package main

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
	"blotter/render/document"
	"blotter/render/label"
	"blotter/render/paper"
)

// renamingsPrint is the slips of sheets whose name changed while nobody looked.
func renamingsPrint() printKind {
	return printKind{
		Name: "renamings", Takes: "[NAME | SHEETS]", Says: "slips worded as a change of name, of the sheets determined as NAME",
		Flags: []*flag{flagParts}, Make: renamingsList, Blocks: renamingSlips,
	}
}

// renamedSheet is a sheet that lies under another name than that of its
// determination, and the entry of names/ that says so last.
type renamedSheet struct {
	of   *book.Entry
	now  string
	last *ledger.NameEntry
}

// renamedSheets are those of the sheets that are typed.
func (d *desk) renamedSheets(ctx context.Context, words []string) ([]renamedSheet, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	wanted, err := d.renamedWanted(ctx, words)
	if err != nil {
		return nil, err
	}
	b := w.Book()
	var all []renamedSheet
	for e := range b.All() {
		now := b.Museum.Renamed(e)
		if now == nil || e.Fate != "" || !wanted(e) {
			continue
		}
		steps := b.Museum.Names.Renamings(e.NameKey)
		all = append(all, renamedSheet{e, now.Given.Name.Text, steps[len(steps)-1].Given})
	}
	return all, nil
}

// renamingsList is the list of them, with the words of the slips.
func renamingsList(ctx context.Context, d *desk, words []string) (*document.Document, error) {
	all, err := d.renamedSheets(ctx, words)
	if err != nil {
		return nil, err
	}
	doc := &document.Document{Title: "Changes of name"}
	if len(all) == 0 {
		doc.Say("No sheet lies under another name than that of its determination.")
		return doc, nil
	}
	var rows [][]string
	for _, x := range all {
		e := x.of
		who := joinNonEmpty(", ", x.last.Source.Text, x.last.By.Text, d.shownIfAny(x.last.Date.Text))
		doc.Lines(x.now, "name changed; named as "+e.Name+prefixedAny(", ", e.By), joinNonEmpty("; ", prefixedAny("by ", who), "the plant was not looked at"), string(e.Number)+", "+d.museum.Name.Text)
		rows = append(rows, []string{string(e.Number), x.now, e.Name, e.By, who})
	}
	doc.Data = &document.Block{Kind: document.Table, Heads: []string{"sheet", "name now", "determined as", "by", "changed by"}, Rows: rows}
	return doc, nil
}

// renamingSlips are the slips, to be cut apart. Their printing is not kept:
// they tell nothing that the records say.
func renamingSlips(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	opts, err := d.slipOptions()
	if err != nil {
		return nil, nil, err
	}
	all, err := d.renamedSheets(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	var records []*ledger.Record
	for _, x := range all {
		_, _, r, err := d.record(x.of.Number)
		if err != nil {
			return nil, nil, err
		}
		records = append(records, r)
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	out := &smallPapers{Noun: "slip", Place: paper.Size{W: label.Width, H: label.SlipHeight}}
	var refused []refusedPaper
	for i, in := range ins {
		x := all[i]
		b, no := label.RenamedSlip(in, label.Renamed{Now: x.now, Was: x.of.Name, Source: x.last.Source.Text, By: x.last.By.Text, Date: x.last.Date.Text}, opts)
		if no != nil {
			refused = append(refused, d.refusedPapers([]label.Refusal{*no})...)
			continue
		}
		out.Blocks = append(out.Blocks, smallPaper{Block: b, Of: in.Number()})
	}
	return out, refused, nil
}

// renamedWanted says which sheets are asked for: those of a name in quotes, of
// a list, or all.
func (d *desk) renamedWanted(ctx context.Context, words []string) (func(*book.Entry) bool, error) {
	if len(words) == 0 && d.opts.text("where") == "" {
		return func(*book.Entry) bool { return true }, nil
	}
	if len(words) == 1 && d.opts.text("where") == "" {
		if n, ok := nameTyped(words[0]); ok {
			return func(e *book.Entry) bool { return e.NameKey == n }, nil
		}
	}
	ns, _, err := d.sheets(ctx, words)
	if err != nil {
		return nil, err
	}
	in := map[string]bool{}
	for _, n := range ns {
		in[n.Key()] = true
	}
	return func(e *book.Entry) bool { return in[e.Number.Key()] }, nil
}

// nameTyped is the canonical form of words that are a name, not a sheet.
func nameTyped(words string) (string, bool) {
	n := reading.ReadName(words)
	return n.Key(), n.Readable && n.Read.Genus != ""
}
