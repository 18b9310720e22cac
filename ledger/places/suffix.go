package places

import "strings"

// What may stand behind a position in the same words.

// heightUnits end a height, with the metres of one.
var heightUnits = []struct {
	word   string
	metres float64
}{
	{"m a.s.l", 1}, {"m asl", 1}, {"m.a.s.l", 1}, {"masl", 1}, {"m o.h", 1}, {"m.o.h", 1}, {"moh", 1}, {"msnm", 1}, {"m s.n.m", 1}, {"metres", 1}, {"meters", 1}, {"m", 1},
	{"feet", 0.3048}, {"ft", 0.3048},
}

// heightWords announce a height.
var heightWords = []string{"altitude", "altitud", "alt", "elevation", "elev", "høyde", "höhe", "h"}

// cutHeight takes a height from the end of a position: after the letter of
// its last coordinate (60°42'N 6°39'E, 350 m), after a word for it, or as the
// third of three values with commas between (60.7033, 6.6514, 348 m).
func cutHeight(text string) (rest string, metres float64, ok bool) {
	s := strings.TrimRight(text, " .)")
	for _, u := range heightUnits {
		if n := len(s) - len(u.word); n > 0 && strings.EqualFold(s[n:], u.word) {
			s, metres, ok = strings.TrimRight(s[:n], " "), u.metres, true
			break
		}
	}
	end := len(s)
	for end > 0 && (isDigit(s[end-1]) || s[end-1] == '.' || s[end-1] == ',') {
		end--
	}
	figure, n := figureAt(strings.Trim(s[end:], ",."))
	if !ok || n == 0 || len(figure) > 7 {
		return text, 0, false
	}
	before := strings.TrimRight(s[:end], " ,;:(")
	word := ""
	for _, w := range heightWords {
		if i := len(before) - len(w); i > 1 && strings.EqualFold(before[i:], w) && strings.IndexByte(" ,;(", before[i-1]) >= 0 {
			word, before = w, strings.TrimRight(before[:i], " ,;:(.")
			break
		}
		if b, cut := strings.CutSuffix(before, "."); cut && word == "" {
			if i := len(b) - len(w); i > 1 && strings.EqualFold(b[i:], w) && strings.IndexByte(" ,;(", b[i-1]) >= 0 {
				word, before = w, strings.TrimRight(b[:i], " ,;:(.")
				break
			}
		}
	}
	if before == "" || len(before) == end {
		return text, 0, false
	}
	lettered := strings.IndexByte("NSEWO", before[len(before)-1]) >= 0
	third := strings.HasPrefix(strings.TrimLeft(s[len(before):], " "), ",") && strings.Count(before, ", ") == 1
	if word == "" && !lettered && !third {
		return text, 0, false
	}
	return before, metres * parsed(figure), true
}

// cutUncertainty takes an error in metres from the end of a position: ± 50 m.
func cutUncertainty(text string) (rest string, metres float64) {
	for _, mark := range []string{"±", "+/-", "+-"} {
		i := strings.LastIndex(text, mark)
		if i <= 0 {
			continue
		}
		s, ok := strings.CutSuffix(strings.Trim(text[i+len(mark):], " .)"), "m")
		s, kilo := strings.CutSuffix(s, "k")
		figure, n := figureAt(strings.TrimSpace(s))
		if !ok || n == 0 || n != len(strings.TrimSpace(s)) {
			return text, 0
		}
		metres = parsed(figure)
		if kilo {
			metres *= 1000
		}
		return strings.TrimRight(text[:i], " ,;("), metres
	}
	return text, 0
}

// cutProjected takes the name of a projected system to pieces, as catalogues of
// such write it: "WGS 84 / UTM zone 33N" leaves "UTM zone 33N", EPSG:32633 leaves
// "UTM 33N".
func cutProjected(text string) (rest, datum string) {
	if i := indexFold(text, "epsg"); i >= 0 {
		j := i + 4
		for j < len(text) && strings.IndexByte(": ", text[j]) >= 0 {
			j++
		}
		end := j
		for end < len(text) && isDigit(text[end]) {
			end++
		}
		if zone, name, ok := utmOfCode(text[j:end]); ok {
			return strings.Trim(text[:i], " ,;([") + " UTM " + zone + " " + strings.Trim(text[end:], " ,;)]"), name
		}
	}
	slash := strings.IndexByte(text, '/')
	if slash < 0 || indexFold(text[slash:], "utm") < 0 {
		return text, ""
	}
	before, name := cutDatum(text[:slash])
	if name == "" {
		return text, ""
	}
	return before + " " + strings.TrimLeft(text[slash+1:], " "), name
}
