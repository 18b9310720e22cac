package darwincore

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// named is one name in Darwin Core's parts.
type named struct {
	words         string
	scientific    string // with authors, without qualifiers, as the Code has it
	authors       string
	formula       string // what the words make of it: A, A cf., A or B
	qualifier     string
	genus         string
	epithet       string
	infraspecific string
	cultivar      string
	rank          string
	verbatimRank  string
	code          string // ICN, ICNCP
	family        string // by names/; "" when the name is in no list
	entry         *book.Name
	accepted      *book.Name
}

// wordCache remembers names and persons that many rows share.
type wordCache struct {
	names  map[string]*named
	orcids map[string]string
}

func newWordCache() *wordCache {
	return &wordCache{names: map[string]*named{}, orcids: map[string]string{}}
}

// remembered is how many names, and how many persons, are remembered at most.
const remembered = 1 << 14

// name reads the words of a determination.
func (d *Dataset) name(n reading.Name) *named {
	if x, ok := d.words.names[n.Words]; ok {
		return x
	}
	x := d.readName(n)
	if len(d.words.names) < remembered {
		d.words.names[n.Words] = x
	}
	return x
}

func (d *Dataset) readName(n reading.Name) *named {
	x := &named{words: n.Words}
	if !n.Readable {
		return x
	}
	r := &n.Read
	x.formula, x.qualifier = formulaOf(r), r.IdentificationQualifier()
	x.code = "ICN"
	if r.Cultivar != "" || r.Group != "" {
		x.code = "ICNCP"
	}
	if len(r.Or) > 0 { // no name of one taxon: what all have in common
		x.scientific, x.genus, x.qualifier = r.Firm(), r.Firm(), ""
		if x.genus != "" {
			x.rank = names.Genus.String()
		}
		return x
	}
	x.scientific, x.authors = r.ByCode(), r.Authorship()
	if len(r.Parents) == 0 { // the sign stands against the name, as in the examples of the list of terms
		x.scientific = closeSign.Replace(x.scientific)
	}
	if r.Cultivar != "" || r.Group != "" { // the authors are the species', not the cultivar's
		x.authors = ""
	}
	if x.authors != "" {
		x.scientific += " " + x.authors
	}
	x.parts(r)
	if len(n.Keys) == 1 {
		x.look(d.Museum, n.Keys[0])
	}
	return x
}

// closeSign sets the sign of a hybrid or a graft against its name.
var closeSign = strings.NewReplacer("× ", "×", "+ ", "+")

// graftOrHybrid is the sign before the genus of a name.
func graftOrHybrid(name string) string {
	if strings.HasPrefix(name, "+") {
		return "+"
	}
	return "×"
}

// parts fills in the parts of the name.
func (x *named) parts(r *names.Name) {
	x.genus, x.epithet, x.cultivar = r.Genus, r.Species, r.Cultivar
	if r.Rank != names.Unranked {
		x.rank = r.Rank.String()
	}
	if len(r.Parents) > 0 {
		x.rank, x.epithet = "", ""
		return
	}
	if r.GenusHybrid {
		x.genus = graftOrHybrid(x.scientific) + x.genus
	}
	if r.SpeciesHybrid {
		x.epithet = "×" + x.epithet
	}
	if k := len(r.Ranks); k > 0 && r.Species != "" {
		x.infraspecific, x.verbatimRank = r.Ranks[k-1].Epithet, r.Ranks[k-1].Marker
	}
}

// look joins what names/ says of the name.
func (x *named) look(m *book.Museum, key string) {
	x.entry = m.Names.Find(key)
	x.accepted = m.Names.Accepted(key)
	x.family = m.Names.FamilyOf(key)
}

// formulaOf is Darwin Core's taxonFormula of a name: how the words use it.
func formulaOf(n *names.Name) string {
	switch {
	case len(n.Or) > 0:
		return "A or B"
	case len(n.Parents) > 0:
		return "A x B"
	}
	for _, q := range n.Qualifiers {
		if !q.Doubt {
			continue
		}
		switch {
		case strings.HasPrefix(q.Word, "aff"):
			return "A aff."
		case strings.HasPrefix(q.Word, "cf"):
			return "A cf."
		}
		return "A ?"
	}
	return "A"
}

// family is the family of the name; of one that is in no list, what the
// record says.
func (x *named) familyOr(written ledger.Leaf) string {
	if x.family != "" {
		return x.family
	}
	return written.Text
}

// identified is the name that holds now and the opinion behind it.
type identified struct {
	*named
	at int // the determination whose words they are; -1: none
	by *reading.Opinion
}

// now is the current name.
func (s *Sheet) now() *identified {
	if s.current == nil {
		n, at := s.Reading.Current()
		s.current = &identified{named: s.name(n), at: at}
		if o := s.Reading.Chain.Opinion; o >= 0 && at >= 0 {
			s.current.by = &s.Reading.Opinions[o]
		}
	}
	return s.current
}

// acceptedName is the accepted name of a synonym, as names/ has it.
func (x *named) acceptedName() string {
	if x.accepted == nil {
		return ""
	}
	return x.accepted.Given.Name.Text
}

// status is accepted or synonym, of a name that names/ has.
func (x *named) status() string {
	switch {
	case x.entry == nil:
		return ""
	case x.entry.Given.Of.Set():
		return "synonym"
	}
	return "accepted"
}

// fromList is a field of the name's entry in names/; "" when it has none.
func (x *named) fromList(field func(*ledger.NameEntry) ledger.Leaf) string {
	if x.entry == nil {
		return ""
	}
	return field(x.entry.Given).Text
}

// formulaFor is the taxonFormula of a determination: what kind it is counts
// first.
func formulaFor(x *named, k opinion.Kind) string {
	if x.formula == "" {
		return ""
	}
	if k == opinion.Not {
		return "not A"
	}
	return x.formula
}

// orcids are the addresses of the ORCID iDs of the persons that words name, as
// people.yaml has them.
func (d *Dataset) orcidsOf(words string) string {
	if words == "" {
		return ""
	}
	if s, ok := d.words.orcids[words]; ok {
		return s
	}
	var list []string
	for _, p := range d.Museum.People.FindAll(words) {
		if p != nil && p.ORCID.Set() {
			list = append(list, "https://orcid.org/"+p.ORCID.Text)
		}
	}
	s := Join(list)
	if len(d.words.orcids) < remembered {
		d.words.orcids[words] = s
	}
	return s
}
