package dates_test

import (
	"fmt"

	"blotter/ledger/dates"
)

func ExampleRead() {
	for _, text := range []string{"14.vii.1987", "Juli 1987", "3-9 Aug. 1952", "30.xii.1930-2.i.1931", "ca. 1931", "printemps 1910",
		"Anfang Juli 1987", "vor 1890", "1890-årene", "30 Feb. 1987", "s.d."} {
		r := dates.Read(text, dates.Ask)
		switch {
		case r.Known():
			fmt.Printf("%s: read as %s (%s)\n", text, r, r.EDTF())
		case r.None == dates.NotRecorded:
			fmt.Printf("%s: none on the label\n", text)
		default:
			fmt.Printf("%s: %s\n", text, r.Warnings[0].Message)
		}
	}
	// Output:
	// 14.vii.1987: read as 14 July 1987 (1987-07-14)
	// Juli 1987: read as some day in July 1987 (1987-07)
	// 3-9 Aug. 1952: read as some day from 3 to 9 August 1952 (1952-08-03/1952-08-09)
	// 30.xii.1930-2.i.1931: read as some day from 30 December 1930 to 2 January 1931 (1930-12-30/1931-01-02)
	// ca. 1931: read as about 1931 (1931~)
	// printemps 1910: read as some day in spring 1910 (1910-21)
	// Anfang Juli 1987: read as about 1 to 15 July 1987 (1987-07-01~/1987-07-15~)
	// vor 1890: read as some day up to 31 December 1889 (../1889-12-31)
	// 1890-årene: read as some day from 1890 to 1899 (189X)
	// 30 Feb. 1987: February 1987 has no day 30
	// s.d.: none on the label
}

// What can be read in more than one way is the span of all, until the order
// is known.
func ExampleRead_ambiguous() {
	r := dates.Read("3/4/1934", dates.Ask)
	fmt.Println(r.First, r.Last)
	for _, one := range r.Readings {
		fmt.Println("-", one)
	}
	fmt.Println(r.Warnings[0].Message)
	fmt.Println(dates.Read("3/4/1934", dates.DayMonth))
	// Output:
	// 1934-03-04 1934-04-03
	// - 4 March 1934
	// - 3 April 1934
	// can be 4 March 1934 or 3 April 1934; whoever knows which writes it under read, for example date: {is: 1934-03-04}
	// 3 April 1934
}

// A museum whose labels are all of one hundred years says so.
func ExampleReadWith() {
	fmt.Println(dates.Read("3.iv.34", dates.Ask).EDTF())
	fmt.Println(dates.ReadWith("3.iv.34", dates.OptionsOf("day-month", "1900")).EDTF())
	// Output:
	// 1834-04-03/2034-04-03
	// 1934-04-03
}

// Russia went by the Julian calendar until 31 January 1918.
func ExampleOldStyle() {
	r := dates.Read("2 July 1887", dates.Ask)
	from, ok := dates.OldStyle("RU", r)
	fmt.Println(from, ok, dates.Words(r.First+dates.Day(dates.JulianDays(r.First))))
	fmt.Println(dates.Read("2 July 1887 o.s.", dates.Ask))
	// Output:
	// 1918-02-14 true 14 July 1887
	// 14 July 1887
}

// What a text says that cannot be all true is told.
func ExampleReading_warnings() {
	for _, text := range []string{"Monday 14 July 1987", "21 Augut 1891", "12 May & 3 June 1910", "1/13 June 1880", "June 28, 195"} {
		fmt.Println(dates.Read(text, dates.Ask).Warnings[0].Message)
	}
	// Output:
	// 14 July 1987 was a Tuesday, not a Monday
	// "Augut" is taken for August
	// has more than one date: 12 May 1910 and 3 June 1910; the reading spans them all
	// can be 13 June 1880, written by the old and the new calendar, or some day from 1 to 13 June 1880; whoever knows which writes it under read, for example date: {is: 1880-06-13}
	// the year 195 has three figures: one is missing
}
