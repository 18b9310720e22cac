package main

import (
	"context"

	"blotter/ledger/book"
	"blotter/ledger/history"
)

// sayRenamed tells which names were renamed or divided in a stretch of
// entries, which changed no sheet.
func (d *desk) sayRenamed(ctx context.Context, view *history.View, places []int) error {
	if len(places) == 0 {
		return nil
	}
	in := map[int]bool{}
	for _, p := range places {
		in[p] = true
	}
	var from, to string // the newest entries before the stretch and in it
	for p := range view.Len() {
		switch c := view.Commit(p); {
		case in[p]:
			to = c.ID
		default:
			from = c.ID
		}
	}
	before, err := d.museumAt(ctx, from)
	if err != nil {
		return err
	}
	after, err := d.museumAt(ctx, to)
	if err != nil {
		return err
	}
	for _, n := range after.Names.All {
		g := n.Given
		was := &book.Name{}
		for _, w := range before.Names.Homonyms(n.Key()) {
			if w.Given.Name.Text == g.Name.Text {
				was = w
			}
		}
		who := joinNonEmpty(", ", g.Source.Text, g.By.Text, d.shownIfAny(g.Date.Text))
		switch {
		case g.Of.Set() && (was.Given == nil || was.Given.Of.Text != g.Of.Text):
			d.say("%s", wrap("Renamed: "+g.Name.Text+" is "+g.Of.Text+" now"+prefixedAny("; ", who)+". No plant was looked at.", d.Width, "  "))
		case len(g.Split) > 0 && (was.Given == nil || len(was.Given.Split) == 0):
			d.say("%s", wrap("Divided: "+g.Name.Text+", among "+leafWords(g.Split, " and ")+prefixedAny("; ", who)+". Its sheets need eyes: blotter find is:divided", d.Width, "  "))
		}
	}
	return nil
}

// museumAt is the museum's own files at a revision; none for "".
func (d *desk) museumAt(ctx context.Context, id string) (*book.Museum, error) {
	if id == "" {
		return &book.Museum{}, nil
	}
	src, err := d.repo.At(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	files, err := src.Files(ctx)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return book.LoadMuseum(ctx, src, files, d.cache())
}
