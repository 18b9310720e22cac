package dates_test

import (
	"fmt"

	"blotter/ledger/dates"
)

func ExampleRead() {
	for _, text := range []string{"14.vii.1987", "July 1987", "3-9 Aug. 1952", "ca. 1931", "30 Feb. 1987", "s.d."} {
		r := dates.Read(text, dates.Ask)
		switch {
		case r.Known():
			fmt.Printf("%s: read as %s (%s)\n", text, r, r.ISO())
		case r.None == dates.NotRecorded:
			fmt.Printf("%s: none on the label\n", text)
		default:
			fmt.Printf("%s: %s\n", text, r.Warnings[0].Message)
		}
	}
	// Output:
	// 14.vii.1987: read as 14 July 1987 (1987-07-14)
	// July 1987: read as some day in July 1987 (1987-07)
	// 3-9 Aug. 1952: read as some day from 3 to 9 August 1952 (1952-08-03/1952-08-09)
	// ca. 1931: read as about 1931 (1931)
	// 30 Feb. 1987: February 1987 has no day 30
	// s.d.: none on the label
}

func ExampleRead_ambiguous() {
	r := dates.Read("3/4/1934", dates.Ask)
	fmt.Println(r.Warnings[0].Readings)
	fmt.Println(dates.Read("3/4/1934", dates.DayMonth))
	// Output:
	// [4 March 1934 3 April 1934]
	// 3 April 1934
}
