package main

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/names"
	"blotter/ledger/reading"
	"blotter/ledger/work"
	"blotter/render/label"
)

// paperInputs are records with all that their papers need, in their order.
func (d *desk) paperInputs(ctx context.Context, records []*ledger.Record) ([]*label.Input, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	p := &paperInput{desk: d, works: w, museum: w.Book().Museum, habits: ledger.WithStandard(d.museum)}
	p.reader = reading.NewReader(reading.ConventionsOf(d.museum))
	all := make([]*label.Input, len(records))
	for i, r := range records {
		if all[i], err = p.of(ctx, r); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// paperInput makes what papers need of record after record.
type paperInput struct {
	*desk
	works  *work.Works
	museum *book.Museum
	habits ledger.Habits
	reader *reading.Reader
	view   *history.View // read when a transcript asks for it
}

func (p *paperInput) of(ctx context.Context, r *ledger.Record) (*label.Input, error) {
	in := &label.Input{
		Record: r, Reading: p.reader.Of(r), Museum: p.desk.museum, Habits: p.habits,
		Known: p.known, Draft: p.opts.on("draft"),
	}
	name, _ := in.Reading.Current()
	in.Family = p.museum.FamilyOf(name.Key(), r.Family.Text)
	if e := p.works.Book().Find(in.Number()); e != nil {
		in.Withheld = p.works.Withheld(e)
	}
	if r.Place.Private.Text == "yes" {
		in.Withheld = true
	}
	if in.HasOwnLabel() {
		return in, p.typed(ctx, in)
	}
	return in, nil
}

// known is what names/ says of a name.
func (p *paperInput) known(words string) (authors, family string) {
	if k, ok := p.authorsOf(words); ok {
		authors = k.authors
	}
	if n, err := names.Read(words); err == nil {
		family = p.museum.FamilyOf(n.Key(), n.Family())
	}
	return authors, family
}

// typed is who entered the record first, and in which year.
func (p *paperInput) typed(ctx context.Context, in *label.Input) error {
	if p.repo == nil {
		return nil
	}
	if p.view == nil {
		state, err := p.headState(ctx)
		if err != nil || state.id == "" {
			return err
		}
		if p.view, err = p.repo.History(ctx, p.cache(), state.id); err != nil {
			return stuck("%v", err)
		}
	}
	if of := p.view.Of(in.Number()); len(of) > 0 {
		c := p.view.Commit(of[0].Place)
		in.Typist, in.Typed = c.Author.Name, c.Author.When.In(p.zone).Year()
	}
	return nil
}
