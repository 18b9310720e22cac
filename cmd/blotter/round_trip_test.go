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

// TestRoundTrip exports whole ledgers as archives for a partner, everything in
// them, and imports them into an empty ledger: the records are the same, but
// for the fields that no archive carries. Comments and the order of keys are
// not compared: no archive carries them.
func TestRoundTrip(t *testing.T) {
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing")
		}
		t.Skip("git is missing: a ledger lives in its repository")
	}
	oracles := os.Getenv("BLOTTER_ORACLES")
	if oracles == "" {
		oracles = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	oracles, err := filepath.Abs(oracles)
	if err != nil {
		t.Fatal(err)
	}
	table := func(file string, args ...string) func(*testing.T) string {
		return func(t *testing.T) string {
			if _, err := os.Stat(filepath.Join(oracles, file)); err != nil {
				t.Skipf("the data to test against is not here: %v", err)
			}
			dir := newLedger(t)
			inLedger(t, dir, append([]string{"import", filepath.Join(oracles, file), "--yes"}, args...)...)
			return dir
		}
	}
	mapping, err := filepath.Abs("../../testdata/import/physaria-map.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name    string
		ledger  func(*testing.T) string
		records int
	}{
		{"the demonstration", func(t *testing.T) string {
			dir := filepath.Join(t.TempDir(), "demo")
			inLedger(t, filepath.Dir(dir), "demo", "--no-serve", dir)
			return dir
		}, 141},
		{"a botanist's spreadsheet", table("specimens/physaria-spreadsheet.csv", "--map", mapping), 878},
		{"simple Darwin Core", table("specimens/pectocarya-simple.tsv"), 978},
		{"an archive", table("archive"), 327},
	} {
		t.Run(c.name, func(t *testing.T) {
			from, to := c.ledger(t), newLedger(t)
			zip := filepath.Join(t.TempDir(), "out.zip")
			inLedger(t, from, "export", "dwca", "--to", zip, "--for", "Fjellheim Museum")
			inLedger(t, to, "import", zip, "--yes")
			want, got := recordsOf(t, from), recordsOf(t, to)
			if len(want) != c.records || len(got) != len(want) {
				t.Fatalf("%d records went out, %d came back, want %d", len(want), len(got), c.records)
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
