package field

import "blotter/ledger"

// Question is one thing that the form asks.
type Question struct {
	Key  string // in English, as it stands on paper and before the colon: "scent"
	Path string // of the field that the answer fills
	Join bool   // the answer joins others in its field, behind the question's word
	Once bool   // asked once for all gatherings of a page or a file
	// Drying marks what nobody can tell any more once the plant is dry and away
	// from its place; these stand in a frame of their own.
	Drying bool
	Ticks  []Tick // words to be ticked on paper

	room  float64 // at least so many millimetres to write in
	grow  float64 // its share of what room is left in a line
	long  bool    // takes lines of its own, and more of them where the page has them
	first bool    // stands in the line of the number
	title bool    // stands beside the museum's name
}

// Tick is a word that the form offers.
type Tick struct {
	Is   string // the field's own word, which the record gets
	Says string // in English, as the form says it
}

// NamePath is the path of a plant's name: it becomes an opinion.
const NamePath = "determinations.name"

// MadePath is the path of how many duplicates were made: it becomes an entry.
const MadePath = "duplicates.made"

// questions in the order of the form: who; place from large to small; what
// dries away; what was taken. What is asked is what the trade asks of a field
// record (FLAS, FWBG, ARIZ, KEW15: trade brief of the project, section 2);
// order, room and layout are our own.
var questions = []Question{
	{Key: "field book", Path: "fieldbook.volume", Once: true, title: true, room: 12},
	{Key: "page", Path: "fieldbook.page", Once: true, title: true, room: 10},
	{Key: "collector", Path: "collector", Once: true, room: 38, grow: 2},
	{Key: "with", Path: "with", Once: true, room: 28, grow: 2},
	{Key: "permit", Path: "permit", Once: true, room: 22, grow: 1},
	{Key: "project", Path: "project", Once: true, room: 18, grow: 1},

	{Key: "number", Path: "coll_no", first: true, room: 22},
	{Key: "date", Path: "date", first: true, room: 24, grow: 1},
	{Key: "name", Path: NamePath, first: true, room: 40, grow: 3},
	{Key: "country", Path: "place.country", room: 20, grow: 1},
	{Key: "province", Path: "place.province", room: 22, grow: 1},
	{Key: "district", Path: "place.district", room: 22, grow: 1},
	{Key: "locality", Path: "place.locality", long: true, room: 100},
	{Key: "position", Path: "place.position", room: 45, grow: 1},
	{Key: "datum", Path: "place.datum", room: 14},
	{Key: "accuracy", Path: "place.gps_accuracy", room: 12},
	{Key: "elevation", Path: "place.elevation", room: 17, grow: 1},
	{Key: "elevation by", Path: "place.elevation_by", Ticks: []Tick{{"gps", "GPS"}, {"altimeter", "altimeter"}, {"map", "map"}}},
	{Key: "origin", Path: "origin", Ticks: []Tick{{"wild", "wild"}, {"planted", "planted"}, {"escaped", "escaped"}, {"cultivated", "cultivated"}}},
	{Key: "substrate", Path: "substrate", room: 26, grow: 1},
	{Key: "habitat", Path: "habitat", long: true, room: 80, grow: 2},
	{Key: "associates", Path: "associates", long: true, room: 80, grow: 1},

	{Key: "height", Path: "description", Join: true, Drying: true, room: 20, grow: 1},
	{Key: "trunk girth", Path: "description", Join: true, Drying: true, room: 20, grow: 1},
	{Key: "scent", Path: "description", Join: true, Drying: true, room: 22, grow: 1},
	{Key: "colours", Path: "description", Join: true, Drying: true, long: true, room: 90},
	{Key: "latex", Path: "description", Join: true, Drying: true, room: 20, grow: 1},
	{Key: "nectar", Path: "description", Join: true, Drying: true, room: 18, grow: 1},
	{Key: "texture", Path: "description", Join: true, Drying: true, room: 22, grow: 1},
	{Key: "abundance", Path: "abundance", Drying: true, Ticks: []Tick{{"rare", "rare"}, {"occasional", "occasional"}, {"frequent", "frequent"}, {"common", "common"}}},
	{Key: "plants seen", Path: "population", Drying: true, room: 12, grow: 1},
	{Key: "plants taken", Path: "taken", Drying: true, room: 10, grow: 1},

	{Key: "phenology", Path: "phenology", Ticks: []Tick{{"bud", "bud"}, {"flower", "flower"}, {"fruit", "fruit"}, {"seed", "seed"}, {"spores", "spores"}, {"sterile", "sterile"}}},
	{Key: "cautions", Path: "cautions", Ticks: []Tick{{"toxic", "toxic sap"}, {"spiny", "spines"}, {"stinging", "stinging"}}},
	{Key: "description", Path: "description", Join: true, long: true, room: 90},
	{Key: "photos", Path: "remarks", Join: true, room: 22, grow: 2},
	{Key: "tissue in silica", Path: "remarks", Join: true, room: 12, grow: 1},
	{Key: "in spirit", Path: "remarks", Join: true, room: 12, grow: 1},
	{Key: "duplicates made", Path: MadePath, room: 7},
	{Key: "remarks", Path: "remarks", Join: true, room: 24, grow: 3},
}

// Questions are all questions of the form, in its order.
func Questions() []Question { return append([]Question(nil), questions...) }

// leads marks the question of a joined field whose answer stands first and
// without its word: the field is called so itself.
func (q *Question) leads() bool { return q.Join && q.Key == q.Path }

// list reports whether the field holds a list of words.
func (q *Question) list() bool {
	f, _ := ledger.FieldAt(ledger.RecordKind, q.Path)
	return f.Kind == ledger.Texts
}
