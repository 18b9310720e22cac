package people

import (
	"strings"
	"unicode"
)

// What a word says about figures.
type figure uint8

const (
	noFigure  figure = iota
	monthWord        // July, vii
	daySize          // 1 to 31
	year             // 1700 to 2099
	wholeDate        // 14.vii.1987, 7/14/1987, 1987-07-14
	number           // anything else with a figure in it
	mark             // No., nr., #
)

// NoNumber is what Team.Number holds when the words say that the gathering has
// no number (sine numero).
const NoNumber = "s.n."

// takeFigures takes the collector's number out of the words and leaves out
// dates: "Rask 1207", "S. Rask s.n.", "Rask no. 1207, 14 July 1987". Only the
// first number counts.
func takeFigures(text string) (rest, no string) {
	if !strings.ContainsAny(text, "0123456789") {
		return takeNoNumber(text)
	}
	words := strings.Fields(spaceCommas(text))
	kinds := make([]figure, len(words))
	for i, w := range words {
		kinds[i] = figureOf(strings.TrimRight(w, ",;"))
	}
	for i := range kinds { // months only beside figures
		if kinds[i] == monthWord && (!isDated(kinds, i-1) && !isDated(kinds, i+1) || behindInitials(words, i)) {
			kinds[i] = noFigure
		}
	}
	out := words[:0]
	for i, w := range words {
		core := strings.TrimRight(w, ",;")
		switch kinds[i] {
		case noFigure:
			if i+1 < len(words) && strings.HasSuffix(w, ":") && kinds[i+1] != noFigure {
				no = " " // "ContactID: 4703": the figure is a code of something else
				continue
			}
			out = append(out, w)
			continue
		case mark:
			if i+1 >= len(words) || kinds[i+1] == noFigure || kinds[i+1] == mark {
				out = append(out, w)
				continue
			}
		case number, daySize, year:
			if i+1 < len(words) && kinds[i] == daySize && has(others, words[i+1], ".,") {
				continue // "and 3 others"
			}
			marked := i > 0 && kinds[i-1] == mark
			dated := kinds[i] == year || kinds[i] == daySize && (isMonth(kinds, i-1) || isMonth(kinds, i+1))
			if no == "" && (marked || !dated) {
				no = strings.TrimLeft(core, "#([{")
				no = strings.ReplaceAll(strings.TrimRight(no, ")]}."), ",", "") // 8,123
			}
		}
		if core != w {
			out = append(out, w[len(core):]) // the comma parts persons still
		}
	}
	rest = strings.Join(out, " ")
	if no == "" {
		return takeNoNumber(strings.TrimRight(rest, " ,;"))
	}
	return rest, strings.TrimSpace(no)
}

// behindInitials reports whether nothing but initials stands before the word
// at i in its person: May is a family name in "S. May 1987".
func behindInitials(words []string, i int) bool {
	k := i - 1
	for k >= 0 && isInitials(words[k]) {
		k--
	}
	return k < i-1 && upper(words[i]) && (k < 0 || words[k] == "&" || strings.HasSuffix(words[k], ";") || strings.HasSuffix(words[k], ","))
}

func isMonth(kinds []figure, i int) bool { return i >= 0 && i < len(kinds) && kinds[i] == monthWord }

// isDated reports whether the word at i can stand beside a month.
func isDated(kinds []figure, i int) bool {
	return i >= 0 && i < len(kinds) && (kinds[i] == daySize || kinds[i] == year || kinds[i] == wholeDate)
}

// spaceCommas sets a space behind each comma before a figure or letter.
func spaceCommas(s string) string {
	if !strings.Contains(s, ",") {
		return s
	}
	var b strings.Builder
	for i := 0; i < len(s); i++ {
		switch {
		case s[i] != ',':
			b.WriteByte(s[i])
		case !isThousands(s, i):
			b.WriteString(", ")
		}
	}
	return b.String()
}

// isThousands reports whether the comma at i stands in one number: 8,123. One
// of more than four figures, a date or two numbers are written otherwise.
func isThousands(s string, i int) bool {
	from, to := i, i+1
	for from > 0 && isDigit(s[from-1]) {
		from--
	}
	for to < len(s) && isDigit(s[to]) {
		to++
	}
	return from < i && i-from <= 3 && to-i == 4 && s[from] != '0' && (from == 0 || s[from-1] == ' ' || s[from-1] == '#') && (to == len(s) || strings.IndexByte(" ;.)", s[to]) >= 0)
}

func isDigit(c byte) bool { return c >= '0' && c <= '9' }

var marks = wordSet("no no. nr nr. n° nº nro nro. n.º № # num num. number nummer")

// romans are the Roman figures of the months.
var romans = wordSet("i ii iii iv v vi vii viii ix x xi xii")

// figureOf says what the word w is among figures.
func figureOf(w string) figure {
	digits, letters, marksIn := 0, 0, 0
	for _, r := range w {
		switch {
		case r >= '0' && r <= '9':
			digits++
		case unicode.IsLetter(r):
			letters++
		default:
			marksIn++
		}
	}
	if digits == 0 {
		switch f := fold(strings.Trim(w, ".")); {
		case monthWords[f] || romans[f] && upperOrLower(w):
			return monthWord
		case marks[f] || marks[f+"."] && !upper(w) || w == "No." || w == "No" || w == "Nr.":
			return mark
		}
		return noFigure
	}
	bare := strings.Trim(w, ".()[]'`’")
	switch {
	case len(bare) == digits && digits == 4 && bare >= "1700" && bare < "2100":
		return year
	case len(bare) == digits && digits <= 2 && bare >= "1" && (digits == 1 || bare <= "31"):
		return daySize
	case isDate(bare):
		return wholeDate
	}
	return number
}

// upperOrLower reports whether w is all of one case, as Roman figures are.
func upperOrLower(w string) bool { return w == strings.ToUpper(w) || w == strings.ToLower(w) }

// isDate reports whether w has the form of a date: two or three groups parted
// by . / or -, one of them a year or a month, the others no more than days.
func isDate(w string) bool {
	groups := strings.FieldsFunc(w, func(r rune) bool { return r == '.' || r == '/' || r == '-' || r == '–' })
	if len(groups) == 1 {
		return isClosedDate(w)
	}
	if len(groups) > 4 {
		return false
	}
	years, months, days := 0, 0, 0
	for _, g := range groups {
		switch k := figureOf(g); k {
		case year:
			years++
		case daySize:
			days++
		case monthWord:
			months++
		case number:
			if len(g) == 2 && g[0] >= '0' && g[0] <= '9' && g[1] >= '0' && g[1] <= '9' {
				days++ // two figures of a year
				continue
			}
			return false
		default:
			return false
		}
	}
	switch {
	case months == 1 || years == 1 && len(groups) == 3:
		return true
	case years == 0 && months == 0:
		return len(groups) == 3 && days == 3 && !strings.Contains(w, "-")
	}
	return years == 1 && days == 1 && strings.ContainsAny(w, "./")
}

// isClosedDate reports whether w is a date without signs: 17IV1934, 3Jul1987.
func isClosedDate(w string) bool {
	i := 0
	for i < len(w) && w[i] >= '0' && w[i] <= '9' {
		i++
	}
	j := len(w)
	for j > i && w[j-1] >= '0' && w[j-1] <= '9' {
		j--
	}
	return i > 0 && i <= 2 && len(w)-j == 4 && figureOf(w[j:]) == year && j > i && figureOf(w[i:j]) == monthWord
}

// takeNoNumber takes "s.n.", "s/n", "sine numero" from the end.
func takeNoNumber(text string) (rest, no string) {
	if len(text) < 4 {
		return text, ""
	}
	for _, d := range [...]string{" s.d.", " s. d.", " s.d", " n.d."} {
		text = strings.TrimSuffix(text, d)
	}
	if i := strings.LastIndexAny(text, "nNrRoOmMº"); i < len(text)-2 {
		return text, ""
	}
	for _, n := range [...]string{" s.n.", " s. n.", " s.n", " s/n", " s/n.", " s/nº", " s/no.", " S.N.", " S/N", " s.no.", " s. no.", " sine numero", " sine num.", " sn", " s.nr.", " #s.n.",
		" no number", " No number", " without number", " ohne Nr.", " u.nr.", " uten nummer", " sin número", " sin numero", " sem número", " sans numéro"} {
		if r, ok := strings.CutSuffix(text, n); ok && strings.TrimRight(r, " ,;") != "" {
			return strings.TrimRight(r, " ,;"), NoNumber
		}
	}
	return text, ""
}
