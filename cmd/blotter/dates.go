package main

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// twoWays says how an ambiguous date can be read, with how to write it so
// that it cannot; "" for a date that reads one way or none. Of several
// centuries the latest that is not to come is meant; of day and month, the
// day first is named first.
func twoWays(typed string, r dates.Reading, today dates.Day) string {
	if r.Precision != dates.Ambiguous {
		return ""
	}
	var days []dates.Day
	for _, one := range r.Readings {
		if one.Single() {
			days = append(days, one.First)
		}
	}
	year := -1
	for _, d := range days {
		if d <= today && d.Year() > year {
			year = d.Year()
		}
	}
	if year >= 0 {
		days = slices.DeleteFunc(days, func(d dates.Day) bool { return d.Year() != year })
	}
	first := leadingNumber(typed)
	slices.SortStableFunc(days, func(a, b dates.Day) int { return cmp.Compare(behind(a, first), behind(b, first)) })
	switch len(days) {
	case 1:
		return "has a year of two figures; write it in full, for example " + romanForm(days[0])
	case 0:
		return "can be read in more than one way; write the month in letters, for example 3.iv.2026"
	}
	var readings []string
	for _, d := range days {
		readings = append(readings, dates.Words(d))
	}
	return "can be " + either(readings) + "; write the month in letters, for example " + romanForm(days[0])
}

// behind is 0 for a day of the month that is the first number typed, else 1.
func behind(d dates.Day, first int) int {
	if _, _, day := d.Date(); day == first {
		return 0
	}
	return 1
}

func leadingNumber(s string) int {
	end := 0
	for end < len(s) && s[end] >= '0' && s[end] <= '9' {
		end++
	}
	n, _ := strconv.Atoi(s[:end])
	return n
}

// either joins readings with "or"; a year that all share is said once.
func either(readings []string) string {
	readings = append([]string(nil), readings...)
	last := readings[len(readings)-1]
	year := last[strings.LastIndexByte(last, ' ')+1:]
	for i, r := range readings[:len(readings)-1] {
		if short, ok := strings.CutSuffix(r, " "+year); ok {
			readings[i] = short
		} else {
			return strings.Join(readings, " or ")
		}
	}
	return strings.Join(readings, " or ")
}

var romanMonths = []string{"i", "ii", "iii", "iv", "v", "vi", "vii", "viii", "ix", "x", "xi", "xii"}

// romanForm writes 3 April 2026 as 3.iv.2026.
func romanForm(d dates.Day) string {
	y, m, day := d.Date()
	return strings.Join([]string{itoa(day), romanMonths[m-1], itoa(y)}, ".")
}

// dateArgument is a DATE as typed, made fit for a record: today becomes the
// day; one that can be read two ways is asked back.
func (d *desk) dateArgument(typed string) (string, error) {
	if typed == "today" || typed == "" {
		return d.today(), nil
	}
	r := dates.Read(typed, dates.OrderOf(d.museum.Dates.Order.Text))
	if both := twoWays(typed, r, d.todayAsDay()); both != "" {
		return "", misuse("%s %s", typed, both)
	}
	if !r.Known() && r.None == dates.Stated {
		return "", misuse("%q is not read as a date", typed).try("As on a label (14.vii.1987), as ISO day (1987-07-14), today, or s.d. for none")
	}
	return typed, nil
}

// shownDate is a date of the record in words, as lists and histories show it.
func (d *desk) shownDate(typed string) string {
	r := dates.Read(typed, dates.OrderOf(d.museum.Dates.Order.Text))
	switch {
	case r.Known():
		return r.String()
	case r.None == dates.NotRecorded:
		return "no date"
	}
	return typed
}

// shownReading is a date in words as it was read, by a person where one did.
func (d *desk) shownReading(x reading.Date) string {
	if x.Read.Known() {
		return x.Read.String()
	}
	return d.shownDate(x.Words)
}

// dayTyped is the beginning of a day as typed, in the museum's zone; false
// for what is no single day.
func (d *desk) dayTyped(typed string) (time.Time, bool) {
	if typed == "today" {
		typed = d.today()
	}
	if hexWord(typed) {
		return time.Time{}, false
	}
	r := dates.Read(typed, dates.OrderOf("day-month"))
	if !r.Single() {
		return time.Time{}, false
	}
	y, m, day := r.First.Date()
	return time.Date(y, time.Month(m), day, 0, 0, 0, 0, d.zone), true
}
