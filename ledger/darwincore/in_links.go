package darwincore

import (
	"strconv"
	"strings"

	"blotter/ledger"
)

// image takes one row of the simple or the audiovisual multimedia extension as
// a link.
func (m *making) image(r *inRow) {
	file := r.first("accessURI", "identifier", "goodQualityAccessURI", "references", "furtherInformationURL", "title")
	if file == "" {
		return
	}
	m.images++
	at := "images." + strconv.Itoa(m.images) + "."
	m.put(at+"file", file)
	m.put(at+"shows", r.first("description", "caption", "title", "subjectCategoryVocabulary"))
	m.put(at+"photographer", r.first("creator", "photographer"))
	m.put(at+"date", r.first("created", "CreateDate"))
	m.put(at+"licence", r.first("license", "UsageTerms", "WebStatement", "rights"))
}

// media takes the addresses of the core that no row of an extension has.
func (m *making) media(cell string, core *inRow) {
	for _, address := range Split(cell) {
		if !strings.Contains(address, "://") {
			return // kept to the letter
		}
	}
	for _, address := range Split(cell) {
		if m.pictured(address) {
			continue
		}
		m.images++
		m.put("images."+strconv.Itoa(m.images)+".file", address)
	}
	core.use("associatedMedia")
}

func (m *making) pictured(address string) bool {
	for _, kv := range m.list {
		if kv.Value == address && strings.HasPrefix(kv.Key, "images.") {
			return true
		}
	}
	return false
}

// relation takes a duplicate elsewhere, or a sheet of this ledger from the
// same gathering; other relations are kept to the letter.
func (m *making) relation(r *inRow) {
	what := strings.ToLower(r.peek("relationshipOfResource"))
	other := r.peek("relatedResourceID")
	switch {
	case strings.Contains(what, "duplicate"):
		r.use("relationshipOfResource", "relatedResourceID")
		m.dups++
		at := "duplicates." + strconv.Itoa(m.dups) + "."
		m.put(at+"number", other)
		m.put(at+"date", r.take("relationshipEstablishedDate"))
		if other == "" {
			m.put(at+"made", "1")
		}
	case strings.Contains(what, "same gathering") && m.in.bearsPrefix(other):
		r.use("relationshipOfResource", "relatedResourceID")
		m.put("same_gathering", other)
	}
}

// measurement takes one measurement or fact: into its field when it is one of
// Facts, else under import: by its type.
func (m *making) measurement(r *inRow, n int) {
	what := r.peek("measurementType")
	words := strings.TrimSpace(r.peek("measurementValue") + " " + r.peek("measurementUnit"))
	if what == "" || words == "" {
		return
	}
	r.use("measurementType", "measurementValue", "measurementUnit")
	for _, f := range Facts {
		if f.Type == what && !m.has[f.Path] {
			m.put(f.Path, words)
			return
		}
	}
	m.keep(ordinal("measurement", n)+what, words)
}

// importOf reports whether a path lies under import:.
func importOf(kv ledger.KV) bool { return strings.HasPrefix(kv.Key, "import.") }
