package georeference

import (
	"math"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Heading is a direction as named.
type Heading struct {
	Name    string  // NE, NNE, N by E; "45°" for one in degrees; empty: none
	Bearing float64 // degrees clockwise from true north
	Half    float64 // by how many degrees it may be off to each side
}

// points are the points of the compass, clockwise from north.
var points = strings.Fields("N NNE NE ENE E ESE SE SSE S SSW SW WSW W WNW NW NNW")

// pointOf is the point of the compass of a name. How far it may be off is half
// of the angle to the next point of its own kind: N ± 45°, NE ± 22.5°, NNE ±
// 11.25° (Chapman & Wieczorek 2020, table of headings).
func pointOf(name string) (Heading, bool) {
	for i, p := range points {
		if p == name {
			half := 45.0
			if len(name) > 1 {
				half = 90 / math.Pow(2, float64(len(name)))
			}
			return Heading{p, float64(i) * 22.5, half}, true
		}
	}
	return Heading{}, false
}

// by turns a heading by a quarter of the angle to another, as N by E; a point
// of the 32, by the same reasoning ± 5.625°.
func (h Heading) by(other Heading) Heading {
	turn := math.Mod(other.Bearing-h.Bearing+540, 360) - 180
	return Heading{h.Name + " by " + other.Name, math.Mod(h.Bearing+math.Copysign(11.25, turn)+360, 360), 5.625}
}

// directionWords are words for the points of the compass by what they mean, in
// lower case; common practice, no source.
var directionWords = compassWords(map[string]string{
	"N":  "n north northward northwards northerly nord norte noord noorden norden norr nordlig nördlich nördl norðr",
	"S":  "s south southward southwards southerly sud süd sør sur sul syd söder zuid zuiden süden sønder sørlig südlich südl",
	"E":  "e east eastward eastwards easterly øst öst ost est este leste oost oosten osten öster aust østlig östlich östl ø ö",
	"W":  "w west westward westwards westerly vest väst ouest oeste ovest westen väster vestlig westlich westl v",
	"NE": "ne northeast nordøst nordöst nordost nordest noreste nordeste noordoost noordoosten nordaust nordöstlich nordöstl nordosten nø nö",
	"NW": "nw northwest nordvest nordväst nordwest nordouest noroeste noroueste noordwest noordwesten nordwestlich nordwestl nordwesten nordovest nv",
	"SE": "se southeast sørøst sydost sydøst sudest sureste sudeste suroriente zuidoost zuidoosten søraust südost südöstlich südöstl südosten sø sö",
	"SW": "sw southwest sørvest sydväst sydvest sudouest suroeste sudoeste zuidwest zuidwesten südwest südwestlich südwestl südwesten sudovest sv",
})

func compassWords(by map[string]string) map[string]string {
	out := map[string]string{}
	for point, list := range by {
		for _, w := range strings.Fields(list) {
			out[w] = point
		}
	}
	return out
}

// letters are what the letters of an abbreviation stand for. O is east in
// German and the Scandinavian languages, west in French, Spanish and
// Portuguese: the words around it must say which.
var letters = map[rune]byte{'n': 'N', 's': 'S', 'e': 'E', 'w': 'W', 'v': 'W', 'ø': 'E', 'ö': 'E', 'o': 'O', 'z': 'S'}

// headingAt reads a direction at the start of text: NE, N.E., north-east,
// nordøst, nordnordøst, N by E, 45°. n is how many bytes it took, 0 for none. A
// letter O stays O in the name, for the caller to settle.
func headingAt(text string) (name string, n int) {
	var found string
	end := 0
	for i := 0; i < len(text) && len(found) < 4; {
		j := letterEnd(text, i)
		if j == i {
			break
		}
		piece := direction(text[i:j])
		joined := found + piece
		if piece == "" || !isPoint(joined) {
			break
		}
		long := j-i > 2 && utf8.RuneCountInString(text[i:j]) > 3
		found, end = joined, j
		if j < len(text) && text[j] == '.' {
			end = j + 1
		}
		i = end
		if next := strings.TrimLeft(text[end:], " "); long && next != text[end:] {
			i = len(text) - len(next)
		} else if i < len(text) && (text[i] == '-' || text[i] == '/') {
			i++
		} else if i < len(text) && text[i] == ' ' {
			break
		}
	}
	return found, end
}

// direction is the point of the compass that one word names; empty: none.
func direction(word string) string {
	w := strings.ToLower(word)
	if p, ok := directionWords[w]; ok {
		return p
	}
	var out []byte
	if utf8.RuneCountInString(w) > 3 {
		for cut := 3; cut < len(w)-2; cut++ { // nordnordøst
			a, b := directionWords[w[:cut]], directionWords[w[cut:]]
			if a != "" && b != "" && isPoint(a+b) {
				return a + b
			}
		}
		return ""
	}
	for _, c := range w {
		l, ok := letters[c]
		if !ok {
			return ""
		}
		out = append(out, l)
	}
	return string(out)
}

// isPoint reports whether a name is a point of the compass, O counting for
// either side.
func isPoint(name string) bool {
	for _, o := range [...]string{"E", "W"} {
		if _, ok := pointOf(strings.ReplaceAll(name, "O", o)); ok {
			return true
		}
	}
	return false
}

// letterEnd is the end of the letters at i.
func letterEnd(text string, i int) int {
	for i < len(text) {
		c, n := utf8.DecodeRuneInString(text[i:])
		if !unicode.IsLetter(c) {
			break
		}
		i += n
	}
	return i
}

// degreesAt reads a bearing in degrees at the start of text: 45°, 045 degrees, at
// a bearing of 45°. Its half angle is half of the unit it is written to.
func degreesAt(text string) (h Heading, n int) {
	i := 0
	for i < len(text) && digit(text[i]) {
		i++
	}
	whole := i
	if i > 0 && i+1 < len(text) && text[i] == '.' && digit(text[i+1]) {
		for i++; i < len(text) && digit(text[i]); i++ {
		}
	}
	v, err := strconv.ParseFloat(text[:i], 64)
	if err != nil || v > 360 || whole > 3 {
		return Heading{}, 0
	}
	rest := strings.TrimLeft(text[i:], " ")
	for _, mark := range [...]string{"°", "º", "degrees", "deg.", "deg", "grader", "Grad"} {
		if after, ok := strings.CutPrefix(rest, mark); ok {
			decimals := max(0, i-whole-1)
			return Heading{figure(v) + "°", math.Mod(v, 360), math.Pow10(-decimals) / 2}, len(text) - len(after)
		}
	}
	return Heading{}, 0
}
