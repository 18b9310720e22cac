package main

import (
	"context"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"blotter/ledger"
)

// TestReadWorkNumber: zeros may be left out, nothing else; what comes near is
// answered with the number it may be meant for.
func TestReadWorkNumber(t *testing.T) {
	have := []ledger.WorkNumber{"loan-2025-004", "loan-2026-001", "loan-2026-004", "press-2026-012"}
	cases := []struct {
		typed, n, near, reason string
	}{
		{"loan-2026-004", "loan-2026-004", "", "as it is written"},
		{"loan-2026-4", "loan-2026-004", "", "zeros may be left out, as in a sheet's number"},
		{"LOAN-2026-4", "loan-2026-004", "", "letters in any case"},
		{"work/loan/loan-2026-004.yaml", "loan-2026-004", "", "the path of its file, as completion gives it"},
		{"loan-2026-1004", "loan-2026-1004", "", "more than three figures"},
		{"loan-26-4", "", "loan-2026-004", "a year of two figures is asked back"},
		{"loan-4", "", "loan-2026-004", "no year: the latest of that number"},
		{"lon-2026-4", "", "loan-2026-004", "a letter struck wrongly"},
		{"lona-2026-9", "", "", "a kind struck wrongly, and no such number"},
		{"LK7-0000482", "", "", "a sheet"},
		{"482", "", "", "a sheet"},
		{"loan", "", "", "a kind"},
	}
	for _, c := range cases {
		n, near := readWorkNumber(c.typed, have)
		if string(n) != c.n || string(near) != c.near {
			t.Errorf("%s (%s): got %q, near %q; want %q, near %q", c.typed, c.reason, n, near, c.n, c.near)
		}
	}
	all := []ledger.WorkNumber{"loan-2026-1000", "loan-2026-999", "climate-2026-001", "loan-2025-001"}
	slices.SortFunc(all, compareWorkNumbers)
	if want := []ledger.WorkNumber{"climate-2026-001", "loan-2025-001", "loan-2026-999", "loan-2026-1000"}; !slices.Equal(all, want) {
		t.Errorf("order %v, want %v", all, want)
	}
}

// TestPlaceOfLine: a line stands behind those that are not later.
func TestPlaceOfLine(t *testing.T) {
	w, _ := ledger.DecodeWork("", []byte("lines:\n  - {date: 2026-11-03 09:40}\n  - {date: 2026-11-06 10:15}\n  - {date: 2026-12}\n"))
	for _, c := range []struct {
		date   string
		want   int
		reason string
	}{
		{"2026-11-03 09:40", 2, "behind its equal"},
		{"2026-11-03 08:00", 1, "the same day, earlier"},
		{"2026-11-03", 2, "no time of day: behind that day"},
		{"2026-11-06 10:16", 3, "the same day, later"},
		{"2026-12-31", 0, "a month counts from its last day"},
		{"s.d.", 0, "no date: at the end"},
	} {
		if got := placeOfLine(w, []ledger.KV{{Key: "date", Value: c.date}}); got != c.want {
			t.Errorf("%s (%s): %d, want %d", c.date, c.reason, got, c.want)
		}
	}
}

// TestAppendLine: in a ledger without git the works are read, found by their
// short numbers, and a line is added to a file whose form stays.
func TestAppendLine(t *testing.T) {
	dir := t.TempDir()
	for path, text := range map[string]string{
		"blotter.yaml": "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering:\n  prefix: LK7-\n  digits: \"7\"\n",
		"work/freezer/freezer-2026-003.yaml": "work: freezer-2026-003\r\nlines: # oldest first\r\n" +
			"  - {date: 2026-11-03 09:40, event: in, sheets: [LK7-0001180..LK7-0001201], by: Tiril Aune}\r\n",
	} {
		file := filepath.Join(dir, filepath.FromSlash(path))
		if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	e, _, _ := testEnv("")
	e.Dir = dir
	d, err := (&call{env: e, cmd: showCommand()}).desk()
	if err != nil {
		t.Fatal(err)
	}
	w, err := d.worksAt(context.Background(), "")
	if err != nil || len(w.Findings) > 0 {
		t.Fatal(err, w.Findings)
	}
	n, err := d.workArgument("freezer-2026-3")
	if err != nil || !d.isWork("freezer-26-3") || d.isWork("LK7-0001180") {
		t.Fatalf("%s, %v", n, err)
	}
	c, err := d.appendLine(w.Find(n), append(entryWords("sheets", "LK7-0001180", "LK7-0001182"),
		ledger.KV{Key: "event", Value: "out"}, ledger.KV{Key: "date", Value: "2026-11-06 10:15"}, ledger.KV{Key: "note"})...)
	if err != nil {
		t.Fatal(err)
	}
	want := string(c.old) + "  - date: 2026-11-06 10:15\r\n    event: out\r\n    sheets:\r\n      - LK7-0001180\r\n      - LK7-0001182\r\n"
	if string(c.new) != want {
		t.Errorf("got\n%q, want\n%q", c.new, want)
	}
	if day, err := d.onDay(); err != nil || day.String() != "2026-11-03" {
		t.Errorf("today is %v, %v", day, err)
	}
}
