package due

import (
	"slices"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/work"
)

// round tells of a round through the cabinets, or a survey, that is not
// finished: how many sheets were looked at, and of how many when its lines name
// those that it draws. It is due on every day until it is closed.
func (l *list) round() {
	drawn, looked := map[string]bool{}, map[string]bool{}
	var order []work.Thing
	for _, e := range l.events {
		for _, t := range l.w.About(e) {
			switch {
			case e.All() || t.Sheet == "":
			case e.Verb == "drawn":
				if !drawn[t.Key] {
					order = append(order, t)
				}
				drawn[t.Key] = true
			case slices.Contains(looks, e.Verb):
				looked[t.Key] = true
			}
		}
	}
	next := "blotter print inventory " + string(l.f.Number)
	what, word := "go on with the round", " looked for"
	if l.f.Kind.Name == "condition" {
		what, word, next = "go on with the survey", " looked at", "blotter show "+string(l.f.Number)
	}
	still := slices.DeleteFunc(order, func(t work.Thing) bool { return looked[t.Key] })
	switch n := len(drawn); {
	case n > 0 && len(still) == 0:
		what, next = "all of its "+count(n, "sheet")+" were looked at: close it", l.close()
	case n > 0:
		what += ": " + strconv.Itoa(n-len(still)) + " of " + count(n, "sheet") + word
	default:
		what += ": " + count(len(looked), "sheet") + word + " so far"
	}
	l.day(l.on.Day, Round, "round", what, next, still)
}

// looks are the events by which a round looks at a sheet.
var looks = []string{"seen", "missing", "misplaced", "found", "surveyed"}

// divided tells of names that were divided, whose sheets still stand under the
// old name: only somebody who looks can say which they are.
func (l *list) divided() {
	b := l.w.Book()
	if !slices.ContainsFunc(b.Museum.Names.All, func(n *book.Name) bool { return len(n.Given.Split) > 0 }) {
		return
	}
	of := map[*book.Name][]work.Thing{}
	for e := range b.All() {
		if n := b.Museum.Divided(e); n != nil {
			of[n] = append(of[n], work.Thing{Sheet: e.Number})
		}
	}
	for _, n := range b.Museum.Names.All {
		if of[n] == nil {
			continue
		}
		name := n.Given.Name.Text
		l.add(Thing{Day: l.on.Day, Clock: -1, Kind: Eyes, Step: "divided " + name, Sheets: Spans(of[n]), Next: "blotter find is:divided",
			What: with("look which they are: "+name+" was divided among "+and(namesOf(n.Given.Split)), amount(of[n], "sheet"))})
	}
}

func namesOf(list []ledger.Leaf) (out []string) {
	for _, l := range list {
		out = append(out, l.Text)
	}
	return out
}
