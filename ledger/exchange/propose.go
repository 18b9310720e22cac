package exchange

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Proposal is a first mapping with the reasons for each guess.
type Proposal struct {
	Mapping *ledger.Mapping

	profile *Profile
	table   string
	why     map[string][]string // by heading: what was guessed and why
	about   map[string][]string // by field of the mapping
}

// Propose writes a first mapping from the headings of a table and its cells.
// Headings that are fields of a record, or Darwin Core terms, are taken
// outright, others where they are usual words. It promises no more than a
// start: it runs as it is, and the rehearsal shows what it does. prefix is how
// the museum's own numbers begin, "" for none.
func Propose(table string, p *Profile, prefix string) *Proposal {
	x := &Proposal{Mapping: &ledger.Mapping{List: leaf(table)}, profile: p, table: table, why: map[string][]string{}, about: map[string][]string{}}
	if p.titled > 0 {
		x.Mapping.HeadLine = leaf(strconv.Itoa(p.titled))
	}
	g := &guesser{Proposal: x, by: map[string][]guess{}, prefix: prefix}
	if g.own = p.own(); g.own {
		g.Mapping.Ignore = append(g.Mapping.Ignore, p.only(NotAField)...)
	} else {
		g.nothings()
	}
	for i := range p.Columns {
		g.sort(&p.Columns[i])
	}
	g.numbers()
	g.fields()
	g.plainNumber()
	g.dateParts()
	g.angles()
	g.opinions()
	return x
}

// own reports whether the table is one that Blotter wrote.
func (p *Profile) own() bool {
	heads := make([]string, len(p.Columns))
	for i := range p.Columns {
		heads[i] = p.Columns[i].Head
	}
	return Own(heads)
}

// only is the heading, when the table has it.
func (p *Profile) only(head string) []ledger.Leaf {
	for i := range p.Columns {
		if p.Columns[i].Head == head {
			return []ledger.Leaf{leaf(head)}
		}
	}
	return nil
}

// guess is a column and what its heading means.
type guess struct {
	*ColumnProfile
	meaning
}

type guesser struct {
	*Proposal
	by     map[string][]guess       // by what they stand for
	order  []string                 // what columns stand for, in their order
	own    bool                     // a table that Blotter wrote
	series map[int]map[string]guess // opinions whose columns are numbered
	prefix string
}

func (x *Proposal) note(head, format string, args ...any) {
	x.why[head] = append(x.why[head], fmt.Sprintf(format, args...))
}

// nothings are cells that say that nothing was recorded, in whatever column.
var nothings = []string{"NA", "N/A", "#N/A", "NULL", "NaN", "MISSING", "-", "--", "---", "[data not captured]", "NO DISPONIBLE", "not recorded", "k.A.", "keine Angabe", "ohne Angabe", "sin datos", "non renseigné", "ikke oppgitt", "ikkje oppgitt", "mangler"}

// absences are cells that say of one kind of column that it has nothing, and
// the words that a record has for it.
var absences = map[string]struct {
	absent string
	cells  []string
}{
	"collector":      {"unknown", []string{"unknown", "unbekannt", "inconnu", "desconocido", "ukjent", "okänd", "ukendt", "anon", "anon.", "anonymous", "anonym"}},
	"coll_no":        {"s.n.", []string{"s.n.", "sn", "s/n", "s. n.", "o.Nr.", "ohne Nummer", "sans numéro", "sin número", "uten nr", "uten nummer"}},
	"date":           {"s.d.", []string{"s.d.", "s. d.", "sd", "n.d.", "undated", "unknown", "o.D.", "ohne Datum", "undatiert", "sans date", "sin fecha", "s/f", "u.d.", "uten dato", "udatert", "ukjent", "0000-00-00", "00.00.0000"}},
	"place.locality": {"unknown", []string{"unknown", "unbekannt", "inconnu", "inconnue", "desconocido", "desconocida", "ukjent", "okänd", "ukendt"}},
}

// sentinels are figures written where none were known.
var sentinels = []string{"99", "999", "9999", "99999", "-1", "-9", "-99", "-999", "-9999", "0", "0.0", "0,0", "00", "0000"}

func (g *guesser) nothings() {
	for _, n := range nothings {
		for i := range g.profile.Columns {
			if g.profile.Columns[i].has(n) > 0 {
				g.Mapping.Nothing = append(g.Mapping.Nothing, leaf(n))
				break
			}
		}
	}
}

// has is how many cells are these words.
func (c *ColumnProfile) has(words string) int { return c.words[words] }

// sort finds what a column stands for.
func (g *guesser) sort(c *ColumnProfile) {
	m, known := meaning{is: c.Head}, ownField(c.Head)
	if c.Head == "specimen" {
		g.own, m.is = true, asSheetNo
	}
	if !known || !g.own && !strings.Contains(c.Head, ".") {
		if usual, ok := meaningOf(c.Head); ok {
			m, known = usual, true
		}
	}
	if m.is == "date" && fold(c.Head) == "datum" && c.geodetic() {
		g.note(c.Head, "the cells name geodetic datums, so it is no column of dates")
		m = meaning{is: "place.datum"}
	}
	if !known && !g.own && g.inSeries(c) || !known || c.Filled == 0 {
		return
	}
	if len(g.by[m.is]) == 0 {
		g.order = append(g.order, m.is)
	}
	g.by[m.is] = append(g.by[m.is], guess{c, m})
}

// ownField reports whether a heading is the path of a field that takes words.
func ownField(head string) bool {
	if rest, ok := strings.CutPrefix(head, "import."); ok {
		return rest != ""
	}
	f, ok := ledger.FieldAt(ledger.RecordKind, head)
	return ok && (f.Kind == ledger.Text || f.Kind == ledger.Texts)
}

// numbers finds the number on the sheet and what a row is known by.
func (g *guesser) numbers() {
	m := g.Mapping
	for i := range g.profile.Columns {
		c := &g.profile.Columns[i]
		if c.Head == "specimen" || c.bears(g.prefix) {
			m.Number = leaf(c.Head)
			g.note("number", "%s: most cells begin as this museum's numbers do", c.Head)
			break
		}
	}
	for _, kind := range []string{asSheetNo, asKey} {
		for _, c := range g.by[kind] {
			if !m.Number.Set() && len(m.Key) == 0 && c.unique(g.profile.Rows) {
				m.Key = []ledger.Leaf{leaf(c.Head)}
				g.note("key", "%s: no cell stands twice, so a later version of the table can be compared row by row", c.Head)
			}
		}
	}
	if !m.Number.Set() && len(m.Key) == 0 {
		g.note("key", "none found: write key: [COLUMN] if a column names each row for good")
	}
	for _, c := range g.by[asSheetNo] {
		if c.Head != m.Number.Text {
			g.note(c.Head, "not this museum's own numbers, so they are further numbers; if they are, write number: %s", c.Head)
			m.Columns = append(m.Columns, ledger.Column{Column: leaf(c.Head), Field: leaf("further_numbers")})
		}
	}
}

// bears reports whether most cells are numbers that begin with a prefix.
func (c *ColumnProfile) bears(prefix string) bool {
	if prefix == "" {
		return false
	}
	bearing, all := 0, 0
	for words, n := range c.words {
		all += n
		if x := ledger.Number(words); x.Valid() && strings.HasPrefix(x.Key(), strings.ToLower(prefix)) {
			bearing += n
		}
	}
	return 2*bearing > all
}

// fields maps what feeds a field of the record.
func (g *guesser) fields() {
	for _, is := range g.order {
		columns := g.by[is]
		slices.SortStableFunc(columns, func(a, b guess) int { return before(a.first, b.first) })
		slices.SortStableFunc(columns, func(a, b guess) int { return before(b.read, a.read) })
		switch {
		case is == asLatitude:
			g.pair(columns, g.by[asLongitude], "place.position", ", ")
		case is == asLowest:
			g.pair(columns, g.by[asHighest], "place.elevation", "-")
		case is == asZone && len(g.by[asEasting]) > 0:
			g.grid(columns[0])
		case ownField(is) && is != "specimen":
			for i, c := range columns {
				g.field(c, is, i == 0)
			}
		}
	}
	slices.SortStableFunc(g.Mapping.Columns, func(a, b ledger.Column) int { // words before readings of them
		if a.Field.Text != b.Field.Text {
			return 0
		}
		return before(b.Read.Set(), a.Read.Set())
	})
}

// before orders what is set before what is not.
func before(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return -1
	}
	return 1
}

// field maps one column.
func (g *guesser) field(c guess, field string, first bool) {
	f, _ := ledger.FieldAt(ledger.RecordKind, field)
	x := ledger.Column{Column: leaf(c.Head), Field: leaf(field)}
	if c.meaning.read && !first {
		x.Read = leaf("yes")
	}
	if g.own {
		g.Mapping.Columns = append(g.Mapping.Columns, x)
		return
	}
	if f.Kind == ledger.Texts && !strings.HasSuffix(field, ".1") {
		if x.Split = leaf(c.list()); x.Split.Set() {
			g.note(c.Head, "split: %s cells hold %q", most(c.apart[x.Split.Text], c.Filled), x.Split.Text)
		}
	}
	if field == "collector" { // neither sign stands in a person's name
		for _, sep := range []string{"|", ";"} {
			if n := c.apart[sep]; n > 0 && !x.Split.Set() {
				x.Split = leaf(sep)
				g.note(c.Head, "split: in %s cells %q parts people; the first is the collector, the others were with him or her", most(n, c.Filled), sep)
			}
		}
	}
	g.unit(c, &x)
	if field == "date" {
		g.dates(c.ColumnProfile, &x)
	}
	if a, ok := absences[field]; ok && first {
		x.Absent = leaf(a.absent)
		for _, cell := range a.cells {
			if cell != a.absent && c.has(cell) > 0 {
				x.Nothing = append(x.Nothing, leaf(cell))
			}
		}
	}
	x.Nothing = append(x.Nothing, g.sentinels(c.ColumnProfile, field)...)
	if !first {
		g.note(c.Head, "where an earlier column gives %s its words, this one is kept beside them", field)
	}
	g.Mapping.Columns = append(g.Mapping.Columns, x)
}

// unit takes the unit of a heading when the cells have none of their own.
func (g *guesser) unit(c guess, x *ledger.Column) {
	field := x.Field.Text
	switch {
	case field != "place.elevation" && field != "place.uncertainty":
	case !c.figures():
	case c.meaning.unit != "":
		x.Unit = leaf(c.meaning.unit)
	case field == "place.elevation":
		x.Unit = leaf("m")
		g.note(c.Head, "unit: neither heading nor cells have one, metres is a guess; write ft if they are feet")
	}
}

// dates settles how dates in figures are meant, if the cells do.
func (g *guesser) dates(c *ColumnProfile, x *ledger.Column) {
	if x.Order = leaf(c.order()); x.Order.Set() {
		g.note(c.Head, "order: %d of the dates in figures can only be read so, none only the other way", c.dayFirst+c.monFirst)
		return
	}
	switch {
	case c.dayFirst > 0 && c.monFirst > 0:
		g.note(c.Head, "no order: %d dates put the day first, %d the month", c.dayFirst, c.monFirst)
	case c.eithers > 0:
		g.note(c.Head, "dates such as %s can be read two ways and nothing here settles it; if you know, write order: day-month", c.either)
	}
}

// sentinels are figures of a column that stand for nothing: nines, zeros or
// minus one that stand more often than any other figure.
func (g *guesser) sentinels(c *ColumnProfile, field string) (out []ledger.Leaf) {
	if !c.figures() && field != "date" && field != "coll_no" {
		return nil
	}
	often := 0
	for words, n := range c.words {
		if !slices.Contains(sentinels, words) {
			often = max(often, n)
		}
	}
	for _, s := range sentinels {
		if n := c.has(s); n >= 3 && n > often {
			out = append(out, leaf(s))
			g.note(c.Head, "nothing: %s stands in %d cells, no other figure in more than %d", s, n, often)
		}
	}
	return out
}

// pair maps two columns into one field.
func (g *guesser) pair(firsts, seconds []guess, field, join string) {
	for i, a := range firsts {
		if i >= len(seconds) {
			if field == "place.elevation" {
				g.field(a, field, len(g.by[field]) == 0)
			}
			continue
		}
		b := seconds[i]
		x := ledger.Column{Column: leaf(a.Head), Field: leaf(field), And: []ledger.Leaf{leaf(b.Head)}}
		if join != ", " {
			x.Join = leaf(join)
		}
		if a.meaning.read && len(g.by[field]) > 0 {
			x.Read = leaf("yes")
		}
		g.unit(a, &x)
		if zeros := a.has("0") + a.has("0.0"); field == "place.position" && zeros > 0 && zeros <= b.has("0")+b.has("0.0") {
			x.Nothing = []ledger.Leaf{leaf("0"), leaf("0.0")}
			g.note(a.Head, "nothing: 0 beside 0 in %d cells is no place in this collection, most likely", zeros)
		}
		x.Nothing = append(x.Nothing, g.nines(a.ColumnProfile)...)
		g.Mapping.Columns = append(g.Mapping.Columns, x)
	}
}

// nines are the sentinels of a column that no coordinate can be.
func (g *guesser) nines(c *ColumnProfile) (out []ledger.Leaf) {
	for _, s := range sentinels {
		if v, err := strconv.Atoi(s); err == nil && (v > 180 || v < -180) && c.has(s) > 0 {
			out = append(out, leaf(s))
			g.note(c.Head, "nothing: %s is no coordinate", s)
		}
	}
	return out
}

// grid maps zone, easting and northing into the position.
func (g *guesser) grid(zone guess) {
	north := g.by[asNorthing]
	if len(north) == 0 {
		return
	}
	g.Mapping.Columns = append(g.Mapping.Columns, ledger.Column{Column: leaf(zone.Head), Field: leaf("place.position"), Join: leaf("blank"),
		And: []ledger.Leaf{leaf(g.by[asEasting][0].Head), leaf(north[0].Head)}})
}

// dateParts maps day, month and year when no column has the date whole.
func (g *guesser) dateParts() {
	year := g.by[asYear]
	if len(g.by["date"]) > 0 || len(year) == 0 {
		return
	}
	x := ledger.Column{Field: leaf("date"), Absent: leaf("s.d.")}
	var parts []ledger.Leaf
	for _, is := range []string{asDay, asMonth, asYear} {
		if c := g.by[is]; len(c) > 0 && (is != asDay || len(g.by[asMonth]) > 0) {
			parts = append(parts, leaf(c[0].Head))
		}
	}
	x.Column, x.And = parts[0], parts[1:]
	if len(parts) > 1 {
		x.Join = leaf(".")
	}
	if len(parts) == 3 {
		x.Order = leaf("day-month")
	}
	g.Mapping.Columns = append(g.Mapping.Columns, x)
}

func most(n, of int) string { return fmt.Sprintf("%d of %d", n, of) }
