package check

import (
	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/land"
	"blotter/ledger/reading"
)

const (
	codeTwoWays    = "date-two-ways"
	codeShortYear  = "date-short-year"
	codeSeveral    = "date-several"
	codeNoSuchDay  = "date-no-such-day"
	codeDateUnread = "date-unread"
	codeMisspelt   = "date-misspelt"
	codeWeekday    = "date-weekday"
	codeOldStyle   = "date-old-style"
)

// dateWordRules pass on what the reader of dates says of the words.
var dateWordRules = []Rule{
	{Code: codeTwoWays, Severity: ledger.Warning,
		Says: "A date can be read in one way only, or a person has settled which.",
		Why:  "3/4/1934 is 3 April to one writer and 4 March to another. The words stay; until a person settles it under read, it counts under the span of both.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeTwoWays, "date-ambiguous", say) }},
	{Code: codeShortYear, Severity: ledger.Warning,
		Says: "A date has its year in full, or a person or dates: two_digit_years has settled the century.",
		Why:  "14.vii.34 may be of 1834 or 1934. The words stay; until a person settles it under read, or blotter.yaml says which hundred years the labels are of, it counts under the span of all.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeShortYear, "date-short-year", say) }},
	{Code: codeSeveral, Severity: ledger.Warning,
		Says: "A date is one day or one run of days.",
		Why:  "A gathering has one date. Two on a label may be of flower and fruit, which are two gatherings on one sheet, or of collecting and receiving. Until somebody says which, the date counts under the span of all.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeSeveral, "date-several", say) }},
	{Code: codeNoSuchDay, Severity: ledger.Warning,
		Says: "A date is a day that the calendar has.",
		Why:  "30 February may well stand on a label, and then it stays. It has no reading until a person gives one.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeNoSuchDay, "date-no-such-day", say) }},
	{Code: codeDateUnread, Severity: ledger.Warning,
		Says: "A date can be read, or is one of the words for none (s.d., illegible, not yet typed).",
		Why:  "A date that the program cannot read is kept and printed as it is, but sorts nowhere and is counted under no year.",
		One: func(d *reading.Reading, say say) {
			dateWarnings(d, codeDateUnread, "date-unread", say)
			dateWarnings(d, codeDateUnread, "date-no-year", say)
			unreadByHand(d, say)
		}},
	{Code: codeMisspelt, Severity: ledger.Warning,
		Says: "The words of a date are spelt as months are.",
		Why:  "Augut is read as August. Is it so on the label, it stays, and sic says so; is it a slip of the typist, it is put right.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeMisspelt, "date-misspelt", say) }},
	{Code: codeWeekday, Severity: ledger.Warning,
		Says: "The day of the week fits the date.",
		Why:  "When both stand on a label and one is wrong, it is more often the figure than the day of the week.",
		One:  func(d *reading.Reading, say say) { dateWarnings(d, codeWeekday, "date-weekday", say) }},
	{Code: codeOldStyle, Severity: ledger.Warning,
		Says: "A date from Russia before 14 February 1918, or from another country that took the Gregorian calendar late, says by which calendar it is.",
		Why:  "By the Julian calendar the same day has a date twelve or thirteen days earlier. The words are read as they stand until a person gives the day under read.",
		One:  oldStyle},
}

// dateWarnings passes on what the reader of dates says, of the date of
// collecting and of every determination, under a code of ours. A date of
// collecting that a person has read is settled. What the label
// gives an opinion in the same words is the same mistake, said once.
func dateWarnings(d *reading.Reading, code, theirs string, say say) {
	r := d.Record
	if !d.Date.FromHand() {
		one(d, code, theirs, d.Date, at(r.Date, "date"), "date-read", say)
	}
	for i := range d.Opinions {
		o := &d.Opinions[i]
		if d.DatedAsCollected(i) {
			continue
		}
		one(d, code, theirs, o.Date, at(o.Given.Date, nth("determinations", i, "date")), "", say)
	}
}

// hiddenSaid is what a finding says of a date that may not be repeated.
var hiddenSaid = map[string]string{
	codeTwoWays:    "can be read in two ways; it counts under the span of both until someone settles it",
	codeShortYear:  "has a year of two figures; it counts under the span of all centuries until someone settles it",
	codeSeveral:    "has more than one date; it counts under the span of all",
	codeDateUnread: "cannot be read as a date",
	codeMisspelt:   "is misspelt",
	codeWeekday:    "does not fall on the day of the week that stands beside it",
}

func one(d *reading.Reading, code, theirs string, date reading.Date, p place, setField string, say say) {
	for _, w := range date.Written.Warnings {
		if w.Code != theirs {
			continue
		}
		n := numberOf(d)
		hint := accept(n, code)
		message := w.Message
		switch {
		case hidden(d) && hiddenSaid[code] != "":
			message = hiddenSaid[code]
		case code == codeTwoWays:
			message = "can be " + or(w.Readings) + "; it counts under the span of both until someone settles it"
		case code == codeShortYear:
			message = "can be " + or(w.Readings) + ", since the year has two figures; it counts under the span of all until someone settles it"
		case code == codeNoSuchDay:
			message += "; it has no reading until someone gives one"
		}
		if setField != "" {
			hint = lines("If the field book settles it: blotter set "+n+" "+setField+"="+proposed(d, date, w.Readings)+" --why \"field book, p. 12\"", hint)
		}
		say(p, words{message, hint})
	}
}

// proposed is the reading that a hint proposes, as one types it: the first of
// two, the one that was taken, or where there are more, or none may be told,
// words to put the figures in place of.
func proposed(d *reading.Reading, date reading.Date, ways []string) string {
	w := date.Written
	if hidden(d) || len(ways) > 2 || !w.Known() || w.OpenStart || w.OpenEnd {
		return "YYYY-MM-DD"
	}
	if len(ways) > 0 {
		if r := dates.Read(ways[0], dates.Ask); r.Known() && len(r.Warnings) == 0 {
			return r.EDTF()
		}
	}
	return w.EDTF()
}

// unreadByHand finds a person's reading of the date that cannot be read.
func unreadByHand(d *reading.Reading, say say) {
	if h := d.Date.ByHand; h != nil && !d.Date.FromHand() {
		say(at(h.Is, "read.date.is"), words{"this reading of the date cannot be read itself, so the words are read instead",
			"Write the day in figures, for example: is: 1934-04-03"})
	}
}

// oldStyle finds dates from countries that went by the Julian calendar then.
func oldStyle(d *reading.Reading, say say) {
	if !d.Date.Known || d.Date.FromHand() {
		return
	}
	country := d.Record.Place.Country.Text
	if code, ok := land.CodeOf(country); ok {
		country = code
	}
	from, ok := dates.OldStyle(country, d.Date.Written)
	if !ok {
		return
	}
	message := "may be by the Julian calendar, which went there until " + dates.Words(from-1)
	shown := "YYYY-MM-DD"
	if first := d.Date.First; first == d.Date.Last && !hidden(d) {
		ours := first + dates.Day(dates.JulianDays(first))
		shown = ours.String()
		message += ": then it is " + dates.Words(ours) + " by ours"
	}
	n := numberOf(d)
	say(at(d.Record.Date, "date"), words{message, lines("If it is: blotter set "+n+" date-read="+shown+" --why \"old style\"", accept(n, codeOldStyle))})
}
