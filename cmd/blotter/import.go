package main

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/exchange"
)

func importCommand() *command {
	return &command{
		Name: "import", Family: famEnter, Synopsis: "FILE",
		Says: "Brings a table into the ledger, one sheet a row: shows what would be made, then asks.",
		Notes: []string{"FILE is CSV or TSV. A mapping says which column feeds which field; without one, headings that are Darwin Core terms or usual words are taken. " +
			"A cell without a field is kept to the letter under import:. Reading the same file in again makes no second copy of a row."},
		Examples: []example{
			{"blotter import old-register.csv --propose > map.yaml", "writes a first mapping to look through"},
			{"blotter import old-register.csv --map map.yaml", "shows what would be made, then asks"},
			{"blotter import occurrence.tsv --dry-run", "only shows"},
		},
		Args:  []argument{{"FILE", "the table"}},
		Flags: joinFlags([]*flag{flagMap, flagPropose, flagStrict}, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"enter", "check", "undo"}, Complete: "files",
		Run: runImport,
	}
}

// maxTable is the largest table that is read, in bytes.
const maxTable = 256 << 20

func runImport(ctx context.Context, c *call) error {
	if len(c.args) != 1 {
		return misuse("which table? One file at a time").try("blotter import old-register.csv")
	}
	file := inDir(c.Dir, c.args[0])
	if isArchive(file) {
		return c.importArchive(ctx, file)
	}
	content, err := readTableFile(file)
	if err != nil {
		return err
	}
	format := exchange.FormatOf(file, content)
	mapping, given, err := c.readMapping()
	if err != nil {
		return err
	}
	if given {
		format = mappedFormat(mapping, format)
	}
	table, err := exchange.ReadTable(filepath.Base(file), content, format)
	if err != nil {
		return stuck("%v", err)
	}
	d, noDesk := c.desk()
	if !given {
		mapping = exchange.Propose(table, format)
		if noDesk == nil {
			exchange.ProposeNumber(mapping, table, d.museum.Numbering.Prefix.Text)
		}
	}
	if c.opts.on("propose") {
		c.say("# Which column of %s feeds which field. Look through it, mend it, then:\n# blotter import %s --map THIS-FILE", table.Name, c.args[0])
		fmt.Fprintf(c.Out, "%s", ledger.EncodeMapping(mapping))
		return nil
	}
	if noDesk != nil {
		return noDesk
	}
	return d.importTable(ctx, table, mapping)
}

// readTableFile reads the bytes of a table of bounded size.
func readTableFile(file string) ([]byte, error) {
	info, err := os.Stat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, stuck("there is no file %s", file).try("A path with blanks stands in quotes: blotter import \"old register.csv\"")
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	if !info.Mode().IsRegular() {
		return nil, misuse("%s is no plain file", file)
	}
	if info.Size() > maxTable {
		return nil, stuck("%s is larger than %d MB; part it first", file, maxTable>>20)
	}
	content, err := os.ReadFile(file)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return content, nil
}

// readMapping reads the file of --map; given is false without one.
func (c *call) readMapping() (m *ledger.Mapping, given bool, err error) {
	name := c.opts.text("map")
	if name == "" {
		return nil, false, nil
	}
	text, err := os.ReadFile(inDir(c.Dir, name))
	if err != nil {
		return nil, false, stuck("%v", err)
	}
	m, fs := ledger.DecodeMapping(name, text)
	if errs, _ := countFindings(fs); errs > 0 {
		findingsView{env: c.env}.show(fs)
		return nil, false, errFindings
	}
	return m, true, nil
}

func mappedFormat(m *ledger.Mapping, f exchange.Format) exchange.Format {
	switch m.Format.Text {
	case "tsv":
		f = exchange.Format{Comma: '\t'}
	case "csv":
		if f.Comma == '\t' {
			f = exchange.Format{Comma: ',', Quoted: true}
		}
	}
	switch m.Quotes.Text {
	case "yes":
		f.Quoted = true
	case "no":
		f.Quoted = false
	}
	return f
}

// importTable fits the mapping to the table and brings it in.
func (d *desk) importTable(ctx context.Context, table *exchange.Table, mapping *ledger.Mapping) error {
	by, err := d.importer()
	if err != nil {
		return err
	}
	plan, err := exchange.NewPlan(table.Heads, mapping, exchange.Options{By: by, Today: d.todayAsDay()})
	if err != nil {
		return misuse("%v", err)
	}
	return d.bring(ctx, incoming{
		name: table.Name, noun: "row", numbered: plan.Numbered(),
		made: func(context.Context) iter.Seq2[exchange.Made, error] { return plan.Make(table.Source()) },
		said: func(rows int) {
			d.say("%s: %s, %s, %s.", table.Name, count(rows, "row"), count(len(table.Heads), "column"), table.Charset)
			d.sayColumns(plan)
		},
	})
}

// importer is who signs the readings that an import makes.
func (d *desk) importer() (string, error) {
	author, _, err := d.author()
	if err != nil {
		return "", err
	}
	return author.Name, nil
}

func (d *desk) sayColumns(p *exchange.Plan) {
	for _, part := range []struct {
		what  string
		heads []string
	}{{"Feed a field: ", p.Homed}, {"Kept to the letter under import: ", p.Kept}, {"Left out, as the mapping says: ", p.Ignored}} {
		if len(part.heads) > 0 {
			d.say("%s", hang("  "+part.what, strings.Join(part.heads, ", "), d.Width))
		}
	}
}
