package render

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/people"
	"blotter/render/page"
)

// party is the people whom the words of one field name, each as written there:
// Rask and Bannister of "Rask & Bannister" when people.yaml has them all;
// otherwise the words are taken for one name.
func (s *shelf) party(words string) []string {
	all := s.in.Book.Museum.People.FindAll(words)
	if len(all) < 2 {
		return []string{words}
	}
	team := people.Read(words)
	out, rest := make([]string, 0, len(all)), words
	for i, p := range team {
		_, after, ok := strings.Cut(rest, p.Text)
		if !ok || len(team) != len(all) || all[i] == nil {
			return []string{words}
		}
		out, rest = append(out, p.Text), after
	}
	return out
}

// veiled is words that name several, with the initials of whoever of them
// asked to be shown by those.
func (s *shelf) veiled(words string) string {
	all := s.in.Book.Museum.People.FindAll(words)
	if len(all) < 2 || !slices.ContainsFunc(all, byInitials) {
		return words
	}
	for i, p := range people.Read(words) {
		if i < len(all) && byInitials(all[i]) {
			words = strings.Replace(words, p.Text, initials(all[i].Name.Text), 1)
		}
	}
	return words
}

func byInitials(p *ledger.Person) bool { return p != nil && p.Initials.Text == "yes" }

// putCollectors brings a sheet to whoever collected it: the first of a party
// gave it its number, the others were there, which a withheld sheet does not
// tell.
func (s *shelf) putCollectors(e *book.Entry) {
	for i, one := range s.party(e.Collector) {
		switch p := s.person(one); {
		case p == nil:
		case i == 0:
			p.collected = append(p.collected, e)
		case s.class(e).Dated():
			p.with = append(p.with, e)
		}
	}
}

// partyWords is the words of a collector, with a link to each who is named.
func (s *shelf) partyWords(words string) []page.Run {
	var out []page.Run
	rest := words
	for _, one := range s.party(words) {
		before, after, _ := strings.Cut(rest, one)
		if before != "" {
			out = append(out, page.Words(before))
		}
		name, _ := s.who(one)
		out = append(out, page.WordsLink{To: page.Address("people/" + s.slug(name)), Words: page.Words(s.shownAs(one))})
		rest = after
	}
	if rest != "" {
		out = append(out, page.Words(rest))
	}
	return out
}
