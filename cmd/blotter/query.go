package main

import (
	"context"
	"errors"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/find"
	"blotter/ledger/mids"
	"blotter/ledger/work"
)

// readQuery reads a QUERY; a field that is not known is answered with the
// nearest that is.
func readQuery(text string) (find.Query, error) {
	q, err := find.Parse(text, knownField)
	var u *find.Unread
	if !errors.As(err, &u) {
		return q, err
	}
	f := misuse("%s", u.Message)
	if u.Field != "" {
		var names []string
		for _, short := range find.ShortFields() {
			names = append(names, short[0])
		}
		for _, field := range ledger.Fields() {
			names = append(names, field.Key())
		}
		if near := nearest(u.Field, names); near != "" {
			f = misuse("%s; did you mean %s?", u.Message, near)
		}
		f.try("Fields are explained by: blotter help find")
	}
	return find.Query{}, f
}

// query lists the sheets of the work tree that match.
func (d *desk) query(ctx context.Context, text string) ([]ledger.Number, error) {
	var ns []ledger.Number
	q, err := readQuery(text)
	if err != nil {
		return nil, err
	}
	err = d.match(ctx, d.source(), q, func(e *book.Entry, _ *book.Name) { ns = append(ns, e.Number) })
	return ns, err
}

// match calls yield for every record of a version that matches, in order, with
// the accepted name when names/ has that of its determination under another.
func (d *desk) match(ctx context.Context, src ledger.Source, q find.Query, yield func(*book.Entry, *book.Name)) error {
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return err
	}
	load := b.Loader(src, d.cache())
	var on dates.Day
	var works *work.Works
	var papers foundPapers
	if q.NeedsWhere() || q.Needs(find.Unprinted) || q.Needs(find.Reprint) {
		if on, err = d.onDay(); err != nil {
			return err
		}
		if works, err = work.LoadKept(ctx, src, b, d.cache()); err != nil {
			return stuck("read %s/: %v", ledger.WorkDir, err)
		}
		if papers, err = d.findPapers(ctx, q, works, load); err != nil {
			return err
		}
	}
	for e := range b.All() {
		if err := ctx.Err(); err != nil {
			return err
		}
		s := sheetOf(ctx, b, load, e)
		if works != nil {
			s.Where = func() work.Place { return works.State(e.Number, on).Where }
		}
		s.Unprinted, s.Reprint = papers.unprinted[e.Number], papers.reprint[e.Number]
		ok, err := q.Match(s)
		if err != nil {
			return stuck("read %s: %v", e.Path, err)
		}
		if ok {
			yield(e, b.Museum.Renamed(e))
		}
	}
	return nil
}

// sheetOf is a record as the query language sees it.
func sheetOf(ctx context.Context, b *book.Book, load *book.Loader, e *book.Entry) *find.Sheet {
	s := &find.Sheet{
		Number: e.Number, Stage: e.Stage, Name: e.Name, Family: b.Museum.FamilyOf(e.NameKey, e.Family), Former: e.Once,
		People: []string{e.Collector, e.With}, Place: []string{e.Country, e.Province, e.District, e.Locality},
		First: e.First, Last: e.Last, Dated: e.Dated,
		Type: len(e.Types) > 0, Withdrawn: e.Fate != "", Withheld: e.Flags.Has(book.Sensitive),
		Divided: b.Museum.Divided(e) != nil,
	}
	if a := b.Museum.Renamed(e); a != nil {
		s.Name, s.As, s.Family = a.Given.Name.Text, e.Name, a.Family
	}
	if n := b.Museum.Names.Accepted(e.NameKey); n != nil && n.Given.Sensitive.Why.Set() {
		s.Withheld = true
	}
	s.By = append([]string{e.By}, e.People...)
	for _, t := range e.Types {
		s.Suspected = s.Suspected || strings.HasPrefix(t, "possible ")
	}
	s.MIDS = func() mids.Set { return mids.OfEntry(e, b.Museum, true) }
	s.Heights = func() (float64, float64, bool, error) {
		d, err := load.Reading(ctx, e)
		if err != nil || !d.Elevation.Known {
			return 0, 0, false, err
		}
		return d.Elevation.Read.Min, d.Elevation.Read.Max, true, nil
	}
	s.Fields = func() ([]find.Value, error) {
		r, err := load.Record(ctx, e)
		if err != nil {
			return nil, err
		}
		flat := ledger.Flatten(r)
		out := make([]find.Value, len(flat))
		for i, kv := range flat {
			out[i] = find.Value{Path: kv.Key, Text: kv.Value}
		}
		return out, nil
	}
	return s
}
