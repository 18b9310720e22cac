package exchange

import (
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Options are what an import needs besides table and mapping.
type Options struct {
	By    string // who imports: signs the readings beside the words
	Today dates.Day
}

// Source is an opened table.
type Source interface {
	Name() string                // of the file, without folders
	SHA256() string              // of its bytes, hexadecimal
	Heads() []string             // the headings, each once
	Rows() iter.Seq2[Row, error] // from the first, each time it is asked
}

// Make makes a record of every row, in order. A cell that feeds no field of
// its row is kept to the letter under import:, so nothing is lost but what the
// mapping says means nothing. A record has a number only when its row brings
// one.
func (p *Plan) Make(src Source) iter.Seq2[Made, error] {
	return func(yield func(Made, error) bool) {
		for row, err := range src.Rows() {
			m := Made{File: src.Name(), SHA256: src.SHA256(), Line: row.Line}
			if err == nil {
				m.Record, m.Why = p.record(row)
			}
			if !yield(m, err) || err != nil {
				return
			}
		}
	}
}

// Plan is a mapping with its headings looked up in a table.
type Plan struct {
	Homed   []string // headings that feed a field
	Kept    []string // headings without a field: kept to the letter in import:
	Ignored []string // headings that the mapping leaves out

	heads        []string
	m            *ledger.Mapping
	o            Options
	nothing      map[string]bool
	leave        map[int]bool // columns that are left out
	numberColumn int
}

// NewPlan fits a mapping to the headings of a table. An error means that it
// does not fit.
func NewPlan(heads []string, m *ledger.Mapping, o Options) (*Plan, error) {
	p := &Plan{heads: heads, m: m, o: o, nothing: map[string]bool{}, leave: map[int]bool{}, numberColumn: -1}
	for _, n := range m.Nothing {
		p.nothing[strings.ToLower(n.Text)] = true
	}
	if err := p.look(); err != nil {
		return nil, err
	}
	for i, h := range heads {
		switch {
		case slices.Contains(p.Homed, h):
		case slices.ContainsFunc(m.Ignore, func(l ledger.Leaf) bool { return l.Text == h }):
			p.Ignored = append(p.Ignored, h)
			p.leave[i] = true
		default:
			p.Kept = append(p.Kept, h)
		}
	}
	return p, nil
}

// look finds every heading and field that the mapping names.
func (p *Plan) look() error {
	column := func(l ledger.Leaf) error {
		if !l.Set() {
			return nil
		}
		if p.at(l.Text) < 0 {
			return fmt.Errorf("mapping line %d: the table has no column %q; it has %s", l.Line, l.Text, strings.Join(p.heads, ", "))
		}
		if !slices.Contains(p.Homed, l.Text) {
			p.Homed = append(p.Homed, l.Text)
		}
		return nil
	}
	var wanted []ledger.Leaf
	wanted = append(wanted, p.m.Number)
	for _, c := range p.m.Columns {
		wanted = append(wanted, c.Column, c.And)
		if _, ok := ledger.FieldAt(ledger.RecordKind, c.Field.Text); !ok {
			return fmt.Errorf("mapping line %d: no field is named %q", c.Field.Line, c.Field.Text)
		}
	}
	for _, o := range p.m.Opinions {
		wanted = append(wanted, o.Names, o.ByCol, o.Dated, o.Mark)
	}
	for _, f := range p.m.Fixed {
		if _, ok := ledger.FieldAt(ledger.RecordKind, f.Field.Text); !ok {
			return fmt.Errorf("mapping line %d: no field is named %q", f.Field.Line, f.Field.Text)
		}
	}
	for _, l := range wanted {
		if err := column(l); err != nil {
			return err
		}
	}
	if p.m.Number.Set() {
		p.numberColumn = p.at(p.m.Number.Text)
	}
	return nil
}

// cell is what a row has in a column; "" when that says nothing.
func (p *Plan) cell(row Row, head ledger.Leaf) string {
	if !head.Set() {
		return ""
	}
	text := row.Cells[p.at(head.Text)]
	if p.nothing[strings.ToLower(text)] {
		return ""
	}
	return text
}

// at is the place of a heading; -1 when there is none of that name.
func (p *Plan) at(head string) int { return slices.Index(p.heads, head) }

// Numbered reports whether rows may bring numbers of their own.
func (p *Plan) Numbered() bool { return p.numberColumn >= 0 }

// record makes the record of a row; why is set when none can be made.
func (p *Plan) record(row Row) (rec *ledger.Record, why string) {
	f := &fields{list: []ledger.KV{{Key: "entry", Value: string(ledger.Full)}}, has: map[string]bool{}, used: map[int]bool{}}
	if p.numberColumn >= 0 {
		f.used[p.numberColumn] = true
		f.put("specimen", row.Cells[p.numberColumn])
	}
	for _, x := range p.m.Fixed {
		f.put(x.Field.Text, x.Value.Text)
	}
	for _, c := range p.m.Columns {
		p.column(f, row, c)
	}
	for _, o := range p.m.Opinions {
		p.opinions(f, row, o)
	}
	if !f.full() {
		f.list[0].Value = string(ledger.Draft)
	}
	for i, words := range row.Cells {
		if !f.used[i] && !p.leave[i] && !(p.nothing[strings.ToLower(words)] && slices.Contains(p.Homed, p.heads[i])) {
			f.put("import."+p.heads[i], words)
		}
	}
	for i, extra := range row.Extra {
		f.put(fmt.Sprintf("import.beyond the headings %d", i+1), extra)
	}
	rec, err := ledger.Unflatten(f.list)
	if err != nil {
		return nil, err.Error()
	}
	return rec, ""
}

// fields gathers what a row says, in the order in which it is put.
type fields struct {
	list     []ledger.KV
	has      map[string]bool // fields that were put
	used     map[int]bool    // columns whose words stand in a field
	opinions int
	lastName string
}

// full reports whether a full record could be made of the fields: what lacks
// collector, date or place is a draft, and is taken all the same.
func (f *fields) full() bool {
	for path := range f.has {
		if strings.HasPrefix(path, "place.") {
			return f.has["collector"] && f.has["date"]
		}
	}
	return false
}

// put adds one field; empty words add nothing.
func (f *fields) put(path, words string) {
	if words != "" {
		f.list = append(f.list, ledger.KV{Key: path, Value: words})
		f.has[path] = true
	}
}

// column puts one mapped cell into its field, beside it a reading when the
// mapping knows how dates in figures are meant.
func (p *Plan) column(f *fields, row Row, c ledger.Column) {
	text, second := p.cell(row, c.Column), p.cell(row, c.And)
	field := c.Field.Text
	known, _ := ledger.FieldAt(ledger.RecordKind, field)
	taken := f.has[field] && known.Kind == ledger.Text
	if text == "" || taken || c.And.Set() && second == "" {
		if !f.has[field] {
			f.put(field, c.Absent.Text)
		}
		return
	}
	f.used[p.at(c.Column.Text)] = true
	if c.And.Set() {
		text += ", " + second
		f.used[p.at(c.And.Text)] = true
	}
	if c.Unit.Set() && strings.ContainsAny(text, "0123456789") {
		text += " " + c.Unit.Text
	}
	if !c.Split.Set() {
		f.put(field, text)
	} else {
		for part := range strings.SplitSeq(text, c.Split.Text) {
			f.put(field, strings.TrimSpace(part))
		}
	}
	if field == "date" && c.Order.Set() {
		p.readDate(f, text, c)
	}
}

// readDate writes read.date for a date in figures that can be read two ways.
func (p *Plan) readDate(f *fields, text string, c ledger.Column) {
	asked, settled := dates.Read(text, dates.Ask), dates.Read(text, dates.OrderOf(c.Order.Text))
	if !settled.Known() || asked.Known() && asked.First == settled.First && asked.Last == settled.Last {
		return
	}
	f.put("read.date.is", settled.ISO())
	f.put("read.date.by", p.o.By)
	f.put("read.date.date", p.o.Today.String())
	f.put("read.date.from", "the column "+c.Column.Text+", whose order is "+c.Order.Text)
}

// opinions appends the determinations of one mapped column.
func (p *Plan) opinions(f *fields, row Row, o ledger.OpinionMap) {
	text := p.cell(row, o.Names)
	if text == "" {
		return
	}
	given := []string{text}
	if o.Split.Set() {
		given = strings.Split(text, o.Split.Text)
	}
	for _, column := range []ledger.Leaf{o.Names, o.ByCol, o.Dated} {
		if p.cell(row, column) != "" {
			f.used[p.at(column.Text)] = true
		}
	}
	kind, day := p.mark(row, o)
	by := cmp.Or(p.cell(row, o.ByCol), o.By.Text, "unsigned")
	for _, name := range given {
		name = strings.TrimSpace(name)
		switch {
		case name == "!" && f.lastName != "": // somebody agreed with the name before
			f.opinion(f.lastName, "conf", by, day, o.From.Text)
		case name != "":
			f.opinion(name, kind, by, day, o.From.Text)
		}
	}
}

func (f *fields) opinion(name, kind, by, day, from string) {
	f.opinions++
	f.lastName = name
	at := "determinations." + strconv.Itoa(f.opinions) + "."
	f.put(at+"name", name)
	f.put(at+"kind", kind)
	f.put(at+"by", by)
	f.put(at+"date", cmp.Or(day, "s.d."))
	f.put(at+"from", from)
}

// mark reads the kind and date of an opinion from its columns. The mark itself
// is kept to the letter besides.
func (p *Plan) mark(row Row, o ledger.OpinionMap) (kind, day string) {
	kind, day = cmp.Or(o.Kind.Text, "det"), cmp.Or(p.cell(row, o.Dated), o.Date.Text)
	text := p.cell(row, o.Mark)
	for _, m := range o.Marks {
		if rest, ok := strings.CutPrefix(text, m.Sign.Text); ok && text != "" {
			kind, text = m.Kind.Text, strings.TrimSpace(rest)
			break
		}
	}
	day = cmp.Or(text, day)
	if o.Order.Set() {
		if r := dates.ReadWith(day, opinionDates(o)); r.Single() {
			day = r.ISO()
		}
	}
	return kind, day
}

// opinionDates is how the dates of an opinion's column are read.
func opinionDates(o ledger.OpinionMap) dates.Options {
	opts := dates.Options{Order: dates.OrderOf(o.Order.Text)}
	if century, err := strconv.Atoi(o.Century.Text); err == nil {
		opts.FirstYear, opts.LastYear = century*100, century*100+99
	}
	return opts
}

func leaf(text string) ledger.Leaf { return ledger.Leaf{Text: text} }

func sum(b []byte) string {
	h := sha256.Sum256(b)
	return hex.EncodeToString(h[:])
}
