package main

import (
	"context"

	"blotter/ledger/book"
	"blotter/ledger/reading"
	"blotter/render/document"
)

// renamingsPrint is the slips of sheets whose name changed while nobody looked.
func renamingsPrint() printKind {
	return printKind{
		Name: "renamings", Takes: "[NAME | SHEETS]", Says: "slips worded as a change of name, of the sheets determined as NAME",
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			w, err := d.works(ctx)
			if err != nil {
				return nil, err
			}
			wanted, err := d.renamedWanted(ctx, words)
			if err != nil {
				return nil, err
			}
			b := w.Book()
			doc := &document.Document{Title: "Changes of name"}
			var rows [][]string
			for e := range b.All() {
				now := b.Museum.Renamed(e)
				if now == nil || e.Fate != "" || !wanted(e) {
					continue
				}
				steps := b.Museum.Names.Renamings(e.NameKey)
				last := steps[len(steps)-1].Given
				who := joinNonEmpty(", ", last.Source.Text, last.By.Text, d.shownIfAny(last.Date.Text))
				doc.Lines(now.Given.Name.Text, "name changed; named as "+e.Name+prefixedAny(", ", e.By), joinNonEmpty("; ", prefixedAny("by ", who), "the plant was not looked at"), string(e.Number)+", "+d.museum.Name.Text)
				rows = append(rows, []string{string(e.Number), now.Given.Name.Text, e.Name, e.By, who})
			}
			if len(rows) == 0 {
				doc.Say("No sheet lies under another name than that of its determination.")
			}
			doc.Data = &document.Block{Kind: document.Table, Heads: []string{"sheet", "name now", "determined as", "by", "changed by"}, Rows: rows}
			if len(rows) == 0 {
				doc.Data = nil
			}
			return doc, nil
		},
	}
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
