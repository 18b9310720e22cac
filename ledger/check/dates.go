package check

import (
	"fmt"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

const (
	codeDateFuture = "date-future"
	codeDetEarly   = "det-early"
)

var dateRules = []Rule{
	{Code: codeDateFuture, Severity: ledger.Warning,
		Says: "A plant was collected, and named, on a day that has come.",
		Why:  "A day to come is a slip of the pen, or a computer whose clock is wrong.",
		Join: dateFuture},
	{Code: codeDetEarly, Severity: ledger.Warning,
		Says: "A plant is named on or after the day it was collected.",
		Why:  "An opinion older than the plant stands on the wrong sheet, or one of the two dates is mistyped.",
		One:  detEarly},
	{Code: "date-early", Severity: ledger.Warning,
		Says: "A plant was collected on or after 15 November 1582.",
		Why:  "Hardly a pressed plant is older, so the year is misread or mistyped. The first day that is believed is gathered_from under checks; its default is that of the TDWG data quality tests.",
		By:   dateEarly},
	{Code: "det-before-names", Severity: ledger.Warning,
		Says: "A plant was named on or after 1 January 1753.",
		Why:  "Botanical names begin with 1753, so the year is misread, or the words are a phrase and no name. The first day that is believed is determined_from under checks; its default is that of the TDWG data quality tests.",
		By:   detBeforeNames},
}

func dateFuture(e *book.Entry, a *Around, say say) {
	if a.Today == 0 {
		return
	}
	if e.Dated && e.First > a.Today {
		say(place{line: int(e.Lines.Date), field: "date"}, words{"is a day that has not come yet, so the plant cannot have been collected on it",
			"Look at the label. " + accept(short(e.Number), codeDateFuture)})
	}
	if e.Flags.Has(book.NamedDated) && e.NamedFirst > a.Today && !(e.Dated && e.NamedFirst == e.First) {
		say(place{line: int(e.Lines.Name), field: "determinations"}, words{"the current name was given on a day that has not come yet",
			"Look at the slip. " + accept(short(e.Number), codeDateFuture)})
	}
}

func detEarly(d *reading.Reading, say say) {
	if !d.Date.Known {
		return
	}
	for i := range d.Opinions {
		o := &d.Opinions[i]
		if o.State == opinionMistake || !o.Date.Known || o.Date.Last >= d.Date.First {
			continue
		}
		message := "is dated before the plant was collected"
		if !hidden(d) {
			message = fmt.Sprintf("is dated %s, before the plant was collected (%s)", o.Date.Read, d.Date.Read)
		}
		n, field := numberOf(d), nth("determinations", i, "date")
		hint := "Look at the slip. A slip of the pen: " + set(n, field, "DATE")
		if y, m, day := o.Date.First.Date(); m == 1 && day == 1 && y == d.Date.First.Year() {
			hint = "1 January is what machines write for a year alone. If so: " + set(n, field, strconv.Itoa(y))
		}
		say(at(o.Given.Date, field), words{"this opinion " + message, lines(hint, accept(n, codeDetEarly))})
	}
}

func dateEarly(d *reading.Reading, s *Settings, say say) {
	if !d.Date.Known || d.Date.Last >= s.GatheredFrom {
		return
	}
	n := numberOf(d)
	say(at(d.Record.Date, "date"), words{"lies before " + dates.Words(s.GatheredFrom) + ", from when on gatherings are believed",
		lines("Look at the label. A slip of the pen: "+set(n, "date", "DATE"), accept(n, "date-early"))})
}

func detBeforeNames(d *reading.Reading, s *Settings, say say) {
	for i := range d.Opinions {
		o := &d.Opinions[i]
		if o.State == opinionMistake || !o.Date.Known || o.Date.Last >= s.DeterminedFrom {
			continue
		}
		n := numberOf(d)
		field := nth("determinations", i, "date")
		say(at(o.Given.Date, field), words{"lies before " + dates.Words(s.DeterminedFrom) + ", from when on names are believed",
			lines("Look at the slip. A slip of the pen: "+set(n, field, "DATE"), accept(n, "det-before-names"))})
	}
}
