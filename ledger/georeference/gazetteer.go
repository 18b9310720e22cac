package georeference

import (
	"strings"
	"unicode"

	"blotter/ledger/places"
)

// Place is a named place that localities are reckoned from.
type Place struct {
	Name                        string
	Country, Province, District string // as written; empty: not stated
	Said                        Said   // its position, as a record has it
	Extent                      string // from its centre to its furthest edge, as written
}

// Within is where a locality lies by the other words of its record; it tells
// places of one name apart.
type Within struct{ Country, Province, District string }

// Gazetteer knows places by their names. It is not changed once made, and may
// be asked by several goroutines.
type Gazetteer struct {
	byName map[string][]*site
}

// site is a place ready to be reckoned from.
type site struct {
	Place
	point  Estimate
	extent places.Length
}

// NewGazetteer knows those of list that have a name and a position.
func NewGazetteer(list []Place) *Gazetteer {
	g := &Gazetteer{byName: make(map[string][]*site, len(list))}
	for _, p := range list {
		p.Said.Of = p.Name
		s := &site{Place: p, point: Of(p.Said), extent: places.ReadLength(p.Extent)}
		key := Fold(p.Name)
		if key == "" || !s.point.Known {
			continue
		}
		g.byName[key] = append(g.byName[key], s)
	}
	return g
}

// Len is the number of names known.
func (g *Gazetteer) Len() int {
	if g == nil {
		return 0
	}
	return len(g.byName)
}

// leaders are words before a name that are no part of it.
var leaders = wordSet("the le la les l' der die das den det el los las o os il lo")

// find looks for the place that words begin with: the longest name, with
// nothing behind it but words that go on about the spot. why says why there is
// none.
func (g *Gazetteer) find(words string, in Within) (s *site, why string) {
	for {
		first, rest, ok := strings.Cut(words, " ")
		if !ok || !leaders[strings.ToLower(first)] {
			break
		}
		words = strings.TrimSpace(rest)
	}
	pieces := strings.Fields(words)
	for n := len(pieces); n > 0; n-- {
		if n < len(pieces) && !goingOn[pieces[n]] {
			continue
		}
		if list := g.byName[Fold(strings.Join(pieces[:n], " "))]; len(list) > 0 {
			return chosen(list, in)
		}
	}
	return nil, quoted(words) + " is not a place of places.yaml with a position"
}

// chosen is the one of list that does not lie elsewhere.
func chosen(list []*site, in Within) (*site, string) {
	var fit []*site
	for _, s := range list {
		if s.within(in) {
			fit = append(fit, s)
		}
	}
	switch len(fit) {
	case 0:
		return nil, list[0].Name + " of places.yaml lies in another country, province or district"
	case 1:
		return fit[0], ""
	}
	return nil, "places.yaml has several places named " + list[0].Name
}

// within reports whether a place may lie where a record says: the countries
// may be one, and so may the finest level below that both state. A province
// that was renamed does not count when the district is the same.
func (s *site) within(in Within) bool {
	if both, one := compared(s.Country, in.Country); both && !one {
		return false
	}
	if both, one := compared(s.District, in.District); both {
		return one
	}
	both, one := compared(s.Province, in.Province)
	return !both || one
}

// compared reports whether both names are stated, and whether they are one.
func compared(a, b string) (both, one bool) {
	if a == "" || b == "" || absent(a) || absent(b) {
		return false, false
	}
	return true, Fold(a) == Fold(b)
}

func quoted(words string) string {
	if words == "" {
		return "what the distance is from"
	}
	return "\"" + words + "\""
}

// plainLetters are letters with marks and what they are compared as.
var plainLetters = letterMap(map[string]string{
	"a": "áàâäãåāăąæ", "c": "çćčĉ", "d": "ďđð", "e": "éèêëēėęě", "g": "ğĝģ", "i": "íìîïīįı", "l": "łľĺ", "n": "ñńňņ",
	"o": "óòôöõøōőœ", "r": "řŕ", "s": "śšşșŝ", "t": "ťţțþ", "u": "úùûüūůűų", "y": "ýÿ", "z": "źžż", "ss": "ß",
})

func letterMap(by map[string]string) map[rune]string {
	out := map[rune]string{}
	for plain, list := range by {
		for _, r := range list {
			out[r] = plain
		}
	}
	return out
}

// Fold brings the spellings of a name together: lower case, no accents, one
// blank for whatever is no letter or figure.
func Fold(name string) string {
	var b strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = b.Len() > 0
			continue
		}
		if gap {
			b.WriteByte(' ')
			gap = false
		}
		if plain, ok := plainLetters[r]; ok {
			b.WriteString(plain)
		} else {
			b.WriteRune(r)
		}
	}
	return b.String()
}
