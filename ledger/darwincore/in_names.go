package darwincore

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/names"
)

// inName is one identification on its way in.
type inName struct {
	name, kind, by, date, source, why string
	scientific                        string // to compare it by
	accepted                          bool
}

// readName takes one row of identification: of an extension, or the core's
// own.
func (in *In) readName(m *making, r *inRow) inName {
	d := inName{scientific: r.peek("scientificName"), kind: string("det")}
	d.name = nameWords(r)
	d.accepted = strings.EqualFold(r.peek("isAcceptedIdentification"), "true")
	if d.accepted || strings.EqualFold(r.peek("isAcceptedIdentification"), "false") {
		r.use("isAcceptedIdentification")
	}
	if d.scientific == "" {
		d.scientific = d.name
	}
	if strings.HasPrefix(strings.ToLower(r.peek("taxonFormula")), "not ") {
		d.kind = "not"
		r.use("taxonFormula")
	}
	if f, ok := ledger.FieldAt(ledger.RecordKind, "determinations.kind"); ok && slices.Contains(f.Enum, r.peek("identificationVerificationStatus")) {
		d.kind = r.take("identificationVerificationStatus")
	}
	d.by, d.date = r.take("identifiedBy"), r.take("dateIdentified")
	d.source, d.why = r.take("identificationReferences"), r.take("identificationRemarks")
	m.typeStatus(r, d)
	return d
}

// nameWords are the words of the name: those of the slip, else the name with
// its qualifier and authors.
func nameWords(r *inRow) string {
	words := r.take("verbatimIdentification")
	if words == "" {
		name := r.take("scientificName")
		if name == "" {
			name = nameOfParts(r)
		}
		words = qualified(r, name)
		if author := r.peek("scientificNameAuthorship"); author != "" && words != "" {
			r.use("scientificNameAuthorship")
			if !strings.HasSuffix(words, author) {
				words += " " + author
			}
		}
	}
	for _, part := range []string{"scientificName", "scientificNameAuthorship", "genus", "genericName", "specificEpithet", "infraspecificEpithet"} {
		if p := r.peek(part); p != "" && strings.Contains(" "+words+" ", " "+p+" ") {
			r.use(part)
		}
	}
	return words
}

// rankTerms are the terms before an epithet below species, by taxonRank; which
// rank it is a name must say (ICN Art. 24.1).
var rankTerms = map[string]string{"subspecies": "subsp.", "variety": "var.", "varietas": "var.", "subvariety": "subvar.", "form": "f.", "forma": "f.", "subform": "subf.",
	"nothosubspecies": "nothosubsp.", "nothovariety": "nothovar."}

// nameOfParts is the name that stands in its parts only.
func nameOfParts(r *inRow) string {
	genus := r.peek("genus")
	if genus == "" {
		genus = r.peek("genericName")
	}
	below := r.peek("infraspecificEpithet")
	if below != "" {
		term, rank := r.peek("verbatimTaxonRank"), strings.ToLower(r.peek("taxonRank"))
		if term == "" {
			term = rankTerms[rank]
			if term == "" && rank != "" && slices.Contains(slices.Collect(maps.Values(rankTerms)), rank) {
				term = rank
			}
			if term != "" {
				r.use("taxonRank")
			}
		} else {
			r.use("verbatimTaxonRank")
		}
		below = term + " " + below
	}
	return strings.Join(strings.Fields(genus+" "+r.peek("specificEpithet")+" "+below), " ")
}

// qualified writes the qualifier before the part of the name that it governs;
// the qualifier of the list of terms has both. A formula is no qualifier
// unless it doubts.
func qualified(r *inRow, name string) string {
	q := r.peek("identificationQualifier")
	if q == "" || name == "" {
		return name
	}
	word := strings.TrimPrefix(q, "A ")
	switch {
	case q == "A":
		r.use("identificationQualifier")
		return name
	case word == "?":
		r.use("identificationQualifier")
		return name + " ?"
	}
	head, governed, more := strings.Cut(word, " ")
	if more {
		if i := strings.Index(name, governed); i > 0 {
			r.use("identificationQualifier")
			return name[:i] + head + " " + name[i:]
		}
	}
	if doubt := strings.TrimSuffix(head, "."); (doubt == "cf" || doubt == "aff") && !more {
		r.use("identificationQualifier")
		if genus, rest, ok := strings.Cut(name, " "); ok {
			return genus + " " + head + " " + rest
		}
		return head + " " + name
	}
	return name // kept under import:
}

// takeNames writes the determinations: the rows of the extension in their
// order, then the core's own, unless it repeats one of them.
func (in *In) takeNames(m *making, core *inRow) {
	in.coreName(m, core)
	m.determinations()
}

// determinations writes the names in their order.
func (m *making) determinations() {
	for i, d := range m.dets {
		at := "determinations." + strconv.Itoa(i+1) + "."
		m.put(at+"name", d.name)
		m.put(at+"kind", d.kind)
		m.put(at+"by", orElse(d.by, "unsigned"))
		m.put(at+"date", orElse(d.date, "s.d."))
		m.put(at+"from", "list")
		m.put(at+"source", d.source)
		m.put(at+"why", d.why)
	}
}

// coreName compares the core's own identification with the others. What the
// core says of one that an extension has already is not said twice; cells of
// it that say anything else are kept.
func (in *In) coreName(m *making, core *inRow) {
	probe := newInRow(core.inColumns, core.cells)
	copy(probe.used, core.used)
	own := in.readName(&making{in: in, has: map[string]bool{}}, probe)
	m.dets = withName(m.dets)
	if own.name == "" {
		in.acceptedRow(m)
		return
	}
	for i := range m.dets {
		if repeats(own, m.dets[i]) {
			if !slices.ContainsFunc(m.dets, func(d inName) bool { return d.accepted }) {
				m.accepted = i + 1
			}
			in.useRepeated(core, m.dets[i])
			m.typeStatus(core, own)
			in.acceptedRow(m)
			return
		}
	}
	own = in.readName(m, core)
	m.dets = append(m.dets, own)
	m.accepted = len(m.dets)
	in.acceptedRow(m)
}

// withName leaves out rows without any name.
func withName(list []inName) []inName {
	return slices.DeleteFunc(list, func(d inName) bool { return d.name == "" })
}

// acceptedRow finds the row that is marked as accepted.
func (in *In) acceptedRow(m *making) {
	for i, d := range m.dets {
		if d.accepted {
			m.accepted = i + 1
			return
		}
	}
}

// repeats reports whether the core's identification is one of the history:
// the same name, and nobody else or another day named by it.
func repeats(core, row inName) bool {
	if core.scientific != row.scientific && canonical(core.name) != canonical(row.name) {
		return false
	}
	return (core.by == "" || core.by == row.by) && (core.date == "" || core.date == row.date)
}

// useRepeated marks the cells of the core that say what the row says.
func (in *In) useRepeated(core *inRow, row inName) {
	for term, words := range map[string]string{"identifiedBy": row.by, "dateIdentified": row.date, "identificationReferences": row.source, "identificationRemarks": row.why,
		"scientificName": row.name, "verbatimIdentification": row.name, "scientificNameAuthorship": row.name, "genus": row.name, "specificEpithet": row.name, "infraspecificEpithet": row.name} {
		if said := core.peek(term); said != "" && (said == words || words == row.name && strings.Contains(" "+words+" ", " "+said+" ")) {
			core.use(term)
		}
	}
	if core.peek("identificationQualifier") == "A" { // the formula of a name without doubt
		core.use("identificationQualifier")
	}
}

// typeStatus takes statements of type status that say of which name: "isotype
// of NAME. Publication" (the list of terms), or a status with typifiedName.
func (m *making) typeStatus(r *inRow, d inName) {
	words := r.peek("typeStatus")
	if words == "" {
		return
	}
	field, _ := ledger.FieldAt(ledger.RecordKind, "types.status")
	type statement struct{ status, of, published string }
	var all []statement
	for _, v := range Split(words) {
		s := statement{}
		var rest string
		s.status, rest, _ = strings.Cut(v, " of ")
		s.status = strings.ToLower(strings.TrimSpace(s.status))
		s.of, s.published = partPublication(strings.TrimSpace(rest), d.scientific, d.name)
		if s.of == "" {
			s.of = r.peek("typifiedName")
		}
		if !slices.Contains(field.Enum, s.status) || s.of == "" {
			return // kept to the letter
		}
		all = append(all, s)
	}
	r.use("typeStatus", "typifiedName")
	for _, s := range all {
		m.types++
		at := "types." + strconv.Itoa(m.types) + "."
		m.put(at+"status", s.status)
		m.put(at+"of", s.of)
		m.put(at+"published", s.published)
		m.put(at+"by", orElse(d.by, "unsigned"))
		m.put(at+"date", orElse(d.date, "s.d."))
	}
}

// partPublication parts a name from the publication behind it: at the last
// point up to which the words are a name, when figures follow. A name of the
// row goes before that, for the short title of a book looks like an author.
func partPublication(s string, known ...string) (name, published string) {
	if isName(s) {
		return s, ""
	}
	for _, name := range known {
		rest, ok := strings.CutPrefix(s, name)
		if rest = strings.TrimSpace(rest); ok && name != "" && strings.HasPrefix(rest, ".") {
			return name, strings.TrimSpace(rest[1:])
		}
		if ok && strings.HasSuffix(name, ".") && strings.ContainsAny(rest, "0123456789") { // one point for both
			return name, rest
		}
	}
	for i := strings.LastIndex(s, ". "); i > 0; i = strings.LastIndex(s[:i], ". ") {
		name, rest := s[:i], strings.TrimSpace(s[i+2:])
		if !strings.ContainsAny(rest, "0123456789") || !isName(name) {
			continue
		}
		if n, err := names.Read(name); err == nil && n.Authors != "" { // the point of an abbreviation
			name += "."
		}
		return name, rest
	}
	return s, ""
}

// isName reports whether words are a name and nothing more.
func isName(words string) bool {
	n, err := names.Read(words)
	return err == nil && n.Tail == "" && n.Note == "" && !strings.ContainsAny(words, "0123456789")
}

// fileAs writes which name holds by the archive, where the history by itself
// gives another.
func (in *In) fileAs(rec *ledger.Record, accepted int) {
	if accepted == 0 || accepted > len(rec.Determinations) || len(rec.Determinations) == 1 || rec.FiledUnder.Name.Set() {
		return
	}
	now := in.read.Opinions(rec).Chain.Current
	name := rec.Determinations[accepted-1].Name.Text
	if now == accepted-1 || now >= 0 && canonical(rec.Determinations[now].Name.Text) == canonical(name) {
		return
	}
	leaf := func(words string) ledger.Leaf { return ledger.Leaf{Text: words} }
	rec.FiledUnder = ledger.Filing{Name: leaf(name), By: leaf("unsigned"), Date: leaf("s.d."), Why: leaf("the name that holds by the archive")}
}
