package exchange

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
)

// Whatever stands in a table, and whatever its columns are called: each cell is
// in its record, or counted as meaning nothing; and the record reads the same
// once it was written.
func TestNoCellIsLost(t *testing.T) {
	heads := rapid.OneOf(rapid.SampledFrom([]string{"Collector", "Date", "Locality", "Latitude", "Longitude", "Elev. (ft)", "Species", "Genus", "Autor", "Det by", "Earlier names",
		"file", "line", "sha256", "key", "determinations.1.name", "import.x", "with.2", "kept_as", "origin", "Associates", "eventDate", "countryCode", "Höhe", "Tag", "Monat", "Jahr", "phenology", "Barcode", "Id"}),
		rapid.StringMatching(`[A-Za-z#:"'\.\- &*!|>%@]{1,12}`))
	cells := rapid.OneOf(rapid.Just(""), rapid.SampledFrom([]string{"NA", "-", "s.d.", "99", "0", "3/4/1931", "14.6.1931", "Ranunculus acris, Poa annua", "!", "wild", "Wild", "340", "340 m", "A; B", "LK7-0000001", "'=1", "# x", "- y", "a: b", "null", "yes"}),
		rapid.StringMatching(`[a-zæøå0-9 :#"'\-\[\]{}|>&*!%@,;]{0,20}`))
	rapid.Check(t, func(t *rapid.T) {
		columns := rapid.SliceOfNDistinct(heads, 1, 8, func(s string) string { return strings.TrimSpace(s) }).Draw(t, "headings")
		table := &Table{Name: "a.csv", SHA256: strings.Repeat("0", 64)}
		for i, h := range columns {
			if h = strings.TrimSpace(h); h == "" {
				h = fmt.Sprintf("column %d", i+1)
			}
			table.Heads = append(table.Heads, h)
		}
		for i := range rapid.IntRange(1, 6).Draw(t, "rows") {
			row := Row{Line: i + 2}
			for range table.Heads {
				row.Cells = append(row.Cells, strings.TrimSpace(cells.Draw(t, "cell")))
			}
			table.Rows = append(table.Rows, row)
		}
		profile, err := NewProfile(held{table})
		if err != nil {
			t.Fatal(err)
		}
		proposal := Propose("a.csv", profile, "LK7-")
		m, fs := ledger.DecodeMapping("map.yaml", proposal.Text())
		if len(fs) > 0 {
			t.Fatalf("%v\n%s", fs, proposal.Text())
		}
		res, err := rows(table, m, options())
		if err != nil {
			t.Fatalf("%v\n%s", err, proposal.Text())
		}
		if len(res.Refused) > 0 {
			t.Fatalf("%+v\n%s", res.Refused, proposal.Text())
		}
		for i, made := range res.Made {
			text := ledger.Encode(made.Record)
			back, found := ledger.Decode(made.Record.Path, text)
			if got, want := fmt.Sprint(ledger.Flatten(back)), fmt.Sprint(ledger.Flatten(made.Record)); got != want {
				t.Fatalf("words changed on the way\n got %s\nwant %s\n%s%v", got, want, text, found)
			}
			var all []string
			for _, kv := range ledger.Flatten(made.Record) {
				all = append(all, strings.ToLower(kv.Value))
			}
			for c, words := range table.Rows[i].Cells {
				if words == "" || res.Plan.Blank[words] > 0 || within(all, words) {
					continue
				}
				t.Fatalf("%s: %q is nowhere in\n%s\nby\n%s", table.Heads[c], words, text, proposal.Text())
			}
		}
	})
}

// within looks for the words, whole or in their parts, case aside.
func within(all []string, words string) bool {
	for _, part := range strings.FieldsFunc(words, func(r rune) bool { return strings.ContainsRune(",;|/", r) }) {
		part = strings.ToLower(strings.TrimSpace(part))
		if part == "!" && slices.Contains(all, "conf") {
			continue
		}
		if part != "" && !slices.ContainsFunc(all, func(s string) bool { return strings.Contains(s, part) }) {
			return false
		}
	}
	return true
}
