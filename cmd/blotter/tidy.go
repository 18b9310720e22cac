package main

import (
	"bytes"
	"context"
	"strings"

	"blotter/ledger"
)

func tidyCommand() *command {
	return &command{
		Name: "tidy", Family: famEnter, Synopsis: "[SHEETS|WORK]",
		Says:  "Mends the form of files and leaves their words: quotes, line ends, the first line, the folder.",
		Notes: []string{"A file with edits that are not yet entered is mended where it lies and not entered; the others are entered."},
		Examples: []example{
			{"blotter tidy 482", "one sheet"},
			{"blotter tidy", "every file, the schema too; shown, then asked"},
			{"blotter tidy all --dry-run", "only shown"},
		},
		Args:  []argument{{"SHEETS|WORK", "482, 480..489, 482,485 or -; works; without any, every file"}},
		Flags: joinFlags([]*flag{flagNoCache}, sheetFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"check", "doctor", "edit"}, Complete: "sheets",
		Run: runTidy,
	}
}

func runTidy(ctx context.Context, c *call) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	words := c.args
	if len(words) == 0 && c.opts.text("where") == "" {
		words = []string{"all"}
	}
	if d.isWork(words0(words)) {
		return d.tidyWorks(ctx, words)
	}
	ns, picked, err := d.sheets(ctx, words)
	if err != nil {
		return err
	}
	var changes []fileChange
	for _, n := range ns {
		more, err := d.tidied(n)
		if err != nil {
			return err
		}
		changes = append(changes, more...)
	}
	if picked && c.opts.text("where") == "" {
		more, err := d.tidiedOthers()
		if err != nil {
			return err
		}
		changes = append(changes, more...)
	}
	if len(changes) == 0 {
		c.say("%s looked at; nothing to mend.", count(len(ns), "sheet"))
		return nil
	}
	for _, ch := range changes {
		c.say("%s", howTidied(ch))
	}
	if ok, err := d.consentIfPicked(ctx, picked, "Mend "+count(len(changes), "file")+"?"); !ok {
		return err
	}
	return d.enterTidied(ctx, changes)
}

func words0(words []string) string {
	if len(words) == 0 {
		return ""
	}
	return words[0]
}

// tidyWorks mends the files of works that were named.
func (d *desk) tidyWorks(ctx context.Context, words []string) error {
	var changes []fileChange
	for _, word := range words {
		n, err := d.workArgument(word)
		if err != nil {
			return err
		}
		src, err := d.read(n.Path())
		if err != nil {
			return err
		}
		if out, _ := ledger.Tidy(n.Path(), src); !bytes.Equal(out, src) {
			changes = append(changes, fileChange{n.Path(), src, out})
		}
	}
	if len(changes) == 0 {
		d.say("%s looked at; nothing to mend.", count(len(words), "work"))
		return nil
	}
	for _, ch := range changes {
		d.say("%s", howTidied(ch))
	}
	return d.enterTidied(ctx, changes)
}

// enterTidied enters mended files, but for those that hold edits not yet
// entered: an unmended error would keep these from ever being entered, so
// they are only written.
func (d *desk) enterTidied(ctx context.Context, changes []fileChange) error {
	var edited []string
	if d.repo != nil {
		var err error
		if edited, err = d.repo.Dirty(ctx, paths(changes)); err != nil {
			return stuck("%v", err)
		}
	}
	whose := map[string]bool{}
	for _, path := range edited {
		whose[sheetOrPath(path)] = true
	}
	var whole, open []fileChange
	for _, ch := range changes {
		if whose[sheetOrPath(ch.path)] {
			open = append(open, ch)
		} else {
			whole = append(whole, ch)
		}
	}
	if len(whole) > 0 {
		r, err := d.enter(ctx, entry{changes: whole, subject: "Form of " + count(len(whole), "file") + " mended"})
		if err != nil {
			return err
		}
		d.report(r, "")
	}
	if len(open) == 0 {
		return nil
	}
	if d.opts.on("dry-run") {
		d.report(entered{dry: true}, "")
		return nil
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := d.write(ctx, open); err != nil {
		return err
	}
	d.say("%s mended, not yet entered: other edits stand there too.", count(len(open), "file"))
	d.next("blotter enter")
	return nil
}

// tidied are the changes that bring a record into form, and into the folder
// of its number.
func (d *desk) tidied(n ledger.Number) ([]fileChange, error) {
	path := d.pathOf(n)
	src, err := d.read(path)
	if err != nil || src == nil {
		return nil, err
	}
	out, _ := ledger.Tidy(n.Path(), src)
	if path == n.Path() {
		if bytes.Equal(out, src) {
			return nil, nil
		}
		return []fileChange{{path, src, out}}, nil
	}
	return []fileChange{{path: path, old: src}, {path: n.Path(), new: out}}, nil
}

// tidiedOthers are the changes to the museum's own files and to the schema.
func (d *desk) tidiedOthers() ([]fileChange, error) {
	var changes []fileChange
	all := d.museumPaths()
	for _, n := range d.workNumbers() {
		all = append(all, n.Path())
	}
	for _, path := range all {
		src, err := d.read(path)
		if err != nil {
			return nil, err
		}
		if src == nil {
			continue
		}
		if out, _ := ledger.Tidy(path, src); !bytes.Equal(out, src) {
			changes = append(changes, fileChange{path, src, out})
		}
	}
	for _, schema := range []fileChange{{path: ledger.SchemaFile, new: ledger.Schema()}, {path: ledger.WorkSchema, new: ledger.SchemaOf(ledger.WorkFileKind)}} {
		src, err := d.read(schema.path)
		if err != nil {
			return nil, err
		}
		if !bytes.Equal(schema.new, src) {
			changes = append(changes, fileChange{schema.path, src, schema.new})
		}
	}
	return changes, nil
}

func howTidied(c fileChange) string {
	what := sheetOrPath(c.path)
	switch {
	case c.new == nil:
		return what + ": moved from " + c.path
	case c.old == nil && (c.path == ledger.SchemaFile || c.path == ledger.WorkSchema):
		return c.path + ": written"
	case c.old == nil:
		return what + ": to " + c.path
	}
	before, after := strings.Split(string(c.old), "\n"), strings.Split(string(c.new), "\n")
	if bytes.Contains(c.old, []byte("\r")) {
		return what + ": line ends"
	}
	n := len(after) - len(before)
	for i := range min(len(before), len(after)) {
		if before[i] != after[i] {
			n++
		}
	}
	return what + ": " + count(max(n, 1), "line")
}
