package people

import "strings"

// isBody reports whether the words name a museum, expedition or the like and
// no person: they hold a word of bodies, or two of the words that may also be
// family names, and no initials.
func isBody(words []string) bool {
	sure, maybe, called := 0, 0, false
	for i, w := range words {
		switch {
		case i == 0 && strings.Contains(w, ".") && isInitials(strings.TrimRight(w, ",")) && !countries[w]:
			called = true // after a person: "A. Garden", "A.C. Twomey Expedition"
		case len(w) < 3:
		case called && has(expeditions, w, ",.:"):
		case has(institutions, w, ",.:"):
			sure++
		case has(maybeInstitutions, w, ",.:"):
			maybe++
		}
	}
	if called {
		return sure > 0
	}
	return sure > 0 && len(words) > 1 || maybe > 1 || sure+maybe > 0 && len(words) > 2 && hasWord(words, "of") || sure > 0 && has(alwaysBodies, words[0], "")
}

func hasWord(words []string, want string) bool {
	for _, w := range words {
		if w == want {
			return true
		}
	}
	return false
}

// countries are initials that are no person's.
var countries = wordSet("U.S. U.S U. U.K. N.Z. U.S.A. U.S.D.A. U.S.G.S. S.A. E.U.")

// expeditions are words of bodies that stand behind a person's name.
var expeditions = wordSet("expedition expeditie expedicion expedicao exped")

// institutions are words of bodies.
var institutions = wordSet("association asociacion associacao associazione forening foreningen selskap selskab sallskap univ museum museums museo musee museu university universitet universitetet universidad universidade universite universitat herbarium herbario herbier institute institut institutt " +
	"instituto istituto department dept departamento society societe sociedad gesellschaft verein club survey academy academia akademie expedition expeditie expedicion expedicao " +
	"exped project proyecto projeto program programme programa botany students ministry commission conservancy foundation laboratory laboratorio nursery collections consortium " +
	"arboretum smithsonian unesco usda usgs bioblitz volunteers staff participants members trip excursion workshop course ekskursjon kurs studenter elever")

// maybeInstitutions are words of bodies that are family names or given names
// as well.
var maybeInstitutions = wordSet("garden gardens botanic botanical bot gard forest forestry flora station college school service class team group mission national natural history park research field " +
	"state jardin botanico botanique hortus biological biology science sciences party")

// alwaysBodies name a body even alone.
var alwaysBodies = wordSet("students volunteers staff expedition bioblitz participants members studenter")
