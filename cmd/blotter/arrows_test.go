package main

import (
	"os/exec"
	"slices"
	"strings"
	"testing"
)

// arrows says which of our packages each may import: the map of DEVELOPERS.md.
// cmd/blotter may import all and is not listed.
var arrows = map[string][]string{
	"ledger":              {},
	"ledger/dates":        {},
	"ledger/geodesy":      {},
	"ledger/distribution": {},
	"ledger/drying":       {"ledger/dates", "ledger/distribution"},
	"ledger/treatment":    {},
	"ledger/survey":       {"ledger/distribution"},
	"ledger/places":       {"ledger/geodesy"},
	"ledger/georeference": {"ledger/places", "ledger/geodesy"},
	"ledger/names":        {},
	"ledger/people":       {},
	"ledger/land":         {"ledger/geodesy"},
	"ledger/disk":         {"ledger/internal/fault"},
	"ledger/ledgertest":   {"ledger"},
	"ledger/opinion":      {"ledger", "ledger/dates", "ledger/names"},
	"ledger/reading":      {"ledger", "ledger/dates", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/opinion"},
	"ledger/book":         {"ledger", "ledger/dates", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/opinion", "ledger/reading", "ledger/disk"},
	"ledger/history":      {"ledger", "ledger/dates", "ledger/opinion", "ledger/reading"},
	"ledger/work/due":     {"ledger", "ledger/book", "ledger/dates", "ledger/drying", "ledger/treatment", "ledger/work"},
	"ledger/work/printed": {"ledger", "ledger/book", "ledger/dates", "ledger/work"},
	"ledger/shelf":        {"ledger", "ledger/book", "ledger/dates", "ledger/land", "ledger/names", "ledger/work"},
	"ledger/annual":       {"ledger", "ledger/dates", "ledger/names", "ledger/opinion", "ledger/reading", "ledger/book", "ledger/mids", "ledger/work"},
	"ledger/merge":        {"ledger", "ledger/dates", "ledger/history"},
	"ledger/renumber":     {"ledger", "ledger/history"},
	"ledger/clash":        {"ledger", "ledger/merge", "ledger/work", "ledger/work/printed"},
	"ledger/check":        {"ledger", "ledger/dates", "ledger/geodesy", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/opinion", "ledger/reading", "ledger/book", "ledger/land", "ledger/work"},
	"ledger/find":         {"ledger/mids", "ledger", "ledger/work", "ledger/dates", "ledger/names", "ledger/people", "ledger/places", "ledger/book", "ledger/reading"},
	"ledger/public":       {"ledger", "ledger/dates", "ledger/geodesy", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/reading", "ledger/opinion", "ledger/book", "ledger/history", "ledger/pictures", "ledger/disk"},
	"ledger/waypoints":    {"ledger/geodesy"},
	"ledger/pictures":     {},
	"ledger/archive":      {},
	"ledger/mids":         {"ledger", "ledger/reading", "ledger/book"},
	"ledger/workbook":     {},
	"ledger/darwincore":   {"ledger", "ledger/dates", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/land", "ledger/opinion", "ledger/reading", "ledger/book", "ledger/public", "ledger/archive", "ledger/exchange"},
	"ledger/quality":      {"ledger/dates", "ledger/places", "ledger/names", "ledger/land", "ledger/geodesy"},
	"ledger/exchange":     {"ledger", "ledger/dates", "ledger/places", "ledger/georeference", "ledger/names", "ledger/people", "ledger/book", "ledger/history", "ledger/public", "ledger/workbook"},
	"ledger/gitrepo":      {"ledger", "ledger/history", "ledger/disk", "ledger/internal/fault"},
	"render/document":     {"render/page", "render/markdown", "render/paper"},
	"render/paper":        {},
	"render/label":        {"ledger", "ledger/dates", "ledger/names", "ledger/people", "ledger/reading", "ledger/opinion", "render/paper"},
	"render/mount":        {"render/paper", "render/label"},
	"render/field":        {"ledger", "render/paper"},
	"ledger/mirror":       {"ledger", "ledger/book", "ledger/history", "ledger/public", "ledger/gitrepo"},
}

// sole lists the libraries that one package alone imports.
var sole = map[string][]string{
	"gopkg.in/yaml.v3":                      {"ledger", "cmd/bench"},
	"github.com/go-git/go-git/v5":           {"ledger/gitrepo"},
	"github.com/urfave/cli/v2":              {"cmd/blotter"},
	"github.com/yuin/goldmark":              {"render"},
	"go.etcd.io/bbolt":                      {"ledger/disk"},
	"github.com/gofrs/flock":                {"ledger/disk"},
	"github.com/agnivade/levenshtein":       {"ledger", "cmd/blotter"},
	"github.com/fsnotify/fsnotify":          {"cmd/blotter"},
	"github.com/schollz/progressbar/v3":     {"cmd/blotter"},
	"github.com/makiuchi-d/gozxing":         {"ledger/pictures/barcode"},
	"github.com/bep/imagemeta":              {},
	"github.com/boombuler/barcode":          {"render/paper"},
	"codeberg.org/go-pdf/fpdf":              {"render/paper", "cmd/bench"},
	"golang.org/x/image/font/sfnt":          {"render/paper"},
	"github.com/go-text/typesetting":        {"render/paper"},
	"golang.org/x/term":                     {"cmd/blotter"},
	"golang.org/x/sys/unix":                 {"ledger/gitrepo"},
	"golang.org/x/text/language/display":    {"ledger/quality/pack"},
	"github.com/rogpeppe/go-internal":       {},
	"github.com/xuri/excelize/v2":           {},
	"pgregory.net/rapid":                    {"ledger/ledgertest/seed"},
	"github.com/google/go-cmp":              {"ledger/ledgertest"},
	"github.com/santhosh-tekuri/jsonschema": {},
}

// listImports returns, for each of our packages, what it imports outside tests.
func listImports(t *testing.T) map[string][]string {
	t.Helper()
	out, err := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \" \"}}", "blotter/...").Output()
	if err != nil {
		t.Fatalf("go list: %v", err)
	}
	all := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		f := strings.Fields(line)
		all[strings.TrimPrefix(f[0], "blotter/")] = f[1:]
	}
	return all
}

func TestArrowsBetweenPackages(t *testing.T) {
	for pkg, imports := range listImports(t) {
		allowed, listed := arrows[pkg]
		for _, imp := range imports {
			ours, ok := strings.CutPrefix(imp, "blotter/")
			if ok && listed && !slices.Contains(allowed, ours) {
				t.Errorf("%s imports %s: not an arrow of DEVELOPERS.md", pkg, ours)
			}
			if ours == "ledger/ledgertest" {
				t.Errorf("%s imports ledger/ledgertest outside tests", pkg)
			}
		}
	}
}

func TestOneImporterOfEachLibrary(t *testing.T) {
	for pkg, imports := range listImports(t) {
		for _, imp := range imports {
			for lib, owners := range sole {
				if (imp == lib || strings.HasPrefix(imp, lib+"/")) && !slices.Contains(owners, pkg) {
					t.Errorf("%s imports %s: only %v may", pkg, imp, owners)
				}
			}
		}
	}
}
