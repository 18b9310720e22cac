package exchange

import (
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// oracle reads a file of the data that no one here wrote.
func oracle(t *testing.T, name string) []byte {
	t.Helper()
	root := os.Getenv("BLOTTER_ORACLES")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	b, err := os.ReadFile(filepath.Join(root, name))
	if err != nil {
		t.Skipf("the data to test against is not here: %v", err)
	}
	return b
}

func options() Options { return Options{By: "Tiril Aune", Today: dates.DayOf(2026, 11, 25)} }

// held is a table in memory as one to import.
type held struct{ t *Table }

func (h held) Name() string    { return h.t.Name }
func (h held) SHA256() string  { return h.t.SHA256 }
func (h held) Heads() []string { return h.t.Heads }

func (h held) Rows() iter.Seq2[Row, error] {
	return func(yield func(Row, error) bool) {
		for _, r := range h.t.Rows {
			if !yield(r, nil) {
				return
			}
		}
	}
}

// proposed is the mapping that a table itself suggests.
func proposed(t *testing.T, table *Table) *ledger.Mapping {
	t.Helper()
	p, err := NewProfile(held{table})
	if err != nil {
		t.Fatal(err)
	}
	return Propose(table.Name, p, "LK7-").Mapping
}

// result is what an import of a table makes.
type result struct {
	Plan    *Plan
	Made    []Made
	Refused []Refused
}

// rows makes the records of all rows, numbered as a ledger would.
func rows(t *Table, m *ledger.Mapping, o Options) (res result, err error) {
	p, err := NewPlan(t.Heads, m, o)
	if err != nil {
		return res, err
	}
	res.Plan = p
	for m, err := range p.Make(held{t}) {
		if err != nil {
			return res, err
		}
		if m.Record == nil {
			res.Refused = append(res.Refused, Refused{m.Line, m.Why})
			continue
		}
		if !m.Record.Specimen.Set() {
			m.Record.Specimen = leaf(fmt.Sprintf("LK7-%07d", len(res.Made)+1))
		}
		m.Record.Path = ledger.Number(m.Record.Specimen.Text).Path()
		m.Stamp()
		res.Made = append(res.Made, m)
	}
	return res, nil
}

// Each made record must decode again to the same words: nothing that a table
// holds may be bent by the file's own rules.
func survives(t *testing.T, res result) {
	t.Helper()
	for _, m := range res.Made {
		text := ledger.Encode(m.Record)
		back, fs := ledger.Decode(m.Record.Path, text)
		for _, f := range fs {
			if f.Severity == ledger.Error {
				t.Errorf("line %d: %v\n%s", m.Line, f, text)
			}
		}
		if got, want := ledger.Flatten(back), ledger.Flatten(m.Record); fmt.Sprint(got) != fmt.Sprint(want) {
			t.Errorf("line %d: words changed on the way\n got %v\nwant %v", m.Line, got, want)
		}
	}
}

// J. Ratcliff's working spreadsheet (thesis data, Univ. Northern Iowa 2021,
// CC BY 4.0): 878 rows, earlier names in order in one cell.
func TestPhysariaSpreadsheet(t *testing.T) {
	content := oracle(t, "specimens/physaria-spreadsheet.csv")
	mapping, err := os.ReadFile("../../testdata/import/physaria-map.yaml")
	if err != nil {
		t.Fatal(err)
	}
	m, fs := ledger.DecodeMapping("physaria-map.yaml", mapping)
	if len(fs) > 0 {
		t.Fatal(fs)
	}
	table, err := ReadTable("physaria-spreadsheet.csv", content)
	if err != nil {
		t.Fatal(err)
	}
	res, err := rows(table, m, options())
	if err != nil {
		t.Fatal(err)
	}
	if len(res.Made) != 878 || len(res.Refused) != 0 {
		t.Fatalf("made %d, refused %v", len(res.Made), res.Refused)
	}
	survives(t, res)
	names := 0
	for i, row := range table.Rows {
		want := 0
		for part := range strings.SplitSeq(row.Cells[slices.Index(table.Heads, "Taxon")], ",") {
			if s := strings.TrimSpace(part); s != "" && s != "NA" {
				want++
			}
		}
		if s := row.Cells[slices.Index(table.Heads, "Taxon_a_posteriori")]; s != "" && s != "NA" {
			want++
		}
		if got := len(res.Made[i].Record.Determinations); got != want {
			t.Errorf("line %d: %d determinations from %q, want %d", row.Line, got, row.Cells[slices.Index(table.Heads, "Taxon")], want)
		}
		names += len(res.Made[i].Record.Determinations)
	}
	if names < 2*878 {
		t.Errorf("only %d determinations in all", names)
	}
	noCellLost(t, table, res, "sheet", "row", "Taxon", "Association")
}

// noCellLost finds every cell of the table again in its record, in a field,
// in a determination or under import; parted are columns whose cells are split
// or left out.
func noCellLost(t *testing.T, table *Table, res result, parted ...string) {
	t.Helper()
	for i, row := range table.Rows {
		var all strings.Builder
		for _, kv := range ledger.Flatten(res.Made[i].Record) {
			all.WriteString(kv.Value + "\n")
		}
		for c, cell := range row.Cells {
			head := table.Heads[c]
			if slices.Contains(parted, head) || res.Plan.Blank[cell] > 0 { // Blank is counted in the rehearsal
				continue
			}
			for _, part := range peopleIn(head, cell) {
				if !strings.Contains(all.String(), part) {
					t.Errorf("line %d: %s %q is nowhere in its record", row.Line, head, part)
				}
			}
		}
	}
}

// peopleIn parts the people of a cell of collectors: the first is the
// collector, the others were there. Any other cell is one piece.
func peopleIn(head, cell string) []string {
	if head != "recordedBy" {
		return []string{cell}
	}
	parts := strings.Split(cell, ";")
	for i := range parts {
		parts[i] = strings.TrimSpace(parts[i])
	}
	return parts
}

// 978 open preserved specimens as simple Darwin Core (CC0 and CC BY 4.0),
// tab separated, with quote marks inside fields; the mapping is the proposed one.
func TestPectocaryaByProposedMapping(t *testing.T) {
	content := oracle(t, "specimens/pectocarya-simple.tsv")
	table, err := ReadTable("pectocarya-simple.tsv", content)
	if err != nil {
		t.Fatal(err)
	}
	res, err := rows(table, proposed(t, table), options())
	if err != nil {
		t.Fatal(err)
	}
	if len(res.Made) != 978 || len(res.Refused) != 0 {
		t.Fatalf("made %d, refused %v", len(res.Made), res.Refused)
	}
	survives(t, res)
	noCellLost(t, table, res)
	first := res.Made[0].Record
	for what, got := range map[string][2]string{
		"collector": {first.Collector.Text, "Duane N Atwood"},
		"with":      {first.With[1].Text, "Larry C Higgins"},
		"position":  {first.Place.Position.Text, "36.288695, -113.996139"},
		"date":      {first.Date.Text, "2001-03-24"},
		"name":      {first.Determinations[0].Name.Text, "Pectocarya recurvata"},
		"by":        {first.Determinations[0].By.Text, "Duane N Atwood"},
	} {
		if got[0] != got[1] {
			t.Errorf("%s: %q, want %q", what, got[0], got[1])
		}
	}
}
