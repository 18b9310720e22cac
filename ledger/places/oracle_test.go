package places

import (
	"encoding/csv"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"testing"
)

// table reads a table of ../shared/oracles or ../shared/standards beside the
// module, or skips.
func table(t *testing.T, path string, comma rune) (column func(row []string, name string) string, rows [][]string) {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(filepath.Dir(dir), filepath.FromSlash(path)))
	if err != nil {
		t.Skip("no oracles here: ", err)
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.Comma = comma
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	head := map[string]int{}
	for i, h := range all[0] {
		head[h] = i
	}
	return func(row []string, name string) string { return row[head[name]] }, all[1:]
}

func near(s string, v, eps float64) bool {
	w, err := strconv.ParseFloat(s, 64)
	return err == nil && math.Abs(w-v) <= eps
}

// parser-tests.tsv: expectations of gbif/parsers, commit 5aa9edb, Apache-2.0.
// Three differ: values that are turned round there (latitude 100, longitude
// 20); we never swap, and say so. Values written apart are tried as such and
// joined in the ways that files join them.
func TestPositionsOfOthers(t *testing.T) {
	column, rows := table(t, "oracles/coordinates/parser-tests.tsv", '\t')
	for _, join := range []string{"", " ", ", ", "; ", "\t", " / "} {
		agree := 0
		for _, row := range rows {
			if agrees(func(name string) string { return column(row, name) }, join) {
				agree++
			} else if column(row, "issues") != "PRESUMED_SWAPPED_COORDINATE" {
				t.Errorf("%q %q", join, row)
			}
		}
		t.Logf("joined by %q: %d of %d agree", join, agree, len(rows))
		if agree < len(rows)-3 {
			t.Errorf("only %d of %d agree", agree, len(rows))
		}
	}
}

func agrees(column func(string) string, join string) bool {
	lat, lon := column("verbatim_lat"), column("verbatim_lon")
	switch column("form") {
	case "dms": // each value by itself; some latitudes there are beyond 90
		a, okA := ReadAngle(lat)
		b, okB := ReadAngle(lon)
		return okA && okB && near(column("decimal_lat"), a, 1e-6) && near(column("decimal_lon"), b, 1e-6)
	case "reject-one":
		_, okA := ReadAngle(lat)
		_, okB := ReadAngle(lon)
		return (!okA || lat == "") && (!okB || lon == "")
	}
	p := ReadPair(lat, lon)
	if both := column("verbatim_both"); both != "" {
		p = ReadPosition(both)
	} else if join != "" {
		p = ReadPosition(lat + join + lon)
	}
	if column("outcome") == "reject" {
		return !p.Known()
	}
	return p.Known() && near(column("decimal_lat"), p.Lat, 1e-6) && near(column("decimal_lon"), p.Lon, 1e-6)
}

// Written positions beside the collections' own reading, of open specimen
// rows. What differs, each row in its class:
//   - no letter or sign says which side of the world, and the collection knows
//     its country: refused in degrees with minutes, read as north and east in
//     decimals, both with a warning (20);
//   - township and range (5), UTM without its zone or half (4): recognised, not
//     solved;
//   - theirs: georeferenced by hand from the locality where the words are all
//     nines (4), minutes 99 as 0 (1), other or more figures than the words: 34°
//     50.74' as 34.744, 30° 26' as 30.4528, 32.66 as 32.6641 (6).
func TestPositionsOfSpecimens(t *testing.T) {
	column, rows := table(t, "oracles/coordinates/verbatim-to-decimal.tsv", '\t')
	agree, class := 0, map[string]int{}
	for _, row := range rows {
		p := ReadPosition(column(row, "verbatimCoordinates"))
		if column(row, "verbatimLatitude") != "" {
			p = ReadPair(column(row, "verbatimLatitude"), column(row, "verbatimLongitude"))
		}
		theirs := column(row, "decimalLatitude")
		if !p.Known() && theirs == "" || p.Known() && near(theirs, p.Lat, 1e-4) && near(column(row, "decimalLongitude"), p.Lon, 1e-4) {
			agree++
			continue
		}
		code := "theirs"
		if len(p.Warnings) > 0 {
			code = p.Warnings[0].Code
		}
		class[code]++
	}
	t.Logf("%d of %d agree; the others by our warning: %v", agree, len(rows), class)
	if agree < 133 || class["theirs"] > 6 {
		t.Errorf("only %d of %d agree; 133 did; %v", agree, len(rows), class)
	}
}
