package darwincore

import (
	"cmp"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/land"
	"blotter/ledger/reading"
)

// eventTerms are about the gathering.
var eventTerms = []Term{
	{"eventDate", DwC, "the reading of `date`, a person's (`read.date`) first: ISO 8601, a span when the day is not known", func(r Row) string { return isoDate(&r.Reading.Date) }},
	{"year", DwC, "the year, when the reading leaves one only", func(r Row) string { return eventPart(r, 0) }},
	{"month", DwC, "the month, when the reading leaves one only", func(r Row) string { return eventPart(r, 1) }},
	{"day", DwC, "the day, when the reading leaves one only", func(r Row) string { return eventPart(r, 2) }},
	{"startDayOfYear", DwC, "the first day, when eventDate is a day or a span of days within one year", func(r Row) string { return dayOfYear(&r.Reading.Date, false) }},
	{"endDayOfYear", DwC, "the last day, when eventDate is a day or a span of days within one year", func(r Row) string { return dayOfYear(&r.Reading.Date, true) }},
	field("verbatimEventDate", "date", func(r *ledger.Record) ledger.Leaf { return r.Date }),
	field("habitat", "habitat", func(r *ledger.Record) ledger.Leaf { return r.Habitat }),
	{"fieldNotes", DwC, "`fieldbook.volume`, `fieldbook.page`: where the notes stand", func(r Row) string { return fieldNotes(&r.Record.Fieldbook) }},
	{"eventRemarks", DwC, "who read the date, when, from what and why (`read.date`)", func(r Row) string { return r.dateRemarks() }},
}

// isoDate is a date as read, "" when it is not known.
func isoDate(d *reading.Date) string {
	if !d.Known {
		return ""
	}
	return d.Read.ISO()
}

// eventPart is the year, month or day of gathering, when it is one only.
func eventPart(r Row, part int) string {
	d := &r.Reading.Date
	if isoDate(d) == "" {
		return ""
	}
	y, m, day := d.First.Date()
	y2, m2, day2 := d.Last.Date()
	switch {
	case y != y2 || part > 0 && m != m2 || part > 1 && day != day2:
		return ""
	case part == 0:
		if y < 1000 { // four figures are wanted, and no label is so old
			return ""
		}
		return strconv.Itoa(y)
	case part == 1:
		return strconv.Itoa(m)
	}
	return strconv.Itoa(day)
}

// isoWords is the reading of a date that is ours, not of a label; "" when the
// words are none, as s.d. is not.
func isoWords(words string) string { return dates.Read(words, dates.Ask).ISO() }

// dayOfYear is the first or last day, counted from 1 January. A month or a year
// has none: the figures would be finer than what is known (TDWG data quality
// tests, VALIDATION_EVENT_CONSISTENT).
func dayOfYear(d *reading.Date, last bool) string {
	first, _, _ := strings.Cut(isoDate(d), "/")
	if len(first) < len("2006-01-02") || d.First.Year() != d.Last.Year() {
		return ""
	}
	day := d.First
	if last {
		day = d.Last
	}
	return strconv.Itoa(int(day-dates.DayOf(day.Year(), 1, 1)) + 1)
}

func fieldNotes(f *ledger.Fieldbook) string {
	var out []string
	if f.Volume.Set() && !isSentence(f.Volume) {
		out = append(out, "field book "+f.Volume.Text)
	}
	if f.Page.Set() && !isSentence(f.Page) {
		out = append(out, "p. "+f.Page.Text)
	}
	return strings.Join(out, ", ")
}

// dateRemarks says by whom and on what grounds the date was read so.
func (s *Sheet) dateRemarks() string {
	if !s.Reading.Date.FromHand() {
		return ""
	}
	return "date " + byHand(s.Reading.Date.ByHand)
}

// byHand is a person's reading in a sentence: "read as 1934-04-03 by Tiril
// Aune, 2026-11-05, from field book, p. 12: the grounds".
func byHand(h *ledger.ReadValue) string {
	out := "read as " + h.Is.Text
	if h.By.Set() {
		out += " by " + h.By.Text
	}
	if h.Date.Set() {
		out += ", " + h.Date.Text
	}
	if h.From.Set() {
		out += ", from " + h.From.Text
	}
	if h.Why.Set() {
		out += ": " + h.Why.Text
	}
	return out
}

// placeTerms are about the place in words, heights and depths.
var placeTerms = []Term{
	{"higherGeography", DwC, "`place.country`, `place.province`, `place.district`, as written", func(r Row) string {
		p := &r.Record.Place
		return Join(saidTexts(p.Country, p.Province, p.District))
	}},
	{"country", DwC, "the country of today when somebody read it (`read.country`), else `place.country` as written; a code of two capitals as the name", func(r Row) string { return country(r.Record) }},
	{"countryCode", DwC, "ISO 3166-1 code of that country, when the name is one country's", func(r Row) string { return r.countryCode() }},
	field("stateProvince", "place.province", func(r *ledger.Record) ledger.Leaf { return r.Place.Province }),
	field("county", "place.district", func(r *ledger.Record) ledger.Leaf { return r.Place.District }),
	field("locality", "place.locality", func(r *ledger.Record) ledger.Leaf { return r.Place.Locality }),
	field("verbatimLocality", "place.locality", func(r *ledger.Record) ledger.Leaf { return r.Place.Locality }),
	{"minimumElevationInMeters", DwC, "the reading of `place.elevation`, a person's (`read.elevation`) first", func(r Row) string { return metres(r.elevation(false)) }},
	{"maximumElevationInMeters", DwC, "the same", func(r Row) string { return metres(r.elevation(true)) }},
	field("verbatimElevation", "place.elevation", func(r *ledger.Record) ledger.Leaf { return r.Place.Elevation }),
	{"minimumDepthInMeters", DwC, "the reading of `depth`", func(r Row) string { return metres(r.depth(false)) }},
	{"maximumDepthInMeters", DwC, "the same", func(r Row) string { return metres(r.depth(true)) }},
	field("verbatimDepth", "depth", func(r *ledger.Record) ledger.Leaf { return r.Depth }),
	{"locationRemarks", DwC, "who read country or elevation, when, from what and why (`read.country`, `read.elevation`); whether a height is about", func(r Row) string { return r.locationRemarks() }},
}

// country is the country of today, when somebody read it, else that of the
// label.
func country(r *ledger.Record) string {
	words := cmp.Or(r.Read.Country.Is.Text, r.Place.Country.Text)
	if isCountryCode(words) {
		return land.Name(words)
	}
	return words
}

// isCountryCode reports whether words are a code of ISO 3166-1, as in archives
// that have countryCode and no country.
func isCountryCode(words string) bool {
	return len(words) == 2 && land.Official(words) && land.Name(words) != ""
}

func (s *Sheet) countryCode() string {
	words := country(s.Record)
	if reading.AbsenceOf(words) != reading.Present {
		return ""
	}
	code, _ := land.CodeOf(words)
	return code
}

func (s *Sheet) locationRemarks() string {
	var out []string
	if h := s.Reading.Country.ByHand; h != nil {
		out = append(out, "country "+byHand(h))
	}
	e := &s.Reading.Elevation
	if e.FromHand {
		out = append(out, "elevation "+byHand(e.ByHand))
	}
	switch {
	case !e.Known:
	case e.Read.OpenBelow:
		out = append(out, "elevation: no lower end is stated")
	case e.Read.OpenAbove:
		out = append(out, "elevation: no upper end is stated")
	case e.Read.Approximate:
		out = append(out, "elevation about")
	}
	return Join(out)
}
