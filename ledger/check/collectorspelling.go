package check

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/names"
	"blotter/ledger/people"
)

var collectorSpellingRules = []Rule{
	{Code: "collector-spelling", Severity: ledger.Warning,
		Says:   "One collector is spelled in one way, or people.yaml lists the spellings.",
		Why:    "A slip of one or two letters makes a second person of one. Asked of a spelling that is rare beside another; how many letters are a slip is spelling_distance under checks.",
		Counts: &bySpelling,
		Odd:    collectorSpelling},
}

// bySpelling counts the collectors as written that share the first letters, or
// the last, of the family name and the initial: two spellings one slip or two
// apart share one of the two, unless both ends are slips.
var bySpelling = Tallying{Name: "spelling", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	if !led(e) {
		return to
	}
	family, initial := e.Who, ""
	if i := strings.LastIndexByte(e.Who, ' '); i >= 0 && utf8.RuneCountInString(e.Who[i+1:]) == 1 {
		family, initial = e.Who[:i], e.Who[i:]
	}
	letters := []rune(family)
	if len(letters) < leastFamily {
		return to
	}
	return append(to, book.Tally{Key: "<" + string(letters[:3]) + initial, Bin: e.Collector},
		book.Tally{Key: ">" + string(letters[len(letters)-3:]) + initial, Bin: e.Collector})
}}

// Shorter family names are often other people's, one letter away; and a
// spelling is rare when another has so many times more sheets. Our choice, no
// source.
const (
	leastFamily = 5
	rareTimes   = 10
)

// spelled is one spelling of a person with its sheets.
type spelled struct {
	person people.Person
	text   string // folded, initials apart: what is compared
	family string // folded
	full   bool   // a given name is written in full
	sheets int
	listed bool // people.yaml has it
}

func collectorSpelling(_ string, c book.Counts, a *Around) func(*book.Entry, say) {
	if len(c) < 2 {
		return nil
	}
	by := map[string]*spelled{}
	of := map[string]string{}
	for _, words := range slices.Sorted(maps.Keys(c)) {
		n := c[words]
		team := people.Read(words)
		if len(team) == 0 {
			continue
		}
		x := spelledOf(team[0])
		s := by[x.text]
		if s == nil {
			s = &x
			all := a.Museum.People.FindAll(x.person.String())
			s.listed = len(all) > 0 && all[0] != nil
			by[s.text] = s
		}
		s.sheets += n
		of[words] = s.text
	}
	better := map[string]*spelled{}
	for key, s := range by {
		for _, o := range by {
			if !s.listed && o.sheets >= rareTimes*s.sheets && slip(s, o, int(a.Settings.SpellingDistance)) {
				if b := better[key]; b == nil || o.sheets > b.sheets || o.sheets == b.sheets && o.text < b.text {
					better[key] = o
				}
			}
		}
	}
	if len(better) == 0 {
		return nil
	}
	return func(e *book.Entry, say say) {
		o := better[of[e.Collector]]
		if o == nil {
			return
		}
		say(place{line: int(e.Lines.Collector), field: "collector"}, words{
			fmt.Sprintf("is spelled nearly as %s, who has %d sheets, and may be the same person", o.person, o.sheets),
			lines("If the label has it so, list this spelling under that person in people.yaml; if not: "+set(short(e.Number), "collector", o.person.String()),
				accept(short(e.Number), "collector-spelling"))})
	}
}

func spelledOf(p people.Person) spelled {
	s := spelled{person: p, family: people.Person{Particle: p.Particle, Family: p.Family}.Key()}
	given := people.Person{Given: p.Given}
	s.full = strings.ContainsFunc(given.Given, unicode.IsLower)
	if !s.full {
		p.Given = given.Initials()
	}
	s.text = p.Key()
	return s
}

// slip reports whether two spellings are at most so many letters apart, in the
// family name or a given name written in full; other initials are other
// people, and initials for a name are no slip.
func slip(a, b *spelled, most int) bool {
	x, y := people.Person{Given: a.person.Given}.Initials(), people.Person{Given: b.person.Given}.Initials()
	if !strings.EqualFold(x, y) || a.family == b.family && !(a.full && b.full) {
		return false
	}
	short := min(utf8.RuneCountInString(a.family), utf8.RuneCountInString(b.family))
	d := names.Distance(a.text, b.text, most+1)
	return d > 0 && d <= most && short > 2*d+1
}
