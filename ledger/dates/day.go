package dates

import "fmt"

// Day is a day of the proleptic Gregorian calendar (ISO 8601-1), counted from
// 1970-01-01. It sorts and subtracts as a number.
type Day int64

// maxYear is the last year that is more than a year: what lies further off
// (EDTF Y170000002) has no months.
const maxYear = 9999

// DayOf is the day y-m-d; m and d are counted from 1 and are not checked
// (see Exists). Year 0 is 1 BC.
func DayOf(y, m, d int) Day {
	if m <= 2 {
		y--
		m += 12
	}
	era := floorDiv(y, 400)
	yoe := y - era*400
	doy := (153*(m-3)+2)/5 + d - 1
	doe := yoe*365 + yoe/4 - yoe/100 + doy
	return Day(era)*146097 + Day(doe) - 719468
}

// Date is the year, month and day of the month of d.
func (d Day) Date() (year, month, day int) {
	z := int64(d) + 719468
	era := z / 146097
	if z%146097 < 0 {
		era--
	}
	doe := int(z - era*146097)
	yoe := (doe - doe/1460 + doe/36524 - doe/146096) / 365
	doy := doe - (365*yoe + yoe/4 - yoe/100)
	mp := (5*doy + 2) / 153
	day = doy - (153*mp+2)/5 + 1
	month = mp + 3
	if month > 12 {
		month -= 12
	}
	year = yoe + int(era)*400
	if month <= 2 {
		year++
	}
	return year, month, day
}

// Year is the year of d.
func (d Day) Year() int { y, _, _ := d.Date(); return y }

// Weekday is the day of the week, 1 Monday to 7 Sunday (ISO 8601-1).
func (d Day) Weekday() int { return int((d%7+7+3)%7) + 1 }

// String is d in ISO 8601 form, for example 1987-07-14; a year of more than
// four figures is written out.
func (d Day) String() string {
	y, m, dd := d.Date()
	if y < 0 {
		return fmt.Sprintf("-%04d-%02d-%02d", -y, m, dd)
	}
	return fmt.Sprintf("%04d-%02d-%02d", y, m, dd)
}

// Exists reports whether y-m-d is a day of the calendar; 1900-02-29 is not.
func Exists(y, m, d int) bool { return m >= 1 && m <= 12 && d >= 1 && d <= daysIn(y, m) }

func daysIn(y, m int) int {
	switch m {
	case 2:
		if y%4 == 0 && (y%100 != 0 || y%400 == 0) {
			return 29
		}
		return 28
	case 4, 6, 9, 11:
		return 30
	}
	return 31
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}
