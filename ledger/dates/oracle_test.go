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
func openShared(t testing.TB, path string) *os.File {
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

// Strings of EDTF levels 0 and 1 with their earliest and latest day, and
// strings that are none (Library of Congress 2019 by the tests of python-edtf,
// commit 077eac5).
func TestEDTFOfOthers(t *testing.T) {
	for _, row := range table(t, "standards/edtf/edtf-level0-1.csv", ',') {
		r := Read(row[0], Ask)
		first, last := r.First.String(), r.Last.String()
		if r.OpenStart {
			first = row[2] // unknown or open
		}
		if r.OpenEnd {
			last = row[3]
		}
		season := row[2] == "season" && r.Precision == ToSeason
		if !r.Known() || !season && (first != row[2] || last != row[3]) {
			t.Errorf("%s: %s to %s, want %s to %s", row[0], first, last, row[2], row[3])
		}
	}
	for _, row := range table(t, "standards/edtf/edtf-invalid.csv", ',') {
		if r := Read(row[0], Ask); r.Known() {
			t.Errorf("%s (%s): read as %s", row[0], row[1], r.EDTF())
		}
	}
}

// The collections' own readings, with real faults: ours must hold theirs, and
// be the same unless figures leave the order (30 rows) or the century (22
// rows) open, where theirs knows from elsewhere, or theirs has only the first
// day of a span or list (3 rows).
func TestDatesOfSpecimens(t *testing.T) {
	agree, all := 0, 0
	wider := map[string]int{}
	for _, row := range table(t, "oracles/dates/specimen-pairs.tsv", '\t') {
		all++
		got, want := Read(row[1], Ask), Read(row[2], Ask)
		if got.Known() != want.Known() || got.First > want.First || got.Last < want.Last {
			t.Logf("%q: %s, theirs %s", row[1], got.EDTF(), row[2])
			continue
		}
		agree++
		if got.First != want.First || got.Last != want.Last {
			why := "a span"
			if len(got.Warnings) > 0 {
				why = got.Warnings[0].Code
			}
			wider[why]++
		}
	}
	t.Logf("ours holds theirs in %d of %d rows; wider: %v", agree, all, wider)
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

// BenchmarkCorpus reads the whole corpus, which has every habit in it; the
// figure asked for is 100,000 dates a second a core.
func BenchmarkCorpus(b *testing.B) {
	var texts []string
	lines := bufio.NewScanner(openShared(b, "oracles/dates/verbatim-corpus.txt"))
	for lines.Scan() {
		texts = append(texts, lines.Text())
	}
	b.ReportAllocs()
	for b.Loop() {
		for _, s := range texts {
			Read(s, Ask)
		}
	}
	b.ReportMetric(float64(b.N*len(texts))/b.Elapsed().Seconds(), "dates/s")
}
