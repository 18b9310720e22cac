package main

import (
	"bytes"
	"context"
	"strings"

	"blotter/ledger"
)

func tidyCommand() *command {
	return &command{
		Name: "tidy", Family: famEnter, Synopsis: "SHEETS",
		Says: "Mends the form of files and leaves their words: quotes, line ends, the first line, the folder.",
		Examples: []example{
			{"blotter tidy 482", "one sheet"},
			{"blotter tidy all", "every file, the schema too; shown, then asked"},
			{"blotter tidy all --dry-run", "only shown"},
		},
		Args:  []argument{{"SHEETS", "482, 480..489, 482,485, all or -"}},
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
	ns, picked, err := d.sheets(ctx, c.args)
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
	r, err := d.enter(ctx, entry{changes: changes, subject: "Form of " + count(len(changes), "file") + " mended"})
	if err != nil {
		return err
	}
	d.report(r, "")
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
	for _, path := range d.museumPaths() {
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
	src, err := d.read(ledger.SchemaFile)
	if err != nil {
		return nil, err
	}
	if out := ledger.Schema(); !bytes.Equal(out, src) {
		changes = append(changes, fileChange{ledger.SchemaFile, src, out})
	}
	return changes, nil
}

func howTidied(c fileChange) string {
	what := sheetOrPath(c.path)
	switch {
	case c.new == nil:
		return what + ": moved from " + c.path
	case c.old == nil && c.path == ledger.SchemaFile:
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
