package exchange

import (
	"cmp"
	"fmt"
	"iter"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

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
			m := Made{File: src.Name(), SHA256: src.SHA256(), Line: row.Line, List: cmp.Or(p.list, src.Name())}
			if err == nil {
				p.row(&m, row)
			}
			if !yield(m, err) || err != nil {
				return
			}
		}
	}
}

// row makes the record of a row, or says why none can be made.
func (p *Plan) row(m *Made, row Row) {
	if len(row.Extra) > 0 {
		m.Why = fmt.Sprintf("%d cells under %d headings; %q stands beyond them, so that the cells before it may be out of place", len(row.Cells)+len(row.Extra), len(p.heads), clip(strings.Join(row.Extra, " ")))
		return
	}
	m.Notes = row.Notes
	if row.Short > 0 {
		m.Notes = append(m.Notes, Note{Kind: "fewer cells than headings: those that lack are taken for blank"})
	}
	m.Key = p.keyOf(row)
	f := &fields{list: []ledger.KV{{Key: "entry"}}, has: map[string]bool{}, used: make([]bool, len(row.Cells))}
	if p.number >= 0 && row.Cells[p.number] != "" {
		f.used[p.number] = true
		f.put("specimen", row.Cells[p.number])
	}
	for i := range p.columns {
		p.column(f, row, &p.columns[i])
	}
	for i := range p.names {
		p.opinions(f, row, &p.names[i])
	}
	for _, x := range p.fixed {
		if !f.has[x.Field.Text] {
			f.put(x.Field.Text, x.Value.Text)
		}
	}
	p.signReadings(f)
	if !f.has["entry"] {
		f.list[0].Value = string(ledger.Full)
		if !f.full() {
			f.list[0].Value = string(ledger.Draft)
		}
	} else {
		f.list = f.list[1:]
	}
	p.keep(f, row)
	m.Notes = append(m.Notes, f.notes...)
	var err error
	if m.Record, err = ledger.Unflatten(f.inOrder()); err != nil {
		m.Why = err.Error()
	}
}

// keyOf is what a row is known by in a later version: its key columns, or the
// number on the sheet.
func (p *Plan) keyOf(row Row) string {
	if len(p.key) == 0 && p.number >= 0 {
		return row.Cells[p.number]
	}
	parts := make([]string, 0, len(p.key))
	for _, at := range p.key {
		parts = append(parts, row.Cells[at])
	}
	return strings.TrimSpace(strings.Join(parts, " "))
}

// keep puts the words that feed no field under import:, to the letter.
func (p *Plan) keep(f *fields, row Row) {
	for i, words := range row.Cells {
		switch {
		case words == "" || f.used[i] || p.leave[i]:
		case p.nothing[strings.ToLower(words)]:
			p.Blank[words]++
		default:
			f.put(p.keeps[i], words)
		}
	}
}

// says are the words of a cell; "" when they mean nothing.
func (p *Plan) says(f *fields, row Row, at int, nothing map[string]bool) string {
	if at < 0 {
		return ""
	}
	words := row.Cells[at]
	if words == "" {
		return ""
	}
	if low := strings.ToLower(words); p.nothing[low] || nothing[low] {
		if nothing[low] && !f.used[at] {
			f.used[at] = true // or else keep would keep it
			p.Blank[words]++
		}
		return ""
	}
	return words
}

// fields gathers what a row says, in the order in which it is put.
type fields struct {
	list     []ledger.KV
	has      map[string]bool // fields that were put
	used     []bool          // columns whose words stand in a field
	notes    []Note
	opinions int // determinations so far
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
	if words == "" {
		return
	}
	f.list = append(f.list, ledger.KV{Key: path, Value: words})
	f.has[path] = true
	if rest, ok := strings.CutPrefix(path, "determinations."); ok {
		at, _, _ := strings.Cut(rest, ".")
		if n, err := strconv.Atoi(at); err == nil {
			f.opinions = max(f.opinions, n)
		}
	}
}

// inOrder numbers the entries of each list from 1 without a gap, each whole
// before the next.
func (f *fields) inOrder() []ledger.KV {
	entry := func(path string) (list string, n int, field string) {
		list, rest, _ := strings.Cut(path, ".")
		at, field, ok := strings.Cut(rest, ".")
		n, err := strconv.Atoi(at)
		if !ok || err != nil || list == "import" {
			return "", 0, ""
		}
		return list, n, field
	}
	seen := map[string][]int{}
	for _, kv := range f.list {
		if list, n, _ := entry(kv.Key); n > 0 && !slices.Contains(seen[list], n) {
			seen[list] = append(seen[list], n)
		}
	}
	if len(seen) == 0 {
		return f.list
	}
	for _, ns := range seen {
		slices.Sort(ns)
	}
	for i, kv := range f.list {
		if list, n, field := entry(kv.Key); n > 0 {
			f.list[i].Key = list + "." + strconv.Itoa(slices.Index(seen[list], n)+1) + "." + field
		}
	}
	slices.SortStableFunc(f.list, func(a, b ledger.KV) int {
		_, n, _ := entry(a.Key)
		_, m, _ := entry(b.Key)
		return cmp.Compare(n, m)
	})
	return f.list
}

// column puts one mapped column into its field, beside it a reading when the
// mapping knows how dates in figures are meant.
func (p *Plan) column(f *fields, row Row, c *columnPlan) {
	field := c.Field.Text
	words := p.joined(f, row, c)
	taken := f.has[field] && c.field.Kind == ledger.Text
	if taken && words != "" && c.Read.Text == "yes" {
		p.beside(f, words, c)
		return
	}
	if words == "" || taken {
		if !f.has[field] {
			f.put(field, c.Absent.Text)
		}
		return
	}
	if words = p.listed(f, words, c); words == "" {
		return
	}
	for _, at := range c.at {
		f.used[at] = true
	}
	words = withUnit(words, c.Unit.Text)
	if !c.Split.Set() || field == "collector" && strings.HasPrefix(strings.ToLower(words), "et al") { // who comes first is not said
		f.put(field, words)
	} else {
		for part := range strings.SplitSeq(words, c.Split.Text) {
			if field == "collector" && f.has[field] { // the others who were there
				f.put("with", strings.TrimSpace(part))
				continue
			}
			f.put(field, strings.TrimSpace(part))
		}
	}
	if field == "date" && (c.Order.Set() || c.Century.Set()) {
		p.readDate(f, words, c)
	}
}

// withUnit writes the unit of the heading after figures that have none of
// their own.
func withUnit(words, unit string) string {
	last, _ := utf8.DecodeLastRuneInString(strings.TrimRight(words, ". "))
	if unit == "" || !strings.ContainsAny(words, "0123456789") || unicode.IsLetter(last) {
		return words
	}
	return words + " " + unit
}

// listed are the words of a field with a closed list of words as the list
// spells them; "" for others, which an error would hold up: they are kept under
// import: and noted.
func (p *Plan) listed(f *fields, words string, c *columnPlan) string {
	if len(c.field.Enum) == 0 || c.field.Open || slices.Contains(c.field.Enum, words) {
		return words
	}
	for _, w := range c.field.Enum {
		if strings.EqualFold(w, words) {
			return w
		}
	}
	f.notes = append(f.notes, Note{"cells with other words than " + c.Field.Text + " takes (" + strings.Join(c.field.Enum, ", ") + "): kept under import:", clip(words)})
	return ""
}

// joined are the words of a column and its further ones, without those that
// say nothing. A position needs both its halves.
func (p *Plan) joined(f *fields, row Row, c *columnPlan) string {
	words := p.says(f, row, c.at[0], c.nothing)
	if len(c.at) == 1 {
		return words
	}
	between := cmp.Or(c.Join.Text, ", ")
	if between == "blank" {
		between = " "
	}
	var parts []string
	for i, at := range c.at {
		if i > 0 {
			words = p.says(f, row, at, c.nothing)
		}
		if words != "" {
			parts = append(parts, words)
		} else if strings.HasSuffix(c.Field.Text, "position") || strings.HasSuffix(c.Field.Text, "position.is") {
			return ""
		}
	}
	return strings.Join(parts, between)
}

// readings are the fields that can have a person's reading beside them.
var readings = map[string]string{"date": "read.date", "place.country": "read.country", "collector": "read.person", "place.position": "read.position", "place.elevation": "read.elevation"}

// beside writes a column as a reading of the words that another one gave, when
// the field can have one and has none, and it says more than they do.
func (p *Plan) beside(f *fields, words string, c *columnPlan) {
	group := readings[c.Field.Text]
	if group == "" || f.has[group+".is"] {
		return
	}
	words = withUnit(words, c.Unit.Text)
	for _, kv := range f.list {
		if kv.Key == c.Field.Text && (kv.Value == words || c.Field.Text == "date" && sameDay(kv.Value, words)) {
			return
		}
	}
	for _, at := range c.at {
		f.used[at] = true
	}
	f.put(group+".is", words)
	f.put(group+".from", "the column "+c.Column.Column.Text)
}

func sameDay(a, b string) bool {
	x, y := dates.Read(a, dates.Ask), dates.Read(b, dates.Ask)
	return x.Known() && y.Known() && x.First == y.First && x.Last == y.Last
}

// readDate writes read.date for a date in figures that can be read two ways,
// or whose century the mapping knows.
func (p *Plan) readDate(f *fields, words string, c *columnPlan) {
	asked, settled := dates.Read(words, dates.Ask), dates.ReadWith(words, dateOptions(c.Order, c.Century))
	if !settled.Known() || f.has["read.date.is"] || asked.Known() && asked.First == settled.First && asked.Last == settled.Last {
		return
	}
	f.put("read.date.is", settled.ISO())
	grounds := "the column " + c.Column.Column.Text
	if c.Order.Set() {
		grounds += ", whose order is " + c.Order.Text
	}
	if c.Century.Set() {
		grounds += ", whose years are of " + c.Century.Text + "00"
	}
	f.put("read.date.from", grounds)
}

// dateOptions is how the mapping says that dates in figures are read.
func dateOptions(order, century ledger.Leaf) dates.Options {
	opts := dates.Options{Order: dates.OrderOf(order.Text)}
	if c, err := strconv.Atoi(century.Text); err == nil {
		opts.FirstYear, opts.LastYear = c*100, c*100+99
	}
	return opts
}

// signReadings signs each reading that no column signed.
func (p *Plan) signReadings(f *fields) {
	for _, group := range []string{"read.date", "read.country", "read.person", "read.position", "read.elevation"} {
		if !f.has[group+".is"] {
			continue
		}
		if !f.has[group+".by"] {
			f.put(group+".by", p.o.By)
		}
		if !f.has[group+".date"] {
			f.put(group+".date", p.o.Today.String())
		}
	}
}

func leaf(text string) ledger.Leaf { return ledger.Leaf{Text: text} }
