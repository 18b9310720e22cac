package check

import (
	"slices"
	"strings"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

// identity is who a collector's words name: a person of people.yaml, or the
// words themselves, folded.
type identity struct {
	name     string   // equal for one person; "" nobody
	initials []string // of the given names
	short    bool     // the given names are initials alone, or there are none
}

// identityOf is the collector of an entry, the first of a team.
func (a *Around) identityOf(words string) identity {
	if id, ok := a.identities[words]; ok {
		return id
	}
	id := a.identify(words)
	if a.identities == nil {
		a.identities = map[string]identity{}
	}
	a.identities[words] = id
	return id
}

func (a *Around) identify(words string) identity {
	team := people.Read(words)
	if len(team) == 0 {
		return identity{name: strings.ToLower(words)}
	}
	p := team[0]
	id := identity{name: p.Key()}
	if all := a.Museum.People.FindAll(words); len(all) > 0 && all[0] != nil {
		id.name = "=" + all[0].Name.Text
		if listed := people.Read(all[0].Name.Text); len(listed) == 1 {
			p = listed[0]
		}
	}
	given := people.Person{Given: p.Given}.Initials()
	id.initials = strings.Fields(strings.ToLower(given))
	id.short = id.name[0] != '=' && p.Initials() == p.String()
	return id
}

// persons parts a group whose key holds a book.Entry's Who by the person: full
// names that differ are two persons, initials are the one person whose given
// names begin with them, if there is only one.
func (g *group) persons() [][]*book.Entry {
	same := true
	for _, e := range g.same[1:] {
		same = same && e.Collector == g.same[0].Collector
	}
	if same {
		return [][]*book.Entry{g.same}
	}
	var ids []identity
	for _, e := range g.same {
		if id := g.around.identityOf(e.Collector); !slices.ContainsFunc(ids, func(o identity) bool { return o.name == id.name }) {
			ids = append(ids, id)
		}
	}
	slices.SortFunc(ids, func(a, b identity) int { return strings.Compare(a.name, b.name) })
	whole := map[string]string{}
	for _, id := range ids {
		whole[id.name] = id.wholeAmong(ids)
	}
	at := map[string]int{}
	var out [][]*book.Entry
	for _, e := range g.same {
		name := whole[g.around.identityOf(e.Collector).name]
		i, ok := at[name]
		if !ok {
			i = len(out)
			at[name] = i
			out = append(out, nil)
		}
		out[i] = append(out[i], e)
	}
	return out
}

// wholeAmong is the name of the one fuller identity that initials may stand
// for, else its own.
func (id identity) wholeAmong(ids []identity) string {
	if !id.short {
		return id.name
	}
	found := ""
	for _, o := range ids {
		if o.name == id.name || o.short && len(o.initials) <= len(id.initials) || !beginWith(o.initials, id.initials) {
			continue
		}
		if found != "" {
			return id.name
		}
		found = o.name
	}
	if found == "" {
		return id.name
	}
	return found
}

// led reports whether a record is of a specimen that somebody collected: not a
// number that no sheet bore, or that goes on under another.
func led(e *book.Entry) bool { return e.Who != "" && e.Fate != "mistake" && e.Fate != "same-as" }

// stated is a text that says something; "" for words for none.
func stated(text string) string {
	if reading.AbsenceOf(text) != reading.Present {
		return ""
	}
	return text
}

// beginWith reports whether one list of initials begins the other.
func beginWith(a, b []string) bool {
	n := min(len(a), len(b))
	return slices.Equal(a[:n], b[:n])
}

// secret reports whether the record may be withheld, so that a message does
// not repeat its values.
func secret(e *book.Entry, a *Around) bool {
	if e.Flags.Has(book.Sensitive) {
		return true
	}
	for _, k := range append([]string{e.NameKey}, e.Once...) {
		if n := a.Museum.Names.Find(k); n != nil && book.MarkedSensitive(n.Given.Sensitive) {
			return true
		}
	}
	return false
}

// dated is when a record's plant was collected, for a message; "" when that
// may be withheld.
func dated(e *book.Entry, a *Around) string {
	switch {
	case secret(e, a):
		return ""
	case e.First == e.Last:
		return dates.Words(e.First)
	}
	return e.First.String() + " to " + e.Last.String()
}
