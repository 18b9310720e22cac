package main

import (
	"context"
	"path/filepath"
	"runtime/debug"
	"slices"
	"strings"
)

// exportKind is one form that export writes.
type exportKind struct {
	Name   string // as typed
	Ending string // of a file that means this form, with its dot
	Says   string // for the help
	Flags  []*flag
	// Write writes the chosen sheets to x.Out, which is looked through before
	// anybody sees it.
	Write func(ctx context.Context, x *exporting) error
}

// exportKinds are all forms, the first of an ending being the one it means.
func exportKinds() []exportKind {
	return []exportKind{
		{Name: "dwca", Ending: ".zip", Says: "a Darwin Core archive: a zip file for aggregators and researchers", Write: exportArchive},
		{Name: "csv", Ending: ".csv", Says: "a table, cells parted by commas (RFC 4180): every field, for spreadsheets and back again", Flags: []*flag{flagTerms, flagMark}, Write: exportCSV},
		{Name: "tsv", Ending: ".tsv", Says: "the same, cells parted by tabs", Flags: []*flag{flagTerms, flagMark}, Write: exportTSV},
		{Name: "xlsx", Ending: ".xlsx", Says: "the same as a workbook, every cell as text", Flags: []*flag{flagTerms}, Write: exportWorkbook},
		{Name: "json", Ending: ".json", Says: "every field, one object a line", Write: exportJSON},
		{Name: "geojson", Ending: ".geojson", Says: "places for maps (RFC 7946): points, and squares where the exact place is withheld", Write: exportGeoJSON},
		{Name: "gpx", Ending: ".gpx", Says: "places as waypoints for a GPS receiver (GPX 1.1)", Write: exportGPX},
	}
}

func exportCommand() *command {
	kinds := exportKinds()
	c := &command{
		Name: "export", Family: famMake, Synopsis: "KIND [SHEETS] --to FILE",
		Says: "Writes sheets, as last entered, into a file for others to use.",
		Notes: []string{
			"Without SHEETS or --where all full records go out. What may not be public is left out or made coarser, and every file is looked through for it before it is put in place. --for PARTNER writes everything, drafts too, for somebody whom you trust with it; each sensitive sheet then bears the line \"exact place not to be published\".",
			"A number that was a mistake, or goes on under another, is left out; withdrawn sheets go out and say what became of them. The same revision gives the same bytes. A file that Blotter did not write is not replaced, unless --yes is given.",
		},
		Examples: []example{
			{"blotter export dwca --to ../herbarium.zip", "everything that may be public, as a Darwin Core archive"},
			{"blotter export dwca --where family:Orchidaceae --at 2026-01-01 --to orchids.zip", "one family, as the ledger stood then"},
			{`blotter export dwca 480..489 --for "Fjellheim Museum" --to loan.zip`, "exact places too, for a partner by name"},
		},
		Args:  []argument{{"KIND", "the form of the file"}, {"SHEETS", "482, 480..489, 482,485, all or -"}},
		Flags: joinFlags([]*flag{flagTo, flagAt, flagFor, flagDryRun, flagYes, flagNoCache}, sheetFlags),
		Exits: []int{exitFindings},
		Kin:   []string{"publish", "import", "quality"},
		Run:   runExport,
	}
	for _, k := range kinds {
		c.Kinds = append(c.Kinds, k.Name)
		c.Notes = append(c.Notes, "  "+pad(k.Name, 9)+k.Says)
		c.takes(k.Flags)
	}
	return c
}

func runExport(ctx context.Context, c *call) error {
	kind, words, err := c.exportKind()
	if err != nil {
		return err
	}
	if err := kind.fits(c); err != nil {
		return err
	}
	if c.opts.text("to") == "" {
		return misuse("where to?").try("blotter export " + kind.Name + " --to FILE" + kind.Ending)
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	x, err := d.exporting(ctx, words)
	if err != nil {
		return err
	}
	debug.SetGCPercent(exportPercent)
	return x.run(ctx, kind)
}

// exportPercent keeps garbage at half of what an export holds throughout: the
// ledger's entries, as they are and as the public sees them (some 1.7 KB a
// record together), and git's readers, up to 48 MB of objects each. Sheets go
// through one after another, so the runtime's own pace would double all that
// for nothing.
const exportPercent = 50

// fits refuses flags of other forms, and a list of terms that is not known.
func (k exportKind) fits(c *call) error {
	for _, other := range exportKinds() {
		for _, f := range other.Flags {
			if c.opts.given(f.Name) && !slices.Contains(k.Flags, f) {
				return misuse("--%s is not for %s", f.Name, k.Name)
			}
		}
	}
	if terms := c.opts.text("terms"); terms != "" && terms != darwinCoreTerms {
		return misuse("--terms %s is not known; it takes %s", terms, darwinCoreTerms)
	}
	return nil
}

// darwinCoreTerms is what --terms takes.
const darwinCoreTerms = "darwin-core"

// exportKind is the form that is typed first or that the ending of --to
// means, and the words after it.
func (c *call) exportKind() (exportKind, []string, error) {
	kinds := exportKinds()
	var names []string
	for _, k := range kinds {
		names = append(names, k.Name)
		if len(c.args) > 0 && c.args[0] == k.Name {
			return k, c.args[1:], nil
		}
	}
	ending := strings.ToLower(filepath.Ext(c.opts.text("to")))
	for _, k := range kinds {
		if ending != "" && k.Ending == ending {
			if len(c.args) > 0 && !strings.ContainsAny(c.args[0], "0123456789-") && c.args[0] != "all" {
				break // a form mistyped rather than a sheet
			}
			return k, c.args, nil
		}
	}
	if len(c.args) == 0 {
		return exportKind{}, nil, misuse("in which form? One of %s", strings.Join(names, ", ")).try("blotter export dwca --to FILE.zip")
	}
	f := misuse("%q is no form of export; it is one of %s", c.args[0], strings.Join(names, ", "))
	if near := nearest(c.args[0], names); near != "" {
		f = misuse("%q is no form of export; did you mean %s?", c.args[0], near)
	}
	return exportKind{}, nil, f
}
