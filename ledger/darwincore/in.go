package darwincore

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/archive"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// In makes records of the rows of an archive. An archive that Blotter wrote is
// taken back field by field (see Homes); in any other a term feeds the field
// that means the same, words as written before what somebody made of them.
// What has no home is kept to the letter under import:, under its term's name.
// Not for several goroutines at once.
type In struct {
	opts InOptions
	core *inColumns
	exts []*inColumns
	ours bool // the archive has our form
	kin  bool // and rows of it come from this very museum
	read *reading.Reader
}

// InOptions are what an import needs besides the archive.
type InOptions struct {
	Code        string              // the museum's code
	Prefix      string              // of its numbers: a catalogNumber that bears it is the number of the sheet
	Conventions reading.Conventions // how the museum reads
}

// inColumns are the columns of the core or of an extension.
type inColumns struct {
	parts map[string]string // what parts the values of a cell, where meta.xml says so
	kind  string            // local name of the row type: Identification
	heads []string
	at    map[string]int // by local name, or whole name where two share one
	order dates.Order    // of dates in figures, when meta.xml says
	form  string         // that dateFormat
}

// ofSpecimens are the local names of row types whose rows may be specimens;
// SimpleDarwinRecord is that of the text guide's first example.
var ofSpecimens = []string{"Occurrence", "SimpleDarwinRecord", "MaterialEntity", "MaterialSample", "PreservedSpecimen"}

// NewIn prepares for the rows of an archive. It is an error when the archive
// contradicts itself, or when a row of its core is something else than a
// specimen.
func NewIn(a *archive.Archive, o InOptions) (*In, error) {
	if err := a.Check(); err != nil {
		return nil, err
	}
	if kind := archive.LocalName(a.Core.RowType); !slices.Contains(ofSpecimens, kind) {
		return nil, fmt.Errorf("read meta.xml: a row of the core is a %s (rowType), not a specimen: ask for an archive whose core is Occurrence", orElse(kind, "thing that is not said"))
	}
	in := &In{opts: o, core: newInColumns(a, &a.Core), read: reading.NewReader(o.Conventions)}
	for i := range a.Extensions {
		in.exts = append(in.exts, newInColumns(a, &a.Extensions[i]))
	}
	in.ours = isOurs(&a.Meta)
	return in, nil
}

func newInColumns(a *archive.Archive, e *archive.Entity) *inColumns {
	c := &inColumns{kind: archive.LocalName(e.RowType), at: map[string]int{}, parts: map[string]string{}, form: e.Dates}
	switch strings.ToUpper(strings.NewReplacer("-", "/", ".", "/").Replace(e.Dates)) {
	case "DD/MM/YYYY", "D/M/YYYY", "DD/MM/YY":
		c.order = dates.OrderOf("day-month")
	case "MM/DD/YYYY", "M/D/YYYY", "MM/DD/YY":
		c.order = dates.OrderOf("month-day")
	}
	for i, term := range a.Columns(e) {
		head := archive.LocalName(term)
		if _, taken := c.at[head]; taken || head == "" {
			head = term
		}
		c.heads = append(c.heads, head)
		c.at[head] = i
		if i < len(e.Fields) && e.Fields[i].Delimiter != "" {
			c.parts[head] = e.Fields[i].Delimiter
		}
	}
	return c
}

// Feeds says which columns of the core feed a field as a rule, which are kept
// under import:, and which are left out. Ask when the rows have been read.
func (in *In) Feeds() (fed, kept, left []string) {
	for _, head := range in.core.heads {
		switch {
		case in.ours && (in.derived(head) || in.kin && slices.Contains(foreign, head)):
			left = append(left, head)
		case in.feeds(head):
			fed = append(fed, head)
		default:
			kept = append(kept, head)
		}
	}
	return fed, kept, left
}

// Ours reports whether the archive has the form that Blotter writes.
func (in *In) Ours() bool { return in.ours }

// Numbered reports whether rows may bear numbers of this museum.
func (in *In) Numbered() bool {
	_, has := in.core.at["catalogNumber"]
	return has && (in.opts.Prefix != "" || in.ours)
}

// Key is what a row is known by in another version of the archive, and what
// these versions have in common: an occurrenceID is known everywhere, the id of
// the core within its institution and collection, or else only under the name
// of its file (list is then empty).
func (in *In) Key(s *archive.Star) (key, list string) {
	words := func(term string) string {
		if i, ok := in.core.at[term]; ok {
			return strings.TrimSpace(s.Cells[i])
		}
		return ""
	}
	if id := words("occurrenceID"); id != "" {
		return id, "occurrenceID"
	}
	if code := words("institutionCode"); code != "" && s.ID != "" {
		return strings.TrimSpace(s.ID + " " + words("catalogNumber")), "id of " + strings.TrimSpace(code+" "+words("collectionCode"))
	}
	return s.ID, ""
}

// Otherwise is the basisOfRecord of a row that is said to be something else
// than a preserved specimen; "" for a specimen, and where nothing is said.
func (in *In) Otherwise(s *archive.Star) string {
	i, ok := in.core.at["basisOfRecord"]
	if !ok {
		return ""
	}
	words := strings.TrimSpace(s.Cells[i])
	switch strings.ToLower(strings.ReplaceAll(archive.LocalName(words), " ", "")) {
	case "", "preservedspecimen", "materialentity", "materialsample":
		return ""
	}
	return words
}

// Record makes the record of one row of the core and the rows of its
// extensions. Its specimen is empty when the row bears no number of this
// museum. why says what hinders, when no record can be made.
func (in *In) Record(s *archive.Star) (rec *ledger.Record, why string) {
	m := &making{in: in, has: map[string]bool{}}
	core := newInRow(in.core, s.Cells)
	if in.ours {
		in.takeBack(m, core, s)
	} else {
		in.take(m, core, s)
	}
	if !in.ours && !m.full() && m.list[0].Value == string(ledger.Full) {
		m.list[0].Value = string(ledger.Draft)
	}
	m.list = append(m.list, m.kept...)
	rec, err := ledger.Unflatten(m.list)
	if err != nil {
		return nil, err.Error()
	}
	in.fileAs(rec, m.accepted)
	return rec, ""
}

// making is one record being made.
type making struct {
	in       *In
	list     []ledger.KV
	kept     []ledger.KV // what goes under import:
	left     []ledger.KV // of dynamicProperties, of our own archives
	has      map[string]bool
	dets     []inName
	types    int
	images   int
	dups     int
	parts    int
	accepted int // the determination that holds by the archive, from 1; 0: it does not say
}

// put adds words to a field; empty ones add nothing.
func (m *making) put(path, words string) {
	if words != "" {
		m.list = append(m.list, ledger.KV{Key: path, Value: words})
		m.has[path] = true
	}
}

// keep puts words under import:.
func (m *making) keep(name, words string) {
	if words != "" {
		m.kept = append(m.kept, ledger.KV{Key: "import." + name, Value: words})
	}
}

// full reports whether collector, date and place are there.
func (m *making) full() bool {
	if !m.has["collector"] || !m.has["date"] {
		return false
	}
	for path := range m.has {
		if strings.HasPrefix(path, "place.") {
			return true
		}
	}
	return false
}

// inRow is one row whose cells are taken one by one.
type inRow struct {
	*inColumns
	cells []string
	used  []bool
}

func newInRow(c *inColumns, cells []string) *inRow {
	return &inRow{inColumns: c, cells: cells, used: make([]bool, len(cells))}
}

// peek is the words of a term, without blanks around them.
func (r *inRow) peek(term string) string {
	i, ok := r.at[term]
	if !ok || i >= len(r.cells) || r.used[i] {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

// take is the words of a term, which are then in a field.
func (r *inRow) take(term string) string {
	words := r.peek(term)
	if words != "" {
		r.used[r.at[term]] = true
	}
	return words
}

// first takes the words of the first of several terms that says something.
func (r *inRow) first(terms ...string) string {
	for _, t := range terms {
		if words := r.take(t); words != "" {
			return words
		}
	}
	return ""
}

// list takes the values of a cell: parted as meta.xml says, else where the
// standard's bar stands.
func (r *inRow) list(term string) []string {
	words, sign := r.take(term), r.parts[term]
	if sign == "" {
		return Split(words)
	}
	var out []string
	for v := range strings.SplitSeq(words, sign) {
		if v = strings.TrimSpace(v); v != "" {
			out = append(out, v)
		}
	}
	return out
}

// whole is the cell of a term to the letter, which is then used.
func (r *inRow) whole(term string) string {
	i, ok := r.at[term]
	if !ok || i >= len(r.cells) {
		return ""
	}
	r.used[i] = true
	return r.cells[i]
}

// use marks a term as said by a field, without its words.
func (r *inRow) use(terms ...string) {
	for _, t := range terms {
		if i, ok := r.at[t]; ok && i < len(r.used) {
			r.used[i] = true
		}
	}
}

// keepRest puts every cell that no field took under import:; of an extension's
// row behind what it is.
func (m *making) keepRest(r *inRow, before string) {
	for i, words := range r.cells {
		if words = strings.TrimSpace(words); words == "" || r.used[i] {
			continue
		}
		m.keep(before+r.heads[i], words)
	}
}

// ordinal is what stands before the columns of the nth row of an extension.
func ordinal(what string, n int) string { return what + " " + strconv.Itoa(n) + ": " }
