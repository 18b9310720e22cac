package dates

import "strings"

// gregorian is the first day of the Gregorian calendar, 15 October 1582.
var gregorian = DayOf(1582, 10, 15)

// julianDay is the day that y-m-d of the Julian calendar is.
func julianDay(y, m, d int) Day {
	if m <= 2 {
		y--
		m += 12
	}
	doy := (153*(m-3)+2)/5 + d - 1
	return Day(365)*Day(y) + Day(floorDiv(y, 4)) + Day(doy) - 719470
}

// JulianDays is by how many days the Julian calendar is behind on day d: 12
// in most of the 19th century, 13 in the 20th.
func JulianDays(d Day) int {
	y, m, _ := d.Date()
	if m <= 2 {
		y--
	}
	c := floorDiv(y, 100)
	return c - floorDiv(c, 4) - 2
}

// changes are the first days of the Gregorian calendar where it came late, by
// alpha-2 code (ISO 3166-1). Russia and Greece: standards of the trade; the
// rest from memory, no source.
var changes = map[string]Day{
	"RU": DayOf(1918, 2, 14), "UA": DayOf(1918, 2, 14), "BY": DayOf(1918, 2, 14), "KZ": DayOf(1918, 2, 14),
	"KG": DayOf(1918, 2, 14), "TJ": DayOf(1918, 2, 14), "TM": DayOf(1918, 2, 14), "UZ": DayOf(1918, 2, 14),
	"AM": DayOf(1918, 2, 14), "AZ": DayOf(1918, 2, 14), "GE": DayOf(1918, 2, 14), "MD": DayOf(1918, 2, 14),
	"EE": DayOf(1918, 2, 14), "LV": DayOf(1918, 2, 14),
	"GR": DayOf(1923, 3, 1), "BG": DayOf(1916, 4, 14), "RO": DayOf(1919, 4, 14), "RS": DayOf(1919, 1, 28),
}

// countryWords are the names under which those countries stand on labels.
var countryWords = map[string]string{
	"russia": "RU", "russian empire": "RU", "russian federation": "RU", "ussr": "RU", "soviet union": "RU", "rossia": "RU", "rossiya": "RU",
	"russland": "RU", "russie": "RU", "rusia": "RU", "siberia": "RU", "sibirien": "RU", "ukraine": "UA", "belarus": "BY", "kazakhstan": "KZ",
	"turkestan": "UZ", "kyrgyzstan": "KG", "tajikistan": "TJ", "turkmenistan": "TM", "uzbekistan": "UZ", "armenia": "AM",
	"azerbaijan": "AZ", "georgia": "GE", "caucasus": "GE", "moldova": "MD", "bessarabia": "MD", "estonia": "EE", "estland": "EE", "livonia": "LV", "latvia": "LV",
	"greece": "GR", "griechenland": "GR", "grece": "GR", "grecia": "GR", "hellas": "GR", "graecia": "GR",
	"bulgaria": "BG", "romania": "RO", "rumania": "RO", "roumania": "RO", "serbia": "RS", "yugoslavia": "RS",
}

// OldStyle reports whether a date of a label from a country may be by the
// Julian calendar, since the Gregorian one came there only later, on day
// from. country is an alpha-2 code or a name in words; a country not known
// here gives false.
func OldStyle(country string, r Reading) (from Day, ok bool) {
	code := strings.ToUpper(strings.TrimSpace(country))
	if len(code) != 2 {
		code = countryWords[fold(strings.TrimSpace(country))]
	}
	from, known := changes[code]
	return from, known && r.Known() && !r.OpenStart && r.First < from && r.First >= gregorian && r.style == unsaid
}
