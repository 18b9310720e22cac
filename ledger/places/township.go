package places

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
)

// Township is a reference of the public land survey of the United States,
// recognised and not solved: that needs the survey's own tables and the
// principal meridian, which labels leave out.
type Township struct {
	Township int
	South    bool
	Range    int
	West     bool
	Section  int    // 0: not said
	Part     string // of the section, as written: NE1/4
}

// String is the reference in one form: T12N R4W Sec. 23 NE1/4.
func (t Township) String() string {
	ns, ew := "N", "E"
	if t.South {
		ns = "S"
	}
	if t.West {
		ew = "W"
	}
	s := fmt.Sprintf("T%d%s R%d%s", t.Township, ns, t.Range, ew)
	if t.Section > 0 {
		s += fmt.Sprintf(" Sec. %d", t.Section)
	}
	if t.Part != "" {
		s += " " + t.Part
	}
	return s
}

// townshipForms are made on first use.
type townshipForms struct{ town, rng, section, part *regexp.Regexp }

var townships = sync.OnceValue(func() townshipForms {
	return townshipForms{
		town:    regexp.MustCompile(`(?i)\b(?:T|Twp|Township)\.? *(?:no\.? *)?(\d{1,3}) *(?:1/2|½)? *(N|S|North|South)\b`),
		rng:     regexp.MustCompile(`(?i)\b(?:R|Rge?|Range)\.? *(?:no\.? *)?(\d{1,3}) *(?:1/2|½)? *(E|W|East|West)\b`),
		section: regexp.MustCompile(`(?i)\b(?:S|Sec|Sect|Section)\.? *#? *(\d{1,2})\b`),
		part:    regexp.MustCompile(`(?i)\b(?:(?:N|S|E|W|NE|NW|SE|SW|C) *(?:1/[24]|/4|¼|½|quarter|half)(?: *(?:of|,)? *)?)+`),
	}
})

// farthestRange is the highest number of a range in the survey (Wyoming's R121W,
// from memory).
const farthestRange = 121

// perhapsTownship reports whether 10N 8W stands there without any mark, word
// or decimal that would make degrees of it: labels write township and range so
// too.
func perhapsTownship(toks []token, a, b angle) bool {
	if hasKind(toks, degree, 0) || hasKind(toks, axis, 0) || hasKind(toks, soft, 0) {
		return false
	}
	whole := func(x angle) bool { return x.form == Decimal && x.decimals == 0 && x.lettered && !x.twoSigns }
	return whole(a) && whole(b) && a.side == north && b.side == east && max(b.value, -b.value) <= farthestRange
}

// figureAfter reports whether a word that begins with a letter has a figure
// after it, as T12N, Township 12, R. 4 W. have.
func figureAfter(text string, letter byte) bool {
	for i := range len(text) {
		if text[i]|0x20 != letter || i > 0 && text[i-1]|0x20 >= 'a' && text[i-1]|0x20 <= 'z' {
			continue
		}
		for j := i + 1; j < len(text) && j < i+16; j++ {
			if isDigit(text[j]) {
				return true
			}
			if c := text[j] | 0x20; (c < 'a' || c > 'z') && text[j] != ' ' && text[j] != '.' {
				break
			}
		}
	}
	return false
}

// readTownship reads township and range, and section and part of it where
// they stand, in either order.
func readTownship(text string) (Township, bool) {
	if !figureAfter(text, 't') || !figureAfter(text, 'r') {
		return Township{}, false
	}
	forms := townships()
	a, b := forms.town.FindStringSubmatch(text), forms.rng.FindStringSubmatch(text)
	if a == nil || b == nil {
		return Township{}, false
	}
	t := Township{South: a[2][0]|0x20 == 's', West: b[2][0]|0x20 == 'w'}
	t.Township, _ = strconv.Atoi(a[1])
	t.Range, _ = strconv.Atoi(b[1])
	rest := strings.Replace(strings.Replace(text, a[0], " ", 1), b[0], " ", 1)
	if m := forms.section.FindStringSubmatch(rest); m != nil {
		if n, _ := strconv.Atoi(m[1]); n >= 1 && n <= 36 {
			t.Section = n
		}
	}
	t.Part = strings.TrimRight(strings.TrimSuffix(strings.TrimRight(forms.part.FindString(rest), " ,"), "of"), " ")
	return t, true
}
