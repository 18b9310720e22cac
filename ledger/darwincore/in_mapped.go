package darwincore

import (
	"context"
	"iter"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/archive"
	"blotter/ledger/exchange"
)

// Core is the core of an archive as a table, for a mapping that says which of
// its columns feed which fields: the headings are the local names of its
// terms. It is an exchange.Source.
type Core struct {
	a         *archive.Archive
	in        *In
	name, sum string
	ctx       context.Context // of one reading; Rows has no other way to get it
	tmp       string
	now       *archive.Star
}

// Core is the archive's core as a table of that name and checksum. Its rows
// are read from Stars, with tmp for what waits.
func (in *In) Core(ctx context.Context, a *archive.Archive, name, sum, tmp string) *Core {
	return &Core{a: a, in: in, name: name, sum: sum, ctx: ctx, tmp: tmp}
}

// Name is the name of the archive.
func (c *Core) Name() string { return c.name }

// SHA256 is the checksum of the archive.
func (c *Core) SHA256() string { return c.sum }

// Heads are the local names of the core's terms.
func (c *Core) Heads() []string { return c.in.core.heads }

// Rows are the rows of the core.
func (c *Core) Rows() iter.Seq2[exchange.Row, error] {
	return func(yield func(exchange.Row, error) bool) {
		for s, err := range c.a.Stars(c.ctx, c.tmp) {
			if err != nil {
				yield(exchange.Row{}, err)
				return
			}
			c.now = s
			row := exchange.Row{Line: s.Line.Line, Cells: make([]string, len(s.Cells))}
			for i, words := range s.Cells {
				row.Cells[i] = strings.TrimSpace(words)
			}
			if !yield(row, nil) {
				return
			}
		}
	}
}

// Star is the row that Rows gave last, with the rows of its extensions.
func (c *Core) Star() *archive.Star { return c.now }

// Join adds the rows of the extensions to the record that a mapping made of a
// row of the core. The history of names stands before the name of the core,
// which is left out when it repeats one of them.
func (in *In) Join(rec *ledger.Record, s *archive.Star) error {
	m := &making{in: in, has: map[string]bool{}}
	in.takeExtensions(m, s)
	m.dets = withName(m.dets)
	m.determinations()
	m.list = append(m.list, m.kept...)
	more, err := ledger.Unflatten(m.list)
	if err != nil {
		return err
	}
	own := rec.Determinations
	rec.Determinations = more.Determinations
	for _, d := range own {
		c := inName{name: d.Name.Text, scientific: d.Name.Text}
		if d.By.Text != "unsigned" {
			c.by = d.By.Text
		}
		if d.Date.Text != "s.d." {
			c.date = d.Date.Text
		}
		if !slices.ContainsFunc(m.dets, func(x inName) bool { return repeats(c, x) }) {
			rec.Determinations = append(rec.Determinations, d)
		}
	}
	rec.Types = append(rec.Types, more.Types...)
	rec.Images = append(rec.Images, more.Images...)
	rec.Duplicates = append(rec.Duplicates, more.Duplicates...)
	rec.SameGathering = append(rec.SameGathering, more.SameGathering...)
	rec.Import = append(rec.Import, more.Import...)
	for _, f := range Facts {
		if !f.words(more).Set() {
			continue
		}
		if set := f.words(rec); set.Set() {
			rec.Import = append(rec.Import, ledger.Pair{Key: f.Type, Value: f.words(more)})
		} else if err := setFact(rec, f.Path, f.words(more)); err != nil {
			return err
		}
	}
	return nil
}

// setFact puts one of Facts into a record.
func setFact(rec *ledger.Record, path string, words ledger.Leaf) error {
	all, err := ledger.Unflatten(append(ledger.Flatten(rec), ledger.KV{Key: path, Value: words.Text}))
	if err == nil {
		all.Path = rec.Path
		*rec = *all
	}
	return err
}
