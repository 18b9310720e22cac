package due

import (
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// Spans are things in words: specimens that follow each other as one span,
// gatherings, sheets of others, bundles.
func Spans(things []work.Thing) []string {
	var out []string
	var from, last ledger.Number
	n := 0
	end := func() {
		switch {
		case n == 1:
			out = append(out, string(from))
		case n == 2:
			out = append(out, string(from), string(last))
		case n > 2:
			out = append(out, string(from)+".."+string(last))
		}
		n = 0
	}
	for _, t := range things {
		if t.Sheet == "" {
			end()
			out = append(out, t.String())
			continue
		}
		if n > 0 && follows(last, t.Sheet) {
			last, n = t.Sheet, n+1
			continue
		}
		end()
		from, last, n = t.Sheet, t.Sheet, 1
	}
	end()
	return out
}

// follows reports whether b is the next number after a, written alike.
func follows(a, b ledger.Number) bool {
	x, okX := a.Serial()
	y, okY := b.Serial()
	stem := func(n ledger.Number) string { return strings.TrimRight(string(n), "0123456789") }
	return okX && okY && y == x+1 && stem(a) == stem(b) && len(a) == len(b)
}

// amount says how much things are: 22 sheets; 9 plants and 120 folds, Carex.
// one is the word for what is not only counted.
func amount(things []work.Thing, one string) string {
	n := 0
	var parts []string
	for _, t := range things {
		if t.Item.Bundle() && t.Sheet == "" {
			parts = append(parts, t.String())
		} else {
			n++
		}
	}
	if n > 0 {
		parts = append([]string{count(n, one)}, parts...)
	}
	if len(parts) > 1 {
		return strings.Join(parts[:len(parts)-1], ", ") + " and " + parts[len(parts)-1]
	}
	return strings.Join(parts, "")
}

// with joins what to do and with how much.
func with(what, amount string) string {
	if amount == "" {
		return what
	}
	return what + "; " + amount
}

// count is "1 sheet", "14 sheets".
func count(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return strconv.Itoa(n) + " " + word + "s"
}

// date is a day in words, without its year when that is the year of the day
// asked for.
func (l *list) date(d dates.Day) string {
	words := dates.Words(d)
	if d.Year() == l.on.Day.Year() {
		return words[:strings.LastIndexByte(words, ' ')]
	}
	return words
}

// clock is 14:00 for 840 minutes after midnight.
func clock(minutes int) string {
	two := func(n int) string { return string([]byte{byte('0' + n/10), byte('0' + n%10)}) }
	return two(minutes/60) + ":" + two(minutes%60)
}

// hours is a time in words: a day, 2 days, 36 h.
func hours(h float64) string {
	switch {
	case h == 24:
		return "a day"
	case h > 24 && h == float64(int(h)) && int(h)%24 == 0:
		return strconv.Itoa(int(h)/24) + " days"
	}
	return strconv.FormatFloat(h, 'g', 4, 64) + " h"
}

// and joins with commas and "and".
func and(parts []string) string {
	if n := len(parts); n > 1 {
		return strings.Join(parts[:n-1], ", ") + " and " + parts[n-1]
	}
	return strings.Join(parts, "")
}
