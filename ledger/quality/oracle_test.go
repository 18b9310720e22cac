package quality_test

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"blotter/ledger/dates"
	"blotter/ledger/quality"
)

// oracle is a file of TDWG's test data beside the module, or where
// BLOTTER_ORACLES says.
func oracle(t testing.TB, name string) [][]string {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(dir, "quality", name))
	if err != nil {
		t.Skipf("no TDWG test data: %v", err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return rows
}

// published is one row of the published validation data.
type published struct {
	id, label, status, result string
	cells, heads              []string
}

func publishedRows(t testing.TB) []published {
	t.Helper()
	rows := oracle(t, "validation-data.csv")
	heads := rows[0]
	at := map[string]int{}
	for i, h := range heads {
		at[strings.TrimPrefix(h, "\ufeff")] = i
	}
	var out []published
	for _, r := range rows[1:] {
		cell := func(name string) string { return strings.Trim(r[at[name]], " \u00a0\n") }
		out = append(out, published{cell("dataID"), cell("Label"), cell("Response.status"), cell("Response.result"), r, heads})
	}
	return out
}

// today is a day on which the published rows were valid.
var today = dates.DayOf(2026, 11, 25)

// sameResult compares results; proposals as objects, whatever their order.
func sameResult(got, want string) bool {
	if got == want {
		return true
	}
	var a, b map[string]string
	return json.Unmarshal([]byte(got), &a) == nil && json.Unmarshal([]byte(want), &b) == nil && reflect.DeepEqual(a, b)
}

// differs lists the rows on which we answer otherwise on purpose, with the
// reason. README.md has the same list.
var differs = map[string]string{
	"1287": "the centre of Australia there comes from a list of centroids that is not embedded; ours are worked out from the boundaries, the nearest is 184 km away",
}

// floor is the number of applicable published rows that come out as published.
const floor = 614

func TestPublishedValidationData(t *testing.T) {
	right, applicable, needService := 0, 0, 0
	rows := publishedRows(t)
	columns := quality.ColumnsOf(rows[0].heads)
	var row quality.Row
	for _, p := range rows {
		test, ok := quality.TestOf(p.label)
		if !ok {
			t.Errorf("row %s: no test %q", p.id, p.label)
			continue
		}
		columns.Fill(&row, p.cells)
		got := quality.Run(test, &row, today)
		same := string(got.Status) == p.status && sameResult(got.Result, p.result)
		switch {
		case same:
			applicable++
			right++
			if differs[p.id] != "" {
				t.Errorf("row %s comes out as published: take it out of the list of differences", p.id)
			}
		case test.Service(): // the published answer is the service's
			needService++
			if got.Status != quality.External {
				t.Errorf("row %s %s: %s, want %s or %s", p.id, p.label, got.Status, p.status, quality.External)
			}
		default:
			applicable++
			if differs[p.id] == "" {
				t.Errorf("row %s %s: %s %s (%s), published %s %s", p.id, p.label, got.Status, got.Result, got.Comment, p.status, p.result)
			}
		}
	}
	t.Logf("%d of %d applicable rows as published; the published answer of %d more is a taxonomic service's", right, applicable, needService)
	if right < floor {
		t.Errorf("%d rows as published, want %d", right, floor)
	}
	readme, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	done := 0
	for _, test := range quality.Tests() {
		if !test.Service() {
			done++
		}
	}
	for _, said := range []string{fmt.Sprintf("%d of the %d rows", right, applicable), fmt.Sprintf("answer of %d more", needService), fmt.Sprintf("%d of the %d tests are done", done, len(quality.Tests()))} {
		if !strings.Contains(strings.Join(strings.Fields(string(readme)), " "), said) {
			t.Errorf("README.md does not say %q", said)
		}
	}
	for id := range differs {
		if !strings.Contains(string(readme), "row "+id) {
			t.Errorf("README.md does not list row %s", id)
		}
	}
}

func TestLabelsAreTheStandards(t *testing.T) {
	rows := oracle(t, "tests.csv")
	if len(rows)-1 != len(quality.Tests()) {
		t.Fatalf("%d tests, the standard has %d", len(quality.Tests()), len(rows)-1)
	}
	for i, want := range rows[1:] {
		got := quality.Tests()[i]
		if got.Label != want[0] || string(got.Type) != want[1] {
			t.Errorf("test %d is %s %s, the standard has %s %s", i+1, got.Label, got.Type, want[0], want[1])
		}
		if acted := join(got.ActedUpon); acted != want[2] {
			t.Errorf("%s acts upon %s, the standard has %s", got.Label, acted, want[2])
		}
	}
}

func join(terms []quality.Term) string {
	var s []string
	for _, t := range terms {
		s = append(s, t.String())
	}
	return strings.Join(s, ",")
}
