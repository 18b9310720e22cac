package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/names"
	"blotter/ledger/reading"
	"blotter/render/label"
)

// paperInputs are records with all that their papers need, in their order. Of
// the other records nothing is read.
func (d *desk) paperInputs(ctx context.Context, records []*ledger.Record) ([]*label.Input, error) {
	m, err := d.museumFiles(ctx)
	if err != nil {
		return nil, err
	}
	p := &paperInput{desk: d, museum: m, habits: ledger.WithStandard(d.museum)}
	p.reader = reading.NewReader(reading.ConventionsOf(d.museum))
	all := make([]*label.Input, len(records))
	for i, r := range records {
		if all[i], err = p.of(ctx, r); err != nil {
			return nil, err
		}
	}
	return all, nil
}

// museumFiles are the museum's own files, read once a run: of the works, when
// those are read already.
func (d *desk) museumFiles(ctx context.Context) (*book.Museum, error) {
	if d.worked != nil {
		return d.worked.Book().Museum, nil
	}
	if d.files == nil {
		var files []ledger.File
		for _, path := range d.museumPaths() {
			text, err := d.read(path)
			if err != nil {
				return nil, err
			}
			if text != nil {
				files = append(files, ledger.File{Path: path, Blob: ledger.BlobOf(text), Size: int64(len(text))})
			}
		}
		slices.SortFunc(files, func(a, b ledger.File) int { return strings.Compare(a.Path, b.Path) })
		m, err := book.LoadMuseum(ctx, d.source(), files, d.cache())
		if err != nil {
			return nil, stuck("%v", err)
		}
		d.files = m
	}
	return d.files, nil
}

// paperInput makes what papers need of record after record.
type paperInput struct {
	desk   *desk
	museum *book.Museum
	habits ledger.Habits
	reader *reading.Reader
	intern book.Intern
	view   *history.View // read when a transcript asks for it
}

func (p *paperInput) of(ctx context.Context, r *ledger.Record) (*label.Input, error) {
	in := &label.Input{
		Record: r, Reading: p.reader.Of(r), Museum: p.desk.museum, Habits: p.habits,
		Known: p.known, Draft: p.desk.opts.on("draft"),
	}
	name, _ := in.Reading.Current()
	in.Family = p.museum.FamilyOf(name.Key(), r.Family.Text)
	e := book.EntryOf(in.Reading, &p.intern)
	in.Withheld = p.museum.Withheld(&e)
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
	if k, ok := p.desk.authorsOf(words); ok {
		authors = k.authors
	}
	if n, err := names.Read(words); err == nil {
		family = p.museum.FamilyOf(n.Key(), n.Family())
	}
	return authors, family
}

// typed is who entered the record first, and in which year.
func (p *paperInput) typed(ctx context.Context, in *label.Input) error {
	if p.desk.repo == nil {
		return nil
	}
	if p.view == nil {
		state, err := p.desk.headState(ctx)
		if err != nil || state.id == "" {
			return err
		}
		if p.view, err = p.desk.repo.History(ctx, p.desk.cache(), state.id); err != nil {
			return stuck("%v", err)
		}
	}
	if of := p.view.Of(in.Number()); len(of) > 0 {
		c := p.view.Commit(of[0].Place)
		in.Typist, in.Typed = c.Author.Name, c.Author.When.In(p.desk.zone).Year()
	}
	return nil
}
