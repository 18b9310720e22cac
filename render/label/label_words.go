package label

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger/names"
	"blotter/render/paper"
)

// prose is words of a record as runs whose line never breaks inside a
// coordinate, between a number and its unit, nor between initials and a name.
// The words stay as they are; runs of space are one space.
func prose(text string, st paper.Style, width float64) []paper.Run {
	words := strings.Fields(text)
	var out []paper.Run
	for i := 0; i < len(words); {
		j := i + 1
		for j < len(words) && stays(words[j-1], words[j]) {
			j++
		}
		if len(out) > 0 {
			out = append(out, paper.Run{Style: st, Text: " "})
		}
		r := paper.Run{Style: st, Text: strings.Join(words[i:j], " "), Keep: true}
		if j > i+1 && paper.Width(r) > width {
			r.Keep = false
		}
		out = append(out, r)
		i = j
	}
	return out
}

// whole is words that stay on one line, where the line is wide enough.
func whole(text string, st paper.Style, width float64) []paper.Run {
	r := paper.Run{Style: st, Text: strings.Join(strings.Fields(text), " "), Keep: true}
	if paper.Width(r) > width {
		return prose(text, st, width)
	}
	return []paper.Run{r}
}

// units are what a figure stays with.
var units = wordSet("m", "m.", "km", "km.", "cm", "cm.", "mm", "mm.", "dm", "dm.", "ft", "ft.", "feet", "foot", "mi", "mi.", "mile", "miles", "yd", "yds", "yards", "in.", "inches", "ha", "acres",
	"meter", "meters", "metre", "metres", "%", "°", "°C", "°F", "msnm", "m.s.n.m.", "m.s.m.", "m.a.s.l.", "masl", "a.s.l.", "g", "kg", "l", "°N", "°S", "°E", "°W", "µm", "μm")

// compass are the points of the compass, which stay with a distance or a
// coordinate before them.
var compass = wordSet("N", "S", "E", "W", "NE", "NW", "SE", "SW", "NNE", "NNW", "SSE", "SSW", "ENE", "ESE", "WNW", "WSW", "N.", "S.", "E.", "W.", "N.E.", "N.W.", "S.E.", "S.W.")

// before are words that stay with the figure that follows.
var before = wordSet("no.", "No.", "nr.", "Nr.", "n°", "p.", "pp.", "ca.", "c.", "ca", "about", "±", "+/-", "<", ">", "T.", "R.", "sec.", "Sec.", "alt.", "elev.", "kl.", "§")

func wordSet(ws ...string) map[string]bool {
	m := make(map[string]bool, len(ws))
	for _, w := range ws {
		m[w] = true
	}
	return m
}

// stays reports whether two neighbouring words are not parted at the end of a
// line.
func stays(a, b string) bool {
	bare := strings.TrimRight(b, ",;:)")
	switch {
	case figure(a) && (units[bare] || units[strings.TrimRight(bare, ".")]):
		return true
	case (units[a] || figure(a) && marked(a)) && compass[bare]: // 1.2 km NE; 60° 42' N
		return true
	case marked(a) && startsFigure(b) && !closed(a): // 60° 42' 12"
		return true
	case before[a] && startsFigure(b):
		return true
	case len(a) == 1 && strings.ContainsAny(a, "NSEW") && startsFigure(b) && marked(b): // N 60°
		return true
	}
	return initial(a) && capital(b)
}

// figure reports whether a word ends a number: 1.2, 60°42', ca.5, 3–4.
func figure(w string) bool {
	r, _ := utf8.DecodeLastRuneInString(w)
	return unicode.IsDigit(r) || marked(w) && startsFigure(w)
}

func startsFigure(w string) bool {
	r, n := utf8.DecodeRuneInString(w)
	if r == '-' || r == '+' || r == '±' || r == '~' || r == '(' {
		r, _ = utf8.DecodeRuneInString(w[n:])
	}
	return unicode.IsDigit(r)
}

// marked reports whether a word ends with a mark of degrees, minutes or
// seconds.
func marked(w string) bool {
	r, _ := utf8.DecodeLastRuneInString(strings.TrimRight(w, ",;."))
	switch r {
	case '°', 'º', '′', '″', '\'', '"', '’', '”':
		return strings.ContainsFunc(w, unicode.IsDigit)
	}
	return false
}

// closed reports whether a word ends a clause.
func closed(w string) bool { return strings.HasSuffix(w, ",") || strings.HasSuffix(w, ";") }

// initial reports whether a word is initials: S., J.-P., Á.
func initial(w string) bool {
	if len(w) < 2 || w[len(w)-1] != '.' || len(w) > 8 {
		return false
	}
	r, n := utf8.DecodeRuneInString(w)
	return unicode.IsUpper(r) && (w[n] == '.' || w[n] == '-')
}

func capital(w string) bool {
	r, _ := utf8.DecodeRuneInString(w)
	return unicode.IsUpper(r)
}

// plant is a name within other words: genus and epithets italic, all of one
// size.
func plant(text string, st paper.Style, width float64) []paper.Run {
	if n, err := names.Read(text); err != nil || n.Tail != "" || n.Text != strings.Join(strings.Fields(text), " ") {
		return prose(text, st, width)
	}
	return NameWithin(text, st.Size, st.Size, width)
}

// upper is a fixed phrase with a capital.
func upper(text string) string {
	r, n := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(r)) + text[n:]
}

func lower(text string) bool {
	r, _ := utf8.DecodeRuneInString(text)
	return unicode.IsLower(r)
}
