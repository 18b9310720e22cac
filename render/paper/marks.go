package paper

import (
	"bytes"
	"slices"
	"sync"
	"unicode/utf8"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/harfbuzz"
	"github.com/go-text/typesetting/language"
	"golang.org/x/text/unicode/norm"
)

// offset is where a combining mark stands from where the pen is after its
// letter, in thousandths of an em; y grows upwards.
type offset struct{ x, y int }

// markPlaces are where combining marks stand over and under letters that have
// no form of their own with them. Few texts ask, so that the font is read a
// second time, with the tables of that, only for those.
type markPlaces struct {
	mu    sync.Mutex
	font  *harfbuzz.Font
	known map[string][]offset
}

// of are the offsets of all letters of a cluster: one letter and its marks.
func (m *markPlaces) of(ttf []byte, cluster string) []offset {
	m.mu.Lock()
	defer m.mu.Unlock()
	if at, ok := m.known[cluster]; ok {
		return at
	}
	if m.font == nil {
		f, err := font.ParseTTF(bytes.NewReader(ttf))
		if err != nil {
			panic("paper: read embedded font: " + err.Error())
		}
		m.font, m.known = harfbuzz.NewFont(f), map[string][]offset{}
	}
	letters := []rune(cluster)
	buf := harfbuzz.NewBuffer()
	buf.Props = harfbuzz.SegmentProperties{Direction: harfbuzz.LeftToRight, Script: language.Latin, Language: "en"}
	buf.AddRunes(letters, 0, len(letters))
	buf.Shape(m.font, []harfbuzz.Feature{without("ccmp"), without("liga")})
	at := make([]offset, len(letters))
	if len(buf.Pos) == len(letters) { // else the font has another form, which no PDF of ours can ask for
		em := float64(m.font.Face().Upem())
		for i, p := range buf.Pos {
			at[i] = offset{int(float64(p.XOffset) / em * 1000), int(float64(p.YOffset) / em * 1000)}
		}
	}
	m.known[cluster] = at
	return at
}

// dotless are i and j without their dots, as wide as with them.
var dotless = map[rune]rune{'i': 'ı', 'j': 'ȷ'}

// above is the combining class of marks over a letter (Unicode, UAX #44).
const above = 230

// undotted is a cluster whose i or j loses its dot, since a mark stands in its
// place: the letter without dot, and all marks, those below it too, one by one.
// The same is done by the font's feature ccmp and asked for by Unicode 7.1,
// "Diacritics on i and j". Of other letters with such a dot, ɨ and ɉ among them,
// no form without it has a number that a PDF of ours could ask for.
func undotted(cluster string) string {
	letters := []rune(norm.NFD.String(cluster))
	bare, soft := dotless[letters[0]]
	first, _ := utf8.DecodeRuneInString(cluster)
	if !soft || hasAbove([]rune(norm.NFD.String(string(first)))) || !hasAbove(letters) {
		return cluster
	}
	letters[0] = bare
	return string(letters)
}

func hasAbove(letters []rune) bool {
	return slices.ContainsFunc(letters, func(r rune) bool { return norm.NFC.PropertiesString(string(r)).CCC() == above })
}

// without turns a feature of the font off: a PDF asks for letters, not for
// the forms that the feature would put in their place.
func without(tag string) harfbuzz.Feature {
	return harfbuzz.Feature{Tag: opentype.NewTag(tag[0], tag[1], tag[2], tag[3]), End: harfbuzz.FeatureGlobalEnd}
}
