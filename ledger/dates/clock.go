package dates

import (
	"regexp"
	"strconv"
	"sync"
)

var clockBehind = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^(.*\S)[ T]+([01]?[0-9]|2[0-3])[:.]([0-5][0-9])$`) })

// CutClock parts words for a date from the time of day behind them, in
// minutes after midnight; -1 when there is none: 2026-11-03 09:40. The date is
// not read.
func CutClock(words string) (date string, minutes int) {
	m := clockBehind().FindStringSubmatch(words)
	if m == nil {
		return words, -1
	}
	h, _ := strconv.Atoi(m[2])
	min, _ := strconv.Atoi(m[3])
	return m[1], 60*h + min
}
