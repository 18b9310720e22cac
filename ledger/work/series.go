package work

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

// number is a collector's number as read.
type number struct {
	prefix string
	serial uint32
	suffix string
}

func (n number) words() string {
	if n.serial == 0 {
		return n.prefix
	}
	return n.prefix + strconv.Itoa(int(n.serial)) + n.suffix
}

// series is one collector, as works write him, with the records that are his.
type series struct {
	who    identity
	is     string // equal for one person
	record map[number][]numbered
}

// numbered is a record with the letters behind its number.
type numbered struct {
	suffix string
	at     int32
}

// find are the records of a gathering: those that bear its number, or, when
// there is none, those into which it was split (1311a, 1311b).
func (s *series) find(n number) []int32 {
	all := s.record[number{n.prefix, n.serial, ""}]
	var out []int32
	for _, r := range all {
		if r.suffix == n.suffix {
			out = append(out, r.at)
		}
	}
	if out == nil && n.suffix == "" && n.serial > 0 {
		for _, r := range all {
			out = append(out, r.at)
		}
	}
	return out
}

// identity is whom words for a collector name.
type identity struct {
	person   *ledger.Person // of people.yaml; nil: not there, or one of several
	key      string         // family name and first initial, folded
	name     string         // the first person's words, folded
	initials []string       // of the given names
	short    bool           // the given names are initials alone, or there are none
}

func identify(of *book.People, words string) identity {
	id := identity{key: reading.Who(words), name: folded(words)}
	if all := of.FindAll(words); len(all) > 0 {
		id.person = all[0]
	}
	team := people.Read(words)
	if len(team) == 0 {
		return id
	}
	p := team[0]
	id.name, id.short = p.Key(), id.person == nil && p.Initials() == p.String()
	if id.person != nil {
		if listed := people.Read(id.person.Name.Text); len(listed) == 1 {
			p = listed[0]
		}
	}
	id.initials = strings.Fields(strings.ToLower(people.Person{Given: p.Given}.Initials()))
	return id
}

// same reports whether two spellings name one person: one of people.yaml, or,
// where that does not know both, the same name, or initials with which the
// given names of the other begin.
func (a identity) same(b identity) bool {
	switch {
	case a.person != nil && b.person != nil:
		return a.person == b.person
	case a.key == "" || a.key != b.key:
		return false
	case a.name == b.name:
		return true
	}
	n := min(len(a.initials), len(b.initials))
	return (a.short || b.short) && slices.Equal(a.initials[:n], b.initials[:n])
}

// of is the equal text of one person.
func (a identity) of() string {
	if a.person != nil {
		return "=" + a.person.Name.Text
	}
	return a.name
}

// collect finds the records of every collector whom works name.
func (j *join) collect() {
	j.series = map[string]*series{}
	var all []*series
	for _, f := range j.w.Files {
		for _, e := range f.Events {
			for i := range e.Items {
				if who := e.Items[i].Who; who != "" && j.series[who] == nil {
					s := &series{who: identify(&j.w.book.Museum.People, who), record: map[number][]numbered{}}
					s.is = s.who.of()
					j.series[who] = s
					all = append(all, s)
				}
			}
		}
	}
	if len(all) == 0 {
		return
	}
	for _, s := range all {
		s.is = fullest(s, all)
	}
	his := map[string][]*series{} // by collector's words in records
	keys := j.keys(all)
	for at := range j.w.book.Len() {
		e := j.w.book.At(at)
		if !keys[e.Who] || e.CollNo == "" || e.Fate == "mistake" || e.Fate == "same-as" {
			continue
		}
		of, ok := his[e.Collector]
		if !ok {
			id := identify(&j.w.book.Museum.People, e.Collector)
			for _, s := range all {
				if s.who.same(id) {
					of = append(of, s)
				}
			}
			his[e.Collector] = of
		}
		if len(of) == 0 {
			continue
		}
		no, ok := readNumber(e.CollNo)
		if !ok {
			if reading.AbsenceOf(e.CollNo) != reading.Present {
				continue
			}
			no = number{prefix: folded(e.CollNo)}
		}
		for _, s := range of {
			key := number{no.prefix, no.serial, ""}
			s.record[key] = append(s.record[key], numbered{no.suffix, int32(at)})
		}
	}
}

// keys are what a book.Entry has for Who when its collector may be one of
// those whom works name.
func (j *join) keys(all []*series) map[string]bool {
	keys := map[string]bool{}
	for _, s := range all {
		keys[s.who.key] = true
		if p := s.who.person; p != nil {
			for _, l := range append([]ledger.Leaf{p.Name}, p.Spellings...) {
				keys[reading.Who(l.Text)] = true
			}
		}
	}
	delete(keys, "")
	return keys
}

// fullest is the name under which a collector's gatherings stand: of initials
// the one fuller name that they may mean, if there is only one.
func fullest(s *series, all []*series) string {
	if !s.who.short {
		return s.who.of()
	}
	found := ""
	for _, o := range all {
		if o.who.short || !o.who.same(s.who) {
			continue
		}
		if found != "" && found != o.who.of() {
			return s.who.of()
		}
		found = o.who.of()
	}
	if found == "" {
		return s.who.of()
	}
	return found
}
