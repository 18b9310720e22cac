package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/exchange"
	"blotter/ledger/names"
)

// listColumns are the headings that a list of opinions may have.
var listColumns = []string{"number", "cover", "name", "kind", "by", "date", "why", "part", "seen", "from", "source", "at", "what"}

// notTaken is the column that a list of rows not taken ends in; it is passed
// over when the list, mended, is read in again.
const notTaken = "not taken because"

// listKinds are what a row of the list may be.
var listKinds = []string{"det", "conf", "not", "seen", "note"}

// listRow is one row of a specialist's list.
type listRow struct {
	line   int
	cells  map[string]string
	raw    []string
	change fileChange
	words  string // what is shown of it
	why    string // it was not taken; "" when it was
}

// runDetermineList enters a specialist's day: the good rows in one entry, the
// rest written to a file with the reasons.
func runDetermineList(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("the sheets stand in the list; %q is too much", c.args[0])
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	table, rows, err := d.readOpinionList(c.opts.text("from"))
	if err != nil {
		return err
	}
	good := d.judgeRows(rows)
	for _, r := range rows {
		if r.why == "" {
			c.say("line %-4d %s", r.line, r.words)
		}
	}
	bad := len(rows) - len(good)
	for _, r := range rows {
		if r.why != "" {
			c.say("line %-4d not taken: %s", r.line, r.why)
		}
	}
	if bad > 0 && c.opts.on("strict") {
		c.say("%s not taken, and --strict: nothing was entered.", count(bad, "row"))
		return errFindings
	}
	if len(good) == 0 {
		c.say("No row could be taken; nothing was entered.")
		return errFindings
	}
	ok, err := d.consent(ctx, fmt.Sprintf("Enter %d of %s?", len(good), count(len(rows), "row")))
	if !ok {
		return err
	}
	r, err := d.enter(ctx, entry{changes: mergedChanges(good)})
	if err != nil {
		return err
	}
	d.report(r, count(len(good), "row")+" of "+filepath.Base(c.opts.text("from")))
	if bad == 0 {
		return nil
	}
	if err := d.writeRest(table, rows); err != nil {
		return err
	}
	return errFindings
}

// readOpinionList reads the table and finds its columns.
func (d *desk) readOpinionList(name string) (*exchange.Table, []*listRow, error) {
	var content []byte
	var err error
	if name == "-" {
		content, err = io.ReadAll(io.LimitReader(d.In, ledger.MaxFile*16))
	} else {
		content, err = os.ReadFile(inDir(d.Dir, name))
	}
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	t, err := exchange.ReadTable(filepath.Base(name), content)
	if err != nil {
		return nil, nil, stuck("%v", err)
	}
	columns := map[int]string{}
	have := map[string]bool{}
	for i, head := range t.Heads {
		word := columnWord(head)
		if word == "" {
			return nil, nil, misuse("%s: no column is called %q; a list of opinions has %s", name, head, strings.Join(listColumns, ", "))
		}
		columns[i] = word
		have[word] = true
	}
	if !have["number"] || !have["name"] && !have["kind"] {
		return nil, nil, misuse("%s: the columns number and name are needed", name).
			try("For example: number,cover,name,kind,why", "with --by PERSON and --date DATE for all rows")
	}
	var rows []*listRow
	for _, row := range t.Rows {
		r := &listRow{line: row.Line, cells: map[string]string{}, raw: row.Cells}
		for i, cell := range row.Cells {
			r.cells[columns[i]] = strings.Join(strings.Fields(cell), " ")
		}
		rows = append(rows, r)
	}
	return t, rows, nil
}

// columnWord is the column that a heading means.
func columnWord(head string) string {
	head = strings.ToLower(strings.TrimSpace(head))
	switch head {
	case "sheet", "specimen", "catalogue number", "catalognumber":
		return "number"
	case "name on cover", "cover name", "cover_name":
		return "cover"
	case "determination", "new name":
		return "name"
	case "slip":
		return "from"
	case "note", "text":
		return "what"
	case "grounds":
		return "why"
	case notTaken:
		return notTaken
	}
	if contains(listColumns, head) {
		return head
	}
	return ""
}

// judgeRows works out each row's edit; a row that cannot be taken says why.
// A sheet may stand in several rows.
func (d *desk) judgeRows(rows []*listRow) []*listRow {
	pending := map[ledger.Number]fileChange{}
	var good []*listRow
	for _, row := range rows {
		if err := d.judgeRow(row, pending); err != nil {
			row.why = err.Error()
			continue
		}
		good = append(good, row)
	}
	return good
}

func (d *desk) judgeRow(row *listRow, pending map[ledger.Number]fileChange) error {
	n, err := d.rowNumber(row.cells["number"])
	if err != nil {
		return err
	}
	c, touched := pending[n]
	if !touched {
		path, src, _, err := d.record(n)
		if err != nil {
			return err
		}
		c = fileChange{path: path, old: src, new: src}
	}
	r := decoded(c.path, c.new)
	if err := d.sameCover(r, row.cells["cover"]); err != nil {
		return err
	}
	op, words, err := d.rowOp(r, row)
	if err != nil {
		return err
	}
	out, err := ledger.Edit(c.new, op)
	if err != nil {
		return err
	}
	c.new = out
	pending[n] = c
	row.change, row.words = c, string(n)+"  "+words
	return nil
}

// rowNumber is the one sheet that a row names.
func (d *desk) rowNumber(typed string) (ledger.Number, error) {
	if typed == "" {
		return "", misuse("it has no number")
	}
	terms, err := readSheets([]string{typed}, nil)
	if err != nil {
		return "", err
	}
	ns, err := resolveSheets(terms, d, nil)
	if err != nil {
		return "", err
	}
	if len(ns) != 1 {
		return "", misuse("%q is not one sheet", typed)
	}
	return ns[0], nil
}

// sameCover compares the name on the cover, as the specialist read it, with
// every name by which the sheet may be filed. Another name means that the
// number was misread, most likely.
func (d *desk) sameCover(r *ledger.Record, cover string) error {
	if cover == "" {
		return nil
	}
	s := d.standing(r)
	for _, filed := range []string{s.words, r.CoverName.Text, r.FiledUnder.Name.Text} {
		if filed != "" && sameName(filed, cover) {
			return nil
		}
	}
	return misuse("the cover has %s, the record %s; is the number misread?", cover, s.shown)
}

func sameName(a, b string) bool {
	if strings.EqualFold(a, b) {
		return true
	}
	x, errX := names.Read(a)
	y, errY := names.Read(capitalGenus(b))
	return errX == nil && errY == nil && names.Same(x, y)
}

// rowOp is the edit of one row, with the words that show it.
func (d *desk) rowOp(r *ledger.Record, row *listRow) (ledger.Op, string, error) {
	cell := func(key string) string { // what the flags of log say is about the line, not about opinions
		if v := row.cells[key]; v != "" || d.cmd.Name == "log" || !contains([]string{"by", "date", "why", "part", "seen", "source"}, key) {
			return v
		}
		return d.opts.text(key)
	}
	kind := strings.Trim(strings.ToLower(cell("kind")), ".")
	if kind == "" {
		kind = "det"
	}
	if !contains(listKinds, kind) {
		return ledger.Op{}, "", misuse("kind %q is not known; it is one of %s", kind, strings.Join(listKinds, ", "))
	}
	by, err := d.whoSays(cell("by"))
	if err != nil {
		return ledger.Op{}, "", err
	}
	if by == "" {
		return ledger.Op{}, "", misuse("who says so? the row has no by, and --by is missing")
	}
	date, err := d.dateArgument(cell("date"))
	if err != nil {
		return ledger.Op{}, "", err
	}
	if kind == "seen" || kind == "note" {
		what := cell("what")
		if kind == "note" && what == "" {
			return ledger.Op{}, "", misuse("a note needs words, in the column what")
		}
		from := cell("from")
		if from != "slip" && from != "label" {
			from = "" // of a note nothing else is told
		}
		return ledger.Append("annotations", ledger.KV{Key: "kind", Value: kind}, ledger.KV{Key: "what", Value: what},
			ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "from", Value: from}), strings.TrimSpace(kind + " " + what), nil
	}
	o := opinionTyped{name: cell("name"), kind: strings.TrimPrefix(kind, "det"), by: by, date: date, why: cell("why"), part: cell("part"),
		seen: cell("seen"), from: cell("from"), source: cell("source"), at: cell("at")}
	if o.from == "" {
		o.from = "list"
	}
	if o.name == "" && kind != "conf" {
		return ledger.Op{}, "", misuse("it has no name")
	}
	was := d.standing(r)
	op, err := d.opinionOp(r, o, was)
	shown := d.withAuthors(capitalGenus(o.name))
	if o.name == "" {
		shown = was.shown
	}
	return op, strings.Replace(kind+". "+shown, "not. ", "not ", 1), err
}

// mergedChanges is the last state of each file that the rows touch.
func mergedChanges(rows []*listRow) []fileChange {
	at := map[string]int{}
	var all []fileChange
	for _, r := range rows {
		if i, ok := at[r.change.path]; ok {
			all[i] = r.change
			continue
		}
		at[r.change.path] = len(all)
		all = append(all, r.change)
	}
	return all
}

// writeRest writes the rows that were not taken, with the reasons, to a table
// that can be mended and read in again.
func (d *desk) writeRest(t *exchange.Table, rows []*listRow) error {
	to := d.opts.text("to")
	if to == "" || d.cmd.Name == "log" { // whose --to is a field of the line
		from := d.opts.text("from")
		if from == "-" {
			from = "list.csv"
		}
		to = strings.TrimSuffix(from, filepath.Ext(from)) + "-rest.csv"
	}
	n, err := writeRows(inDir(d.Dir, to), restHeads(t.Heads), func(yield func([]string)) {
		for _, r := range rows {
			if r.why != "" {
				yield(append(r.raw[:len(restHeads(t.Heads))-1:len(restHeads(t.Heads))-1], r.why))
			}
		}
	})
	if err != nil {
		return err
	}
	d.say("%s with the reasons in %s.", count(n, "row"), to)
	return nil
}

// restHeads are the headings of the list, ending in the reason.
func restHeads(heads []string) []string {
	if n := len(heads); n > 0 && columnWord(heads[n-1]) == notTaken {
		return heads
	}
	return append(heads[:len(heads):len(heads)], notTaken)
}
