package geodesy_test

import (
	"fmt"

	"blotter/ledger/geodesy"
)

func ExampleToUTM() {
	u, _ := geodesy.ToUTM(60.63, 6.42) // Voss: zone 32, by the exception of 32V
	m, _ := u.MGRS(3)
	fmt.Println(u, m)
	// Output: 32V 358863 6724346 32VLN588243
}

func ExampleDestination() {
	lat, lon := geodesy.Destination(60.63, 6.42, 45, 10_000) // 10 km north-east
	fmt.Printf("%.5f, %.5f\n", lat, lon)
	fmt.Printf("%.3f m\n", geodesy.Distance(60.63, 6.42, lat, lon))
	// Output:
	// 60.69340, 6.54944
	// 10000.000 m
}

func ExampleDatum_ToWGS84() {
	d, _ := geodesy.DatumOf("European Datum 1950")
	lat, lon, metres := d.ToWGS84(60.63, 6.42)
	fmt.Printf("%s: %.5f, %.5f ± %g m\n", d.Name, lat, lon, metres)
	// Output: ED50: 60.62953, 6.41845 ± 7 m
}

func ExampleUnknownDatumAt() {
	for _, p := range [][2]float64{{60.63, 6.42}, {0, 0}} {
		metres, datum := geodesy.UnknownDatumAt(p[0], p[1])
		fmt.Printf("%.0f m %s\n", metres, datum)
	}
	// Output:
	// 261 m NGO 1948
	// 5359 m
}
