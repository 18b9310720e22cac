package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/darwincore"
	"blotter/ledger/exchange"
)

// inLedger runs a command as typed in a folder and gives what it said.
func inLedger(t *testing.T, dir string, args ...string) string {
	t.Helper()
	var said bytes.Buffer
	e := &env{In: strings.NewReader(""), Out: &said, Err: &said, Dir: dir, Width: 100,
		Now: func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) },
		Environ: []string{"PATH=" + os.Getenv("PATH"), "HOME=" + t.TempDir(), "GIT_CONFIG_NOSYSTEM=1",
			"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=aune@example.org", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=aune@example.org"}}
	if code := run(context.Background(), append([]string{"blotter"}, args...), e); code != 0 {
		t.Fatalf("blotter %s: exit %d\n%s", strings.Join(args, " "), code, said.String())
	}
	return said.String()
}

// newLedger is an empty ledger of the invented museum.
func newLedger(t *testing.T) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "ledger")
	inLedger(t, filepath.Dir(dir), "init", dir, "--code", "LK7", "--name", "Lauvkroken Museum", "--timezone", "Europe/Oslo", "--no-hooks", "--yes")
	return dir
}

// recordsOf are the records of a ledger that go out, by number.
func recordsOf(t *testing.T, dir string) map[string]*ledger.Record {
	t.Helper()
	out := map[string]*ledger.Record{}
	err := filepath.WalkDir(filepath.Join(dir, "specimens"), func(p string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		src, err := os.ReadFile(p)
		r, _ := ledger.Decode("", src)
		if n := len(r.Fate); n > 0 && (r.Fate[n-1].Is.Text == "mistake" || r.Fate[n-1].Is.Text == "same-as") {
			return err // goes out nowhere
		}
		out[r.Specimen.Text] = r
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// wordsOf are the fields that an archive carries. Where a record comes from is
// new in one that did not say so before.
func wordsOf(r *ledger.Record, stamped bool) []string {
	var out []string
	for _, kv := range ledger.Flatten(r) {
		name, isImport := strings.CutPrefix(kv.Key, "import.")
		if isImport && !stamped && exchange.Provenance(name) {
			continue
		}
		if darwincore.Carried(kv.Key) {
			out = append(out, fmt.Sprintf("%s: %q", kv.Key, kv.Value))
		}
	}
	return out
}

// TestRoundTrip exports ledgers as archives for a partner, everything in them,
// and imports them into an empty ledger: the records are the same, but for the
// fields that no archive carries. Comments and the order of keys are not
// compared: no archive carries them.
//
// With CI=true or BLOTTER_WHOLE=1 the ledgers are the whole demonstration and
// the whole sets that no one here wrote; else four sheets and samples of them,
// so that the whole suite stays quick.
func TestRoundTrip(t *testing.T) {
	t.Parallel()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing")
		}
		t.Skip("git is missing: a ledger lives in its repository")
	}
	whole := os.Getenv("CI") == "true" || os.Getenv("BLOTTER_WHOLE") != ""
	mapping, err := filepath.Abs("../../testdata/import/physaria-map.yaml")
	if err != nil {
		t.Fatal(err)
	}
	imported := func(set, sample string, args ...string) func(*testing.T) string {
		return func(t *testing.T) string {
			from := oracle(t, set)
			if !whole {
				from = sampleOf(t, from, sample)
			}
			dir := newLedger(t)
			inLedger(t, dir, append([]string{"import", from, "--yes"}, args...)...)
			return dir
		}
	}
	for _, c := range []struct {
		name           string
		ledger         func(*testing.T) string
		whole, sampled int // records
	}{
		{"the demonstration, or four sheets", func(t *testing.T) string {
			if !whole {
				return fourSheets(t)
			}
			dir := filepath.Join(t.TempDir(), "demo")
			inLedger(t, filepath.Dir(dir), "demo", "--no-serve", dir)
			return dir
		}, 141, 4},
		{"a botanist's spreadsheet", imported("specimens/physaria-spreadsheet.csv", ",", "--map", mapping), 878, 44},
		{"simple Darwin Core", imported("specimens/pectocarya-simple.tsv", "\t"), 978, 49},
		{"an archive", imported("archive", ","), 327, 17},
	} {
		records := c.sampled
		if whole {
			records = c.whole
		}
		t.Run(c.name, func(t *testing.T) {
			from, to := c.ledger(t), newLedger(t)
			zip := filepath.Join(t.TempDir(), "out.zip")
			inLedger(t, from, "export", "dwca", "--to", zip, "--for", "Fjellheim Museum")
			inLedger(t, to, "import", zip, "--yes")
			want, got := recordsOf(t, from), recordsOf(t, to)
			if len(want) != records || len(got) != len(want) {
				t.Fatalf("%d records went out, %d came back, want %d", len(want), len(got), records)
			}
			for number, r := range want {
				if got[number] == nil {
					t.Errorf("%s did not come back", number)
					continue
				}
				stamped := slices.ContainsFunc(r.Import, func(p ledger.Pair) bool { return p.Key == exchange.ImportSHA256 })
				if a, b := wordsOf(r, stamped), wordsOf(got[number], stamped); !slices.Equal(a, b) {
					t.Errorf("%s\nwent out %q\ncame back %q", number, a, b)
				}
			}
		})
	}
}
