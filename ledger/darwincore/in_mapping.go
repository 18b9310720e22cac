package darwincore

import (
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/archive"
)

// inMapping is a mapping with its columns found in the core of an archive,
// whose headings are the local names of its terms.
type inMapping struct {
	m      *ledger.Mapping
	number string
	fed    map[string]bool
	left   map[string]bool
	none   map[string]bool
	names  bool // the mapping says which columns are determinations
}

func newInMapping(m *ledger.Mapping, c *inColumns) (*inMapping, error) {
	x := &inMapping{m: m, number: m.Number.Text, fed: map[string]bool{}, left: map[string]bool{}, none: map[string]bool{}, names: len(m.Opinions) > 0}
	need := func(l ledger.Leaf) error {
		if _, ok := c.at[l.Text]; l.Set() && !ok {
			return fmt.Errorf("mapping line %d: the core has no column %q; it has %s", l.Line, l.Text, strings.Join(c.heads, ", "))
		}
		if l.Set() {
			x.fed[l.Text] = true
		}
		return nil
	}
	wanted := []ledger.Leaf{m.Number}
	for _, col := range m.Columns {
		wanted = append(append(wanted, col.Column), col.And...)
		if _, ok := ledger.FieldAt(ledger.RecordKind, col.Field.Text); !ok {
			return nil, fmt.Errorf("mapping line %d: no field is named %q", col.Field.Line, col.Field.Text)
		}
	}
	for _, o := range m.Opinions {
		wanted = append(wanted, o.Names, o.ByCol, o.Dated)
	}
	for _, f := range m.Fixed {
		if _, ok := ledger.FieldAt(ledger.RecordKind, f.Field.Text); !ok {
			return nil, fmt.Errorf("mapping line %d: no field is named %q", f.Field.Line, f.Field.Text)
		}
	}
	for _, l := range wanted {
		if err := need(l); err != nil {
			return nil, err
		}
	}
	for _, l := range m.Ignore {
		x.left[l.Text] = true
	}
	for _, l := range m.Nothing {
		x.none[strings.ToLower(l.Text)] = true
	}
	return x, nil
}

func (x *inMapping) ignores(head string) bool { return x != nil && x.left[head] }

func (x *inMapping) nothing(words string) bool { return x != nil && x.none[strings.ToLower(words)] }

// feeds reports whether a column feeds a field: by the mapping, or as one of
// those of the name that holds, when the mapping leaves names alone.
func (x *inMapping) feeds(head string) bool {
	return x.fed[head] || !x.names && slices.Contains(nameTerms, head)
}

var nameTerms = []string{"verbatimIdentification", "scientificName", "scientificNameAuthorship", "identificationQualifier", "identifiedBy", "dateIdentified", "identificationReferences", "identificationRemarks"}

// apply takes the cells of a row as the mapping says.
func (x *inMapping) apply(m *making, core *inRow) {
	for _, f := range x.m.Fixed {
		m.put(f.Field.Text, f.Value.Text)
	}
	for _, c := range x.m.Columns {
		field := c.Field.Text
		known, _ := ledger.FieldAt(ledger.RecordKind, field)
		words, whole := core.peek(c.Column.Text), true
		for _, and := range c.And {
			more := core.peek(and.Text)
			whole = whole && more != ""
			words += ", " + more
		}
		if core.peek(c.Column.Text) == "" || !whole || m.has[field] && known.Kind == ledger.Text {
			m.none(field, c.Absent.Text)
			continue
		}
		core.use(c.Column.Text)
		for _, and := range c.And {
			core.use(and.Text)
		}
		if c.Unit.Set() && strings.ContainsAny(words, "0123456789") {
			words += " " + c.Unit.Text
		}
		parts := []string{words}
		if c.Split.Set() {
			parts = strings.Split(words, c.Split.Text)
		}
		for _, p := range parts {
			m.put(field, strings.TrimSpace(p))
		}
	}
	for _, o := range x.m.Opinions {
		names := core.take(o.Names.Text)
		parts := []string{names}
		if o.Split.Set() {
			parts = strings.Split(names, o.Split.Text)
		}
		by, day := orElse(core.take(o.ByCol.Text), o.By.Text), orElse(core.take(o.Dated.Text), o.Date.Text)
		for _, p := range parts {
			m.dets = append(m.dets, inName{name: strings.TrimSpace(p), kind: orElse(o.Kind.Text, "det"), by: by, date: day})
		}
	}
}

// Propose writes a first mapping for an archive: what Blotter does with the
// columns of its core that feed one field. The extensions need none.
func Propose(a *archive.Archive) (*ledger.Mapping, error) {
	if err := a.Check(); err != nil {
		return nil, err
	}
	c := newInColumns(a, &a.Core)
	leaf := func(words string) ledger.Leaf { return ledger.Leaf{Text: words} }
	m := &ledger.Mapping{}
	add := func(head, and, field, unit, split, absent string) {
		if _, ok := c.at[head]; ok {
			x := ledger.Column{Column: leaf(head), Field: leaf(field), Unit: leaf(unit), Split: leaf(split), Absent: leaf(absent)}
			if and != "" {
				x.And = []ledger.Leaf{leaf(and)}
			}
			m.Columns = append(m.Columns, x)
		}
	}
	has := func(head string) bool { _, ok := c.at[head]; return ok }
	add("recordedBy", "", "collector", "", "", "unknown")
	add("verbatimEventDate", "", "date", "", "", "")
	add("eventDate", "", "date", "", "", "s.d.")
	for _, h := range inHomes {
		for _, t := range h.terms {
			add(t, "", h.field, "", "", map[string]string{"coll_no": "s.n."}[h.field])
		}
	}
	add("verbatimCoordinates", "", "place.position", "", "", "")
	if has("decimalLongitude") {
		add("decimalLatitude", "decimalLongitude", "place.position", "", "", "")
	}
	add("verbatimSRS", "", "place.datum", "", "", "")
	add("geodeticDatum", "", "place.datum", "", "", "")
	add("coordinateUncertaintyInMeters", "", "place.uncertainty", "m", "", "")
	add("georeferenceSources", "", "place.position_by", "", "", "")
	add("verbatimElevation", "", "place.elevation", "", "", "")
	add("minimumElevationInMeters", "", "place.elevation", "m", "", "")
	add("verbatimDepth", "", "depth", "", "", "")
	add("minimumDepthInMeters", "", "depth", "m", "", "")
	add("associatedTaxa", "", "associates", "", "|", "")
	add("reproductiveCondition", "", "phenology", "", "|", "")
	add("otherCatalogNumbers", "", "further_numbers", "", "|", "")
	add("catalogNumber", "", "further_numbers", "", "", "")
	return m, nil
}
