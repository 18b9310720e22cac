package exchange

import (
	"strings"
	"testing"

	"blotter/ledger"
)

func TestReadTable(t *testing.T) {
	cases := []struct{ name, reason, file, content, heads, rows, fault string }{
		{"plain csv", "the usual case", "a.csv", "a,b\n1,2\n", "a|b", "2:1|2", ""},
		{"quoted line end", "a cell may hold line ends", "a.csv", "a,b\n\"x\ny\",2\n3,4\n", "a|b", "2:x\ny|2 4:3|4", ""},
		{"semicolons", "spreadsheets of half of Europe", "a.csv", "a;b\n\"1,5\";2\n", "a|b", "2:1,5|2", ""},
		{"tabs and stray quotes", "unquoted files hold quote marks", "a.tsv", "a\tb\n\"x\t2\n", "a|b", "2:\"x|2", ""},
		{"byte order mark", "some editors write one", "a.csv", "\ufeffa,b\n1,2\n", "a|b", "2:1|2", ""},
		{"windows-1252", "old files", "a.csv", "a,b\nM\xe6l,2\n", "a|b", "2:Mæl|2", ""},
		{"short and empty rows", "rows end early", "a.csv", "a,b\n1\n,\n", "a|b", "2:1|", ""},
		{"cells beyond the headings", "nothing is dropped", "a.csv", "a\n1,2\n", "a", "2:1+2", ""},
		{"same heading twice", "would lose one column", "a.csv", "a,a\n1,2\n", "", "", `columns 1 and 2 have the heading "a"`},
		{"empty", "nothing to read", "a.csv", "", "", "", "no headings"},
		{"binary", "a spreadsheet not saved as text", "a.csv", "PK\x00\x01", "", "", "zero byte"},
		{"open quote", "says what to write", "a.csv", "a,b\nx\"y,2\n", "", "", `quotes: "no"`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := ReadTable(c.file, []byte(c.content))
			if c.fault != "" {
				if err == nil || !strings.Contains(err.Error(), c.fault) {
					t.Fatalf("error %v, want %q (%s)", err, c.fault, c.reason)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			var rows []string
			for _, r := range got.Rows {
				row := string(rune('0'+r.Line)) + ":" + strings.Join(r.Cells, "|")
				if len(r.Extra) > 0 {
					row += "+" + strings.Join(r.Extra, "|")
				}
				rows = append(rows, row)
			}
			if h, r := strings.Join(got.Heads, "|"), strings.Join(rows, " "); h != c.heads || r != c.rows {
				t.Errorf("heads %q rows %q, want %q %q (%s)", h, r, c.heads, c.rows, c.reason)
			}
		})
	}
}

func TestRowsThatCannotBeTaken(t *testing.T) {
	content := []byte("no,Collector\nLK7-1,Rask\nlk7-1,Rask\na/b,Rask\n,Aune\n")
	table, err := ReadTable("a.csv", content)
	if err != nil {
		t.Fatal(err)
	}
	m, _ := ledger.DecodeMapping("", []byte("number: no\ncolumns:\n  - column: Collector\n    field: collector\n"))
	res, err := rows(table, m, options())
	if err != nil {
		t.Fatal(err)
	}
	if len(res.Made) != 4 || len(res.Refused) != 0 {
		t.Errorf("made %d, refused %+v", len(res.Made), res.Refused)
	}
	m, _ = ledger.DecodeMapping("", []byte("columns:\n  - column: Sammler\n    field: collector\n"))
	if _, err := rows(table, m, options()); err == nil || !strings.Contains(err.Error(), `no column "Sammler"`) {
		t.Errorf("unknown heading: %v", err)
	}
}

func FuzzReadTable(f *testing.F) {
	f.Add([]byte("a,b\n\"x\ny\",2\n"))
	f.Add([]byte("a\tb\n1\t2\n"))
	f.Fuzz(func(t *testing.T, content []byte) {
		table, err := ReadTable("a.csv", content)
		if err != nil {
			return
		}
		for _, r := range table.Rows {
			if len(r.Cells) != len(table.Heads) {
				t.Fatalf("line %d: %d cells under %d headings", r.Line, len(r.Cells), len(table.Heads))
			}
		}
	})
}
