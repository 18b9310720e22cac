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
// The three that differ are positions they turn round; we never swap.
func TestPositionsOfOthers(t *testing.T) {
	column, rows := table(t, "oracles/coordinates/parser-tests.tsv", '\t')
	agree := 0
	for _, row := range rows {
		if agrees(func(name string) string { return column(row, name) }) {
			agree++
		} else if column(row, "issues") != "PRESUMED_SWAPPED_COORDINATE" {
			t.Errorf("%q", row)
		}
	}
	if agree < 81 {
		t.Errorf("only %d of %d agree; 81 did", agree, len(rows))
	}
}

func agrees(column func(string) string) bool {
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
	}
	if column("outcome") == "reject" {
		return !p.Known()
	}
	return p.Known() && near(column("decimal_lat"), p.Lat, 1e-6) && near(column("decimal_lon"), p.Lon, 1e-6)
}

// Written positions beside the collections' own reading, of open specimen
// rows. Classes that differ: 99 stands for minutes or seconds not known (18),
// no side is written and the collection knows its country (18), grid and
// township references, which are not solved here (22), and their own slips.
func TestPositionsOfSpecimens(t *testing.T) {
	column, rows := table(t, "oracles/coordinates/verbatim-to-decimal.tsv", '\t')
	agree := 0
	for _, row := range rows {
		p := ReadPosition(column(row, "verbatimCoordinates"))
		if column(row, "verbatimLatitude") != "" {
			p = ReadPair(column(row, "verbatimLatitude"), column(row, "verbatimLongitude"))
		}
		theirs := column(row, "decimalLatitude")
		if !p.Known() && theirs == "" || p.Known() && near(theirs, p.Lat, 1e-4) && near(column(row, "decimalLongitude"), p.Lon, 1e-4) {
			agree++
		}
	}
	t.Logf("%d of %d agree", agree, len(rows))
	if agree < 108 {
		t.Errorf("only %d of %d agree; 108 did", agree, len(rows))
	}
}
