package treatment

import "fmt"

// Method is a way of treating a collection against insects.
type Method string

// The methods that files under work/ name. Freezing is the only one whose log
// is judged here.
const (
	Freezing      Method = "freezing"
	LowOxygen     Method = "low oxygen"
	CarbonDioxide Method = "carbon dioxide"
	Heat          Method = "heat"
	Microwave     Method = "microwave"
	Fumigant      Method = "fumigant"
)

// Methods is all methods.
func Methods() []Method {
	return []Method{Freezing, LowOxygen, CarbonDioxide, Heat, Microwave, Fumigant}
}

// Caution is a caution with where it comes from.
type Caution struct {
	Words  string
	Source string // "" for common practice, no source
}

const rules = "your own rules, the law of the place and licensed practice come first"

// cold are the cautions of freezing, in the order in which they are needed.
var cold = []Caution{
	{"dry plants only: what is still moist is dried first", ""},
	{"bag first, push the air out, close the bag, load loosely; polyethylene of 3-4 mil (0.08-0.10 mm), left unopened", "Textile Museum brochure"},
	{"open only when the whole bag is at room temperature, about a day: water settles on what is cold", "Textile Museum brochure; a day from memory"},
	{"not a frost-free freezer: it warms itself to thaw", "Conservation DistList 11:24, 1997"},
	{"the probe belongs in the middle of the load, not in the air of the freezer", ""},
	{"gloves: metal and bags at -30 °C burn the skin", ""},
	{"jars of spirit, wax, glass and paint do not go in with the sheets: ask a conservator", "from memory"},
	{"old sheets may carry mercury or arsenic, which cold does not remove: gloves, air, wash hands", "from memory"},
}

// Cautions is what to say beside a treatment, for freezing by a profile; the
// last always says whose rules come first.
func Cautions(m Method, p Profile) []Caution {
	last := Caution{rules, ""}
	switch m {
	case Freezing:
		out := append([]Caution{}, cold...)
		if p.SetPoint < -40 {
			out = append(out, Caution{fmt.Sprintf("%s is colder than any protocol found (to -40 °C); -80 °C is advised against: no gain, it embrittles and strains adhesives", degrees(p.SetPoint)), "NHCOLL-L, April 2018 and August 2024"})
		}
		if p.SetPoint > -18 {
			out = append(out, Caution{fmt.Sprintf("%s is warmer than any protocol found (-18 °C and colder)", degrees(p.SetPoint)), "NHCOLL-L, April 2018"})
		}
		return append(out, last)
	case LowOxygen:
		return []Caution{{"air low in oxygen kills people without warning: licensed practice, an oxygen alarm, never alone", ""},
			{"time counts as much as oxygen: at 1.5 % one week left half of the larvae of a carpet beetle alive", "Zhang, Res. J. Env. Earth Sci. 5(5): 256"}, last}
	case CarbonDioxide:
		return []Caution{{"carbon dioxide suffocates and is heavier than air: licensed practice, an alarm at the floor, never alone", ""}, last}
	case Heat:
		return []Caution{{"heat dries and embrittles, melts adhesives and spoils DNA; never what holds alcohol or camphor; never left alone", "from memory"}, last}
	case Microwave:
		return []Caution{{"only if it is urgent: it chars, pins, staples and metal threads arc, seeds die and DNA suffers", "UC/Jepson pest rules for \"urgent\"; rest from memory"}, last}
	case Fumigant:
		return []Caution{{"fumigants are poisons: a licensed operator alone chooses, applies and clears them; write on the sheets what was used", ""}, last}
	}
	return []Caution{last}
}
