package places

import "strings"

// Unit is a unit of length as written.
type Unit uint8

const (
	NoUnit Unit = iota // none written; the figure is taken as metres, with a warning
	Metre
	Foot
	Kilometre
	Mile
	Yard
	Fathom
	Centimetre
	NauticalMile
	Millimetre
	Decimetre
	Verst
	Mil     // the Scandinavian mil of 10 km
	Pied    // French foot
	Fuss    // a German, Austrian or Swiss foot
	Fot     // a Danish, Norwegian or Swedish foot
	Brasse  // French fathom
	Faden   // German fathom
	Favn    // Danish and Norwegian fathom
	Famn    // Swedish fathom
	Klafter // Austrian, German or Swiss fathom
	Toise   // six French feet
	Pie     // Spanish or Portuguese for a foot
)

// measure is what one of a unit is in metres, and by how much another measure
// of the same name differs from it.
type measure struct {
	sign           string
	metres, spread float64
	which          string // for an old unit: whose it is taken to be
}

// measures. International foot 0.3048 m, yard 0.9144 m, mile 1609.344 m
// (exact, yard and pound agreement of 1959), fathom six feet, nautical mile
// 1852 m. Old measures by the database of GNU Units 3.15: French foot
// 144/443.296 m, toise six of them; Austrian Klafter 1.89648384 m, Prussian
// 1.88, Bavarian 1.751155, Swiss 1.8, and the foot a sixth of each; Swedish
// fot 0.296901 m, famn 1.781406; verst 1066.8 m. From memory: Norwegian and
// Danish fot 0.3137 and 0.3139 m and favn of six of them, brasse five French feet
// (1.624 m) or the nautical fathom, Faden six English or Prussian feet, mil
// 10 km since the metre came in. The spread reaches the furthest other measure
// of the name, the international foot among them.
var measures = [...]measure{
	NoUnit:       {"", 1, 0, ""},
	Metre:        {"m", 1, 0, ""},
	Foot:         {"ft", 0.3048, 0, ""},
	Kilometre:    {"km", 1000, 0, ""},
	Mile:         {"mi", 1609.344, 0, ""},
	Yard:         {"yd", 0.9144, 0, ""},
	Fathom:       {"fathoms", 1.8288, 0, ""},
	Centimetre:   {"cm", 0.01, 0, ""},
	NauticalMile: {"nautical miles", 1852, 0, ""},
	Millimetre:   {"mm", 0.001, 0, ""},
	Decimetre:    {"dm", 0.1, 0, ""},
	Verst:        {"verst", 1066.8, 0, ""},
	Mil:          {"mil", 10000, 1300, "the mil of 10 km; older ones are longer"},
	Pied:         {"pieds", 144 / 443.296, 144/443.296 - 0.3048, "the French foot of 0.325 m"},
	Fuss:         {"Fuss", 1.89648384 / 6, 1.89648384/6 - 1.751155/6, "the Austrian foot of 0.316 m; others are 0.292 to 0.314 m"},
	Fot:          {"fot", 0.31374, 0.31374 - 0.296901, "the Norwegian foot of 0.314 m; the Swedish is 0.297 m"},
	Brasse:       {"brasses", 5 * 144 / 443.296, 1.8288 - 5*144/443.296, "the French brasse of 1.62 m"},
	Faden:        {"Faden", 1.8288, 0.06, "the nautical Faden of 1.83 m"},
	Favn:         {"favner", 6 * 0.31374, 6*0.31374 - 1.8288, "the Norwegian favn of 1.88 m"},
	Famn:         {"famnar", 1.781406, 1.8288 - 1.781406, "the Swedish famn of 1.78 m"},
	Klafter:      {"Klafter", 1.89648384, 1.89648384 - 1.751155, "the Austrian Klafter of 1.90 m; others are 1.75 to 1.88 m"},
	Pie:          {"pies", 0.3048, 0.33 - 0.3048, "the English foot of 0.305 m; the Castilian is 0.279 m and the Portuguese 0.330 m"},
	Toise:        {"toises", 6 * 144 / 443.296, 0.01, "the French toise of 1.95 m"},
}

// String is the unit's sign.
func (u Unit) String() string { return measures[u].sign }

// Metres is the length of one of the unit in metres; 1 for NoUnit.
func (u Unit) Metres() float64 { return measures[u].metres }

var lengthUnits = units(map[Unit]string{
	Metre: "m metre metres meter meters metern mtr mtrs mt mts ms metro metros metri mètre mètres м",
	Foot:  "ft fts feet foot f", Kilometre: "km kms k kilometre kilometres kilometer kilometers kilomètre kilomètres kilómetro kilómetros quilômetros chilometri км",
	Mile: "mi mile miles mls milla millas milha milhas", Yard: "yd yds yard yards",
	Fathom: "fm fathom fathoms fms fath ftm ftms fthm fths", Centimetre: "cm cms centimetre centimetres centimeter centimeters",
	NauticalMile: "nmi nm", Millimetre: "mm", Decimetre: "dm", Verst: "verst versts werst", Mil: "mil",
	Pied: "pied pieds", Fuss: "fuss fuß", Pie: "pies pés", Fot: "fot fots fod fods", Brasse: "brasse brasses", Faden: "faden", Favn: "favn favner favne", Famn: "famn famnar",
	Klafter: "klafter klaftern", Toise: "toise toises",
})

func units(words map[Unit]string) map[string]Unit {
	out := map[string]Unit{}
	for u, list := range words {
		for _, w := range strings.Fields(list) {
			out[w] = u
		}
	}
	return out
}

// seaMarks are what stands behind m for "above the sea" in several languages,
// written together: m.s.m., m ü.M., moh, msnm.
var seaMarks = words("asl amsl sl sm slm snm üm ünn ühm üdm umm unn oh oeh öh nm npm aslm")

// unitOf is the unit that a folded word without full stops names.
func unitOf(w string) (Unit, bool) {
	if u, ok := lengthUnits[w]; ok {
		return u, true
	}
	for _, u := range [...]struct {
		head string
		unit Unit
	}{{"m", Metre}, {"ft", Foot}} {
		if rest, ok := strings.CutPrefix(w, u.head); ok && seaMarks[rest] {
			return u.unit, true
		}
	}
	return NoUnit, false
}

func words(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}
