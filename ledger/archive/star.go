package archive

import (
	"context"
	"errors"
	"fmt"
	"hash/maphash"
	"io"
	"iter"
	"strings"
)

// Star is one row of the core with the rows of the extensions that name it.
type Star struct {
	Line
	ID         string
	Extensions [][]Line // for each extension of the archive, in the order of its files
}

// Line is one row of a file of an archive.
type Line struct {
	File  string
	Line  int
	Cells []string // one for each of Columns of its entity
}

// Columns are the fields of an entity and, behind them, the columns of its
// files that meta.xml does not speak of, by their headings: a cell that nobody
// declared is read all the same. Ask after Check.
func (a *Archive) Columns(e *Entity) []string { return a.columns[e] }

// Stars reads the archive: each row of the core, in order, with its extension
// rows, which may stand in any order. Memory grows by 16 bytes for each
// extension row and some 30 for each row of the core; the extension rows
// themselves wait in temporary files below tmp (empty: where the system keeps
// them), or in memory as long as they are few.
//
// An archive that contradicts itself ends the rows with an error that names
// file, line and column and what to do: rows of different length, text that is
// not in the declared encoding, an id that is missing or stands twice, an
// extension row without a row of the core. Whoever writes what he reads reads
// to the end first.
func (a *Archive) Stars(ctx context.Context, tmp string) iter.Seq2[*Star, error] {
	return func(yield func(*Star, error) bool) {
		if err := a.stars(ctx, tmp, yield); err != nil {
			yield(nil, err)
		}
	}
}

// checkEvery is after how many rows a cancelled context is noticed.
const checkEvery = 1024

func (a *Archive) stars(ctx context.Context, tmp string, yield func(*Star, error) bool) error {
	if err := a.Check(); err != nil {
		return err
	}
	spools := make([]*spool, len(a.Extensions))
	defer func() {
		for _, s := range spools {
			s.close()
		}
	}()
	for i := range a.Extensions {
		var err error
		if spools[i], err = a.gather(ctx, &a.Extensions[i], tmp); err != nil {
			return err
		}
	}
	core, err := a.strictRows(&a.Core)
	if err != nil {
		return err
	}
	defer core.Close()
	ids := seen{at: map[uint64]place{}, seed: maphash.MakeSeed()}
	for n := 0; ; n++ {
		if n%checkEvery == 0 && ctx.Err() != nil {
			return ctx.Err()
		}
		line, id, err := core.line()
		if errors.Is(err, io.EOF) {
			return a.orphans(spools)
		}
		if err != nil {
			return err
		}
		if err := ids.note(a, id, core.file, line); err != nil {
			return err
		}
		star := &Star{Line: line, ID: id, Extensions: make([][]Line, len(spools))}
		for i, s := range spools {
			if star.Extensions[i], err = s.of(id); err != nil {
				return err
			}
		}
		if !yield(star, nil) {
			return nil
		}
	}
}

// gather reads an extension into a spool.
func (a *Archive) gather(ctx context.Context, e *Entity, tmp string) (*spool, error) {
	rows, err := a.strictRows(e)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	s := newSpool(e.Files, tmp)
	for n := 0; ; n++ {
		if n%checkEvery == 0 && ctx.Err() != nil {
			s.close()
			return nil, ctx.Err()
		}
		line, id, err := rows.line()
		if errors.Is(err, io.EOF) {
			return s, s.seal()
		}
		if err == nil && id == "" {
			err = fmt.Errorf("read %s: line %d: column %d: no coreid: it says which row of the core this row belongs to", line.File, line.Line, e.ID+1)
		}
		if err == nil {
			err = s.add(id, rows.file, line)
		}
		if err != nil {
			s.close()
			return nil, err
		}
	}
}

// orphans says which extension row names a core row that there is not.
func (a *Archive) orphans(spools []*spool) error {
	for i, s := range spools {
		line, id, n, err := s.orphan()
		if err != nil {
			return err
		}
		if n > 0 {
			return fmt.Errorf("read %s: line %d: column %d: coreid %q is the id of no row of %s (%d such rows in all); take them out or add the rows they belong to",
				line.File, line.Line, a.Extensions[i].ID+1, id, strings.Join(a.Core.Files, ", "), n)
		}
	}
	return nil
}

// seen finds ids that stand twice.
type seen struct {
	at   map[uint64]place
	seed maphash.Seed
}

// place is where a row stands.
type place struct{ file, line int32 }

func (s *seen) note(a *Archive, id string, file int, line Line) error {
	if id == "" {
		if len(a.Extensions) == 0 {
			return nil
		}
		return fmt.Errorf("read %s: line %d: column %d: no id: the extensions name the rows of the core by it", line.File, line.Line, a.Core.ID+1)
	}
	h := maphash.String(s.seed, id)
	if first, twice := s.at[h]; twice {
		return fmt.Errorf("read %s: line %d: column %d: id %q stands in line %d of %s too; an id names one row: give one of them another",
			line.File, line.Line, a.Core.ID+1, id, first.line, a.Core.Files[first.file])
	}
	s.at[h] = place{int32(file), int32(line.Line)}
	return nil
}

// strictRows are the rows of an entity, whose cells are those of Columns and
// whose faults are errors.
type strictRows struct {
	a     *Archive
	e     *Entity
	file  int // of the row last read
	now   *lines
	wide  int   // columns of the file
	other []int // columns that meta.xml does not speak of
}

func (a *Archive) strictRows(e *Entity) (*strictRows, error) {
	r := &strictRows{a: a, e: e, file: -1, wide: a.wide[e]}
	declared := map[int]bool{e.ID: true}
	for _, f := range e.Fields {
		declared[f.Index] = true
	}
	for i := range r.wide {
		if !declared[i] {
			r.other = append(r.other, i)
		}
	}
	return r, nil
}

// line is the next row and its id.
func (r *strictRows) line() (Line, string, error) {
	for {
		if r.now == nil {
			if r.file+1 == len(r.e.Files) {
				return Line{}, "", io.EOF
			}
			r.file++
			l, _, err := r.a.openLines(r.e, r.e.Files[r.file], true)
			if err != nil {
				return Line{}, "", err
			}
			r.now = l
		}
		raw, line, err := r.now.read()
		if errors.Is(err, io.EOF) {
			r.now.Close()
			r.now = nil
			continue
		}
		if err != nil {
			return Line{}, "", err
		}
		name := r.e.Files[r.file]
		if len(raw) != r.wide {
			return Line{}, "", fmt.Errorf("read %s: line %d: %d cells, but the file has %d columns; a separator or an end of line within a cell that does not stand between quote marks does that", name, line, len(raw), r.wide)
		}
		id := ""
		if r.e.ID >= 0 {
			id = strings.TrimSpace(raw[r.e.ID])
		}
		return Line{File: name, Line: line, Cells: r.arrange(raw)}, id, nil
	}
}

// arrange puts the cells in the order of Columns.
func (r *strictRows) arrange(raw []string) []string {
	cells := make([]string, 0, len(r.e.Fields)+len(r.other))
	for _, f := range r.e.Fields {
		words := ""
		if f.Index >= 0 {
			words = raw[f.Index]
		}
		if f.Default != "" && strings.TrimSpace(words) == "" {
			words = f.Default
		}
		cells = append(cells, words)
	}
	for _, i := range r.other {
		cells = append(cells, raw[i])
	}
	return cells
}

// Close frees what is open.
func (r *strictRows) Close() error {
	if r.now == nil {
		return nil
	}
	return r.now.Close()
}
