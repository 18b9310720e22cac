package places_test

import (
	"fmt"

	"blotter/ledger/places"
)

func ExampleReadPosition() {
	for _, text := range []string{`60°42'12"N 6°39'05"E`, "60.7034, 6.6512", "60°42'N 6°39'E"} {
		p := places.ReadPosition(text)
		fmt.Printf("%s (%s, ± %.0f m)\n", p, p.Form, p.Precision())
	}
	// Output:
	// 60.7033° N, 6.6514° E (degrees minutes seconds, ± 34 m)
	// 60.7034° N, 6.6512° E (decimal degrees, ± 12 m)
	// 60.70° N, 6.65° E (degrees decimal minutes, ± 2068 m)
}

func ExampleReadPosition_grids() {
	for _, text := range []string{"32V 361500 6730000", "32V LN 615 300", "E032S18CB", "T12N R4W Sec. 23 NE1/4"} {
		p := places.ReadPosition(text)
		if !p.Known() {
			fmt.Println(p.Warnings[0].Message)
			continue
		}
		fmt.Printf("%s (%s, ± %.0f m)\n", p, p.Form, p.Precision())
	}
	// Output:
	// 60.682° N, 6.464° E (UTM, ± 141 m)
	// 60.6821° N, 6.4650° E (MGRS, ± 71 m)
	// 18.6° S, 32.4° E (quarter-degree cell, ± 19119 m)
	// township and range (T12N R4W Sec. 23 NE1/4): kept as written, not solved into degrees
}

func ExamplePosition_OnWGS84() {
	p := places.ReadPosition("60.63, 6.42")
	for _, datum := range []string{"ED50", "not recorded"} {
		lat, lon, metres, name := p.OnWGS84(datum)
		fmt.Printf("%.5f, %.5f ± %.0f m %s\n", lat, lon, metres, name)
	}
	// Output:
	// 60.62953, 6.41845 ± 7 m ED50
	// 60.63000, 6.42000 ± 261 m
}

func ExampleReadLength() {
	for _, text := range []string{"348 m", "1200 ft", "1,150-1,200 m", "ca. 300 m"} {
		fmt.Println(places.ReadLength(text))
	}
	// Output:
	// 348 m
	// 366 m
	// 1150 to 1200 m
	// about 300 m
}

func ExampleReadElevation() {
	for _, text := range []string{"ft. 2600", "1.200-1.300 m ü.M.", "1200 m (3937 ft)", "20 m below sea level", "sea level"} {
		l := places.ReadElevation(text)
		fmt.Printf("%q: %s ± %.3g\n", text, l, l.Error)
	}
	// Output:
	// "ft. 2600": 792 m ± 15.2
	// "1.200-1.300 m ü.M.": 1200 to 1300 m ± 50
	// "1200 m (3937 ft)": 1200 m ± 50
	// "20 m below sea level": -20 m ± 0.5
	// "sea level": 0 m ± 1
}

func ExampleReadDepth() {
	fmt.Println(places.ReadDepth("2-3 fathoms"), places.ReadDepth("-5 m"), places.ReadDepth("below 3 m"))
	// Output: 4 to 5 m 5 m more than 3 m
}
