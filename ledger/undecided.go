package ledger

import (
	"bytes"
	"cmp"
	"fmt"
	"reflect"
	"strings"
)

// The lines that stand around two readings of the same lines, which two copies
// of a ledger had and nobody has decided between yet (FORMAT.md, "Two readings
// of one line"). Behind the names of the copies may stand a colon and who
// wrote that reading, and when. They are git's own, so that every editor knows
// them.
const (
	MarkHere   = "<<<<<<< this copy"
	MarkMiddle = "======="
	MarkThere  = ">>>>>>> the other copy"
	markBase   = "|||||||" // what stood before, if another program wrote that too
)

// Marked is a text in which two readings stand.
type Marked struct {
	lines  []string
	Blocks []TwoReadings
}

// TwoReadings is one pair of readings.
type TwoReadings struct {
	Line             int    // of its first marker, from 1
	HereBy, ThereBy  string // who wrote them and when; "" when that is not said
	from, middle, to int    // places of the markers among the lines
	here             int    // where the lines of here end
}

// ReadMarks finds the pairs of readings in a text; false when there is none or
// the markers do not stand in pairs.
func ReadMarks(src []byte) (*Marked, bool) {
	m := &Marked{lines: CutLines(src)}
	var open *TwoReadings
	for i, l := range m.lines {
		is := func(mark string) bool {
			return strings.HasPrefix(l, mark) && (len(l) == len(mark) || strings.IndexByte(" \r\n", l[len(mark)]) >= 0)
		}
		switch {
		case is(MarkHere[:7]):
			if open != nil {
				return nil, false
			}
			open = &TwoReadings{Line: i + 1, HereBy: signature(l, MarkHere), from: i, middle: -1, here: -1}
		case open != nil && open.middle < 0 && open.here < 0 && is(markBase):
			open.here = i
		case open != nil && open.middle < 0 && is(MarkMiddle):
			if open.middle = i; open.here < 0 {
				open.here = i
			}
		case is(MarkThere[:7]):
			if open == nil || open.middle < 0 {
				return nil, false
			}
			open.to, open.ThereBy = i, signature(l, MarkThere)
			m.Blocks, open = append(m.Blocks, *open), nil
		}
	}
	return m, open == nil && len(m.Blocks) > 0
}

// signature is what stands behind a copy's name.
func signature(line, mark string) string {
	s, ok := strings.CutPrefix(line, mark+": ")
	if !ok {
		return ""
	}
	return strings.TrimSpace(s)
}

// Choice is which reading of a block is taken.
type Choice uint8

const (
	Both  Choice = iota // the block stays as it is
	Here                // the reading of this copy
	There               // that of the other copy
)

// Take is the text with a choice made for each block.
func (m *Marked) Take(choose func(block int) Choice) []byte {
	var out []byte
	at := 0
	add := func(from, to int) {
		for _, l := range m.lines[from:to] {
			out = append(out, l...)
		}
	}
	for i, b := range m.Blocks {
		add(at, b.from)
		switch choose(i) {
		case Both:
			add(b.from, b.to+1)
		case Here:
			add(b.from+1, b.here)
		case There:
			add(b.middle+1, b.to)
		}
		at = b.to + 1
	}
	add(at, len(m.lines))
	return out
}

// Difference is one field that two readings have otherwise; "" is no words.
// Where entries of a list stand on one side alone Path is the list's, and no
// words are given; so it is for two entries of an append-only list in one
// place, where Path is theirs.
type Difference struct{ Path, Here, There string }

// Differences are the fields in which the two readings of one block differ, in
// the order of the field table; false when a side cannot be read.
func (m *Marked) Differences(kind FileKind, block int) ([]Difference, bool) {
	var sides [2][]KV
	for i, mine := range []Choice{Here, There} {
		doc := newDocument(kind)
		if doc == nil {
			return nil, false
		}
		d := decodeInto(kind, "", m.Take(func(b int) Choice {
			if b == block {
				return mine
			}
			return Here
		}), reflect.ValueOf(doc).Elem())
		for _, f := range d.found {
			if f.Severity == Error && (strings.HasPrefix(f.Code, "yaml-") || strings.HasPrefix(f.Code, "file-") || f.Code == "field-twice" || f.Code == "field-unknown" || f.Code == "field-kind") {
				return nil, false
			}
		}
		sides[i] = Flatten(doc)
	}
	return entriesWhole(kind, differences(sides[0], sides[1])), true
}

// entriesWhole takes several fields of one entry of an append-only list
// together: these are two entries, of which neither is to go.
func entriesWhole(kind FileKind, ds []Difference) []Difference {
	entry := func(d Difference) string {
		list, at := listOf(d.Path)
		if f, ok := FieldAt(kind, list); at == 0 || !ok || !f.AppendOnly {
			return ""
		}
		return fmt.Sprintf("%s.%d", list, at)
	}
	fields := map[string]int{}
	for _, d := range ds {
		fields[entry(d)]++
	}
	var out []Difference
	told := map[string]bool{}
	for _, d := range ds {
		switch e := entry(d); {
		case e == "" || fields[e] == 1:
			out = append(out, d)
		case !told[e]:
			told[e] = true
			out = append(out, Difference{Path: e})
		}
	}
	return out
}

func differences(here, there []KV) []Difference {
	words := map[string][2]string{}
	sizes := map[string][2]int{}
	for side, kvs := range [][]KV{here, there} {
		for _, kv := range kvs {
			w := words[kv.Key]
			w[side] = kv.Value
			words[kv.Key] = w
			if list, at := listOf(kv.Key); at > 0 {
				n := sizes[list]
				n[side] = max(n[side], at)
				sizes[list] = n
			}
		}
	}
	var out []Difference
	told := map[string]bool{}
	for _, kv := range append(here[:len(here):len(here)], there...) {
		w := words[kv.Key]
		if w[0] == w[1] || told[kv.Key] {
			continue
		}
		told[kv.Key] = true
		list, at := listOf(kv.Key)
		if n := sizes[list]; at > 0 && n[0] != n[1] {
			if !told[list] {
				told[list] = true
				out = append(out, Difference{Path: list})
			}
			continue
		}
		out = append(out, Difference{kv.Key, w[0], w[1]})
	}
	return out
}

// listOf parts determinations.2.by into the list and the place; 0 outside
// lists.
func listOf(path string) (string, int) {
	for i, from := 0, 0; i <= len(path); i++ {
		if i < len(path) && path[i] != '.' {
			continue
		}
		if n := numberPart(path[from:i]); n > 0 && from > 0 {
			return path[:from-1], n
		}
		from = i + 1
	}
	return path, 0
}

func newDocument(kind FileKind) Document {
	switch kind {
	case RecordKind:
		return &Record{}
	case MuseumKind:
		return &Museum{}
	case PeopleKind:
		return &People{}
	case NamesKind:
		return &FamilyNames{}
	case PlacesKind:
		return &Places{}
	case PublicKind:
		return &Public{}
	case WorkFileKind:
		return &Work{}
	}
	return nil
}

// manyBlocks bounds how many pairs of readings of one file are told one by
// one.
const manyBlocks = 30

// undecided tells of markers: of both readings, where they can be read. lines
// are those of the markers.
func (d *decoder) undecided(lines []int) {
	m, ok := ReadMarks(d.src)
	if !ok || len(m.Blocks) > manyBlocks {
		for _, line := range lines {
			d.add("merge-left", line, 1, "", "two people changed the lines below in two ways, and nobody has decided yet",
				"Keep the right one of the two readings, take the other and the lines that begin with <<<<<<<, ======= and >>>>>>> out")
		}
		return
	}
	for i, b := range m.Blocks {
		diff, ok := m.Differences(d.kind, i)
		if !ok || len(diff) == 0 {
			diff = []Difference{{}}
		}
		for _, x := range diff {
			d.undecidedField(b, x)
		}
	}
}

func (d *decoder) undecidedField(b TwoReadings, x Difference) {
	by := func(who string) string {
		if who == "" {
			return ""
		}
		return " (" + who + ")"
	}
	row, _ := FieldAt(d.kind, x.Path)
	secret := row.Withheld && (d.kind == PlacesKind || d.kind == PublicKind || bytes.Contains(d.src, []byte("sensitive:")))
	hint := "Keep the right one of the two readings, take the other and the lines that begin with <<<<<<<, ======= and >>>>>>> out"
	what := "two people changed the lines below in two ways" // a reading that cannot be read, or the same words
	field := x.Path
	switch {
	case x.Path == "" && b.HereBy+b.ThereBy == "":
	case x.Path == "" || secret:
		what = strings.TrimSpace(x.Path+" was written in two ways") + ": here" + by(b.HereBy) + ", and in the other copy" + by(b.ThereBy)
	case x.Here == "" && x.There == "" && !strings.HasSuffix(x.Path, row.Path):
		what = fmt.Sprintf("%s is one entry here%s and another in the other copy%s", x.Path, by(b.HereBy), by(b.ThereBy))
		hint = "Keep both, one behind the other in the order of their dates, and take the lines that begin with <<<<<<<, ======= and >>>>>>> out"
	case x.Here == "" && x.There == "":
		what = fmt.Sprintf("entries of %s stand in one copy alone: here%s, in the other copy%s", x.Path, by(b.HereBy), by(b.ThereBy))
	default:
		say := func(words string) string {
			if words == "" {
				return "taken out"
			}
			return words
		}
		what = fmt.Sprintf("%s is %s here%s, and %s in the other copy%s", x.Path, say(x.Here), by(b.HereBy), say(x.There), by(b.ThereBy))
		number := ""
		if n, ok := NumberOfPath(d.path); ok {
			number = string(n)
		} else if n, ok := WorkNumberOfPath(d.path); ok {
			number = string(n)
		}
		if number != "" {
			hint = "blotter set " + number + " " + x.Path + "=" + inQuotes(cmp.Or(x.Here, x.There)) + "   or what the other copy has\nBy hand: " +
				strings.ToLower(hint[:1]) + hint[1:]
		}
	}
	d.add("merge-left", b.Line, 1, field, what+"; nobody has decided yet", hint)
}

// CutLines cuts a text behind each line feed, or carriage return without one.
func CutLines(text []byte) []string {
	var out []string
	s := string(text)
	for s != "" {
		n := strings.IndexAny(s, "\r\n") + 1
		switch {
		case n == 0:
			n = len(s)
		case s[n-1] == '\r' && n < len(s) && s[n] == '\n':
			n++
		}
		out = append(out, s[:n])
		s = s[n:]
	}
	return out
}

// inQuotes is words as they are typed behind a field on the command line.
func inQuotes(s string) string {
	return `"` + strings.ReplaceAll(strings.ReplaceAll(s, `\`, `\\`), `"`, `\"`) + `"`
}
