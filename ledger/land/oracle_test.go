package land_test

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"blotter/ledger/land"
)

// oracle reads a table of the oracles; it skips the test when they are absent.
func oracle(t *testing.T, name string, comma rune) []map[string]string {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(dir, name))
	if err != nil {
		t.Skip("the oracles are not here: ", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = comma, true, -1
	rows, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var out []map[string]string
	for _, row := range rows[1:] {
		m := map[string]string{}
		for i, h := range rows[0] {
			if i < len(row) {
				m[h] = row[i]
			}
		}
		out = append(out, m)
	}
	return out
}

// tally is what came out for the points of a table.
type tally struct{ points, country, states, known, inside int }

func consistent(t *testing.T, rows []map[string]string) tally {
	const buffer = 3000 // metres, as the TDWG data quality tests have it
	var n tally
	for _, r := range rows {
		lat, err1 := strconv.ParseFloat(r["decimalLatitude"], 64)
		lon, err2 := strconv.ParseFloat(r["decimalLongitude"], 64)
		code := r["countryCode"]
		if code == "" {
			code, _ = land.CodeOf(r["country"])
		}
		if err1 != nil || err2 != nil || code == "" {
			continue
		}
		n.points++
		d, _ := land.Outside(lat, lon, code)
		if d <= buffer {
			n.country++
		} else {
			w, _ := land.At(lat, lon)
			t.Logf("%g, %g: %.0f m outside %s, in %s %s", lat, lon, d, code, w.Country, w.Region)
		}
		if r["stateProvince"] == "" {
			continue
		}
		n.states++
		d, known := land.OutsideRegion(lat, lon, code, r["stateProvince"])
		switch {
		case !known:
			t.Logf("%s has no region %q here", code, r["stateProvince"])
		case d > buffer:
			w, _ := land.At(lat, lon)
			t.Logf("%g, %g: %.0f m outside %s, in %s", lat, lon, d, r["stateProvince"], w.Region)
			n.known++
		default:
			n.known++
			n.inside++
		}
	}
	return n
}

// TestOpenSpecimens: 978 open specimens of one genus. All rows outside their
// country or region have the point 0, 0.
func TestOpenSpecimens(t *testing.T) {
	got := consistent(t, oracle(t, "specimens/pectocarya-simple.tsv", '\t'))
	if want := (tally{points: 681, country: 670, states: 663, known: 663, inside: 654}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// TestSpreadsheet: one botanist's spreadsheet of the western United States. The four
// points outside are in Canada and say so in the column of the states; two
// rows have "s.n." there. Every state named and known holds its point.
func TestSpreadsheet(t *testing.T) {
	rows := oracle(t, "specimens/physaria-spreadsheet.csv", ',')
	for _, r := range rows {
		r["decimalLatitude"], r["decimalLongitude"] = r["Latitude"], r["Longitude"]
		r["stateProvince"], r["country"] = r["State"], "USA"
	}
	got := consistent(t, rows)
	if want := (tally{points: 759, country: 755, states: 759, known: 753, inside: 753}); got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
}
