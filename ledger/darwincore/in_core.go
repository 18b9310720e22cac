package darwincore

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/archive"
	"blotter/ledger/dates"
	"blotter/ledger/names"
)

// inHomes are the terms whose words feed one field as they stand; the first
// of a field's terms that says something feeds it.
var inHomes = []struct {
	field string
	terms []string
}{
	{"kept_as", []string{"preparations"}},
	{"family", []string{"family"}},
	{"coll_no", []string{"recordNumber"}},
	{"place.country", []string{"country", "countryCode"}},
	{"place.province", []string{"stateProvince"}},
	{"place.district", []string{"county", "municipality"}},
	{"place.locality", []string{"verbatimLocality", "locality"}},
	{"habitat", []string{"habitat"}},
	{"description", []string{"organismRemarks"}},
	{"abundance", []string{"organismQuantity"}},
	{"population", []string{"individualCount"}},
	{"project", []string{"projectTitle"}},
	{"remarks", []string{"occurrenceRemarks"}},
}

// inLists are the terms whose words are a list.
var inLists = map[string]string{"reproductiveCondition": "phenology", "otherCatalogNumbers": "further_numbers"}

// inListed are the same in order.
var inListed = []string{"reproductiveCondition", "otherCatalogNumbers"}

// inOthers are the terms that feed a field in some other way.
var inOthers = []string{"catalogNumber", "recordedBy", "verbatimEventDate", "eventDate", "verbatimCoordinates", "verbatimLatitude", "verbatimLongitude", "decimalLatitude", "decimalLongitude",
	"geodeticDatum", "verbatimSRS", "coordinateUncertaintyInMeters", "georeferencedBy", "georeferencedDate", "georeferenceSources", "georeferenceRemarks",
	"verbatimElevation", "minimumElevationInMeters", "maximumElevationInMeters", "verbatimDepth", "minimumDepthInMeters", "maximumDepthInMeters",
	"associatedTaxa", "associatedMedia", "degreeOfEstablishment", "establishmentMeans", "verbatimLabel", "typeStatus", "typifiedName",
	"verbatimIdentification", "scientificName", "scientificNameAuthorship", "identificationQualifier", "identifiedBy", "dateIdentified", "identificationReferences", "identificationRemarks"}

// inParts are terms that feed a field together, where no column has the whole.
var inParts = []struct{ parts, instead []string }{
	{[]string{"year", "month", "day"}, []string{"verbatimEventDate", "eventDate"}},
	{[]string{"genus", "specificEpithet", "infraspecificEpithet"}, []string{"verbatimIdentification", "scientificName"}},
}

// feeds reports whether a column of the core feeds a field as a rule.
func (in *In) feeds(head string) bool {
	if in.ours {
		return back(head)
	}
	if _, ok := inLists[head]; ok || slices.Contains(inOthers, head) {
		return true
	}
	for _, h := range inHomes {
		if slices.Contains(h.terms, head) {
			return true
		}
	}
	for _, p := range inParts {
		if slices.Contains(p.parts, head) {
			return !slices.ContainsFunc(p.instead, func(whole string) bool { _, ok := in.core.at[whole]; return ok })
		}
	}
	return false
}

// take makes a record of a row of any archive.
func (in *In) take(m *making, core *inRow, s *archive.Star) {
	m.put("entry", string(ledger.Full))
	in.takeNumber(m, core)
	in.takeFields(m, core)
	in.takeExtensions(m, s)
	in.takeNames(m, core)
	m.media(core.peek("associatedMedia"), core)
	m.keepRest(core, "")
}

// takeExtensions takes the rows of the extensions; the names are left to the
// caller.
func (in *In) takeExtensions(m *making, s *archive.Star) {
	for i, rows := range s.Extensions {
		for n, line := range rows {
			r := newInRow(in.exts[i], line.Cells)
			switch kind := in.exts[i].kind; {
			case strings.HasPrefix(kind, "Identification"):
				m.dets = append(m.dets, in.readName(m, r))
			case kind == "Multimedia":
				m.image(r)
			case kind == "ResourceRelationship":
				m.relation(r)
			case kind == "MeasurementOrFact", kind == "ExtendedMeasurementOrFact":
				m.measurement(r, n+1)
			}
			m.keepRest(r, ordinal(extensionWord(in.exts[i].kind), n+1))
		}
	}
}

// extensionWord names the rows of an extension under import:.
func extensionWord(kind string) string {
	switch {
	case strings.HasPrefix(kind, "Identification"):
		return "identification"
	case kind == "ResourceRelationship":
		return "relation"
	case kind == "MeasurementOrFact", kind == "ExtendedMeasurementOrFact":
		return "measurement"
	case kind == "Multimedia":
		return "picture"
	}
	return kind
}

// takeNumber takes a number of this museum for that of the sheet; any other is
// a further number.
func (in *In) takeNumber(m *making, core *inRow) {
	if in.bearsPrefix(core.peek("catalogNumber")) {
		m.put("specimen", core.take("catalogNumber"))
	}
}

// bearsPrefix reports whether a number is one of this museum.
func (in *In) bearsPrefix(n string) bool {
	return in.opts.Prefix != "" && ledger.Number(n).Valid() && strings.HasPrefix(strings.ToLower(n), strings.ToLower(in.opts.Prefix))
}

// takeFields takes the core's cells into their usual fields.
func (in *In) takeFields(m *making, core *inRow) {
	m.people(core)
	for _, h := range inHomes {
		m.put(h.field, core.first(h.terms...))
		if h.field == "place.locality" && core.peek("locality") == m.last("place.locality") {
			core.use("locality")
		}
	}
	m.none("coll_no", "s.n.")
	in.takeDate(m, core)
	m.position(in, core)
	m.none("place.locality", "unknown")
	m.heights(in, core)
	for _, term := range inListed {
		for _, words := range core.list(term) {
			m.put(inLists[term], words)
		}
	}
	m.put("further_numbers", core.take("catalogNumber"))
	m.plants(core)
	m.origin(core)
	if words := core.take("verbatimLabel"); words != "" {
		m.put("writings.1.on_sheet", "label")
		m.put("writings.1.text", words)
	}
}

// none writes the words for none into a field of which nothing is said.
func (m *making) none(field, words string) {
	if !m.has[field] {
		m.put(field, words)
	}
}

// last is the words that a field got last.
func (m *making) last(field string) string {
	for i := len(m.list) - 1; i >= 0; i-- {
		if m.list[i].Key == field {
			return m.list[i].Value
		}
	}
	return ""
}

// people parts the collectors where the standard's bar stands between them.
func (m *making) people(core *inRow) {
	for i, who := range core.list("recordedBy") {
		if i == 0 {
			m.put("collector", who)
		} else {
			m.put("with", who)
		}
	}
	m.none("collector", "unknown")
}

// takeDate takes the words for the day. What the archive makes of them stands
// beside them as a reading when they leave it open.
func (in *In) takeDate(m *making, core *inRow) {
	words := core.first("verbatimEventDate", "eventDate")
	if words == "" {
		if words = core.peek("year"); words != "" { // the parts, where there is nothing else
			for _, part := range []string{"month", "day"} {
				p := core.peek(part)
				if p == "" {
					break
				}
				if len(p) == 1 {
					p = "0" + p
				}
				words += "-" + p
			}
			core.use("year", "month", "day")
		}
	}
	m.put("date", words)
	m.none("date", "s.d.")
	read := in.dateOf(core, core.peek("eventDate"))
	if read.Known() && in.settles(read, words) {
		core.use("eventDate")
		m.reading("date", read.ISO(), "", "", "", "eventDate of the archive", "")
		return
	}
	if core.order == dates.Ask {
		return
	}
	if asked, by := dates.Read(words, dates.Ask), dates.Read(words, core.order); by.Known() && (!asked.Known() || asked.First != by.First || asked.Last != by.Last) {
		m.reading("date", by.ISO(), "", "", "", "dateFormat "+core.form+" of meta.xml", "")
	}
}

func (in *In) dateOf(core *inRow, words string) dates.Reading { return dates.Read(words, core.order) }

// settles reports whether a reading says more than the words do, without
// saying otherwise.
func (in *In) settles(read dates.Reading, words string) bool {
	own := dates.Read(words, dates.Ask)
	switch {
	case read.ISO() == "":
		return false
	case !own.Known():
		return true
	}
	return read.First >= own.First && read.Last <= own.Last && (read.First != own.First || read.Last != own.Last)
}

// reading writes a reading beside the words; without a person it is unsigned.
func (m *making) reading(what, is, uncertainty, by, date, from, why string) {
	if is == "" {
		return
	}
	at := "read." + what + "."
	m.put(at+"is", is)
	m.put(at+"uncertainty", uncertainty)
	m.put(at+"by", orElse(by, "unsigned"))
	m.put(at+"date", orElse(date, "s.d."))
	m.put(at+"from", from)
	m.put(at+"why", why)
}

func orElse(words, other string) string {
	if words == "" {
		return other
	}
	return words
}

// plants takes host and associates. Words in a form of some program's own are
// kept to the letter.
func (m *making) plants(core *inRow) {
	words := core.peek("associatedTaxa")
	if words == "" || words[0] == '[' || words[0] == '{' {
		return
	}
	host := ""
	var beside []string
	for _, v := range core.list("associatedTaxa") {
		what, name := related(v)
		switch {
		case strings.Contains(strings.ToLower(what), "host") && host == "":
			host = name
		case what == "" || what == besideWord:
			beside = append(beside, name)
		default:
			beside = append(beside, v)
		}
	}
	m.put("host", host)
	for _, name := range beside {
		m.put("associates", name)
	}
}

// related parts `"host":"Quercus alba"` as the list of terms writes it; other
// words are the name.
func related(s string) (what, name string) {
	before, after, ok := strings.Cut(s, `":"`)
	if !ok || !strings.HasPrefix(before, `"`) || !strings.HasSuffix(after, `"`) {
		return "", s
	}
	return before[1:], after[:len(after)-1]
}

// origins are the values of degreeOfEstablishment and the plain words of
// establishmentMeans that say how the plant came to grow there.
var origins = map[string]string{"cultivated": "cultivated", "d003": "cultivated", "native": "wild", "d001": "wild"}

// origin takes cultivated and wild plants.
func (m *making) origin(core *inRow) {
	degree := strings.ToLower(core.peek("degreeOfEstablishment"))
	if o := origins[archive.LocalName(degree)]; o != "" {
		core.use("degreeOfEstablishment")
		m.put("origin", o)
		return
	}
	means := strings.ToLower(core.peek("establishmentMeans"))
	if f, ok := ledger.FieldAt(ledger.RecordKind, "origin"); ok && slices.Contains(f.Enum, means) {
		core.use("establishmentMeans")
		m.put("origin", means)
	}
}

// canonical is a name without authors, for comparison.
func canonical(words string) string {
	n, err := names.Read(words)
	if err != nil {
		return strings.ToLower(words)
	}
	return n.Canonical()
}
