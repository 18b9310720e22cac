package quality

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/dates"
)

// partsFromEventDate proposes year, month, day and days of the year from
// eventDate where they are empty.
func partsFromEventDate(in *input) Response {
	t, ok := parseISO(in.value(dwcEventDate))
	if !ok {
		return internal(emptyOr(in, dwcEventDate, "is no ISO 8601 date"))
	}
	var changes []Change
	for _, term := range []Term{dwcStartDayOfYear, dwcYear, dwcMonth, dwcDay, dwcEndDayOfYear} {
		if n, exact := t.part(term); exact && in.empty(term) {
			changes = append(changes, Change{term, strconv.Itoa(n)})
		}
	}
	if len(changes) == 0 {
		return notAmended("nothing is empty that dwc:eventDate settles")
	}
	return filledIn("from dwc:eventDate", changes...)
}

// standardDate makes the amendment of a date to ISO 8601.
func standardDate(t Term) func(*input) Response {
	return func(in *input) Response {
		if in.empty(t) {
			return internal(t.String() + " is empty")
		}
		v := in.value(t)
		if _, ok := parseISO(v); ok {
			return notAmended(t.String() + " is an ISO 8601 date already")
		}
		iso, why := isoOfWords(trim(v))
		if iso == "" {
			return notAmended(t.String() + " " + why)
		}
		return amended("read as "+why, Change{t, iso})
	}
}

// eventDateFromVerbatim proposes eventDate from the words of the label.
func eventDateFromVerbatim(in *input) Response {
	switch {
	case !in.empty(dwcEventDate):
		return internal("dwc:eventDate is not empty")
	case in.empty(dwcVerbatimEventDate):
		return internal("dwc:verbatimEventDate is empty")
	}
	iso, why := isoOfWords(trim(in.value(dwcVerbatimEventDate)))
	if iso == "" {
		return notAmended("dwc:verbatimEventDate " + why)
	}
	why = "read as " + why
	if t, ok := parseISO(iso); ok && t.first < lastJulianDay && !strings.Contains(why, oldStyle) {
		why += "; verbatimDate was assumed to be in the Gregorian calendar"
	}
	return filledIn(why, Change{dwcEventDate, iso})
}

// lastJulianDay is the day before which the standard wants the calendar named
// (1918-02-14, the first Gregorian day in Russia).
var lastJulianDay = dates.DayOf(1918, 2, 14)

// isoOfWords reads a date as written; iso is empty when it cannot be read, or
// in more than one way, or only roughly, and why then says so.
func isoOfWords(words string) (iso, why string) {
	if t, ok := parseISO(words); ok {
		if days := rangeOfDays(t.first, t.last); !strings.ContainsAny(words, "T/") {
			return days, days // also of a basic, ordinal or week date
		}
		return words, rangeOfDays(t.first, t.last)
	}
	if strings.HasPrefix(words, "/") || strings.HasSuffix(words, "/") {
		return "", "leaves one end open"
	}
	if m := dayAndClock().FindStringSubmatch(words); m != nil {
		if d, ok := yearFirst(m[1]); ok {
			return timed(d, m[2])
		}
	}
	if d, ok := yearFirst(words); ok {
		return d.String(), dates.Words(d)
	}
	for _, nothing := range []string{"-00-00", "-00"} { // a database's 00 for a day or month that is not known
		if rest, ok := strings.CutSuffix(words, nothing); ok && len(rest) <= 7 && rest != "0000" {
			if t, ok := parseISO(rest); ok {
				return rest, rangeOfDays(t.first, t.last)
			}
		}
	}
	r := dates.Read(words, dates.Ask)
	switch {
	case !r.Known():
		return "", "cannot be read as a date"
	case r.Precision == dates.Ambiguous:
		return "", "can be read in more than one way"
	case r.Approximate || r.Uncertain:
		return "", "gives the date only roughly"
	case r.Precision == dates.ToSeason:
		return "", "names a season, which has no certain days"
	case r.OpenStart || r.OpenEnd:
		return "", "leaves one end open"
	}
	doubt, style := doubtOf(r.Warnings)
	if doubt != "" {
		return "", doubt
	}
	iso = rangeOfDays(r.First, r.Last)
	if strings.Contains(words, "?") && strings.Contains(iso, "/") {
		return "", "leaves open which month it is" // 10/??/1932: not all days from January to December
	}
	return iso, r.String() + style
}

// doubtOf is what the warnings of a reading say against proposing it, and what
// they add to it.
func doubtOf(warnings []dates.Warning) (doubt, style string) {
	for _, w := range warnings {
		switch w.Code {
		case "date-several", "date-weekday", "date-calendar":
			return w.Message, ""
		case "date-misspelt":
			if taken().MatchString(w.Message) {
				return "can be read only by guessing at its figures: " + w.Message, ""
			}
		case "date-old-style":
			style = oldStyle
		}
	}
	return "", style
}

// taken finds a figure that the reader put for letters: "II" is taken for 11.
var taken = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`is taken for [0-9]`) })

// dayAndClock finds a day with the year first and a time of day behind it:
// 2021-10-28 14:05, 2021/10/28 9:05:30Z.
var dayAndClock = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^([0-9]{4}[-/._][0-9]{1,2}[-/._][0-9]{1,2})[T ]+([0-9]{1,2}:[0-9]{2}(?::[0-9]{2}(?:\.[0-9]+)?)?(?:Z|[-+][0-9]{2}:?[0-9]{2})?)$`)
})

// timed is ISO 8601 for a day and a time of day; empty when there is no such
// time, as 14:67.
func timed(d dates.Day, clock string) (iso, why string) {
	if clock[1] == ':' {
		clock = "0" + clock
	}
	iso = d.String() + "T" + clock
	if _, ok := parseISO(iso); !ok {
		return "", "gives a time of day that there is not: " + clock
	}
	return iso, dates.Words(d) + ", " + clock
}

// oldStyle is said of a date that the words give in the Julian calendar.
const oldStyle = ", counted on from the old style"

// yearFirst reads figures that begin with a year of four: 2021/10/28,
// 1932.10.6, and 2021-28-10, which has only one reading. Year, month, day is
// the order of ISO 8601; the middle figure is a day only when it cannot be a
// month.
func yearFirst(s string) (dates.Day, bool) {
	parts := strings.FieldsFunc(s, func(c rune) bool { return strings.ContainsRune("-/._ ", c) })
	if len(parts) != 3 || len(parts[0]) != 4 || len(parts[1]) > 2 || len(parts[2]) > 2 || len(s) > 12 {
		return 0, false
	}
	y, okY := figures(parts[0])
	m, okM := figures(parts[1])
	d, okD := figures(parts[2])
	if m > 12 {
		m, d = d, m
	}
	return dates.DayOf(y, m, d), okY && okM && okD && y >= 1000 && dates.Exists(y, m, d)
}

// rangeOfDays is ISO 8601 for all days from first to last in the coarsest unit
// that says the same: 1980, 1980-01, 1950/1959, 2000-02-09/2000-03-10.
func rangeOfDays(first, last dates.Day) string {
	a, b := first.String(), last.String()
	for _, cut := range []int{6, 3} { // years, then months
		start, end := a[:len(a)-cut], b[:len(b)-cut]
		p, okA := parseISO(start)
		q, okB := parseISO(end)
		if okA && okB && p.first == first && q.last == last {
			if start == end {
				return start
			}
			return start + "/" + end
		}
	}
	if first == last {
		return a
	}
	return a + "/" + b
}

// eventDateFromParts proposes eventDate from year, month and day, as closely
// as they go.
func eventDateFromParts(in *input) Response {
	if !in.empty(dwcEventDate) {
		return internal("dwc:eventDate is not empty")
	}
	y, ok := integer(in.value(dwcYear))
	if !ok {
		return internal(emptyOr(in, dwcYear, "is no whole number"))
	}
	year := trim(in.value(dwcYear))
	if len(year) != 4 || y < 0 {
		return notAmended("dwc:year is no year of four figures")
	}
	m, okM := monthOf(in.value(dwcMonth))
	d, okD := integer(in.value(dwcDay))
	switch {
	case !okM:
		return filledIn("from dwc:year", Change{dwcEventDate, year})
	case !okD && dates.Exists(y, m, 1):
		return filledIn("from dwc:year and dwc:month", Change{dwcEventDate, dates.DayOf(y, m, 1).String()[:7]})
	case !okD || !dates.Exists(y, m, d):
		return notAmended("there is no such day")
	}
	return filledIn("from dwc:year, dwc:month and dwc:day", Change{dwcEventDate, dates.DayOf(y, m, d).String()})
}

// eventDateFromDaysOfYear proposes eventDate from a year and two days counted
// in it. The published answers take a year that is no number for a row that
// cannot be tested, which the expected response leaves open.
func eventDateFromDaysOfYear(in *input) Response {
	switch {
	case !in.empty(dwcEventDate):
		return internal("dwc:eventDate is not empty")
	case in.empty(dwcYear) || in.empty(dwcStartDayOfYear) || in.empty(dwcEndDayOfYear):
		return internal("dwc:year, dwc:startDayOfYear or dwc:endDayOfYear is empty")
	}
	y, okY := integer(in.value(dwcYear))
	if !okY {
		return internal("dwc:year is no whole number")
	}
	a, okA := integer(in.value(dwcStartDayOfYear))
	b, okB := integer(in.value(dwcEndDayOfYear))
	days := 365
	if dates.Exists(y, 2, 29) {
		days = 366
	}
	if !okA || !okB || len(trim(in.value(dwcYear))) != 4 || a < 1 || b > days || a >= b {
		return notAmended("the two are not days of that year, the first before the second")
	}
	first := dates.DayOf(y, 1, 1) - 1
	iso := (first + dates.Day(a)).String() + "/" + (first + dates.Day(b)).String()
	return filledIn("from dwc:year, dwc:startDayOfYear and dwc:endDayOfYear", Change{dwcEventDate, iso})
}
