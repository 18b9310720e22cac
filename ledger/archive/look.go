package archive

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// Check compares meta.xml with the files: every file is there, and every file
// of an entity has the same columns, of which each field is one. Stars does it
// first.
func (a *Archive) Check() error {
	if a.wide != nil {
		return nil
	}
	if err := a.check(); err != nil {
		a.wide = nil
		return err
	}
	return nil
}

func (a *Archive) check() error {
	a.wide, a.columns = map[*Entity]int{}, map[*Entity][]string{}
	if len(a.Extensions) > 0 && a.Core.ID < 0 {
		return errors.New("read meta.xml: core: no id element; the extensions name the rows of the core by it")
	}
	if err := a.look(&a.Core, "core"); err != nil {
		return err
	}
	for i := range a.Extensions {
		what := fmt.Sprintf("extension %d", i+1)
		if a.Extensions[i].ID < 0 {
			return fmt.Errorf("read meta.xml: %s: no coreid element; it says which column names the row of the core", what)
		}
		if err := a.look(&a.Extensions[i], what); err != nil {
			return err
		}
	}
	return nil
}

func (a *Archive) look(e *Entity, what string) error {
	if term := twice(e.Terms()); term != "" {
		return fmt.Errorf("read meta.xml: %s: two fields have the term %s; take one out", what, term)
	}
	wide, first := 0, ""
	var heads []string
	for _, name := range e.Files {
		l, last, err := a.openLines(e, name, true)
		if err != nil {
			return err
		}
		row := slices.Clone(last)
		if len(row) <= widest(e) { // none, or no headings: words about the file
			if row, _, err = l.read(); errors.Is(err, io.EOF) {
				err = nil
			}
			row, last = slices.Clone(row), nil
		}
		l.Close()
		if err != nil {
			return err
		}
		switch {
		case len(row) == 0: // an empty file
		case wide == 0:
			wide, first = len(row), name
			if last != nil {
				heads = row
			}
		case wide != len(row):
			return fmt.Errorf("read %s: %d columns, but %s, of the same %s, has %d", name, len(row), first, what, wide)
		}
	}
	a.wide[e], a.columns[e] = wide, columns(e, heads, wide)
	if wide == 0 {
		return nil
	}
	if e.ID >= wide {
		return fmt.Errorf("read meta.xml: %s: the id is column %d (index from 0), but %s has %d columns", what, e.ID, first, wide)
	}
	for _, f := range e.Fields {
		if f.Index >= wide {
			return fmt.Errorf("read meta.xml: %s: field %s is column %d (index from 0), but %s has %d columns", what, f.Term, f.Index, first, wide)
		}
	}
	return nil
}

// widest is the last column that meta.xml speaks of.
func widest(e *Entity) int {
	last := e.ID
	for _, f := range e.Fields {
		last = max(last, f.Index)
	}
	return last
}

// columns are the terms of an entity and the headings of other columns.
func columns(e *Entity, heads []string, wide int) []string {
	out := e.Terms()
	declared := map[int]bool{e.ID: true}
	for _, f := range e.Fields {
		declared[f.Index] = true
	}
	for i := range wide {
		if declared[i] {
			continue
		}
		head := "column " + strconv.Itoa(i+1)
		if i < len(heads) && strings.TrimSpace(heads[i]) != "" && !slices.Contains(out, strings.TrimSpace(heads[i])) {
			head = strings.TrimSpace(heads[i])
		}
		out = append(out, head)
	}
	return out
}

func twice(list []string) string {
	seen := map[string]bool{}
	for _, s := range list {
		if seen[s] {
			return s
		}
		seen[s] = true
	}
	return ""
}

// openLines opens a file of an entity behind its headings; last is the last
// line of headings, nil without any. strict: what is no text in the declared
// encoding is an error.
func (a *Archive) openLines(e *Entity, name string, strict bool) (l *lines, last []string, err error) {
	f, err := a.openFile(name)
	if err != nil {
		return nil, nil, err
	}
	l, err = newLines(name, f, format{signs: signs{comma: e.Comma, quote: e.Quote, ends: e.Ends}, charset: e.Encoding, strict: strict})
	for range e.Skip {
		if err == nil {
			l.scan.blanks = true
			last, _, err = l.read()
			l.scan.blanks = false
		}
	}
	if errors.Is(err, io.EOF) { // nothing but headings
		return l, last, nil
	}
	if err != nil && l != nil {
		l.Close()
	}
	return l, last, err
}
