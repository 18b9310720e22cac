package render

import (
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/render/page"
)

func itoa(n int) string { return strconv.Itoa(n) }

// day is a day in words: 3 November 2026.
func (s *shelf) day(t time.Time) string {
	return itoa(t.Day()) + " " + s.lang.Months[t.Month()-1] + " " + itoa(t.Year())
}

// dayOf is a date of a record in words, or as it stands when it cannot be
// read.
func (s *shelf) dayOf(words string) string {
	if r := dates.Read(words, s.in.Book.Museum.Conventions.Order); r.Known() {
		return r.String()
	}
	return words
}

// dateShort is the day of collecting for a row.
func (s *shelf) dateShort(e *book.Entry) string {
	switch {
	case !e.Dated && absent(e.Date):
		return s.lang.DateNotKnown
	case !e.Dated:
		return e.Date
	}
	y1, m1, d1 := e.First.Date()
	y2, m2, d2 := e.Last.Date()
	about := ""
	if e.Uncertain {
		about = s.lang.About + " "
	}
	switch {
	case e.First == e.Last:
		return about + itoa(d1) + " " + s.lang.MonthsAbb[m1-1] + " " + itoa(y1)
	case y1 == y2 && m1 == m2 && d1 == 1 && d2 >= 28:
		return about + s.lang.MonthsAbb[m1-1] + " " + itoa(y1)
	case y1 == y2 && m1 == 1 && d1 == 1 && m2 == 12 && d2 == 31:
		return about + itoa(y1)
	case y1 == y2 && m1 == m2:
		return about + itoa(d1) + " – " + itoa(d2) + " " + s.lang.MonthsAbb[m1-1] + " " + itoa(y1)
	case y1 == y2:
		return about + s.lang.MonthsAbb[m1-1] + " – " + s.lang.MonthsAbb[m2-1] + " " + itoa(y1)
	}
	return about + itoa(y1) + " – " + itoa(y2)
}

func upperFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

func lowerFirst(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToLower(r)) + s[n:]
}

// sheetsWord is "14 sheets".
func (s *shelf) sheetsWord(n int) string { return page.Count(n, s.lang.Sheets1, s.lang.SheetsN) }

// list joins words: a, b and c.
func (s *shelf) list(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " " + s.lang.And + " " + words[len(words)-1]
}

// dated is e, without its date when that has not come yet on the day of the
// site: a slip that must not stretch every chart over centuries. The sheet's
// own page shows the words as they are.
func (s *shelf) dated(e *book.Entry) *book.Entry {
	t := s.in.Today
	if !e.Dated || t.IsZero() || e.First <= dates.DayOf(t.Year(), int(t.Month()), t.Day()) {
		return e
	}
	c := *e
	c.Dated, c.First, c.Last = false, 0, 0
	return &c
}
