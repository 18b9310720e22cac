package paper

import (
	"bytes"
	"sync"

	"github.com/go-text/typesetting/font"
	"github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/harfbuzz"
	"github.com/go-text/typesetting/language"
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

// without turns a feature of the font off: a PDF asks for letters, not for
// the forms that the feature would put in their place.
func without(tag string) harfbuzz.Feature {
	return harfbuzz.Feature{Tag: opentype.NewTag(tag[0], tag[1], tag[2], tag[3]), End: harfbuzz.FeatureGlobalEnd}
}
