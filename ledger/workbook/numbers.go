package workbook

import (
	"math"
	"strconv"
	"strings"
	"time"
)

// number is the words of a stored number in a format, and what is odd about
// them; "" when it is no number.
func (x *xlsx) number(stored []byte, style int) (words, odd string) {
	var f format
	f.plain = true
	if style >= 0 && style < len(x.formats) {
		f = x.formats[style]
	}
	if f.plain && plainFigures(stored) {
		return string(stored), ""
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(string(stored)), 64)
	if err != nil || math.IsInf(v, 0) || math.IsNaN(v) {
		return string(stored), "is not a number, though it says so"
	}
	if f.date != noDate {
		return day(v, f.date, x.from)
	}
	return shown(v, f), ""
}

// plainFigures reports whether a stored number is already as it is shown: at
// most 15 figures, which is what a spreadsheet shows.
func plainFigures(b []byte) bool {
	if len(b) > 0 && b[0] == '-' {
		b = b[1:]
	}
	if len(b) == 0 || len(b) > 15 || b[0] == '.' || b[len(b)-1] == '.' || b[0] == '0' && len(b) > 1 && b[1] != '.' {
		return false
	}
	points := 0
	for _, c := range b {
		if c == '.' {
			points++
		} else if c < '0' || c > '9' {
			return false
		}
	}
	return points == 0 || points == 1 && b[len(b)-1] != '0'
}

// shown writes a number: its figures to 15 places, as spreadsheets show them,
// with the zeros and words that its format adds. Figures that a format would
// hide are kept: they are what was measured.
func shown(v float64, f format) string {
	if f.percent {
		v *= 100
	}
	digits := figures(math.Abs(v))
	whole, after, _ := strings.Cut(digits, ".")
	if !f.plain {
		whole = strings.Repeat("0", max(0, f.whole-len(whole))) + whole
		after += strings.Repeat("0", max(0, f.after-len(after)))
	}
	out := whole
	if after != "" {
		out += "." + after
	}
	if f.percent {
		out += "%"
	}
	out = f.before + out + f.below
	if v < 0 {
		out = "-" + out
	}
	return out
}

// figures writes a number from 0 with at most 15 significant figures, without
// a power of ten.
func figures(v float64) string {
	short := strconv.FormatFloat(v, 'g', 15, 64)
	back, err := strconv.ParseFloat(short, 64)
	if err != nil {
		back = v
	}
	return strconv.FormatFloat(back, 'f', -1, 64)
}

// day writes a serial number as a date of ISO 8601. In the system of 1900 the
// day 60 is 29 February 1900, which never was (ISO/IEC 29500-1, 18.17.4.1).
func day(serial float64, p precision, from int) (words, odd string) {
	if p == onlyTime && serial >= 0 && serial < 1 {
		return clock(serial), ""
	}
	whole := math.Floor(serial)
	if serial < 0 || whole > 2958465+1462 || from == 1900 && whole == 0 {
		return figures(serial), "is shown as a date, but is none that the calendar of " + strconv.Itoa(from) + " has"
	}
	epoch := time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	if from == 1900 {
		epoch = time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
		switch {
		case whole == 60:
			return "1900-02-29", "is 29 February 1900, a day that never was"
		case whole < 60:
			epoch = epoch.AddDate(0, 0, 1)
		}
	}
	d := epoch.AddDate(0, 0, int(whole))
	switch p {
	case toYear:
		return d.Format("2006"), ""
	case toMonth:
		return d.Format("2006-01"), ""
	case toSecond, onlyTime:
		if at := clock(serial - whole); p == onlyTime || at != "00:00:00" {
			if at == "24:00:00" {
				d, at = d.AddDate(0, 0, 1), "00:00:00"
			}
			return d.Format("2006-01-02") + "T" + strings.TrimSuffix(at, ":00"), ""
		}
	}
	return d.Format("2006-01-02"), ""
}

// clock writes a part of a day as hours, minutes and seconds.
func clock(part float64) string {
	s := int(math.Round(part * 86400))
	return pad2(s/3600) + ":" + pad2(s/60%60) + ":" + pad2(s%60)
}

func pad2(n int) string {
	if n < 10 {
		return "0" + strconv.Itoa(n)
	}
	return strconv.Itoa(n)
}
