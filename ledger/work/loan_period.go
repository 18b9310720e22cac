package work

import (
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger/dates"
)

// Period is a length of time in the calendar: months first, then days.
type Period struct{ Months, Days int }

var periodWords = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^(?:ca\.? *)?([0-9]{1,4}) *(d|days?|w|weeks?|m|mo|months?|y|yrs?|years?)\.?$`)
})

var periodFigures = map[string]int{
	"a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "eleven": 11, "twelve": 12,
}

// ReadPeriod reads the words for a length of time: 12 months, one year, 90
// days, 6 weeks.
func ReadPeriod(words string) (Period, bool) {
	s := strings.ToLower(strings.Join(strings.Fields(words), " "))
	if first, rest, ok := strings.Cut(s, " "); ok && periodFigures[first] > 0 {
		s = strconv.Itoa(periodFigures[first]) + " " + rest
	}
	m := periodWords().FindStringSubmatch(s)
	if m == nil {
		return Period{}, false
	}
	n, err := strconv.Atoi(m[1])
	if err != nil || n == 0 {
		return Period{}, false
	}
	switch m[2][0] {
	case 'd':
		return Period{Days: n}, true
	case 'w':
		return Period{Days: 7 * n}, true
	case 'y':
		return Period{Months: 12 * n}, true
	}
	return Period{Months: n}, true
}

// After is the day that lies a period after another. What would be the 29th
// to 31st of a shorter month is that month's last day: a year after 29
// February is 28 February (trade habit, no source).
func (p Period) After(d dates.Day) dates.Day {
	y, m, day := d.Date()
	at := 12*y + m - 1 + p.Months
	y, m = at/12, at%12+1
	for !dates.Exists(y, m, day) {
		day--
	}
	return dates.DayOf(y, m, day) + dates.Day(p.Days)
}
