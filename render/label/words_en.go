package label

var english = Language{
	Code: "en",
	Det:  "det.", Conf: "conf.", NotThis: "not", As: "as", Indet: "indet.", DuplicateOf: "Duplicate of {1}", Duplicate: "Duplicate", Draft: "DRAFT",
	With: "with", Associates: "with", On: "on", Depth: "depth", PlantsSeen: "{1} plants seen", PlantsTaken: "{1} taken",
	Cultivated: "cult.", Escaped: "escaped from cultivation", Planted: "planted", OriginFrom: "origin:",
	Permit: "permit", Project: "project", Fieldbook: "field book {1}, p. {2}", FieldbookVol: "field book {1}", FieldbookPag: "field book, p. {1}", NumberWord: "no.",
	SheetOf: "Sheet {1} of {2}", PartOf: "label {1} of {2}",
	Caution:          "CAUTION:",
	TreatedAssumed:   "by its age probably treated with poison: may carry mercury or arsenic",
	TreatedPerhaps:   "perhaps treated with poison: may carry mercury or arsenic",
	NotToBePublished: "exact place not to be published",
	Transcript:       "Transcript of the label", TranscriptOf: "Transcript of the label of {1}", TypedBy: "typed by {1}, {2}", TypedIn: "typed {1}",
	Phenology:   map[string]string{"bud": "in bud", "flower": "in flower", "fruit": "in fruit", "seed": "in seed", "cones": "with cones", "spores": "with spores", "capsules": "with capsules", "sterile": "sterile"},
	Abundance:   map[string]string{"rare": "rare", "occasional": "occasional", "frequent": "frequent", "common": "common", "abundant": "abundant", "dominant": "dominant"},
	ElevationBy: map[string]string{"map": "map", "gps": "GPS", "altimeter": "altimeter", "model": "terrain model", "label": "label"},
	Cautions: map[string]string{
		"toxic":            "toxic",
		"spiny":            "spiny",
		"treated, tested":  "treated with poison (tested): may carry mercury or arsenic",
		"treated, stamped": "treated with poison (so stamped): may carry mercury or arsenic",
		"treated, assumed": "assumed to be treated with poison: may carry mercury or arsenic",
	},
}

// latin is the language of old labels, for museums that keep to it; its newer words
// (GPS, the cautions) are our own.
var latin = Language{
	Code: "la",
	Det:  "det.", Conf: "conf.", NotThis: "non", As: "ut", Indet: "indet.", DuplicateOf: "Duplum ex {1}", Duplicate: "Duplum", Draft: "SCHEDULA NONDUM PERFECTA",
	With: "cum", Associates: "cum", On: "in", Depth: "profunditas", PlantsSeen: "plantae visae {1}", PlantsTaken: "collectae {1}",
	Cultivated: "cult.", Escaped: "e cultura elapsa", Planted: "plantata", OriginFrom: "origo:",
	Permit: "licentia", Project: "inceptum", Fieldbook: "liber itineris {1}, p. {2}", FieldbookVol: "liber itineris {1}", FieldbookPag: "liber itineris, p. {1}", NumberWord: "no.",
	SheetOf: "Plagula {1} ex {2}", PartOf: "schedula {1} ex {2}",
	Caution:          "CAVE:",
	TreatedAssumed:   "ob aetatem verisimiliter veneno tractata: hydrargyrum vel arsenicum continere potest",
	TreatedPerhaps:   "fortasse veneno tractata: hydrargyrum vel arsenicum continere potest",
	NotToBePublished: "locus exactus non publicandus",
	Transcript:       "Exemplum schedulae", TranscriptOf: "Exemplum schedulae anni {1}", TypedBy: "scripsit {1}, {2}", TypedIn: "scriptum {1}",
	Phenology:   map[string]string{"bud": "cum alabastris", "flower": "florens", "fruit": "fructifera", "seed": "cum seminibus", "cones": "cum strobilis", "spores": "cum sporis", "capsules": "cum capsulis", "sterile": "sterilis"},
	Abundance:   map[string]string{"rare": "rara", "occasional": "sparsa", "frequent": "frequens", "common": "vulgaris", "abundant": "abundans", "dominant": "dominans"},
	ElevationBy: map[string]string{"map": "tabula", "gps": "GPS", "altimeter": "altimetrum", "model": "exemplar terrae", "label": "schedula"},
	Cautions: map[string]string{
		"toxic":            "venenosa",
		"spiny":            "spinosa",
		"treated, tested":  "veneno tractata (probatum): hydrargyrum vel arsenicum continere potest",
		"treated, stamped": "veneno tractata (sigillo notata): hydrargyrum vel arsenicum continere potest",
		"treated, assumed": "veneno tractata putatur: hydrargyrum vel arsenicum continere potest",
	},
}
