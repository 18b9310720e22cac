package main

import (
	"context"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/rogpeppe/go-internal/txtar"
)

// paperRow is one paper as it is printed in the tests that look at papers from
// outside.
type paperRow struct {
	Name  string // of the file
	Typed string // behind "blotter print"
	Flows bool   // its HTML flows over pages of its own; else it has the pages of the PDF
}

// paperRows are papers of every kind that print makes, from the ledger of
// testdata/papers. TestEveryKindIsProved misses those that have no row.
var paperRows = []paperRow{
	{"labels", "labels 52,482,483 --trial", false},
	{"copies", "labels 482,483 --copies 2 --start 3 --skip 5 --trial", false},
	{"draft", "labels 482 --draft --paper Letter", false},
	{"slips", "slips 482,483 --trial", false},
	{"types", "types 51 --trial", false},
	{"exsiccata", "exsiccata 51 --copies 9 --trial", false},
	{"covers", "covers 52,482,483", false},
	{"packets", "packets 482,483 --trial", false},
	{"folded", "packets 482,483 --fold --trial", false},
	{"strips", "strips 51,52,482 --trial", false},
	{"strips-qr", "strips 51,52,482 --trial --barcode qr", false},
	{"strips-code128", "strips 51,52,482 --trial --barcode code128", false},
	{"numbers", "numbers 600..605 --trial", false},
	{"numbers-qr", "numbers 600..605 --barcode qr --trial", false},
	{"numbers-code128", "numbers 600..605 --barcode code128 --paper A5 --trial", false},
	{"numbers-list", "numbers 600..645 --list", true},
	{"renamings", "renamings 52", false},
	{"tags", "tags 20 --for 'Signe Rask'", false},
	{"field", "field 4 --for 'Signe Rask'", false},
	{"field-letter", "field --paper Letter", false},
	{"mount", "mount 482,483 --plant '200 x 300 mm'", false},
	{"mount-blank", "mount --blank --paper A3", false},
	{"packing", "packing loan-2026-001", true},
	{"receipt", "receipt loan-2026-001", true},
	{"reminder", "reminder", true},
	{"notices", "notices --since 2026-01-01", true},
	{"partners", "partners", true},
	{"permits", "permits", true},
	{"kit", "kit 40 --for 'Signe Rask'", true},
	{"stack", "stack press-2026-001", true},
	{"moves", "moves --since 2026-01-01", true},
	{"cabinets", "cabinets", true},
	{"salvage", "salvage", true},
	{"inventory", "inventory inventory-2026-001", true},
	{"register", "register 2026", true},
	{"form-packing", "forms packing", true},
	{"form-receipt", "forms receipt loan-2026-001", true},
	{"form-parcel", "forms parcel loan-2026-001", true},
	{"form-freezer", "forms freezer --paper Letter", true},
	{"form-press", "forms press press-2026-001", true},
	{"form-mounting", "forms mounting", true},
	{"form-condition", "forms condition 482,483", true},
	{"form-traps", "forms traps", true},
	{"form-register", "forms register", true},
}

// TestEveryKindIsProved: no kind of print, and no form, is without a row.
func TestEveryKindIsProved(t *testing.T) {
	has := func(words string) bool {
		return slices.ContainsFunc(paperRows, func(r paperRow) bool { return r.Typed == words || strings.HasPrefix(r.Typed, words+" ") })
	}
	for _, k := range printKinds() {
		if !has(k.Name) {
			t.Errorf("paperRows has nothing of %s", k.Name)
		}
	}
	for _, f := range paperForms() {
		if !has("forms " + f.Name) {
			t.Errorf("paperRows has no form %s", f.Name)
		}
	}
}

// outside is the path of a program that looks at papers. Without it the test
// is skipped, on CI it is broken.
func outside(t *testing.T, name string) string {
	t.Helper()
	p, err := exec.LookPath(name)
	switch {
	case err == nil:
	case os.Getenv("CI") == "true":
		t.Fatalf("%s is not here", name)
	default:
		t.Skipf("%s is not here", name)
	}
	return p
}

func outsideSays(t *testing.T, name string, args ...string) string {
	t.Helper()
	out, err := exec.Command(outside(t, name), args...).Output()
	if err != nil {
		t.Fatalf("%s %v: %v", name, args, err)
	}
	return string(out)
}

// paperDesk is a ledger with somebody who prints, in a place of this world.
type paperDesk struct {
	dir     string
	now     time.Time
	environ []string
}

// env is all that the program is given there.
func (p *paperDesk) env(said *strings.Builder) *env {
	date := p.now.Format(time.RFC3339)
	return &env{In: strings.NewReader(""), Out: said, Err: said, Dir: p.dir, Width: 100, Now: func() time.Time { return p.now },
		Environ: append([]string{"PATH=" + os.Getenv("PATH"), "HOME=" + filepath.Dir(p.dir), "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull,
			"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_AUTHOR_DATE=" + date,
			"GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_DATE=" + date}, p.environ...)}
}

// types runs a command line and gives what it said.
func (p *paperDesk) types(t *testing.T, line string) string {
	t.Helper()
	words, err := splitWords(strings.ReplaceAll("blotter "+line, "'", `"`))
	if err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	e := p.env(&said)
	if code := run(context.Background(), words, e); code != exitFine {
		t.Fatalf("blotter %s: exit %d\n%s", line, code, said.String())
	}
	return said.String()
}

// newPaperDesk makes the ledger of testdata/papers.
func newPaperDesk(t *testing.T) *paperDesk {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: a ledger lives in its repository")
	}
	ar, err := txtar.ParseFile(filepath.Join("..", "..", "testdata", "papers", "ledger.txtar"))
	if err != nil {
		t.Fatal(err)
	}
	home := t.TempDir()
	p := &paperDesk{dir: home, now: time.Date(2025, 12, 1, 10, 0, 0, 0, time.UTC)}
	p.types(t, "init ledger --code LK7 --name 'Lauvkroken Museum' --timezone Europe/Oslo --no-hooks --yes")
	p.dir = filepath.Join(home, "ledger")
	var commands string
	for _, f := range ar.Files {
		name := filepath.Join(p.dir, filepath.FromSlash(f.Name))
		switch f.Name {
		case "commands":
			commands = string(f.Data)
			continue
		case "settings":
			name = filepath.Join(p.dir, "blotter.yaml")
			f.Data = append(readAll(t, name), f.Data...)
		}
		if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, f.Data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	p.types(t, "enter")
	for line := range strings.Lines(commands) {
		line = strings.TrimSpace(line)
		if at, ok := strings.CutPrefix(line, "at "); ok {
			if p.now, err = time.Parse(time.RFC3339, at); err != nil {
				t.Fatal(err)
			}
			continue
		}
		p.types(t, line)
	}
	return p
}

func readAll(t *testing.T, name string) []byte {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// print prints a row into a folder and gives the file.
func (p *paperDesk) print(t *testing.T, r paperRow, dir, ending string) string {
	t.Helper()
	file := filepath.Join(dir, r.Name+ending)
	p.types(t, "print "+r.Typed+" --to '"+file+"'")
	return file
}
