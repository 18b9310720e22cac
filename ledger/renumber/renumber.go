// Package renumber makes the files of a ledger follow plants and works that go
// on under other numbers: their own files, and the records and lines that name
// them. It is pure: it reads no git and no disk.
package renumber

import (
	"fmt"
	"path"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// Moves says under which number each goes on, by the key of the old one. A
// swap is two of them: all are done at once.
type Moves map[string]ledger.Number

// Of brings moves into the form that the functions here ask for.
func Of(list ...history.Move) Moves {
	m := Moves{}
	for _, x := range list {
		m[x.From.Key()] = x.To
	}
	return m
}

// to is the number under which n goes on; n itself when it stays.
func (m Moves) to(n string) string {
	if to, ok := m[strings.ToLower(strings.TrimSpace(n))]; ok {
		return string(to)
	}
	return n
}

// Record is the file of a plant under its new number: only the number is
// another, and what of the record names a number that moves.
func (m Moves) Record(src []byte, to ledger.Number) ([]byte, error) {
	r, _ := ledger.Decode(to.Path(), src)
	return ledger.Edit(src, append([]ledger.Op{ledger.Set("specimen", string(to))}, m.Mentions(r)...)...)
}

// Mentions are the edits by which a record names the plants that it named
// before by their new numbers; none when it names none. Those in fate alter an
// entry of a list that only grows, see AltersList.
func (m Moves) Mentions(r *ledger.Record) []ledger.Op {
	var ops []ledger.Op
	lists := []struct {
		path string
		list []ledger.Leaf
	}{{"same_gathering", r.SameGathering}, {"shares_sheet", r.SharesSheet}}
	for _, l := range lists {
		for i, n := range l.list {
			if to := m.to(n.Text); to != n.Text {
				ops = append(ops, ledger.Set(l.path+"."+strconv.Itoa(i+1), to))
			}
		}
	}
	for i, f := range r.Fate {
		if to := m.to(f.To.Text); f.Is.Text == "same-as" && to != f.To.Text {
			ops = append(ops, ledger.Set("fate."+strconv.Itoa(i+1)+".to", to))
		}
	}
	return ops
}

// AltersList reports whether Mentions alters an entry of fate.
func (m Moves) AltersList(r *ledger.Record) bool {
	for _, f := range r.Fate {
		if f.Is.Text == "same-as" && m.to(f.To.Text) != f.To.Text {
			return true
		}
	}
	return false
}

// Work is the file of a work under its new number.
func (m Moves) Work(src []byte, to ledger.WorkNumber) ([]byte, error) {
	return ledger.EditFile(ledger.WorkFileKind, src, ledger.Set("work", string(to)))
}

// Permits are the edits by which a work names the permits that it goes by.
func (m Moves) Permits(w *ledger.Work) []ledger.Op {
	var ops []ledger.Op
	for i, p := range w.Permits {
		if to := m.to(p.Text); to != p.Text {
			ops = append(ops, ledger.Set("permits."+strconv.Itoa(i+1), to))
		}
	}
	return ops
}

// Pictures are the files below images/ that are named by the old number and
// will be named by the new one: old path, new path.
func (m Moves) Pictures(r *ledger.Record, from, to ledger.Number) (ops []ledger.Op, files [][2]string) {
	for i, im := range r.Images {
		for _, f := range []struct {
			field string
			leaf  ledger.Leaf
		}{{"file", im.File}, {"public", im.Public}} {
			dir, base := path.Split(f.leaf.Text)
			if !strings.HasPrefix(dir, ledger.ImagesDir+"/") || !strings.HasPrefix(strings.ToLower(base), from.Key()) {
				continue
			}
			rest := base[len(from):]
			if rest != "" && rest[0] >= '0' && rest[0] <= '9' { // LK7-00004821 is another number
				continue
			}
			ops = append(ops, ledger.Set(fmt.Sprintf("images.%d.%s", i+1, f.field), dir+string(to)+rest))
			files = append(files, [2]string{f.leaf.Text, dir + string(to) + rest})
		}
	}
	return ops, files
}

// Stub is what is left of a number whose plant goes on under another.
func Stub(from, to ledger.Number, by, date, why string) []byte {
	r := &ledger.Record{Path: from.Path()}
	r.Specimen.Text, r.Entry.Text = string(from), string(ledger.Stub)
	leaf := func(s string) ledger.Leaf { return ledger.Leaf{Text: s} }
	r.Fate = []ledger.Fate{{Is: leaf("same-as"), To: leaf(string(to)), By: leaf(by), Date: leaf(date), Why: leaf(why)}}
	return ledger.Encode(r)
}

// NamedIn lists the numbers of m, by their keys, that a line of a work names,
// by themselves or within a span.
func (m Moves) NamedIn(l *ledger.WorkLine) (keys []string) {
	for k := range m {
		for _, s := range l.Sheets {
			if _, _, ok := ledger.CutSpan(s.Text, k); ok {
				keys = append(keys, k)
				break
			}
		}
	}
	return keys
}

// Lines are the edits by which lines of a work name sheets by their new
// numbers, those that are wanted; nil: all. A span is parted round a sheet that
// moved.
func (m Moves) Lines(w *ledger.Work, wanted func(i int) bool) []ledger.Op {
	var ops []ledger.Op
	for i := range w.Lines {
		if wanted != nil && !wanted(i) {
			continue
		}
		var words []string
		altered := false
		for _, s := range w.Lines[i].Sheets {
			now, is := m.words(s.Text)
			words, altered = append(words, now...), altered || is
		}
		if altered {
			ops = append(ops, ledger.SetList(fmt.Sprintf("lines.%d.sheets", i+1), words...))
		}
	}
	return ops
}

// words are one entry of a line's sheets with the new numbers.
func (m Moves) words(s string) ([]string, bool) {
	first, last, span := strings.Cut(s, "..")
	if !span {
		to := m.to(s)
		return []string{to}, to != s
	}
	var out []string
	rest, altered := []string{first + ".." + last}, false
	for {
		at := len(rest) - 1
		key := m.lowest(rest[at])
		if key == "" {
			return append(rest, out...), altered
		}
		before, after, _ := ledger.CutSpan(rest[at], key)
		rest = rest[:at]
		if before != "" {
			rest = append(rest, before)
		}
		out, altered = append(out, string(m[key])), true
		if after == "" {
			return append(rest, out...), altered
		}
		rest = append(rest, after)
	}
}

// lowest is the first number of m in a span, by its key; "" for none.
func (m Moves) lowest(s string) string {
	best, at := "", uint64(0)
	for k := range m {
		if _, _, ok := ledger.CutSpan(s, k); ok {
			if v, _ := ledger.Number(k).Serial(); best == "" || v < at {
				best, at = k, v
			}
		}
	}
	return best
}
