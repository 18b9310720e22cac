package check

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var actRules = []Rule{
	{Code: "done-early", Severity: ledger.Warning,
		Says: "Nothing is done to a specimen before it was collected.",
		Why:  "A note, a picture, a type statement or a fate older than the plant stands on the wrong record, or one of the two dates is mistyped.",
		One:  doneEarly},
	{Code: "done-future", Severity: ledger.Warning,
		Says: "What was done to a specimen was done on a day that has come.",
		Why:  "A day to come is a slip of the pen, or a computer whose clock is wrong.",
		Join: doneFuture},
	{Code: "accession-early", Severity: ledger.Warning,
		Says: "A specimen was accessioned in the year of collecting or later.",
		Why:  "A specimen cannot come in before it is collected, so the accession or the date is misread. Asked only of accession numbers that begin with a year.",
		One:  accessionEarly},
	{Code: "fate-dates", Severity: ledger.Warning,
		Says: "The fates of a specimen stand in the order of their dates.",
		Why:  "The last entry holds. One out of order makes a specimen lost that was found, or the other way about.",
		One:  fateDates},
}

func doneEarly(d *reading.Reading, say say) {
	if !d.Date.Known {
		return
	}
	for i := range d.Acts {
		a := &d.Acts[i]
		if !a.Date.Known || a.Date.Last >= d.Date.First {
			continue
		}
		message := "is dated before the plant was collected"
		if !hidden(d) {
			message = fmt.Sprintf("is dated %s, before the plant was collected (%s)", a.Date.Read, d.Date.Read)
		}
		n := numberOf(d)
		say(at(a.Of, a.Field()), words{message,
			lines("Look at the label. A slip of the pen: "+set(n, a.Field(), "DATE"), accept(n, "done-early"))})
	}
}

func doneFuture(e *book.Entry, a *Around, say say) {
	if a.Today == 0 || e.LatestIn == "" || e.Latest <= a.Today {
		return
	}
	n := short(e.Number)
	field := e.LatestIn
	hint := "A slip of the pen: blotter edit " + n
	if strings.HasSuffix(field, ".date") {
		hint = "A slip of the pen: " + set(n, field, "DATE")
	}
	say(place{line: int(e.Lines.Latest), field: field}, words{"is a day that has not come yet, so nothing can have been done on it",
		lines(hint, accept(n, "done-future"))})
}

// accessionYear is the year that an accession number begins with.
func accessionYear(text string) (int, bool) {
	text = strings.TrimSpace(text)
	if len(text) < 6 || !strings.ContainsRune("-./ ", rune(text[4])) {
		return 0, false
	}
	y, err := strconv.Atoi(text[:4])
	return y, err == nil && y >= 1500 && y < 2200
}

func accessionEarly(d *reading.Reading, say say) {
	y, ok := accessionYear(d.Record.Accession.Text)
	if !ok || !d.Date.Known || d.Date.First.Year() <= y {
		return
	}
	message := "is of a year before the plant was collected"
	if !hidden(d) {
		message = fmt.Sprintf("is of %d, before the plant was collected (%s)", y, d.Date.Read)
	}
	n := numberOf(d)
	say(at(d.Record.Accession, "accession"), words{message,
		lines("Look at the label and the accession register. A slip of the pen: "+set(n, "accession", "ACCESSION"), accept(n, "accession-early"))})
}

func fateDates(d *reading.Reading, say say) {
	var before *reading.Act
	for i := range d.Acts {
		a := &d.Acts[i]
		if a.List != "fate" || !a.Date.Known {
			continue
		}
		if before != nil && a.Date.Last < before.Date.First {
			n := numberOf(d)
			say(at(a.Of, a.Field()), words{
				fmt.Sprintf("is dated %s, before the entry above it (%s), and the last entry holds", a.Date.Read, before.Date.Read),
				lines("Put the entries in order, or mend the date: "+set(n, a.Field(), "DATE"), accept(n, "fate-dates"))})
		}
		before = a
	}
}
