package people

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Team is who a text names, in order. With no People and None Stated the
// words could not be read as persons (a code, a number).
type Team struct {
	People []Person
	Others bool // et al., & party: somebody more, not named
	None   None
	Number string // a number written with the collector: "Rask 1207"
}

// maxText is the longest text that is taken for persons, in bytes.
const maxText = 2000

// Read reads the persons of a text, in order; none when the words name
// nobody (see ReadTeam for which kind of none).
func Read(text string) []Person { return ReadTeam(text).People }

// ReadTeam reads a team: "J. Ratcliff & S. L. O'Kane, Jr.", "Rask, S.;
// Bannister, O.", "Signe Rask with Ove Bannister et al.".
func ReadTeam(text string) Team {
	text = strings.Join(strings.Fields(norm.NFC.String(text)), " ")
	var t Team
	if n, ok := noneOf(text); ok {
		t.None = n
		return t
	}
	if len(text) > maxText {
		t.People = []Person{{Text: text, Family: text}}
		return t
	}
	text, t.Number = cutNumber(dropBrackets(text))
	text = dropDates(text)
	segments, more := split(text)
	t.Others = more
	t.People = assemble(segments)
	if len(t.People) == 0 && onlyNone(segments) {
		t.None = NotRecorded
	}
	return t
}

// onlyNone reports whether every segment is a word for none.
func onlyNone(segments []string) bool {
	for _, s := range segments {
		if n, ok := noneOf(s); !ok || n == Stated {
			return false
		}
	}
	return len(segments) > 0
}

func noneOf(text string) (None, bool) {
	if len(text) > 40 {
		return Stated, false
	}
	if text == "" {
		return NotTyped, true
	}
	f := strings.TrimSpace(strings.Map(func(r rune) rune {
		if strings.ContainsRune(".[](),", r) {
			return -1
		}
		return r
	}, fold(text)))
	if f == "" {
		return Illegible, true // [...]
	}
	n, ok := noneWords[f]
	return n, ok
}

// dropBrackets leaves out remarks in brackets.
func dropBrackets(s string) string {
	if !strings.ContainsAny(s, "([") {
		return s
	}
	var b strings.Builder
	depth := 0
	for _, r := range s {
		switch r {
		case '(', '[':
			depth++
		case ')', ']':
			if depth > 0 {
				depth--
			}
		default:
			if depth == 0 {
				b.WriteRune(r)
			}
		}
	}
	if strings.Contains(s, "(s)") || strings.TrimSpace(b.String()) == "" {
		return strings.NewReplacer("(s)", "", "(", " ", ")", " ", "[", " ", "]", " ").Replace(s)
	}
	return b.String()
}

// cutNumber takes a collector's number from the end: "Rask 1207", "Rask, no.
// 1207". A year or a date is dropped later, as no name has figures.
func cutNumber(s string) (string, string) {
	f := strings.Fields(s)
	if len(f) < 2 {
		return s, ""
	}
	last := strings.TrimPrefix(strings.TrimLeft(f[len(f)-1], "#"), "no.")
	if last == "" || last[0] < '0' || last[0] > '9' || strings.ContainsAny(last, "./") {
		return s, ""
	}
	if len(last) == 4 && (last >= "1700" && last < "2100" || strings.HasSuffix(f[len(f)-2], ",")) {
		return s, "" // a year
	}
	if strings.HasSuffix(f[len(f)-2], ":") || monthWords[fold(strings.Trim(f[len(f)-2], ".,;"))] {
		return s, ""
	}
	rest := strings.Join(f[:len(f)-1], " ")
	rest = strings.TrimRight(strings.TrimSuffix(strings.TrimSuffix(rest, "no."), "nr."), " ,#")
	return rest, last
}

// dropDates leaves out words with figures and the months beside them.
func dropDates(s string) string {
	if !strings.ContainsAny(s, "0123456789") {
		return s
	}
	words := strings.Fields(strings.ReplaceAll(s, ",", ", "))
	figures := func(i int) bool { return i >= 0 && i < len(words) && strings.ContainsAny(words[i], "0123456789") }
	out := make([]string, 0, len(words))
	for i, w := range words {
		month := monthWords[fold(strings.Trim(w, ".,;"))] && (figures(i+1) || figures(i-1))
		switch {
		case figures(i) && strings.HasSuffix(w, ","):
			out = append(out, ",")
		case !figures(i) && !month && !(strings.HasSuffix(w, ":") && figures(i+1)):
			out = append(out, w)
		}
	}
	return strings.Join(out, " ")
}

var separators = strings.NewReplacer(";", " ; ", "|", " ; ", "∣", " ; ", "&", " & ", "+", " + ", "–", " ; ", "—", " ; ", " - ", " ; ", "/", " / ",
	" : ", " ; institution ", "…", " ")

// split cuts a text at everything that parts persons but commas.
func split(text string) (segments []string, more bool) {
	if strings.ContainsAny(text, ";|∣&+–—-/:…") {
		text = separators.Replace(text)
	}
	var cur []string
	institution := false
	flush := func() {
		if len(cur) > 0 && !institution {
			segments = append(segments, strings.Join(cur, " "))
		}
		cur, institution = nil, false
	}
	words := strings.Fields(text)
	defer func() { segments = withoutBodies(segments) }()
	for i, w := range words {
		f := strings.Trim(fold(w), ",:!")
		switch {
		case (others[f] || others[strings.TrimSuffix(f, ".")]) && (f == w || f == strings.TrimRight(w, ",:!")) && (len(cur) == 0 || !companions[f]):
			more = true
			flush()
		case w == ";" || w == "&" || w == "+" || w == "/":
			flush()
		case w == "institution":
			flush()
			institution = true
		case joins[f] && i > 0 && i < len(words)-1 && !joinIsName(words, i):
			flush()
		case f == "et." && i+1 < len(words):
			flush()
		case f == "stet" || i == 0 && (f == "via" || f == "per" || f == "fide"):
		case isRole(w, f):
			flush()
			institution = f == "herb."
		default:
			cur = append(cur, w)
		}
	}
	flush()
	return segments, more
}

// joinIsName reports whether a short joining word is here an initial or a
// particle: "a." or "e" between lower-case words.
func joinIsName(words []string, i int) bool {
	w := words[i]
	if upper(w) {
		return len(w) <= 2 && w != "&" // "A", "E": initials, "AND" is a join
	}
	if w == "y" || w == "e" || w == "i" || w == "a." {
		return i == 0
	}
	return false
}

func isRole(w, f string) bool {
	if f == "don" {
		return false // a given name; "don." is donavit
	}
	f = strings.TrimSuffix(f, ".")
	if !roles[f] && f != "herb" {
		return false
	}
	return !upper(w) || len(f) >= 3 || f == "by"
}

// withoutBodies leaves out museums and the like beside persons.
func withoutBodies(segments []string) []string {
	if len(segments) < 2 {
		return segments
	}
	out := segments[:0]
	for _, s := range segments {
		body := false
		for _, w := range strings.Fields(s) {
			body = body || institutions[fold(strings.Trim(w, ",."))]
		}
		if !body {
			out = append(out, s)
		}
	}
	return out
}

func upper(w string) bool {
	r, _ := utf8.DecodeRuneInString(w)
	return unicode.IsUpper(r)
}
