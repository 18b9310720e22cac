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
