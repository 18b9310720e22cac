package dates

import (
	"bufio"
	"encoding/csv"
	"os"
	"path/filepath"
	"testing"
)

// open opens a file of ../shared/oracles (or ../shared/standards) beside the
// module, or skips.
func openShared(t *testing.T, path string) *os.File {
	t.Helper()
	dir := os.Getenv("BLOTTER_ORACLES")
	if dir == "" {
		dir = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	f, err := os.Open(filepath.Join(filepath.Dir(dir), filepath.FromSlash(path)))
	if err != nil {
		t.Skip("no oracles here: ", err)
	}
	t.Cleanup(func() { f.Close() })
	return f
}

func table(t *testing.T, path string, comma rune) [][]string {
	t.Helper()
	r := csv.NewReader(openShared(t, path))
	r.Comma, r.LazyQuotes, r.FieldsPerRecord = comma, true, -1
	all, err := r.ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	return all[1:]
}

// theirs are the rows of dates/verbatim-to-iso.tsv (expectations of the
// event_date_qc library, commit f8d37e5, Apache-2.0) where we knowingly
// differ.
var theirs = map[string]string{
	"Sept. 5 101": "a year of three figures on a label is a slip: not read",
	"Sept. 5 41":  "41 is not the year 41: 1841, 1941 or 2041",
	"11 5 1901":   "day and month can be changed about; their reading rests on an option",
}

func TestDatesOfOthers(t *testing.T) {
	agree, all := 0, 0
	for _, row := range table(t, "oracles/dates/verbatim-to-iso.tsv", '\t') {
		all++
		got, want := Read(row[0], Ask), Reading{}
		if row[2] != "" {
			want, _ = readISO(row[2])
		}
		if got.Known() == want.Known() && got.First == want.First && got.Last == want.Last {
			agree++
		} else if theirs[row[0]] == "" {
			t.Errorf("%q: %s, theirs %s", row[0], got.EDTF(), row[2])
		}
	}
	t.Logf("%d of %d agree", agree, all)
	if agree < 147 {
		t.Errorf("only %d of %d agree; 147 did", agree, all)
	}
}

// The collections' own readings, with real faults: ours must hold theirs.
func TestDatesOfSpecimens(t *testing.T) {
	agree, all := 0, 0
	for _, row := range table(t, "oracles/dates/specimen-pairs.tsv", '\t') {
		all++
		got, want := Read(row[1], Ask), Read(row[2], Ask)
		if got.Known() == want.Known() && got.First <= want.First && got.Last >= want.Last {
			agree++
		} else {
			t.Logf("%q: %s, theirs %s", row[1], got.EDTF(), row[2])
		}
	}
	if agree < 303 {
		t.Errorf("only %d of %d agree; 303 did", agree, all)
	}
}

// 37,637 written dates without expectation: none may panic, each is read or
// says why not, and a reading written out is read again.
func TestCorpus(t *testing.T) {
	read, all := 0, 0
	lines := bufio.NewScanner(openShared(t, "oracles/dates/verbatim-corpus.txt"))
	for lines.Scan() {
		all++
		r := Read(lines.Text(), Ask)
		lawful(t, lines.Text())
		if r.Known() || r.None != Stated {
			read++
		}
	}
	t.Logf("%d of %d read", read, all)
	if read < 36080 {
		t.Errorf("only %d of %d read; 36,080 were", read, all)
	}
}
