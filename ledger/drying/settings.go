package drying

import (
	"fmt"
	"slices"
)

// Kind is what a plant is to the press.
type Kind string

// The kinds, as the settings and the files under work/ spell them.
const (
	ThinHerb  Kind = "thin herb"
	Woody     Kind = "woody"
	Fern      Kind = "fern"
	Conifer   Kind = "conifer"
	Succulent Kind = "succulent or cactus"
	Aquatic   Kind = "aquatic"
	Bulb      Kind = "bulb"
	Fruit     Kind = "large fruit"
	Mixed     Kind = "mixed" // of several kinds, or not said
)

// Kinds is all kinds, in the order of the table.
func Kinds() []Kind {
	return []Kind{ThinHerb, Woody, Fern, Conifer, Succulent, Aquatic, Bulb, Fruit, Mixed}
}

// Method is how a load is dried.
type Method string

// The methods. Alcohol only keeps: what comes out of the bag is dried by one of
// the others.
const (
	Unheated Method = "unheated"
	WarmAir  Method = "warm air"
	Alcohol  Method = "alcohol"
)

// Methods is all methods.
func Methods() []Method { return []Method{Unheated, WarmAir, Alcohol} }

// Weather is the note on the weather while a load dries.
type Weather string

// The weather notes. No note is Ordinary.
const (
	Dry      Weather = "dry"
	Ordinary Weather = "ordinary"
	Humid    Weather = "humid"
)

// Weathers is all weather notes.
func Weathers() []Weather { return []Weather{Dry, Ordinary, Humid} }

// Settings are the museum's figures; see SETTINGS.md for standard ones.
type Settings struct {
	Rows    []Row    // one for each kind and method that the museum uses
	Weather []Factor // a method and weather not listed has factor 1
	Keeping Keeping
}

// Row is how one kind of plant dries by one method in ordinary weather. Under
// Alcohol the days stay 0: only Prepare and Cautions are used.
type Row struct {
	Kind     Kind
	Method   Method
	Papers   Papers
	Test     int      // the first day to test by hand; not a day of being dry
	Earliest int      // the first day on which such a plant may be dry
	From, To int      // the days on which it usually is
	Prepare  []string // what is done to the plant before it is pressed
	ByHand   []string // what to feel for before it is called dry
	Cautions []string
}

// Papers is when the papers are changed, or under warm air looked at: each day
// up to day Daily, then every Then days until the load is dry; Then 0 is never
// again.
type Papers struct {
	Daily int
	Then  int
}

// Factor stretches the days of a method in some weather.
type Factor struct {
	Method  Method
	Weather Weather
	Factor  float64 // above 0; days are rounded up
}

// Keeping is how plants are kept in alcohol until they can be dried.
type Keeping struct {
	Turn  []int // the days on which the bag is turned
	Keeps int   // days that a closed bag keeps
	// A litre serves a stack of at least LitreFrom and at most LitreTo mm.
	LitreFrom, LitreTo float64
	Cautions           []string
}

// row finds the row of a kind and method.
func (s Settings) row(k Kind, m Method) (Row, bool) {
	i := slices.IndexFunc(s.Rows, func(r Row) bool { return r.Kind == k && r.Method == m })
	if i < 0 {
		return Row{}, false
	}
	return s.Rows[i], true
}

func (s Settings) factor(m Method, w Weather) float64 {
	i := slices.IndexFunc(s.Weather, func(f Factor) bool { return f.Method == m && f.Weather == w })
	if i < 0 {
		return 1
	}
	return s.Weather[i].Factor
}

// Problems says in words what of the settings cannot be, each beginning with
// the row it is about; none when all is well. A calendar is only as good as
// settings without problems.
func (s Settings) Problems() []string {
	var out []string
	seen := map[[2]string]bool{}
	for _, r := range s.Rows {
		at := fmt.Sprintf("%s, %s: ", r.Kind, r.Method)
		key := [2]string{string(r.Kind), string(r.Method)}
		if seen[key] {
			out = append(out, at+"stands twice")
		}
		seen[key] = true
		if why := r.problem(); why != "" {
			out = append(out, at+why)
		}
	}
	for _, f := range s.Weather {
		if !slices.Contains(Methods(), f.Method) || !slices.Contains(Weathers(), f.Weather) {
			out = append(out, fmt.Sprintf("weather %s, %s: no such method or weather", f.Method, f.Weather))
		}
		if !(f.Factor > 0 && f.Factor <= 10) {
			out = append(out, fmt.Sprintf("weather %s, %s: factor %v is not above 0 and at most 10", f.Method, f.Weather, f.Factor))
		}
	}
	k := s.Keeping
	if k.Keeps < 0 || slices.ContainsFunc(k.Turn, func(d int) bool { return d < 1 || d > k.Keeps }) {
		out = append(out, "alcohol: a day of turning is not between 1 and the days that the bag keeps")
	}
	if k.LitreFrom < 0 || k.LitreTo < k.LitreFrom {
		out = append(out, "alcohol: the stack that a litre serves: from is above to")
	}
	return out
}

// longest bounds the days of a setting: ten years.
const longest = 3650

func (r Row) problem() string {
	switch {
	case !slices.Contains(Kinds(), r.Kind):
		return fmt.Sprintf("no such kind of plant; one of %q", Kinds())
	case !slices.Contains(Methods(), r.Method):
		return fmt.Sprintf("no such method; one of %q", Methods())
	case r.Method == Alcohol:
		return ""
	case r.Test < 1:
		return "the first day to test by hand is before day 1"
	case r.Earliest < r.Test:
		return fmt.Sprintf("earliest ready on day %d, before the first test by hand on day %d", r.Earliest, r.Test)
	case r.From < r.Earliest || r.To < r.From:
		return fmt.Sprintf("usually ready on days %d to %d, earliest on day %d: these must rise", r.From, r.To, r.Earliest)
	case r.To > longest:
		return fmt.Sprintf("day %d is more than ten years", r.To)
	case r.Papers.Daily < 0 || r.Papers.Then < 0:
		return "papers: days below 0"
	case len(r.ByHand) == 0:
		return "nothing to test by hand: say what is felt for before such a plant is called dry"
	}
	return ""
}
