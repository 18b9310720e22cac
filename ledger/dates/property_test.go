package dates

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func drawDay(t *rapid.T, from, to int, label string) Day {
	return Day(rapid.IntRange(int(DayOf(from, 1, 1)), int(DayOf(to, 12, 31))).Draw(t, label))
}

// Any reading, written in words or in EDTF, is read again as itself.
func TestReadingIsReadAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := drawDay(t, -9998, 9998, "first"), drawDay(t, -9998, 9998, "last")
		switch rapid.IntRange(0, 4).Draw(t, "length") {
		case 0:
			b = a
		case 1:
			b = a + Day(rapid.IntRange(0, 40).Draw(t, "days"))
		case 2: // whole months
			y, m, _ := a.Date()
			y2, m2, _ := b.Date()
			a, b = DayOf(y, m, 1), DayOf(y2, m2, daysIn(y2, m2))
		case 3: // whole years
			a, b = DayOf(a.Year(), 1, 1), DayOf(b.Year(), 12, 31)
		}
		r := Reading{First: min(a, b), Last: max(a, b), Precision: ToSpan, Approximate: rapid.Bool().Draw(t, "about"), Uncertain: rapid.Bool().Draw(t, "doubtful")}
		switch rapid.IntRange(0, 5).Draw(t, "open") {
		case 0:
			r.OpenStart, r.First = true, 0
		case 1:
			r.OpenEnd, r.Last = true, 0
		}
		for _, written := range []string{r.EDTF(), r.String()} {
			again := Read(written, Ask)
			if !again.Known() || again.First != r.First || again.Last != r.Last || again.OpenStart != r.OpenStart || again.OpenEnd != r.OpenEnd ||
				again.Approximate != r.Approximate || again.Uncertain != r.Uncertain {
				t.Fatalf("%s to %s: written %q, read again as %s (%v)", r.First, r.Last, written, again.EDTF(), again.Warnings)
			}
		}
	})
}

// What can be read in several ways, written in words that name each, is read
// again with the same first and last day.
func TestChoiceIsReadAgain(t *testing.T) {
	forms := []func(d, m, y string) string{
		func(d, m, y string) string { return d + "/" + m + "/" + y },
		func(d, m, y string) string { return d + "." + m + "." + y[2:] },
		func(d, m, y string) string { return m + "-" + d + "-" + y[2:] },
		func(d, m, y string) string { return d + " June " + y[2:] },
		func(_, m, y string) string { return englishMonths[int(m[0]-'1')%12] + " '" + y[2:] },
		func(d, m, y string) string { return d + "." + m + "." + y[2:] + "-28.12." + y[2:] },
		func(_, m, y string) string { return "autumn " + "'" + y[2:] },
		func(d, m, y string) string { return y[:4] + "-" + string('1'+(y[3]-'0')%9) },
		func(d, _, y string) string { return "1/13 June " + y },
		func(d, m, y string) string { return "ca. " + d + "/" + m + "/" + y },
		func(d, m, y string) string { return d + "/" + m + "/" + y + "?" },
	}
	rapid.Check(t, func(t *rapid.T) {
		y, m, d := drawDay(t, 1750, 2049, "day").Date()
		text := rapid.SampledFrom(forms).Draw(t, "form")(itoa(d), itoa(m), itoa(y))
		r := Read(text, Ask)
		if !r.Known() {
			return
		}
		again := Read(r.String(), Ask)
		if again.First != r.First || again.Last != r.Last || again.Approximate != r.Approximate || again.Uncertain != r.Uncertain {
			t.Fatalf("%q: written %q, read again as %s, not %s (%v)", text, r, again.EDTF(), r.EDTF(), again.Warnings)
		}
	})
}

// A day or a span in the words of any language, in any of the common orders,
// in either case, is read as that day or span.
func TestEveryLanguageIsRead(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l := languages[rapid.IntRange(0, len(languages)-1).Draw(t, "language")]
		word := func(m int) string {
			w := rapid.SampledFrom(groups(l.months)[m-1]).Draw(t, "word")
			if rapid.Bool().Draw(t, "capitals") {
				w = strings.ToUpper(w)
			}
			return w
		}
		a := drawDay(t, 1750, 2049, "day")
		b := a + Day(rapid.IntRange(1, 60).Draw(t, "more"))
		y, m, d := a.Date()
		y2, m2, d2 := b.Date()
		one := []string{itoa(d) + ". " + word(m) + " " + itoa(y), itoa(d) + " " + word(m) + ", " + itoa(y), itoa(y) + " " + word(m) + " " + itoa(d)}
		for _, text := range one {
			if r := Read(text, Ask); !r.Single() || r.First != a {
				t.Fatalf("%s: %s, want %s (%v)", text, r.EDTF(), a, r.Warnings)
			}
		}
		two := []string{itoa(d) + " " + word(m) + " " + itoa(y) + " - " + itoa(d2) + " " + word(m2) + " " + itoa(y2)}
		if y == y2 || m > m2 {
			two = append(two, itoa(d)+". "+word(m)+"–"+itoa(d2)+". "+word(m2)+" "+itoa(y2))
		}
		if y == y2 && m == m2 {
			two = append(two, itoa(d)+"-"+itoa(d2)+" "+word(m)+" "+itoa(y), itoa(d)+"./"+itoa(d2)+". "+word(m)+" "+itoa(y))
		}
		for _, text := range two {
			if r := Read(text, Ask); r.First != a || r.Last != b {
				t.Fatalf("%s: %s, want %s to %s (%v)", text, r.EDTF(), a, b, r.Warnings)
			}
		}
	})
}

// The calendars: the Julian one was ten days behind in 1582 and is thirteen
// behind in the 20th century; Russia went from 31 January to 14 February 1918
// and Greece from 15 February to 1 March 1923.
func TestJulian(t *testing.T) {
	for _, c := range []struct {
		y, m, d int
		want    Day
	}{
		{1582, 10, 5, DayOf(1582, 10, 15)}, {1700, 2, 18, DayOf(1700, 2, 28)}, {1700, 2, 29, DayOf(1700, 3, 11)}, {1700, 3, 1, DayOf(1700, 3, 12)},
		{1918, 2, 1, DayOf(1918, 2, 14)}, {1923, 2, 16, DayOf(1923, 3, 1)}, {1900, 2, 29, DayOf(1900, 3, 13)},
	} {
		if got := julianDay(c.y, c.m, c.d); got != c.want {
			t.Errorf("%d-%d-%d: %s, want %s", c.y, c.m, c.d, got, c.want)
		}
	}
	for _, c := range []struct {
		day  Day
		want int
	}{{DayOf(1582, 10, 15), 10}, {DayOf(1699, 12, 31), 10}, {DayOf(1750, 1, 1), 11}, {DayOf(1850, 6, 1), 12}, {DayOf(1917, 6, 1), 13}} {
		if got := JulianDays(c.day); got != c.want {
			t.Errorf("%s: %d days behind, want %d", c.day, got, c.want)
		}
	}
}

func TestOldStyle(t *testing.T) {
	for _, c := range []struct {
		country, text string
		want          bool
	}{
		{"RU", "2 July 1887", true}, {"Russia", "31.i.1918", true}, {"RU", "14.ii.1918", false}, {"Greece", "28.ii.1923", true}, {"GR", "1.iii.1923", false},
		{"Norway", "2 July 1887", false}, {"RU", "2 July 1887 n.s.", false}, {"RU", "s.d.", false}, {"RU", "2 July 1500", false},
	} {
		if _, got := OldStyle(c.country, Read(c.text, Ask)); got != c.want {
			t.Errorf("%s in %s: %v, want %v", c.text, c.country, got, c.want)
		}
	}
}

// 14 July 1987 was a Tuesday; 1970-01-01 a Thursday (POSIX epoch).
func TestWeekday(t *testing.T) {
	if DayOf(1970, 1, 1).Weekday() != 4 || DayOf(1987, 7, 14).Weekday() != 2 || DayOf(1582, 10, 15).Weekday() != 5 || DayOf(-44, 3, 15).Weekday() < 1 {
		t.Error("days of the week are counted wrong")
	}
}

func TestOptionsOf(t *testing.T) {
	for _, c := range []struct {
		order, years string
		want         Options
	}{
		{"day-month", "1900", Options{DayMonth, 1900, 1999}}, {"", "1850", Options{Ask, 1850, 1949}}, {"month-day", "", Options{Order: MonthDay}}, {"", "old", Options{}},
	} {
		if got := OptionsOf(c.order, c.years); got != c.want {
			t.Errorf("%q %q: %+v, want %+v", c.order, c.years, got, c.want)
		}
	}
	if got := ReadWith("3/4/34", OptionsOf("day-month", "1850")).EDTF(); got != "1934-04-03" {
		t.Error(got)
	}
}
