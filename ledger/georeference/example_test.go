package georeference_test

import (
	"fmt"

	"blotter/ledger/georeference"
	"blotter/ledger/places"
)

func ExampleOf() {
	e := georeference.Of(georeference.Said{Position: places.ReadPosition(`60°42'12"N 6°39'05"E`), Datum: "WGS84", Accuracy: "8 m"})
	fmt.Println(e)
	for _, p := range e.Parts {
		fmt.Println(p)
	}
	// Output:
	// 60.7033° N, 6.6514° E, ± 51 m
	// ± 35 m: the coordinates are written to 1″
	// ± 16 m: the device showed 8 m, which counts twice, to hold 95 times in 100
}

func ExampleGazetteer_Reckon() {
	g := georeference.NewGazetteer([]georeference.Place{{
		Name: "Voss church", Extent: "30 m",
		Said: georeference.Said{Position: places.ReadPosition("60.62960, 6.41850"), Datum: "WGS84", Accuracy: "5 m"},
	}})
	e := g.Reckon("10 km NE of Voss church, above the track", georeference.Within{})
	fmt.Println(e.From, "is", e)
	for _, p := range e.Parts {
		fmt.Println(p)
	}
	fmt.Println(g.Reckon("near Voss church", georeference.Within{}).Why)
	// Output:
	// 10 km NE of Voss church is 60.69° N, 6.55° E, ± 4,050 m
	// ± 2 m: Voss church: the coordinates are written to 0.00001°
	// ± 10 m: Voss church: the device showed 5 m, which counts twice, to hold 95 times in 100
	// ± 30 m: Voss church reaches that far from its middle (30 m)
	// ± 500 m: the distance is written to half of the unit it counts in
	// ± 3,510 m: NE may be 22.5° off to each side, which by itself is 3,910 m
	// near Voss church gives no distance
}

func ExampleReadOffset() {
	o := georeference.ReadOffset("Modoc National Wildlife Refuge, 2.8 mi S and 1.2 mi E junction of two roads")
	for _, l := range o.Legs {
		fmt.Printf("%.0f m %s\n", l.Distance.Mid(), l.Heading.Name)
	}
	fmt.Println("from", o.From)
	// Output:
	// 4506 m S
	// 1931 m E
	// from junction of two roads
}
