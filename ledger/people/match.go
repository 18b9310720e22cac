package people

import "strings"

// Entry is one person of the museum's own list.
type Entry struct {
	Name      string
	Spellings []string // as met on labels
}

// How a spelling was matched.
type How uint8

const (
	NoMatch    How = iota
	ByName         // the name itself
	BySpelling     // one of the spellings on the list
	ByInitials     // family name and initials agree, and with one entry only
	Several        // more than one entry agrees; Entry means nothing
)

// Match is what an index knows about one person of a text.
type Match struct {
	Person Person
	Entry  int // place in the list given to NewIndex; -1 when none
	How    How
}

// Found reports whether exactly one entry was matched.
func (m Match) Found() bool { return m.How != NoMatch && m.How != Several }

// Index finds entries by spelling. It may be used by several goroutines.
type Index struct {
	exact    map[string]hit
	families map[string][]int
	given    [][]string // initials of each entry, folded
}

type hit struct {
	entry int
	how   How
}

// NewIndex makes an index of a list; entry i is the i-th.
func NewIndex(entries []Entry) *Index {
	x := &Index{exact: map[string]hit{}, families: map[string][]int{}, given: make([][]string, len(entries))}
	put := func(k string, h hit) {
		old, ok := x.exact[k]
		switch {
		case !ok || h.how < old.how:
			x.exact[k] = h
		case old.entry != h.entry && old.how == h.how:
			x.exact[k] = hit{-1, Several}
		}
	}
	for i, e := range entries {
		put(key(e.Name), hit{i, ByName})
		for _, s := range e.Spellings {
			put(key(s), hit{i, BySpelling})
		}
		if t := Read(e.Name); len(t) == 1 {
			put(t[0].Key(), hit{i, ByName})
			f := familyKey(t[0])
			x.families[f] = append(x.families[f], i)
			x.given[i] = foldedInitials(t[0].Given)
		}
	}
	return x
}

func familyKey(p Person) string {
	return strings.TrimSpace(key(p.Particle+" "+p.Family) + " " + suffixKey(p.Suffix))
}

func foldedInitials(given string) []string {
	in := initials(given)
	for i := range in {
		in[i] = fold(in[i])
	}
	return in
}

// Find matches a text that names one person, or the words of a whole spelling
// such as "Rask & Bannister".
func (x *Index) Find(text string) Match {
	if h, ok := x.exact[key(text)]; ok {
		m := Match{Entry: h.entry, How: h.how}
		if t := Read(text); len(t) == 1 {
			m.Person = t[0]
		} else {
			m.Person = Person{Text: text, Family: text}
		}
		return m
	}
	t := Read(text)
	if len(t) != 1 {
		return Match{Entry: -1}
	}
	return x.FindPerson(t[0])
}

// FindPerson matches one person that was read.
func (x *Index) FindPerson(p Person) Match {
	for _, k := range []string{p.Key(), key(p.Text)} {
		if h, ok := x.exact[k]; ok {
			return Match{p, h.entry, h.how}
		}
	}
	m := Match{Person: p, Entry: -1}
	want := foldedInitials(p.Given)
	if len(want) == 0 {
		return m // a family name alone is nobody in particular
	}
	for _, i := range x.families[familyKey(p)] {
		if !agree(want, x.given[i]) || !givenAgree(p.Given, want) {
			continue
		}
		if m.How != NoMatch {
			return Match{p, -1, Several}
		}
		m.Entry, m.How = i, ByInitials
	}
	return m
}

// FindAll matches every person of a team, in order. A whole text that is a
// spelling on the list is one match.
func (x *Index) FindAll(text string) []Match {
	if h, ok := x.exact[key(text)]; ok && h.how != Several {
		return []Match{x.Find(text)}
	}
	people := Read(text)
	out := make([]Match, len(people))
	for i, p := range people {
		out[i] = x.FindPerson(p)
	}
	return out
}

// agree reports whether one list of initials begins the other.
func agree(a, b []string) bool {
	n := min(len(a), len(b))
	for i := range n {
		if a[i] != b[i] {
			return false
		}
	}
	return n > 0
}

// givenAgree reports whether the given names are initials alone; a full given
// name that is on no list is another person's until the list says otherwise.
func givenAgree(given string, in []string) bool {
	return len(strings.Fields(spaceInitials(given))) == len(in) && isGivenOnly(given)
}
