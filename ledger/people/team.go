package people

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"golang.org/x/text/unicode/norm"
)

// Team is who a text names, in order. With no People and None Stated the
// words could not be read as persons (a code, a number, a museum).
type Team struct {
	People []Person
	Bodies []string // expeditions, museums and the like, as written
	Others bool     // et al., & party: somebody more, not named
	None   None
	// Number is the collector's number in the same words, without No. and #:
	// "1207" of "Rask 1207"; NoNumber when they say that there is none.
	Number   string
	Warnings []Warning
}

// Warning is something about the words that is worth a look and hinders
// nothing.
type Warning struct {
	Code    string
	Message string
}

// maxText is the longest text that is taken for persons, in bytes.
const maxText = 2000

// Read reads the persons of a text, in order; none when the words name
// nobody (see ReadTeam for which kind of none).
func Read(text string) []Person { return ReadTeam(text).People }

// ReadTeam reads a team: "J. Ratcliff & S. L. O'Kane, Jr.", "Rask, S.;
// Bannister, O.", "Signe Rask with Ove Bannister et al. 1207".
func ReadTeam(text string) Team {
	text = oneLine(text)
	var t Team
	if n, ok := noneOf(text); ok {
		t.None = n
		return t
	}
	if len(text) > maxText {
		t.People = []Person{{Text: text, Family: text}}
		return t
	}
	text, ids, warnings := strip(text)
	t.Warnings = warnings
	text, t.Number = takeFigures(dropBrackets(text))
	s := splitter{}
	s.split(text)
	t.Others, t.Bodies = s.others, s.bodies
	t.People = assemble(s.segments, ids)
	if len(t.People) == 0 {
		if len(t.Bodies) == 0 && onlyNone(s.segments) {
			t.None = NotRecorded
		}
		if strings.ContainsFunc(t.Number, unicode.IsLetter) && t.Number != NoNumber {
			t.Number = "" // the code of something, not a collector's number
		}
	}
	return t
}

// oneLine is text in NFC with every run of space one space.
func oneLine(text string) string {
	for i := 0; i < len(text); i++ {
		if c := text[i]; c >= utf8.RuneSelf || c < ' ' || c == ' ' && (i == 0 || i+1 == len(text) || text[i+1] == ' ') {
			return strings.Join(strings.Fields(norm.NFC.String(text)), " ")
		}
	}
	return text
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
	if text == "s.c." || text == "s. c." {
		return NotRecorded, true // in capitals they are somebody's initials
	}
	if text == "" {
		return NotTyped, true
	}
	var buf [40]byte
	k := 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		switch {
		case c >= utf8.RuneSelf:
			n, ok := noneWords[strings.TrimSpace(strings.NewReplacer(".", "", "[", "", "]", "", "(", "", ")", "", ",", "").Replace(fold(text)))]
			return n, ok
		case strings.IndexByte(".[](),<>", c) >= 0 || c == ' ' && k == 0:
			continue
		case c >= 'A' && c <= 'Z':
			c += 'a' - 'A'
		}
		buf[k] = c
		k++
	}
	for k > 0 && buf[k-1] == ' ' {
		k--
	}
	if k == 0 {
		return Illegible, true // [...]
	}
	n, ok := noneWords[string(buf[:k])]
	return n, ok
}

// dropBrackets leaves out remarks in brackets.
func dropBrackets(s string) string {
	if !strings.ContainsAny(s, "([") {
		return s
	}
	if i := strings.IndexByte(s, '('); i > 0 { // "(with K. Jones)" goes on with the team
		if in := strings.Fields(s[i+1:]); len(in) > 1 && (joins[word(in[0])] || in[0] == "&") {
			return strings.NewReplacer("(", " ", ")", " ").Replace(s)
		}
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

var separators = strings.NewReplacer(";", " ; ", "|", " ; ", "∣", " ; ", "&", " & ", "+", " + ", "–", " ; ", "—", " ; ", "\\", " ; ", "•", " ; ", " · ", " ; ", " × ", " ; ", " = ", " ; ", " > ", " ; ", " - ", " ; ", "/", " / ",
	" : ", " ; institution ", "…", " ")

// splitter cuts a text at everything that parts persons but commas.
type splitter struct {
	segments []string
	bodies   []string
	others   bool
	words    []string
	cur      int // first word of the segment at hand in kept
	kept     []string
	start    int  // its first word in words
	skip     bool // what follows is a place or owner, no collector
}

// flush ends the segment at hand before the word at end.
func (s *splitter) flush(end int) {
	seg, all := s.kept[s.cur:], s.words[min(s.start, end):end]
	switch {
	case len(all) > 0 && !s.skip && isBody(all):
		s.partBody(all)
	case len(seg) > 0 && !s.skip:
		s.segments = append(s.segments, strings.Join(seg, " "))
	}
	s.cur, s.start, s.skip = len(s.kept), end+1, false
}

// partBody takes the body out of words in which commas may part it from
// persons: "Signe Rask, Botanical Survey".
func (s *splitter) partBody(all []string) {
	var persons []string
	for _, part := range strings.Split(strings.Join(all, " "), ",") {
		part = strings.TrimSpace(part)
		switch {
		case part == "":
		case isBody(strings.Fields(part)) || len(persons) == 0 && len(s.bodies) > 0 && !strings.Contains(part, "."):
			s.bodies = append(s.bodies, part)
		default:
			persons = append(persons, part)
		}
	}
	if len(persons) > 0 {
		s.segments = append(s.segments, strings.Join(persons, ", "))
	}
}

func (s *splitter) split(text string) {
	if strings.ContainsAny(text, ";|∣&+–—-/:…\\•·×=>") {
		text = separators.Replace(text)
	}
	s.words = strings.Fields(text)
	s.kept = make([]string, 0, len(s.words))
	for i, w := range s.words {
		f := word(w)
		switch {
		case len(w) == 1 && strings.Contains(";&+/", w):
			s.flush(i)
		case f != "" && s.isOthers(w, f, i):
			s.others = true
			s.flush(i)
		case w == "institution":
			s.flush(i)
			s.skip = true
		case joins[f] && i > 0 && i < len(s.words)-1 && !joinIsName(s.words, i):
			s.flush(i)
		case f == "et." && i+1 < len(s.words):
			s.flush(i)
		case joins[f] && (i == 0 || i == len(s.words)-1) && !upper(w) && !particles[f]: // joins nobody
		case len(s.kept) == s.cur && i > 0 && particles[w] && gatheredBy[word(s.words[i-1])]:
		case (w == "of" || w == "from") && len(s.kept) == s.cur: // "gift of"
		case f == "stet" || i == 0 && (f == "via" || f == "per" || f == "fide"):
		case isRole(w, f):
			if bodyRoles[strings.TrimSuffix(f, ".")] {
				continue
			}
			s.flush(i)
			s.skip = f == "herb."
		case strings.HasSuffix(w, ":") && len(w) > 2 && !strings.HasSuffix(w, ".:"):
			s.kept = append(s.kept, w)
			s.flush(i + 1)
			s.start = i + 1
		default:
			s.kept = append(s.kept, w)
		}
	}
	s.flush(len(s.words))
}

// gatheredBy are the words after which a particle says by whom: "gesammelt
// von", "samlet av".
var gatheredBy = wordSet("gesammelt samlet bestimmt bestemt")

// bodyRoles end the name of an expedition called after a person.
var bodyRoles = wordSet("exp exped expedition")

// isOthers reports whether the word at i stands for unnamed companions.
func (s *splitter) isOthers(w, f string, i int) bool {
	bare := strings.TrimSuffix(f, ".")
	if i+1 < len(s.words) && (bare == "u" || bare == "m" || bare == "e") && len(s.kept) > s.cur { // "u. a.", "m. fl."
		if next := strings.Trim(s.words[i+1], ".,"); bare == "u" && next == "a" || bare == "m" && next == "fl" {
			s.words[i+1] = "al."
			return true
		}
	}
	if f == "family" && w == f && len(s.kept) > s.cur {
		return true // "Rask family"
	}
	if !others[f] && !others[bare] || f != strings.TrimRight(w, ",:!") {
		return false
	}
	return len(s.kept) == s.cur && (i > 0 || !companions[f]) || !companions[f] && !companions[bare]
}

// joinIsName reports whether a short joining word is here an initial or a
// particle: "a." or "e" between lower-case words.
func joinIsName(words []string, i int) bool {
	w := strings.TrimRight(words[i], ",")
	if upper(w) {
		return len(w) <= 2 && w != "&" // "A", "E": initials, "AND" is a join
	}
	if w == "y" || w == "e" || w == "i" || w == "a." {
		return i == 0
	}
	return false
}

func isRole(w, f string) bool {
	if w == "pers." || w == "pers" {
		return true // "pers. comm."
	}
	if f == "don" {
		return false // a given name; "don." is donavit
	}
	f = strings.TrimSuffix(f, ".")
	if !roles[f] && f != "herb" {
		return false
	}
	return !upper(w) || len(f) >= 3 || f == "by" || f == "ex"
}

func upper(w string) bool {
	r, _ := utf8.DecodeRuneInString(w)
	return unicode.IsUpper(r)
}
