package check

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var personRules = []Rule{
	{Code: "person-unlisted", Severity: ledger.Warning,
		Says: "Whoever collected or named a specimen stands in people.yaml, if the museum keeps people.",
		Why:  "People are found by the spellings in people.yaml; a new spelling makes a second person of one.",
		Join: personUnlisted},
}

func personUnlisted(e *book.Entry, a *Around, say say) {
	people := &a.Museum.People
	if people.Empty() {
		return
	}
	seen := func(name string, p place) {
		if reading.AbsenceOf(name) != reading.Present {
			return
		}
		if all := people.FindAll(name); len(all) > 0 && !slices.Contains(all, nil) {
			return
		}
		hint := "Put the name into people.yaml, or this spelling under spellings of the one it is. " + accept(short(e.Number), "person-unlisted")
		if n := people.Near(name); n != nil {
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
