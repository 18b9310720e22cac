package georeference

import (
	"strings"

	"blotter/ledger/places"
)

// Relation is how a locality stands to the places that it names.
type Relation uint8

const (
	NoRelation Relation = iota // no such words were found
	Away                       // at a distance: 10 km NE of Voss church
	Between                    // between A and B
	Near                       // near X, in the vicinity of X: no distance
	At                         // the place itself
)

// Leg is one distance of an offset.
type Leg struct {
	Distance places.Length
	Heading  Heading // Name empty: no direction is named
}

// Offset is a locality read as words about named places. The names are as
// written, up to a comma; a Gazetteer knows where they end.
type Offset struct {
	Relation    Relation
	Legs        []Leg
	ByRoad      bool   // by road, along the road: no straight line
	StraightWay bool   // by air, in a straight line: said so
	Before      string // the words before the distance, back to a comma: "Voss, 5 km N"
	From        string // the words after it
	And         string // of Between
	Warnings    []places.Warning
}

// ReadOffset reads the words of a locality that say where it lies from named
// places: "10 km NE of Voss church", "2.8 mi S and 1.2 mi E of X", "5 km N
// Voss", "10 km by road N of X", "between A and B", "near X", and the like in
// Norwegian, Swedish, Danish, German, Dutch, French, Spanish, Portuguese and
// Italian. Relation is NoRelation when there are none. It never panics.
func ReadOffset(locality string) Offset {
	if len(locality) > maxText {
		return Offset{}
	}
	for i := 0; i < len(locality); i++ {
		if i > 0 && !startsWord(locality, i) {
			continue
		}
		if o, ok := awayAt(locality, i); ok {
			return o
		}
	}
	for i := 0; i < len(locality); i++ {
		if i > 0 && !startsWord(locality, i) {
			continue
		}
		if o, ok := betweenAt(locality[i:]); ok {
			return o
		}
		if rest, ok := cutAny(locality[i:], nearWords); ok && segment(rest) != "" {
			return Offset{Relation: Near, From: segment(rest)}
		}
	}
	return Offset{}
}

// maxText is the longest locality that is looked at, in bytes.
const maxText = 1000

// startsWord reports whether a word or a figure may begin at i.
func startsWord(text string, i int) bool {
	before := text[i-1]
	return text[i] != ' ' && strings.IndexByte(" ,;:([~", before) >= 0 || before == '.' && !digit(text[i])
}

// awayAt reads distances and directions that begin at i.
func awayAt(text string, i int) (Offset, bool) {
	o := Offset{Relation: Away}
	at := i
	for len(o.Legs) < 4 {
		leg, n := o.legAt(text[at:])
		if n == 0 {
			break
		}
		o.Legs = append(o.Legs, leg)
		at += n
		rest := strings.TrimLeft(text[at:], " ")
		after, ok := cutAny(rest, andWords)
		if !ok {
			after = strings.TrimLeft(strings.TrimLeft(rest, ",;&+"), " ")
		}
		if leg.Heading.Name == "" || after == rest {
			break
		}
		if next, n := places.LengthAt(after); n == 0 || !isDistance(next) {
			break
		}
		at = len(text) - len(after)
	}
	if len(o.Legs) == 0 {
		return o, false
	}
	return o.named(text, i, at)
}

// legAt reads one distance with its direction; it notes whether it goes by
// road.
func (o *Offset) legAt(text string) (Leg, int) {
	d, n := places.LengthAt(text)
	if n == 0 || !isDistance(d) {
		return Leg{}, 0
	}
	leg := Leg{Distance: d}
	rest := o.way(strings.TrimLeft(text[n:], " "))
	inner := rest
	for range 4 {
		after, ok := cutAny(inner, towardsWords)
		if !ok {
			break
		}
		inner = after
	}
	if h, n := degreesAt(inner); n > 0 {
		leg.Heading, rest = h, inner[n:]
	} else if h, n := o.heading(inner); n > 0 {
		leg.Heading, rest = h, inner[n:]
	}
	rest = o.way(strings.TrimLeft(rest, " "))
	return leg, len(text) - len(strings.TrimLeft(rest, " )"))
}

// isDistance reports whether a length is one of those that localities are
// given in.
func isDistance(l places.Length) bool {
	return l.Known() && l.Max > 0 && l.Unit != places.Centimetre && l.Unit != places.Millimetre && l.Unit != places.Decimetre && l.Max < 2e6
}

// way takes words for "by road" or "by air" from the start of text.
func (o *Offset) way(text string) string {
	if after, ok := cutAny(text, roadWords); ok {
		o.ByRoad = true
		return after
	}
	if after, ok := cutAny(text, airWords); ok {
		o.StraightWay = true
		return after
	}
	return text
}

// heading reads a point of the compass, N by E among them.
func (o *Offset) heading(text string) (Heading, int) {
	name, n := headingAt(text)
	if n == 0 {
		return Heading{}, 0
	}
	rest := strings.TrimLeft(text[n:], " ")
	if strings.Contains(name, "O") {
		name = o.letterO(name, rest)
	}
	h, ok := pointOf(name)
	if !ok {
		return Heading{Name: name, Half: 180}, n
	}
	if after, ok := strings.CutPrefix(rest, "by "); ok {
		if other, m := headingAt(after); m > 0 && len(other) <= 2 {
			if to, ok := pointOf(other); ok {
				return h.by(to), len(text) - len(after) + m
			}
		}
	}
	return h, n
}

// letterO settles a letter O by the word for "of" that follows: von, for, om are
// German and Scandinavian, where O is east; de, du, do Romance, where it is
// west.
func (o *Offset) letterO(name, rest string) string {
	if _, ok := cutAny(rest, []string{"von", "vom", "for", "om", "fra", "från", "van", "av"}); ok {
		return strings.ReplaceAll(name, "O", "E")
	}
	if _, ok := cutAny(rest, []string{"de", "du", "del", "da", "do", "des", "di", "d'"}); ok {
		return strings.ReplaceAll(name, "O", "W")
	}
	o.Warnings = append(o.Warnings, places.Warning{Code: "heading-letter-o",
		Message: "O is east in German and the Scandinavian languages and west in French, Spanish and Portuguese; write E or W"})
	return name
}

// named finds the names that the distances, which end at end, are from.
func (o Offset) named(text string, begin, end int) (Offset, bool) {
	rest := strings.TrimLeft(text[end:], " ")
	after, of := cutAny(rest, ofWords)
	o.Before = before(text[:begin])
	o.From = o.byRoadIn(segment(after))
	if !of && (o.From == "" || continues(o.From)) {
		o.From = ""
	}
	if o.Legs[0].Heading.Name == "" && !(of && fromWord(rest)) {
		return o, false // 20 m above the sea, 3 m tall
	}
	return o, o.From != "" || o.Before != ""
}

// byRoadIn takes words for "by road" from behind a name.
func (o *Offset) byRoadIn(name string) string {
	for i := 1; i < len(name); i++ {
		if name[i-1] != ' ' {
			continue
		}
		for _, words := range [...][]string{roadWords, airWords} {
			if _, ok := cutAny(name[i:], words); ok {
				o.way(name[i:])
				return strings.TrimSpace(name[:i])
			}
		}
	}
	return name
}

// fromWord reports whether text begins with a word for from, not of.
func fromWord(text string) bool {
	_, ok := cutAny(text, []string{"from", "fra", "från", "von", "vom", "van", "de", "du", "des", "d'", "del", "da", "do", "di", "dal", "dalla"})
	return ok
}

// betweenAt reads "between A and B" at the start of text.
func betweenAt(text string) (Offset, bool) {
	rest, ok := cutAny(text, betweenWords)
	if !ok {
		return Offset{}, false
	}
	s := segment(rest)
	for i := 1; i < len(s); i++ {
		if s[i-1] != ' ' {
			continue
		}
		if b, ok := cutAny(s[i:], andWords); ok && b != "" {
			return Offset{Relation: Between, From: strings.TrimSpace(s[:i]), And: b}, true
		}
	}
	return Offset{}, false
}

// segment is text up to the first comma, semicolon, bracket or colon.
func segment(text string) string {
	if i := strings.IndexAny(text, ",;()[]:\n"); i >= 0 {
		text = text[:i]
	}
	return strings.TrimSpace(strings.TrimRight(strings.TrimSpace(text), "."))
}

// before is the last segment of the text before a distance, without words such
// as ca.
func before(text string) string {
	text = strings.TrimRight(text, " ,;:(")
	for {
		cut := text
		for _, w := range looseWords {
			if rest, ok := cutSuffixFold(cut, w); ok {
				cut = strings.TrimRight(rest, " ,;:(~")
			}
		}
		if cut == text {
			break
		}
		text = cut
	}
	if i := strings.LastIndexAny(text, ",;:()"); i >= 0 {
		text = text[i+1:]
	}
	return strings.TrimSpace(text)
}

func cutSuffixFold(text, word string) (string, bool) {
	i := len(text) - len(word)
	if i < 0 || !strings.EqualFold(text[i:], word) || i > 0 && text[i-1] != ' ' && text[i-1] != ',' {
		return text, false
	}
	return text[:i], true
}
