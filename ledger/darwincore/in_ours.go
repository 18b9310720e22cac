package darwincore

import (
	"encoding/json"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/archive"
)

// isOurs reports whether an archive has the form that WriteArchive gives it:
// our names of files, and no term that we do not write. One of an earlier
// version has fewer.
func isOurs(m *archive.Meta) bool {
	kinds := map[string]*Kind{}
	for _, k := range Kinds() {
		kinds[k.Type] = k
	}
	fits := func(e *archive.Entity) bool {
		k := kinds[e.RowType]
		if k == nil || len(e.Files) != 1 || e.Files[0] != k.File {
			return false
		}
		for _, f := range e.Fields {
			known := false
			for i := range k.Terms {
				known = known || k.Terms[i].IRI() == f.Term
			}
			if !known {
				return false
			}
		}
		return true
	}
	if m.Metadata != EMLFile || m.Core.RowType != Occurrence.Type || !fits(&m.Core) {
		return false
	}
	for i := range m.Extensions {
		if !fits(&m.Extensions[i]) {
			return false
		}
	}
	return true
}

// backHomes are the terms of our core that give their field back as it was.
var backHomes = []struct{ term, field string }{
	{"preparations", "kept_as"}, {"recordNumber", "coll_no"}, {"verbatimEventDate", "date"},
	{"country", "place.country"}, {"stateProvince", "place.province"}, {"county", "place.district"}, {"verbatimLocality", "place.locality"},
	{"verbatimCoordinates", "place.position"}, {"verbatimSRS", "place.datum"}, {"georeferenceSources", "place.position_by"}, {"verbatimElevation", "place.elevation"},
	{"habitat", "habitat"}, {"verbatimDepth", "depth"}, {"organismRemarks", "description"}, {"organismQuantity", "abundance"},
	{"projectTitle", "project"}, {"occurrenceRemarks", "remarks"},
}

// backOthers are the terms of our core that give fields back in other ways, or
// say where a record of another museum comes from.
var backOthers = []string{"catalogNumber", "otherCatalogNumbers", "recordedBy", "reproductiveCondition", "associatedTaxa", "verbatimLabel", "dynamicProperties"}

// foreign are the terms that are kept of another museum's record.
var foreign = []string{"occurrenceID", "modified", "license", "rightsHolder", "accessRights", "references", "institutionCode", "informationWithheld", "dataGeneralizations"}

// back reports whether a term of our core gives fields back.
func back(head string) bool {
	for _, h := range backHomes {
		if h.term == head {
			return true
		}
	}
	return slices.Contains(backOthers, head)
}

// derived reports whether a term of our core only repeats, in Darwin Core's
// way, what other terms give back.
func (in *In) derived(head string) bool { return !back(head) && !slices.Contains(foreign, head) }

// takeBack makes the record again that a row of ours was made from.
func (in *In) takeBack(m *making, core *inRow, s *archive.Star) {
	m.put("entry", string(ledger.Full))
	m.left = properties(core.whole("dynamicProperties"))
	has := map[string]bool{}
	for _, kv := range m.left {
		has[withoutNumbers(kv.Key)] = true
	}
	number := core.whole("catalogNumber")
	kin := core.whole("institutionCode") == in.opts.Code
	in.kin = in.kin || kin
	if in.bearsPrefix(number) || kin && ledger.Number(number).Valid() {
		m.put("specimen", number)
	} else if !has["further_numbers"] {
		m.put("further_numbers", number)
	} else {
		m.keep("catalogNumber", number)
	}
	m.backFields(core, has)
	for i, rows := range s.Extensions {
		for n, line := range rows {
			m.backRow(in.exts[i].kind, newInRow(in.exts[i], line.Cells), n+1, has)
		}
	}
	if !kin {
		for _, term := range foreign {
			m.keep(term, core.whole(term))
		}
	}
	for _, kv := range m.left {
		if _, ok := fieldOf(kv.Key); !ok {
			m.keep("dynamicProperties: "+kv.Key, kv.Value)
		} else if importOf(kv) {
			m.kept = append(m.kept, kv)
		} else if kv.Key == "entry" {
			m.list[0].Value = kv.Value
		} else {
			m.put(kv.Key, kv.Value)
		}
	}
}

// instead puts what dynamicProperties has below a path, and reports whether
// there was any: it then stands instead of what a cell of remarks says.
func (m *making) instead(below string) bool {
	n := len(m.left)
	m.left = slices.DeleteFunc(m.left, func(kv ledger.KV) bool {
		if !strings.HasPrefix(kv.Key, below) {
			return false
		}
		m.put(kv.Key, kv.Value)
		return true
	})
	return len(m.left) < n
}

// backFields takes back the fields that stand in terms of their own, but for
// those that dynamicProperties has to the letter.
func (m *making) backFields(core *inRow, has map[string]bool) {
	if !has["collector"] && !has["with"] {
		for i, who := range Split(core.whole("recordedBy")) {
			m.put([]string{"collector", "with"}[min(i, 1)], who)
		}
	}
	for _, h := range backHomes {
		words := core.whole(h.term)
		read := h.field == "place.country" && has["read.country.is"] || h.field == "place.position_by" && has["read.position.is"]
		if !has[h.field] && !read { // the term has a person's reading else
			m.put(h.field, words)
		}
	}
	for _, term := range inListed {
		for _, words := range Split(core.whole(term)) {
			if !has[inLists[term]] {
				m.put(inLists[term], words)
			}
		}
	}
	for _, v := range Split(core.whole("associatedTaxa")) {
		if what, name := related(v); what == hostWord {
			m.put("host", name)
		} else {
			m.put("associates", name)
		}
	}
	if words := core.whole("verbatimLabel"); words != "" && !has["writings.text"] {
		for i, w := range strings.Split(words, labelGap) {
			m.put("writings."+strconv.Itoa(i+1)+".text", w)
		}
	}
}

// fieldOf finds the field of a path with places in lists.
func fieldOf(path string) (ledger.Field, bool) {
	if name, ok := strings.CutPrefix(path, "import."); ok {
		return ledger.Field{}, name != ""
	}
	return ledger.FieldAt(ledger.RecordKind, withoutNumbers(path))
}

// backRow takes back a row of one of our extensions.
func (m *making) backRow(kind string, r *inRow, n int, has map[string]bool) {
	switch kind {
	case "Identification":
		m.backDetermination(r, n)
	case "Multimedia":
		at := "images." + strconv.Itoa(n) + "."
		m.put(at+"file", r.whole("title"))
		m.put(at+"shows", r.whole("description"))
		m.put(at+"photographer", r.whole("creator"))
		m.put(at+"date", r.whole("created"))
		m.put(at+"licence", LicenceWords(r.whole("license")))
	case "ResourceRelationship":
		m.backRelation(r, has)
	case "MeasurementOrFact":
		words := r.whole("measurementValue")
		if unit := r.whole("measurementUnit"); unit != "" {
			words += " " + unit
		}
		what := r.whole("measurementType")
		for _, f := range Facts {
			if f.Type == what {
				m.put(f.Path, words)
				return
			}
		}
		m.keep(ordinal("measurement", n)+what, words)
	}
}

func (m *making) backDetermination(r *inRow, n int) {
	at := "determinations." + strconv.Itoa(n) + "."
	m.put(at+"name", r.whole("verbatimIdentification"))
	m.put(at+"kind", r.whole("identificationVerificationStatus"))
	m.put(at+"by", r.whole("identifiedBy"))
	m.put(at+"source", r.whole("identificationReferences"))
	if m.instead(at) {
		return
	}
	date := r.whole("dateIdentified")
	for _, kv := range Unpack("why", r.whole("identificationRemarks"), OpinionKeys) {
		if kv.Key == "date" {
			date = kv.Value
			continue
		}
		m.put(at+kv.Key, kv.Value)
	}
	m.put(at+"date", date)
}

// backRelation takes back a part, a duplicate or a sheet that belongs to it.
func (m *making) backRelation(r *inRow, has map[string]bool) {
	words := Unpack(relationRemarks, r.whole("relationshipRemarks"), RelationKeys)
	list := func(field string, n *int) {
		*n++
		at := field + "." + strconv.Itoa(*n) + "."
		m.put(at+"date", r.whole("relationshipEstablishedDate"))
		if m.instead(at) {
			return
		}
		for _, kv := range words {
			m.put(at+kv.Key, kv.Value)
		}
	}
	switch kind := r.whole("relationshipOfResource"); kind {
	case HasPart:
		list("parts", &m.parts)
	case HasDuplicate:
		list("duplicates", &m.dups)
	case SameGathering, SharesSheet:
		field := map[string]string{SameGathering: "same_gathering", SharesSheet: "shares_sheet"}[kind]
		for _, kv := range words {
			if !has[field] {
				m.put(field, kv.Value)
			}
		}
	}
}

// properties are the members of the object in dynamicProperties, in order.
func properties(cell string) []ledger.KV {
	if out, ok := plainProperties(cell); ok {
		return out
	}
	d := json.NewDecoder(strings.NewReader(cell))
	if t, err := d.Token(); err != nil || t != json.Delim('{') {
		if cell == "" {
			return nil
		}
		return []ledger.KV{{Key: "", Value: cell}}
	}
	var out []ledger.KV
	for d.More() {
		key, err := d.Token()
		if err != nil {
			return []ledger.KV{{Key: "", Value: cell}}
		}
		value, err := d.Token()
		text, ok := value.(string)
		if err != nil || !ok {
			return []ledger.KV{{Key: "", Value: cell}}
		}
		out = append(out, ledger.KV{Key: key.(string), Value: text})
	}
	return out
}

// plainProperties is properties of an object whose words have no escapes, as
// most have none.
func plainProperties(cell string) (out []ledger.KV, ok bool) {
	rest, ok := strings.CutPrefix(cell, "{")
	if !ok || strings.IndexByte(cell, '\\') >= 0 {
		return nil, false
	}
	word := func() (w string) {
		if rest, ok = strings.CutPrefix(rest, `"`); ok {
			w, rest, ok = strings.Cut(rest, `"`)
		}
		return w
	}
	for {
		key := word()
		if ok {
			rest, ok = strings.CutPrefix(rest, ":")
		}
		if !ok {
			return nil, false
		}
		out = append(out, ledger.KV{Key: key, Value: word()})
		switch {
		case !ok:
			return nil, false
		case rest == "}":
			return out, true
		}
		if rest, ok = strings.CutPrefix(rest, ","); !ok {
			return nil, false
		}
	}
}
