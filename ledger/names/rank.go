package names

import "strings"

// Rank is a rank of the Code (Art. 3, 4), from the highest to the lowest.
type Rank uint8

const (
	Unranked Rank = iota
	Division
	Subdivision
	Class
	Subclass
	Order
	Suborder
	Family
	Subfamily
	Tribe
	Subtribe
	Genus
	Subgenus
	Section
	Subsection
	Series
	Subseries
	Aggregate // no rank of the Code: a group of near species
	Species
	Subspecies
	Convariety // not of the Code: of cultivated plants
	Variety
	Subvariety
	Form
	Subform
	Infraspecific // below species, rank not one of the Code's or not stated
	CultivarRank  // of the cultivated-plant code (ICNCP)
)

var rankNames = [...]string{"unranked", "division", "subdivision", "class", "subclass", "order", "suborder", "family",
	"subfamily", "tribe", "subtribe", "genus", "subgenus", "section", "subsection", "series", "subseries", "aggregate",
	"species", "subspecies", "convariety", "variety", "subvariety", "form", "subform", "infraspecific", "cultivar"}

// String is the rank in lower-case English, as Darwin Core's taxonRank has it.
func (r Rank) String() string {
	if int(r) < len(rankNames) {
		return rankNames[r]
	}
	return "unranked"
}

// marker is a rank term as it may be written and as it is set.
type marker struct {
	rank Rank
	set  string // normal spelling
}

// markers are the rank terms met on labels, without final dot and in lower
// case. Abbreviations of the Code: Art. 5A; the others are common practice,
// no source.
var markers = map[string]marker{
	"subsp": {Subspecies, "subsp."}, "ssp": {Subspecies, "subsp."}, "subspec": {Subspecies, "subsp."}, "subspecies": {Subspecies, "subsp."},
	"var": {Variety, "var."}, "variety": {Variety, "var."}, "varietas": {Variety, "var."}, "v": {Variety, "var."},
	"subvar": {Subvariety, "subvar."}, "subvarietas": {Subvariety, "subvar."},
	"f": {Form, "f."}, "fo": {Form, "f."}, "fm": {Form, "f."}, "fma": {Form, "f."}, "form": {Form, "f."}, "forma": {Form, "f."},
	"subf": {Subform, "subf."}, "subfo": {Subform, "subf."}, "subforma": {Subform, "subf."},
	"fa": {Form, "f."}, "convar": {Convariety, "convar."}, "provar": {Infraspecific, "provar."}, "conv": {Convariety, "convar."},
	"prol": {Infraspecific, "prol."}, "proles": {Infraspecific, "prol."}, "st": {Infraspecific, "st."}, "stirps": {Infraspecific, "st."},
	"race": {Infraspecific, "race"}, "lusus": {Infraspecific, "lusus"}, "lus": {Infraspecific, "lusus"}, "sublusus": {Infraspecific, "sublusus"},
	"mut": {Infraspecific, "mut."}, "m": {Infraspecific, "m."}, "modif": {Infraspecific, "modif."}, "natio": {Infraspecific, "natio"}, "pseudovar": {Infraspecific, "pseudovar."}, "subprol": {Infraspecific, "subprol."},
	"f.sp": {Infraspecific, "f.sp."}, "t.infr": {Infraspecific, "t.infr."}, "infrasp": {Infraspecific, "infrasp."}, "infraspec": {Infraspecific, "infrasp."}, "infrasp.unranked": {Infraspecific, "unr."},
	"sspec": {Subspecies, "subsp."}, "subs": {Subspecies, "subsp."}, "sub-sp": {Subspecies, "subsp."}, "s.sp": {Subspecies, "subsp."}, "convariety": {Convariety, "convar."}, "convarietas": {Convariety, "convar."},
	"subspp": {Subspecies, "subsp."}, "sbsp": {Subspecies, "subsp."}, "ssubsp": {Subspecies, "subsp."}, "varr": {Variety, "var."}, "monstr": {Infraspecific, "monstr."}, "morph": {Infraspecific, "morph."},
	"ab": {Infraspecific, "ab."}, "nat": {Infraspecific, "nat"}, "agamosp": {Infraspecific, "agamosp."}, "agamossp": {Infraspecific, "agamossp."},
	"agamovar": {Infraspecific, "agamovar."}, "unr": {Infraspecific, "unr."}, "unranked": {Infraspecific, "unr."}, "*": {Infraspecific, "*"}, "**": {Infraspecific, "*"},
	"nothosubspecies": {Subspecies, "nothosubsp."}, "nothovarietas": {Variety, "nothovar."}, "nvarietas": {Variety, "nothovar."}, "n-subsp": {Subspecies, "nothosubsp."}, "n-var": {Variety, "nothovar."},
	"nothosubsp": {Subspecies, "nothosubsp."}, "nothossp": {Subspecies, "nothosubsp."}, "nsubsp": {Subspecies, "nothosubsp."}, "nssp": {Subspecies, "nothosubsp."},
	"nothovar": {Variety, "nothovar."}, "nvar": {Variety, "nothovar."}, "nothof": {Form, "nothof."}, "nothoforma": {Form, "nothof."}, "nf": {Form, "nothof."},
	"nothomorph": {Infraspecific, "nothomorph."}, "nm": {Infraspecific, "nothomorph."},
	"subg": {Subgenus, "subg."}, "subgen": {Subgenus, "subg."}, "subgenus": {Subgenus, "subg."}, "nothosubg": {Subgenus, "nothosubg."}, "nothosubgen": {Subgenus, "nothosubg."},
	"sect": {Section, "sect."}, "sectio": {Section, "sect."}, "section": {Section, "sect."}, "nothosect": {Section, "nothosect."},
	"subsect": {Subsection, "subsect."}, "subsectio": {Subsection, "subsect."},
	"subfam": {Subfamily, "subfam."}, "trib": {Tribe, "trib."}, "tr": {Tribe, "trib."}, "subtrib": {Subtribe, "subtrib."}, "subtr": {Subtribe, "subtrib."},
	"superser": {Series, "superser."}, "supersect": {Section, "supersect."}, "div": {Section, "div."}, "nothosubsect": {Subsection, "nothosubsect."}, "tribus": {Tribe, "trib."}, "subtribus": {Subtribe, "subtrib."}, "subfamily": {Subfamily, "subfam."}, "subfamilia": {Subfamily, "subfam."}, "tribe": {Tribe, "trib."}, "subtribe": {Subtribe, "subtrib."},
	"supertrib": {Tribe, "supertrib."}, "pv": {Infraspecific, "pv."}, "pathovar": {Infraspecific, "pv."},
	"ser": {Series, "ser."}, "series": {Series, "ser."}, "nothoser": {Series, "nothoser."}, "subser": {Subseries, "subser."},
}

// infrageneric reports whether names of the rank stand above species and
// begin with a capital (Art. 21; 19 for those between family and genus).
func (r Rank) infrageneric() bool { return r >= Subfamily && r <= Subseries }

// familyNames are the family names that the Code allows beside those in
// -aceae (Art. 18.5, 18.6).
var familyNames = map[string]string{
	"Compositae": "Asteraceae", "Cruciferae": "Brassicaceae", "Gramineae": "Poaceae", "Guttiferae": "Clusiaceae",
	"Labiatae": "Lamiaceae", "Leguminosae": "Fabaceae", "Palmae": "Arecaceae", "Umbelliferae": "Apiaceae",
	"Papilionaceae": "Fabaceae",
}

// FamilyByType is the name in -aceae of a family that has two names (Art.
// 18.5): Compositae gives Asteraceae. Any other name is returned as it is.
func FamilyByType(family string) string {
	if f, ok := familyNames[family]; ok {
		return f
	}
	return family
}

// rankEndings give the rank of a name of one word (Art. 16 to 19).
var rankEndings = []struct {
	ending string
	rank   Rank
}{
	{"aceae", Family}, {"oideae", Subfamily}, {"ineae", Suborder}, {"inae", Subtribe}, {"eae", Tribe}, {"ales", Order},
	{"phytina", Subdivision}, {"mycotina", Subdivision}, {"phyta", Division}, {"mycota", Division},
	{"opsida", Class}, {"phyceae", Class}, {"mycetes", Class}, {"phycidae", Subclass}, {"idae", Subclass},
}

// rankOfWord is the rank of a name of one word by its ending.
func rankOfWord(w string) Rank {
	if _, ok := familyNames[w]; ok {
		return Family
	}
	if strings.HasSuffix(w, "phyceae") {
		return Class
	}
	for _, e := range rankEndings {
		if len(w) > len(e.ending)+1 && strings.HasSuffix(w, e.ending) {
			return e.rank
		}
	}
	return Genus
}
