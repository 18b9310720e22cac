package exchange

import (
	"errors"
	"fmt"
	"iter"
	"slices"
	"strings"

	"blotter/ledger"
)

// headed is a table whose columns have headings.
type headed struct {
	name  string
	head  int // the line of the headings; 0: the first that is not blank, titles aside
	heads []string
	own   bool                         // a table that Blotter wrote: its cells stand to the letter
	above int                          // rows with words above the headings that were passed over as titles
	lines func() iter.Seq2[Row, error] // all rows, those above the headings too
}

// cells takes blanks at the ends of cells off, but in a table of our own, and
// the guard of what a spreadsheet would take for a formula.
func (t *headed) cells(row Row) Row {
	for i, c := range row.Cells {
		if !t.own {
			c = strings.TrimSpace(c)
		}
		row.Cells[i] = Unguard(c)
	}
	return row
}

// Own reports whether headings are those of a table that Blotter wrote: paths
// of fields, the number on the sheet among them.
func Own(heads []string) bool {
	for _, h := range heads {
		if !ownField(h) && h != NotAField {
			return false
		}
	}
	return slices.Contains(heads, "specimen")
}

func (t *headed) fault(err error) error { return fmt.Errorf("read %s: %w", t.name, err) }

// Name is the file's name without folders.
func (t *headed) Name() string { return t.name }

// Heads are the headings, each once.
func (t *headed) Heads() []string { return t.heads }

// Head is the line of the headings.
func (t *headed) Head() int { return t.head }

// titled is the line of the headings when titles above them were passed over,
// else 0.
func (t *headed) titled() int {
	if t.above == 0 {
		return 0
	}
	return t.head
}

// readHeads reads the line of the headings.
func (t *headed) readHeads() error {
	find := t.headRow
	if t.head > 0 {
		find = t.rowAt
	}
	row, found, err := find()
	switch {
	case err != nil:
		return t.fault(err)
	case !found:
		return t.fault(errors.New("no headings: the table is empty"))
	}
	t.head, t.heads = row.Line, named(row.Cells)
	t.own = Own(t.heads)
	return t.twice()
}

// rowAt is the row that the mapping says bears the headings.
func (t *headed) rowAt() (Row, bool, error) {
	for row, err := range t.lines() {
		if err != nil {
			return row, false, err
		}
		if row = t.cells(row); row.Line < t.head || row.empty() {
			continue
		}
		if row.Line > t.head {
			return row, false, fmt.Errorf("line %d, where the mapping says that the headings stand, is blank or in the middle of a cell", t.head)
		}
		return row, true, nil
	}
	return Row{}, false, nil
}

// named gives a column without a heading its place as a name, and leaves out
// those after the last heading.
func named(cells []string) []string {
	last := len(cells)
	for last > 0 && cells[last-1] == "" {
		last--
	}
	heads := make([]string, last)
	for i, h := range cells[:last] {
		heads[i] = h
		if h == "" {
			heads[i] = fmt.Sprintf("column %d", i+1)
		}
	}
	return heads
}

func (t *headed) twice() error {
	seen := map[string]int{}
	for i, h := range t.heads {
		if first, twice := seen[h]; twice {
			return t.fault(fmt.Errorf("line %d: columns %d and %d have the heading %q; give one of them another", t.head, first+1, i+1, h))
		}
		seen[h] = i
	}
	return nil
}

// Rows are the rows below the headings, those that are blank left out.
func (t *headed) Rows() iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		for row, err := range t.lines() {
			if err != nil {
				yield(Row{Line: row.Line}, t.fault(err))
				return
			}
			if row = t.cells(row); row.Line <= t.head || row.empty() {
				continue
			}
			if !yield(row.under(len(t.heads)), nil) {
				return
			}
		}
	}
}

// under gives a row as many cells as there are headings.
func (r Row) under(heads int) Row {
	if len(r.Cells) < heads {
		r.Short = heads - len(r.Cells)
		r.Cells = append(r.Cells, make([]string, r.Short)...)
		return r
	}
	extra := r.Cells[heads:]
	for len(extra) > 0 && extra[len(extra)-1] == "" {
		extra = extra[:len(extra)-1]
	}
	r.Cells, r.Extra = r.Cells[:heads:heads], extra
	return r
}

// lineOf reads a line number of a mapping; 0 for none.
func lineOf(l ledger.Leaf) int {
	n := 0
	for _, c := range l.Text {
		if c < '0' || c > '9' || n > 1<<20 {
			return 0
		}
		n = n*10 + int(c-'0')
	}
	return n
}
