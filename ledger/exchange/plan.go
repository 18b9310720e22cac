package exchange

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/names"
)

// Plan is a mapping with its headings looked up in a table.
type Plan struct {
	Homed   []string // headings that feed a field
	Kept    []string // headings without a field: kept to the letter in import:
	Ignored []string // headings that the mapping leaves out

	// Blank counts the cells left out because the mapping says that they mean
	// nothing, by their words, over all that Make made.
	Blank map[string]int

	heads   []string
	o       Options
	list    string
	number  int   // column; -1 for none
	key     []int // columns
	nothing map[string]bool
	columns []columnPlan
	names   []opinionPlan
	fixed   []ledger.FixedValue
	leave   []bool // by column: left out
	keeps   []string
}

// columnPlan is one mapped column with its places.
type columnPlan struct {
	ledger.Column
	field   ledger.Field
	at      []int // its column and the further ones
	nothing map[string]bool
}

// opinionPlan is one mapped column of names with its places; -1 for none.
type opinionPlan struct {
	ledger.OpinionMap
	at                  []int
	by, date, why, mark int
	nothing             map[string]bool
}

// NewPlan fits a mapping to the headings of a table. An error means that it
// does not fit: it names a column that the table has not, or a field that a
// record has not.
func NewPlan(heads []string, m *ledger.Mapping, o Options) (*Plan, error) {
	p := &Plan{heads: heads, o: o, list: m.List.Text, nothing: wordSet(m.Nothing), Blank: map[string]int{}, fixed: m.Fixed, leave: make([]bool, len(heads))}
	l := &lookup{heads: heads, homed: make([]bool, len(heads))}
	p.number = l.column(m.Number)
	p.key = l.columns(m.Key, false)
	for _, c := range m.Columns {
		f := l.field(c.Field)
		p.columns = append(p.columns, columnPlan{Column: c, field: f, nothing: wordSet(c.Nothing),
			at: append([]int{l.column(c.Column)}, l.columns(c.And, true)...)})
	}
	for _, n := range m.Opinions {
		p.names = append(p.names, opinionPlan{OpinionMap: n, nothing: wordSet(n.Nothing), at: append([]int{l.column(n.Names)}, l.columns(n.And, true)...),
			by: l.column(n.ByCol), date: l.column(n.Dated), why: l.column(n.WhyCol), mark: l.column(n.Mark)})
	}
	for _, f := range m.Fixed {
		l.field(f.Field)
	}
	for _, i := range m.Ignore {
		if at := l.find(i); at >= 0 {
			p.leave[at] = true
		}
	}
	if l.err != nil {
		return nil, l.err
	}
	p.sort(l.homed)
	return p, nil
}

// sort parts the headings by what becomes of their cells.
func (p *Plan) sort(homed []bool) {
	p.keeps = make([]string, len(p.heads))
	taken := map[string]bool{} // names under import: that are given
	for _, c := range p.columns {
		taken[c.Field.Text] = true
	}
	for _, f := range p.fixed {
		taken[f.Field.Text] = true
	}
	for i, head := range p.heads {
		h := head
		p.keeps[i] = "import." + h
		for Provenance(h) || taken[p.keeps[i]] {
			h += " (column)"
			p.keeps[i] = "import." + h
		}
		taken[p.keeps[i]] = true
		switch {
		case homed[i]:
			p.Homed = append(p.Homed, head)
			p.leave[i] = false
		case p.leave[i]:
			p.Ignored = append(p.Ignored, head)
		default:
			p.Kept = append(p.Kept, head)
		}
	}
}

// Numbered reports whether rows may bring numbers of their own.
func (p *Plan) Numbered() bool { return p.number >= 0 }

// lookup finds headings and fields and keeps the first error.
type lookup struct {
	heads []string
	homed []bool
	err   error
}

func (l *lookup) fault(format string, args ...any) {
	if l.err == nil {
		l.err = fmt.Errorf(format, args...)
	}
}

// find is the place of a heading; -1 for none.
func (l *lookup) find(head ledger.Leaf) int {
	if !head.Set() {
		return -1
	}
	at := slices.Index(l.heads, head.Text)
	if at < 0 {
		said := "it has " + strings.Join(l.heads, ", ")
		if near := names.Nearest(head.Text, l.heads, 2); near != "" {
			said = fmt.Sprintf("did you mean %q?", near)
		}
		l.fault("mapping line %d: the table has no column %q; %s", head.Line, head.Text, said)
	}
	return at
}

// column is find for a heading that feeds a field.
func (l *lookup) column(head ledger.Leaf) int {
	at := l.find(head)
	if at >= 0 {
		l.homed[at] = true
	}
	return at
}

func (l *lookup) columns(heads []ledger.Leaf, feeds bool) (at []int) {
	for _, h := range heads {
		i := l.find(h)
		if i >= 0 && feeds {
			l.homed[i] = true
		}
		at = append(at, i)
	}
	return at
}

// field is the row of a field that takes words.
func (l *lookup) field(path ledger.Leaf) ledger.Field {
	if rest, ok := strings.CutPrefix(path.Text, "import."); ok && rest != "" {
		return ledger.Field{Path: path.Text, Kind: ledger.Text}
	}
	f, ok := ledger.FieldAt(ledger.RecordKind, path.Text)
	switch {
	case !ok:
		said := "FORMAT.md lists all"
		if near := names.Nearest(path.Text, fieldPaths(), 2); near != "" {
			said = "did you mean " + near + "?"
		}
		l.fault("mapping line %d: no field is named %q; %s", path.Line, path.Text, said)
	case f.Kind != ledger.Text && f.Kind != ledger.Texts:
		l.fault("mapping line %d: %s is a %s; name one of its fields", path.Line, path.Text, f.Kind)
	}
	return f
}

// fieldPaths are the paths of all fields of a record that take words.
func fieldPaths() (paths []string) {
	for _, f := range ledger.Fields() {
		if f.Kind == ledger.Text || f.Kind == ledger.Texts {
			paths = append(paths, f.Path)
		}
	}
	return paths
}

// wordSet is a list of words in lower case.
func wordSet(list []ledger.Leaf) map[string]bool {
	set := map[string]bool{}
	for _, l := range list {
		set[strings.ToLower(l.Text)] = true
	}
	return set
}
