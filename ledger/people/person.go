package people

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Person is one person as written.
type Person struct {
	Text     string // the words, in reading order
	Title    string // Dr., Prof., Miss
	Given    string // given names or initials, as written
	Particle string // van der, de
	Family   string // family name; a person known by one name has it here
	Suffix   string // Jr., III
	ORCID    string // the iD that stands beside the name, if its check character is right
}

// String is the person in reading order: Given Particle Family, Suffix.
func (p Person) String() string {
	s := strings.Join(nonEmpty(p.Given, p.Particle, p.Family), " ")
	if p.Suffix != "" {
		s += ", " + p.Suffix
	}
	return s
}

func nonEmpty(words ...string) []string {
	out := words[:0]
	for _, w := range words {
		if w != "" {
			out = append(out, w)
		}
	}
	return out
}

// Initials is the person with initials for given names: S. Rask, J.-P.
// Martin, S. L. O'Kane, Jr.
func (p Person) Initials() string {
	q := p
	q.Given = strings.Join(initials(p.Given), " ")
	return q.String()
}

// initials are the first letters of given names, each with a full stop;
// hyphens are kept.
func initials(given string) []string {
	var out []string
	for _, w := range strings.Fields(spaceInitials(given)) {
		var b strings.Builder
		for i, part := range strings.Split(w, "-") {
			r, size := utf8.DecodeRuneInString(part)
			if size == 0 {
				continue
			}
			if i > 0 {
				b.WriteByte('-')
			}
			b.WriteRune(unicode.ToUpper(r))
			b.WriteByte('.')
		}
		if b.Len() > 0 {
			out = append(out, b.String())
		}
	}
	return out
}

// spaceInitials sets a space after each full stop between initials, and
// between capitals written together as initials: "MG.C" becomes "M. G. C.".
func spaceInitials(given string) string {
	if !strings.Contains(given, ".") && !strings.ContainsFunc(given[min(1, len(given)):], unicode.IsUpper) {
		return given
	}
	words := strings.Fields(strings.ReplaceAll(strings.ReplaceAll(given, ".", ". "), ". -", ".-"))
	for i, w := range words {
		bare := strings.TrimSuffix(w, ".")
		if n := utf8.RuneCountInString(bare); n >= 2 && n <= 4 && allUpper(bare) {
			words[i] = strings.Join(strings.Split(bare, ""), ". ") + "."
		}
	}
	return strings.Join(words, " ")
}

func allUpper(w string) bool {
	for _, r := range w {
		if !unicode.IsUpper(r) {
			return false
		}
	}
	return w != ""
}

// SortKey sorts persons by family name, then given names; particles count
// after the given names, as most lists of botanists have them (common
// practice, no source). Accents and case are folded.
func (p Person) SortKey() string {
	rest := strings.Join(nonEmpty(p.Given, p.Particle, p.Suffix), " ")
	if rest == "" {
		return fold(p.Family)
	}
	return fold(p.Family + ", " + rest)
}

// Slug is the page address of the person: lower-case ASCII, given names
// first, without title: signe-rask. Empty when no Latin letter or figure is
// left.
func (p Person) Slug() string { return slug(p.String()) }

// Slug is the page address of a person's name as people.yaml writes it.
func Slug(name string) string { return slug(name) }

func slug(s string) string {
	b := make([]byte, 0, len(s))
	gap := false
	for _, r := range fold(s) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && len(b) > 0 {
				b = append(b, '-')
			}
			gap = false
			b = append(b, byte(r))
		} else if r != '\'' {
			gap = true
		}
	}
	return string(b)
}

// Key is a person's name for comparison: equal keys are the same spelling but
// for case, accents, dots and spaces.
func (p Person) Key() string { return key(p.String()) }

func key(s string) string {
	return strings.Join(strings.FieldsFunc(fold(s), func(r rune) bool {
		return r == '.' || r == ',' || r == ' ' || r == '-' || r == '\''
	}), " ")
}
