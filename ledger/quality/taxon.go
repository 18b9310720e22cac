package quality

import (
	"strings"
	"unicode"

	"blotter/ledger/names"
)

// foundByService makes a test that asks the taxonomic service about one term.
func foundByService(t Term) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		return noService(in)
	}
}

// noService says that the service that would know is not asked.
func noService(in *input) Response {
	name := in.test.Authority.Name
	if given := in.parameter(bdqSourceAuthority); given != "" {
		name = given
	}
	return external("needs the taxonomic service " + name + ", which is not asked")
}

// anyByService makes a test that asks the service about several terms, of
// which one must say something.
func anyByService(terms []Term) func(*input) Response {
	return func(in *input) Response {
		if allEmpty(in, terms) {
			return internal("nothing says which taxon is meant")
		}
		return noService(in)
	}
}

// nameTerms are the terms that can hold a name by themselves.
var nameTerms = []Term{dwcScientificName, dwcGenericName, dwcSpecificEpithet, dwcInfraspecificEpithet, dwcScientificNameAuthorship, dwcCultivarEpithet}

// higherTaxa are the ranks from kingdom to genus.
var higherTaxa = []Term{dwcKingdom, dwcPhylum, dwcClass, dwcOrder, dwcSuperfamily, dwcFamily, dwcSubfamily, dwcTribe, dwcSubtribe, dwcGenus}

// nameIDFromTaxon would ask the service for the identifier of a name.
func nameIDFromTaxon(in *input) Response {
	if !in.empty(dwcScientificNameID) {
		return internal("dwc:scientificNameID is not empty")
	}
	return anyByService(nameTerms)(in)
}

// nameFromID would ask the service for the name of an identifier.
func nameFromID(in *input) Response {
	switch {
	case !in.empty(dwcScientificName):
		return internal("dwc:scientificName is not empty")
	case in.empty(dwcScientificNameID):
		return internal("dwc:scientificNameID is empty")
	}
	return noService(in)
}

// polynomialConsistent asks whether genericName, specificEpithet and
// infraspecificEpithet are those of scientificName.
func polynomialConsistent(in *input) Response {
	if in.empty(dwcScientificName) {
		return internal("dwc:scientificName is empty")
	}
	parts := []Term{dwcGenericName, dwcSpecificEpithet, dwcInfraspecificEpithet}
	if allEmpty(in, parts) {
		return internal("no part of the name stands by itself")
	}
	words := polynomial(in.value(dwcScientificName))
	var odd []string
	for i, t := range parts {
		if !in.empty(t) && !samePart(in.value(t), words[i]) {
			odd = append(odd, t.String())
		}
	}
	return complies(len(odd) == 0, "the parts are those of dwc:scientificName", "not as in dwc:scientificName: "+strings.Join(odd, ", "))
}

// marks stand before a part and do not belong to it: hybrid signs, the dagger
// of a fossil.
var marks = strings.NewReplacer("×", "", "✕", "", "†", "")

func samePart(a, b string) bool {
	if a == b {
		return true
	}
	fold := func(s string) string { return strings.ToLower(strings.TrimSpace(marks.Replace(trim(s)))) }
	return fold(a) == fold(b)
}

// polynomial is the genus, the species epithet and the lowest infraspecific
// epithet of a name, each perhaps empty. A name that the reader of botanical
// names refuses (an animal's, a strange rank term) is taken apart by its
// words.
func polynomial(name string) [3]string {
	n, err := names.Read(name)
	if err == nil && n.Genus != "" && len(n.Parents)+len(n.Or) == 0 {
		p := [3]string{n.Genus, n.Species, ""}
		for _, r := range n.Ranks {
			if n.Species != "" && r.Epithet != "" {
				p[2] = r.Epithet
			}
		}
		if w := polynomialByWords(name); p[2] == "" && w[0] == p[0] && w[1] == p[1] {
			p[2] = w[2] // ssp. Aff. physocarpa: the reader leaves open what is only near
		}
		return p
	}
	return polynomialByWords(name)
}

// polynomialByWords takes the first word for the genus, the next word in small
// letters for the species, and the last such word after it for what lies
// below, leaving out rank terms, doubts and a subgenus in brackets. Authors
// begin with a capital or a bracket; small words among them (de, van, ex) are
// passed by.
func polynomialByWords(name string) [3]string {
	var p [3]string
	bracket, author := 0, false
	for i, w := range strings.Fields(name) {
		inside := bracket > 0 || strings.HasPrefix(w, "(")
		bracket += strings.Count(w, "(") - strings.Count(w, ")")
		w = strings.Trim(w, ",;×")
		switch {
		case i == 0 || p[0] == "":
			p[0] = w
		case inside || passed[strings.ToLower(strings.TrimRight(w, "."))] || strings.ContainsAny(w, "?&.") || w == "":
			if rankWords[strings.ToLower(strings.TrimRight(w, "."))] {
				author = false
			}
		case unicode.IsUpper(firstRune(w)):
			author = true
		case author || !smallLetters(w):
		case p[1] == "":
			p[1] = w
		default:
			p[2] = w
		}
	}
	return p
}

// passed are small words of a name that are no epithet.
var passed = wordSet("cf aff nr near sp spp ex in et and de del van von der den da di la le du s str l lat sensu auct non nec subsp ssp var subvar f fo forma form subf subforma cv convar nothosubsp nothovar")

// rankWords stand before an epithet.
var rankWords = wordSet("subsp ssp var subvar f fo forma form subf subforma convar nothosubsp nothovar")

func wordSet(words string) map[string]bool {
	m := map[string]bool{}
	for w := range strings.FieldsSeq(words) {
		m[w] = true
	}
	return m
}

func firstRune(s string) rune {
	for _, c := range s {
		return c
	}
	return 0
}

func smallLetters(w string) bool {
	return !strings.ContainsFunc(w, func(c rune) bool { return !unicode.IsLower(c) && c != '-' })
}
