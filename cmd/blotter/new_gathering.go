package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"strings"

	"blotter/ledger"
	"blotter/render/field"
)

// newGathering makes the sheets of a file of gatherings: the field form as
// text, filled in, or any fields by their names. What all have in common stands
// first, then each plant after a line of hyphens.
//
//	collector: Signe Rask
//	date: 14.vii.2025
//	country: Norway
//	---
//	number: 1207
//	name: Ranunculus acris L.
//	scent: of honey
//	---
//	number: 1208
//	name: Trollius europaeus L.
//
// All are made or none.
func (d *desk) newGathering(ctx context.Context, from string, free func() (ledger.Number, error)) error {
	content, err := d.gatheringFile(from)
	if err != nil {
		return err
	}
	form, err := d.readGatherings(from, content)
	if err != nil {
		return err
	}
	if len(form.Unanswered) > 0 {
		d.tell("%s", wrap("Without an answer, left out: "+strings.Join(form.Unanswered, ", ")+".", d.Width, ""))
	}
	if len(form.Gatherings) == 0 {
		return misuse("%s has no gathering with an answer; nothing was made", from)
	}
	if err := d.mustBeNew(ctx, from, form); err != nil {
		return err
	}
	changes, err := d.gatheringChanges(ctx, from, form, free)
	if err != nil {
		return err
	}
	r, err := d.enter(ctx, entry{changes: changes})
	if err != nil {
		return err
	}
	d.reportNew(r, changes)
	return nil
}

// gatheringFile is the content of --from.
func (d *desk) gatheringFile(from string) ([]byte, error) {
	in := d.In
	if from != "-" {
		f, err := os.Open(inDir(d.Dir, from))
		if err != nil {
			return nil, stuck("%v", err)
		}
		defer f.Close()
		in = f
	}
	content, err := io.ReadAll(io.LimitReader(in, ledger.MaxFile+1))
	if err != nil {
		return nil, stuck("read %s: %v", from, err)
	}
	if len(content) > ledger.MaxFile {
		return nil, misuse("%s is larger than 1 MiB; share it out over several files", from)
	}
	return content, nil
}

// gatheringWords are names for fields in such a file beside those of
// FORMAT.md and of the form: as new asks for them.
var gatheringWords = map[string]string{
	"sheet": "specimen", "number": "coll_no", "name": field.NamePath, "det. by": newBy, "det-by": newBy, "det. date": newNamed, "det-date": newNamed, "plant": "description",
}

// readGatherings reads the file, or says all that is not understood in it.
func (d *desk) readGatherings(from string, content []byte) (field.Form, error) {
	r := field.Reader{Other: gatheringField, None: wordForNone}
	for _, l := range d.museum.PlaceLevels {
		r.Levels = append(r.Levels, l.Text)
	}
	form, faults := r.Read(content)
	if len(faults) == 0 {
		return form, nil
	}
	var lines []string
	for _, f := range faults {
		lines = append(lines, fmt.Sprintf("%s:%d:%d: %s", from, f.Line, f.Col, f.Why))
	}
	if len(lines) == 1 {
		return form, misuse("%s", lines[0]).try("Nothing was made.")
	}
	if more := len(lines) - manyOfOneCode; more > 0 {
		lines = append(lines[:manyOfOneCode], fmt.Sprintf("and %d more", more))
	}
	return form, misuse("%s: %s not understood; nothing was made", from, count(len(faults), "line")).try(lines...)
}

// gatheringField is the path of a field that is no question of the form.
func gatheringField(name string) (string, error) {
	if path, ok := gatheringWords[strings.ToLower(name)]; ok {
		return path, nil
	}
	path, f, err := findField(name)
	if err == nil && (f.Kind == ledger.Group || f.Kind == ledger.Entries) {
		return "", fmt.Errorf("%s holds fields of its own and takes no words", path)
	}
	if err == nil || strings.Contains(err.Error(), " can be ") {
		return path, err
	}
	names := field.Words()
	for _, f := range ledger.Fields() {
		names = append(names, f.Path, f.Key())
	}
	if near := nearest(name, names); near != "" {
		return "", fmt.Errorf("no question and no field is called %q; did you mean %s?", name, near)
	}
	return "", fmt.Errorf("no question and no field is called %q", name)
}

// gatheringChanges are the files of the new sheets.
func (d *desk) gatheringChanges(ctx context.Context, from string, form field.Form, free func() (ledger.Number, error)) ([]fileChange, error) {
	var changes []fileChange
	given := map[string]bool{}
	for _, g := range form.Gatherings {
		answers := g.Values
		n, err := ledger.Number(answers["specimen"]), error(nil)
		if n == "" {
			n, err = free()
		} else {
			n = fullNumber(string(n), d)
			err = d.mayBeGiven(ctx, n)
		}
		if err != nil {
			return nil, err
		}
		if given[n.Key()] {
			return nil, misuse("%s: the number %s is given twice", from, n)
		}
		given[n.Key()] = true
		delete(answers, "specimen")
		answers[newNameKey] = answers[field.NamePath]
		delete(answers, field.NamePath)
		c, err := d.newRecord(n, answers, form.Field || d.opts.on("draft"))
		if err != nil {
			return nil, inLine(from, g.Line, err)
		}
		changes = append(changes, c)
		d.say("%s", joinNonEmpty("  ", string(n), whoAndNumber(form, g), d.standing(decoded(c.path, c.new)).shown))
	}
	return changes, nil
}

// whoAndNumber is under which number a gathering of the field form stands.
func whoAndNumber(form field.Form, g field.Gathering) string {
	if !form.Field {
		return ""
	}
	return joinNonEmpty(" ", g.Values["collector"], g.Values["coll_no"])
}

// inLine says where in a file a fault is.
func inLine(from string, line int, err error) error {
	var f *fault
	if !errors.As(err, &f) {
		return err
	}
	return (&fault{err: fmt.Errorf("%s:%d: %w", from, line, f.err), code: f.code}).try(f.hints...)
}
