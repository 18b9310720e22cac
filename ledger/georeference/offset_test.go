package georeference

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// said writes an offset in one form: what ReadOffset made of the words.
func said(o Offset) string {
	var b strings.Builder
	switch o.Relation {
	case NoRelation:
		return ""
	case Near:
		return "near " + o.From
	case Between:
		return "between " + o.From + " | " + o.And
	}
	for i, l := range o.Legs {
		if i > 0 {
			b.WriteString(" + ")
		}
		fmt.Fprintf(&b, "%.0f %s", l.Distance.Mid(), l.Heading.Name)
	}
	if o.ByRoad {
		b.WriteString(" road")
	}
	name := o.From
	if name == "" {
		name = o.Before + " <"
	}
	return b.String() + ": " + name
}

// Ways of writing: the worked text of Chapman & Wieczorek 2020 (Modoc), the
// demonstration ledger, and common practice, no source.
func TestReadOffset(t *testing.T) {
	for text, want := range map[string]string{
		"10 km NE of Voss church": "10000 NE: Voss church",
		"Modoc National Wildlife Refuge, 2.8 mi S and 1.2 mi E junction of Hwy 299 and Hwy 395": "4506 S + 1931 E: junction of Hwy 299 and Hwy 395",
		"5 km N Voss":             "5000 N: Voss",
		"Voss, 5 km N":            "5000 N: Voss <",
		"Voss, ca. 5 km N":        "5000 N: Voss <",
		"Voss 5 km N":             "5000 N: Voss <",
		"Voss, 8 km E and 6 km N": "8000 E + 6000 N: Voss <",
		"Voss, 8 km E, 6 km N":    "8000 E + 6000 N: Voss <",
		"ca. 3 km E of Bolstad":   "3000 E: Bolstad",
		"1.2 km NE of Raundal chapel, above the track":                           "1200 NE: Raundal chapel",
		"Vossevangen, 900 m NNE of Voss church, between the old farmyard and it": "900 NNE: Voss church",
		"10 km by road N of Voss":                                                "10000 N road: Voss",
		"10 km N by road from Voss":                                              "10000 N road: Voss",
		"10 km N of Voss along the road to Gol":                                  "10000 N road: Voss",
		"10 km N of Voss, along the road":                                        "10000 N: Voss",
		"Voss, 5 km N along the road to Gol":                                     "5000 N road: Voss <",
		"2-3 miles north-east of Voss":                                           "4023 NE: Voss",
		"½ mi. north east of Voss":                                               "805 NE: Voss",
		"1 1/2 miles NNW of Voss":                                                "2414 NNW: Voss",
		"500 m to the N. of the church":                                          "500 N: church",
		"500 ft. N.E. of St. Olav church":                                        "152 NE: St. Olav church",
		"6 km due south of Voss":                                                 "6000 S: Voss",
		"3 km N by E of Voss":                                                    "3000 N by E: Voss",
		"3 km (bearing 45°) from Voss":                                           "3000 45°: Voss",
		"3 km from Voss":                                                         "3000 : Voss",
		"10 km nordøst for Voss kirke":                                           "10000 NE: Voss kirke",
		"10 km NØ for Voss kirke":                                                "10000 NE: Voss kirke",
		"10 km NO om Örebro":                                                     "10000 NE: Örebro",
		"3 km sørvest for Bolstad":                                               "3000 SW: Bolstad",
		"3 km vest for Bolstad":                                                  "3000 W: Bolstad",
		"10 km nordnordøst for Voss":                                             "10000 NNE: Voss",
		"10 km nördlich von Bozen":                                               "10000 N: Bozen",
		"10 km NO von Bozen":                                                     "10000 NE: Bozen",
		"10 km südwestl. von Bozen":                                              "10000 SW: Bozen",
		"à 10 km au nord de Grenoble":                                            "10000 N: Grenoble",
		"10 km au nord-ouest de Grenoble":                                        "10000 NW: Grenoble",
		"10 km NO de Grenoble":                                                   "10000 NW: Grenoble",
		"a 10 km al norte de Jaca":                                               "10000 N: Jaca",
		"10 km al noreste del Puerto":                                            "10000 NE: Puerto",
		"a 10 km ao norte de Bragança":                                           "10000 N: Bragança",
		"10 km a nord di Trento":                                                 "10000 N: Trento",
		"10 km norr om Abisko":                                                   "10000 N: Abisko",
		"10 km ten noorden van Assen":                                            "10000 N: Assen",
		"10 km par la route de Grenoble":                                         "10000  road: Grenoble",
		"between Voss and Bolstad":                                               "between Voss | Bolstad",
		"mellom Voss og Bolstad, i skogen":                                       "between Voss | Bolstad",
		"zwischen Bozen und Meran":                                               "between Bozen | Meran",
		"near Voss church":                                                       "near Voss church",
		"i skogen, nær Voss":                                                     "near Voss",
		"3 m tall, on rocks":                                                     "",
		"at 300 m in forest":                                                     "",
		"Voss":                                                                   "",
		"alt. 300 m, 5 km N of Voss":                                             "5000 N: Voss",
		"":                                                                       "",
	} {
		if got := said(ReadOffset(text)); got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}

// TestOffsetsAgain: an offset written out and read again is the same.
func TestOffsetsAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		km := rapid.IntRange(1, 400).Draw(t, "km")
		wind := rapid.SampledFrom(points).Draw(t, "wind")
		unit := rapid.SampledFrom([]string{"km", "m", "mi", "miles"}).Draw(t, "unit")
		name := rapid.SampledFrom([]string{"Voss church", "Bolstad", "St. Olav", "Öra"}).Draw(t, "name")
		o := ReadOffset(fmt.Sprintf("%d %s %s of %s, above the track", km, unit, wind, name))
		if len(o.Legs) != 1 || o.Legs[0].Heading.Name != wind || o.From != name {
			t.Fatalf("%+v", o)
		}
		again := ReadOffset(o.words() + " " + o.From)
		if said(again) != said(o) || again.Legs[0].Distance.Error != o.Legs[0].Distance.Error {
			t.Fatalf("%s, again %s", said(o), said(again))
		}
	})
}

func FuzzReadOffset(f *testing.F) {
	for _, s := range []string{"10 km NE of Voss church", "2.8 mi S and 1.2 mi E junction", "5 km N Voss", "10 km by road N of X", "between A and B", "near X", "10 km NO de X",
		"a 10 km al norte de X", "½ mi. N by E of X", "3 km (bearing 45°) from X", "10 km nordnordøst for X", "Voss, 8 km E, 6 km N"} {
		f.Add(s)
	}
	g := valley()
	f.Fuzz(func(t *testing.T, text string) {
		o := ReadOffset(text)
		if o.Relation == Away && len(o.Legs) == 0 || o.Relation != NoRelation && o.From == "" && o.Before == "" {
			t.Errorf("%q: %+v", text, o)
		}
		for _, locality := range []string{text, text + " of Voss church", "10 km " + text + " Voss church"} {
			e := g.Reckon(locality, Within{})
			if e.Known == (e.Why != "") || e.Known && (math.IsNaN(e.Lat+e.Lon+e.Metres) || !(e.Metres > 0)) {
				t.Errorf("%q: %+v", locality, e)
			}
		}
	})
}

func BenchmarkReadOffset(b *testing.B) {
	texts := []string{"10 km NE of Voss church", "Vossevangen, 900 m NNE of Voss church, along the stream", "2.8 mi S and 1.2 mi E of the junction", "Stalheim, below the hotel"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		ReadOffset(texts[i%len(texts)])
	}
}

func BenchmarkReckon(b *testing.B) {
	g := valley()
	b.ReportAllocs()
	for b.Loop() {
		g.Reckon("Vossevangen, 900 m NNE of Voss church, along the stream", Within{District: "Voss"})
	}
}
