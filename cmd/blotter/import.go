package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strconv"
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

// importTable rehearses, asks and enters.
func (d *desk) importTable(ctx context.Context, table *exchange.Table, mapping *ledger.Mapping) error {
	before, err := d.importedLines(table.SHA256)
	if err != nil {
		return err
	}
	kept := table.Rows[:0:0]
	for _, row := range table.Rows {
		if !before[row.Line] {
			kept = append(kept, row)
		}
	}
	known := len(table.Rows) - len(kept)
	fresh := *table
	fresh.Rows = kept
	free, err := d.freeNumbers(ctx)
	if err != nil {
		return err
	}
	by, err := d.importer()
	if err != nil {
		return err
	}
	var short error
	res, err := exchange.Rows(&fresh, mapping, exchange.Options{By: by, Today: d.todayAsDay(), Next: func() ledger.Number {
		n, err := free()
		if err != nil {
			short = err
		}
		return n
	}})
	if err != nil {
		return misuse("%v", err)
	}
	if short != nil {
		return short
	}
	d.say("%s: %s, %s, %s.", table.Name, count(len(table.Rows), "row"), count(len(table.Heads), "column"), table.Charset)
	d.sayColumns(res)
	if known > 0 {
		d.say("%s in the ledger already, from this same file.", count(known, "row"))
	}
	return d.enterRows(ctx, table.Name, res)
}

// importer is who signs the readings that an import makes.
func (d *desk) importer() (string, error) {
	author, _, err := d.author()
	if err != nil {
		return "", err
	}
	return author.Name, nil
}

func (d *desk) sayColumns(res exchange.Result) {
	for _, part := range []struct {
		what  string
		heads []string
	}{{"Feed a field: ", res.Homed}, {"Kept to the letter under import: ", res.Kept}, {"Left out, as the mapping says: ", res.Ignored}} {
		if len(part.heads) > 0 {
			d.say("%s", hang("  "+part.what, strings.Join(part.heads, ", "), d.Width))
		}
	}
}

// enterRows judges the records that rows became, shows what would be made,
// asks, and enters the sound ones as one entry.
func (d *desk) enterRows(ctx context.Context, name string, res exchange.Result) error {
	lines := map[string]int{}
	var changes []fileChange
	for _, m := range res.Made {
		n := ledger.Number(m.Record.Specimen.Text)
		if _, taken := d.find(n); taken {
			res.Refused = append(res.Refused, exchange.Refused{Line: m.Line, Why: string(n) + " is in the ledger already"})
			continue
		}
		lines[m.Record.Path] = m.Line
		changes = append(changes, fileChange{path: m.Record.Path, new: ledger.Encode(m.Record)})
	}
	sound, faulty, found, err := d.sortOut(ctx, changes)
	if err != nil {
		return err
	}
	for _, f := range faulty {
		for _, x := range found {
			if x.Path == f.path && x.Severity == ledger.Error {
				res.Refused = append(res.Refused, exchange.Refused{Line: lines[f.path], Why: x.Message})
				break
			}
		}
	}
	d.sayImport(sound, found, res)
	if len(sound) == 0 {
		d.say("Nothing to enter.")
		return refusedFault(res)
	}
	if len(res.Refused) > 0 && d.opts.on("strict") {
		d.say("Nothing was entered: --strict.")
		return errFindings
	}
	if ok, err := d.consent(ctx, "Enter "+count(len(sound), "sheet")+"?"); !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: sound, judged: true, subject: fmt.Sprintf("Import %s from %s", count(len(sound), "sheet"), name)})
	if err != nil {
		return err
	}
	d.report(r, count(len(sound), "sheet")+" from "+name)
	return refusedFault(res)
}

func refusedFault(res exchange.Result) error {
	if len(res.Refused) > 0 {
		return errFindings
	}
	return nil
}

// sayImport shows what would be made and what was found, by kind.
func (d *desk) sayImport(sound []fileChange, found []ledger.Finding, res exchange.Result) {
	opinions, drafts := 0, 0
	for _, c := range sound {
		r := decoded(c.path, c.new)
		opinions += len(r.Determinations)
		if r.Entry.Text == string(ledger.Draft) {
			drafts++
		}
	}
	if len(sound) > 0 {
		first, _ := ledger.NumberOfPath(sound[0].path)
		last, _ := ledger.NumberOfPath(sound[len(sound)-1].path)
		d.say("Would be made: %s, %s to %s, with %s on names.", count(len(sound), "sheet"), first, last, count(opinions, "opinion"))
	}
	if drafts > 0 {
		d.say("%s of them would be drafts, not published yet: collector, date or place is missing.", thousands(drafts))
	}
	counts, examples := map[string]int{}, map[string]ledger.Finding{}
	var codes []string
	for _, f := range found {
		if f.Severity == ledger.Error {
			continue // its row is listed below
		}
		if counts[f.Code] == 0 {
			codes, examples[f.Code] = append(codes, f.Code), f
		}
		counts[f.Code]++
	}
	for _, code := range codes {
		n, _ := ledger.NumberOfPath(examples[code].Path)
		d.say("%s", hang(fmt.Sprintf("  %6s  %-20s  ", thousands(counts[code]), code), string(n)+": "+examples[code].Message, d.Width))
	}
	for i, r := range res.Refused {
		if i == manyOfOneCode {
			d.say("  and %s more rows not taken", thousands(len(res.Refused)-i))
			break
		}
		d.say("%s", hang(fmt.Sprintf("  line %-5d not taken: ", r.Line), r.Why, d.Width))
	}
}

// importedLines are the lines of a table, known by its checksum, that became
// sheets already.
func (d *desk) importedLines(sha256 string) (map[int]bool, error) {
	lines := map[int]bool{}
	for _, path := range d.recordPaths() {
		src, err := d.read(path)
		if err != nil {
			return nil, err
		}
		if !bytes.Contains(src, []byte(sha256)) {
			continue
		}
		sum, line := "", 0
		for _, p := range decoded(path, src).Import {
			switch p.Key {
			case "sha256":
				sum = p.Value.Text
			case "line":
				line, _ = strconv.Atoi(p.Value.Text)
			}
		}
		if sum == sha256 {
			lines[line] = true
		}
	}
	return lines, nil
}
