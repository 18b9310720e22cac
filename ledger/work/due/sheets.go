package due

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// reviews tells when what is withheld is looked at again: sheets of one day
// together, names and standing places one by one.
func (l *list) reviews() {
	b := l.w.Book()
	by := map[dates.Day][]work.Thing{}
	var days []dates.Day
	last := l.on.Day + dates.Day(l.on.Within)
	for e := range b.All() {
		if !e.Mark.Holds() || e.Mark.Review == 0 || e.Mark.Review > last || e.Fate != "" {
			continue
		}
		if by[e.Mark.Review] == nil {
			days = append(days, e.Mark.Review)
		}
		by[e.Mark.Review] = append(by[e.Mark.Review], work.Thing{Sheet: e.Number})
	}
	slices.Sort(days)
	for _, d := range days {
		l.add(Thing{Day: d, Clock: -1, Kind: Review, Step: "sheets", Sheets: Spans(by[d]), Next: "blotter show " + string(by[d][0].Sheet),
			What: with("look again at why it is withheld", amount(by[d], "sheet"))})
	}
	other := func(s ledger.Sensitive, what string) {
		if m := book.MarkOf(s); m.Holds() && m.Review != 0 {
			l.add(Thing{Day: m.Review, Clock: -1, Kind: Review, Step: what, What: "look again at why it is withheld: " + what})
		}
	}
	for _, p := range b.Museum.Places {
		other(p.Sensitive, "the place "+p.Name.Text)
	}
	for _, n := range b.Museum.Names.All {
		other(n.Given.Sensitive, n.Given.Name.Text)
	}
}

// questions tells of questions that somebody noted on a sheet and to which no
// later opinion or note on it answers.
func (l *list) questions() error {
	if l.on.Record == nil {
		return nil
	}
	for e := range l.w.Book().All() {
		if !e.Flags.Has(book.Questioned) || e.Fate != "" {
			continue
		}
		r, err := l.on.Record(l.ctx, e)
		if err != nil {
			return err
		}
		for i, a := range r.Annotations {
			if a.Kind.Text != "question" || answered(r, i) {
				continue
			}
			day := l.on.Day
			if d := dates.Read(a.Date.Text, dates.Ask); d.Known() {
				day = d.Last
			}
			if day > l.on.Day {
				continue
			}
			what := a.What.Text
			if by := strings.TrimSpace(a.By.Text); by != "" {
				what += " (" + by + ", " + l.date(day) + ")"
			}
			l.all = append(l.all, Thing{Day: day, Until: day, Clock: -1, Sheet: e.Number, Kind: Question, Step: "note-" + strconv.Itoa(i+1), What: what, Sheets: []string{string(e.Number)}, Next: "blotter show " + string(e.Number)})
		}
	}
	return nil
}

// answered reports whether a later note, or an opinion of the same day or
// after, answers a question.
func answered(r *ledger.Record, i int) bool {
	for _, a := range r.Annotations[i+1:] {
		if a.Kind.Text != "question" {
			return true
		}
	}
	asked := dates.Read(r.Annotations[i].Date.Text, dates.Ask)
	return asked.Known() && slices.ContainsFunc(r.Determinations, func(d ledger.Determination) bool {
		x := dates.Read(d.Date.Text, dates.Ask)
		return x.Known() && x.Last >= asked.Last
	})
}
