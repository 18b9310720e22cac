package check

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

var personRules = []Rule{
	{Code: "person-unlisted", Severity: ledger.Warning,
		Says: "Whoever collected or named a specimen stands in people.yaml, if the museum keeps people.",
		Why:  "People are found by the spellings in people.yaml; a new spelling makes a second person of one.",
		Join: personUnlisted},
	{Code: "person-orcid", Severity: ledger.Warning,
		Says:  "An ORCID iD in people.yaml has the right check character.",
		Why:   "One wrong figure names another person, all over the world (ISO/IEC 7064:2003, MOD 11-2).",
		Files: personORCID},
	{Code: "person-dates", Severity: ledger.Warning,
		Says:  "A person in people.yaml was born before he died, and both can be read as dates.",
		Why:   "Dates on labels are compared with these two; years that cannot be are no help.",
		Files: personDates},
}

func personUnlisted(e *book.Entry, a *Around, say say) {
	list := &a.Museum.People
	if list.Empty() {
		return
	}
	seen := func(name string, p place) {
		if reading.AbsenceOf(name) != reading.Present {
			return
		}
		if all := list.FindAll(name); len(all) > 0 && !slices.Contains(all, nil) {
			return
		}
		hint := "Put the name into people.yaml, or this spelling under spellings of the one it is. " + accept(short(e.Number), "person-unlisted")
		if n := list.Near(name); n != nil {
			hint = lines("Nearest: "+n.Name.Text, hint)
		}
		say(p, words{name + " is not in people.yaml, or may be one of several there, so sheets of one person may stand under two",
			hint})
	}
	seen(e.Collector, place{line: int(e.Lines.Collector), field: "collector"})
	for _, w := range strings.Split(e.With, "; ") {
		seen(w, place{line: int(e.Lines.With), field: "with"})
	}
	seen(e.By, place{line: int(e.Lines.By), field: "determinations"})
}

func inPeople(l ledger.Leaf, field string) place {
	p := at(l, field)
	p.path = ledger.PeopleFile
	return p
}

func personORCID(m *book.Museum, say func(place, words)) {
	for i := range m.People.All {
		p := &m.People.All[i]
		if !p.ORCID.Set() {
			continue
		}
		if _, ok := people.ORCID(p.ORCID.Text); !ok {
			say(inPeople(p.ORCID, "people.orcid"), words{"the last character does not fit the others, so a figure is mistyped", "Copy it from the person's own page."})
		}
	}
}

func personDates(m *book.Museum, say func(place, words)) {
	for i := range m.People.All {
		p := &m.People.All[i]
		born, died := dates.Read(p.Born.Text, m.Conventions.Order), dates.Read(p.Died.Text, m.Conventions.Order)
		for _, x := range []struct {
			l     ledger.Leaf
			read  dates.Reading
			field string
		}{{p.Born, born, "people.born"}, {p.Died, died, "people.died"}} {
			if x.l.Set() && !x.read.Known() && reading.AbsenceOf(x.l.Text) == reading.Present {
				say(inPeople(x.l, x.field), words{"cannot be read as a year or date, so no label is compared with it", "For example: 1870, ca. 1870, 3 May 1870"})
			}
		}
		if born.Known() && died.Known() && died.Last < born.First {
			say(inPeople(p.Died, "people.died"), words{"lies before the birth of " + p.Name.Text, "Look both up; one is mistyped."})
		}
	}
}
