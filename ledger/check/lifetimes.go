package check

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

const (
	codeLifetime    = "date-lifetime"
	codeDetLifetime = "det-lifetime"
)

var lifetimeRules = []Rule{
	{Code: codeLifetime, Severity: ledger.Warning,
		Says: "A collector was alive on the day of collecting, and not a small child.",
		Why:  "A date outside the collector's life is misread, or the collector is another person of the name. Years of life stand in people.yaml; the age from which on people collect is first_age under checks.",
		Join: lifetime},
	{Code: codeDetLifetime, Severity: ledger.Warning,
		Says: "Whoever gave the current name was alive on the day, and not a small child.",
		Why:  "A date outside the life of the determiner is misread, or it is another person of the name. Years of life stand in people.yaml.",
		Join: detLifetime},
}

// outlived says how a time lies outside the life of the one person whom words
// name, by people.yaml; "" when it does not, or nobody knows.
func outlived(who string, first, last dates.Day, a *Around) string {
	for _, p := range a.Museum.People.FindAll(who) {
		life, ok := a.Museum.People.Life(p)
		if !ok {
			continue
		}
		switch born, died := life.Born, life.Died; {
		case born.Known() && !born.OpenStart && last.Year() < born.First.Year()+int(a.Settings.FirstAge):
			return "lies before " + p.Name.Text + " was " + figure(a.Settings.FirstAge) + " years old, by people.yaml"
		case died.Known() && !died.OpenEnd && first > died.Last:
			return "lies after the death of " + p.Name.Text + ", by people.yaml"
		}
	}
	return ""
}

// lifetime compares the date with the collectors' years in people.yaml.
func lifetime(e *book.Entry, a *Around, say say) {
	if !e.Dated {
		return
	}
	all := []string{e.Collector}
	if e.With != "" {
		all = slices.Concat(all, strings.Split(e.With, "; "))
	}
	for _, who := range all {
		if how := outlived(who, e.First, e.Last, a); how != "" {
			say(place{line: int(e.Lines.Date), field: "date"}, words{how,
				"Look at the date, the collector and people.yaml. " + accept(short(e.Number), codeLifetime)})
			return
		}
	}
}

func detLifetime(e *book.Entry, a *Around, say say) {
	if !e.Flags.Has(book.NamedDated) {
		return
	}
	if how := outlived(e.By, e.NamedFirst, e.NamedOn, a); how != "" {
		say(place{line: int(e.Lines.By), field: "determinations"}, words{"the date of the current name " + how,
			"Look at the slip and people.yaml. " + accept(short(e.Number), codeDetLifetime)})
	}
}
