package work

import (
	"cmp"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Contact is somebody, or some work, that had sheets since a day: whom to warn
// when insects are found where they lay.
type Contact struct {
	Who    string            // partner or person; "" for the work itself
	Verb   string            // the event: sent, taken, displayed, ...
	Work   ledger.WorkNumber //
	Day    dates.Day
	Sheets []ledger.Number // in the order asked for
}

// warned are the events by which a sheet meets others, or other people.
var warned = []string{"requested", "approved", "selected", "in", "unpacked", "glued", "mounted", "sampled", "treated", "filed", "taken", "displayed", "back", "packed", "sent", "returned", "sent-back"}

// Moved are those that had any of some sheets after a day and up to another:
// partners, persons with out-cards, works they went through, oldest first.
// Requests count, since their sheets are about to go.
func (w *Works) Moved(ns []ledger.Number, after, on dates.Day) []Contact {
	type key struct {
		file *File
		n    int
	}
	at := map[key]int{}
	var out []Contact
	for _, n := range ns {
		for _, e := range w.HistoryOf(n) {
			if e.Day <= after || e.Day > on || !slices.Contains(warned, e.Verb) {
				continue
			}
			k := key{e.File, e.N}
			i, ok := at[k]
			if !ok {
				i = len(out)
				at[k] = i
				out = append(out, Contact{Who: whoHas(e), Verb: e.Verb, Work: e.File.Number, Day: e.Day})
			}
			out[i].Sheets = append(out[i].Sheets, n)
		}
	}
	slices.SortStableFunc(out, func(a, b Contact) int {
		return cmp.Or(cmp.Compare(a.Day, b.Day), compareNumbers(a.Work, b.Work))
	})
	return out
}

// whoHas is the partner of a movement, else the person who took the sheets.
func whoHas(e *Event) string {
	switch {
	case e.File.Work.Partner.Set():
		return e.File.Work.Partner.Text
	case e.Verb == "taken" || e.Verb == "displayed":
		return cmp.Or(e.Line.To.Text, e.Line.By.Text)
	}
	return ""
}

// LastClear is the last day, up to another, on which an incident at a place was
// inspected and found clear, or cleared; false when none is written down.
func (w *Works) LastClear(place string, on dates.Day) (dates.Day, bool) {
	day, found := dates.Day(0), false
	for _, e := range w.events {
		if e.Day > on || e.File.Kind.Name != "incident" || !samePlace(e.File.Work.Place.Text, place) && !samePlace(e.Line.To.Text, place) {
			continue
		}
		if e.Verb == "cleared" || e.Verb == "inspected" && e.Line.Result.Text == "clear" {
			day, found = e.Day, true
		}
	}
	return day, found
}

// samePlace reports whether words name a place, or something in it: cabinet 4,
// folder 12 is in cabinet 4.
func samePlace(words, place string) bool {
	words, place = folded(words), folded(place)
	return words != "" && (words == place || strings.HasPrefix(words, place+","))
}

// AtHand reports whether a sheet can be taken into the freezer: it is in the
// house and in no other batch.
func (s State) AtHand() bool { return slices.Contains(atHand, s.Where) && s.Where != Coming }
