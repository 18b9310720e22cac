package main

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/work"
)

// setWork corrects fields of one work: its heading, and lines by their places
// (lines.2.by). What stood there is kept in the history, with the reason.
func (d *desk) setWork(ctx context.Context, words, pairs []string) error {
	if len(words) != 1 {
		return misuse("works are corrected one at a time; %q is too much", words[1])
	}
	n, err := d.workArgument(words[0])
	if err != nil {
		return err
	}
	assigned, err := workAssignments(n, pairs)
	if err != nil {
		return err
	}
	if src, two := d.twoReadings(n.Path()); two {
		return d.setUndecided(n.Path(), src, valuesOf(assigned))
	}
	why := d.opts.text("why")
	var lines []string
	corrects := false
	c, err := d.editWork(n, func(w *ledger.Work) (ops []ledger.Op, err error) {
		ops, lines, corrects, err = corrections(n, w, assigned, why)
		return ops, err
	})
	if err != nil {
		return err
	}
	if c.path == "" {
		d.say("Nothing to do: it is so already.")
		return nil
	}
	d.say("%s", d.workTitle(n))
	for _, line := range lines {
		d.say("%s", line)
	}
	e := entry{changes: []fileChange{c}}
	if corrects {
		e.trailers = []string{fmt.Sprintf("%s: %s %s", history.CorrectsKey, n, oneLine(why))}
	}
	r, err := d.enter(ctx, e)
	if err != nil {
		return err
	}
	d.report(r, "")
	return nil
}

// corrections are the edits that assignments make to a work, what show says of
// each, and whether one alters words that stood there: that wants a reason.
func corrections(n ledger.WorkNumber, w *ledger.Work, assigned []assignment, why string) (ops []ledger.Op, lines []string, corrects bool, err error) {
	have := map[string]string{}
	for _, kv := range ledger.Flatten(w) {
		have[kv.Key] = kv.Value
	}
	for _, a := range assigned {
		was := have[a.path]
		op := ledger.Set(a.path, a.value)
		if a.field.Kind == ledger.Texts {
			was = strings.Join(listWords(have, a.path), ", ")
			op = ledger.SetList(a.path, splitList(a.value)...)
		}
		if was == a.value {
			continue
		}
		altered := was != "" || strings.HasPrefix(a.path, "lines.")
		if altered && why == "" {
			return nil, nil, false, misuse("%s: why is %s wrong? --why is missing", n, a.path).
				try(`A correction of entered words says its grounds: --why "parcel list seen"`)
		}
		corrects = corrects || altered
		ops = append(ops, op)
		lines = append(lines, alteration(a, was))
	}
	return ops, lines, corrects, nil
}

// workAssignments reads FIELD=VALUE for a work: a field by its path, or by the
// last part of it in the heading.
func workAssignments(n ledger.WorkNumber, pairs []string) ([]assignment, error) {
	var names []string
	for _, f := range ledger.FieldsOf(ledger.WorkFileKind) {
		names = append(names, f.Path)
	}
	var all []assignment
	for _, p := range pairs {
		name, value, _ := strings.Cut(p, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		path := name
		f, ok := ledger.FieldAt(ledger.WorkFileKind, name)
		if i := slices.IndexFunc(names, func(x string) bool { return strings.HasSuffix(x, "."+name) && !strings.HasPrefix(x, "lines.") }); !ok && i >= 0 {
			path = names[i]
			f, ok = ledger.FieldAt(ledger.WorkFileKind, path)
		}
		switch {
		case path == "work":
			return nil, misuse("the number of a work never changes; a wrong one stays unused")
		case !ok && nearest(name, names) != "":
			return nil, misuse("no field of a work is called %q; did you mean %s?", name, nearest(name, names))
		case !ok:
			return nil, misuse("no field of a work is called %q", name).try("A field of the heading (partner=...) or of a line (lines.2.by=...)", "blotter show "+string(n))
		case f.Kind == ledger.Group || f.Kind == ledger.Entries || strings.HasPrefix(path, "lines.") && !strings.ContainsAny(path, "0123456789"):
			return nil, misuse("%q wants the place of the line: lines.2.%s=...", name, path[strings.LastIndexByte(path, '.')+1:])
		}
		all = append(all, assignment{path, f, value})
	}
	return all, nil
}

// workTitle is a work in one line: its number, what it is, with whom.
func (d *desk) workTitle(n ledger.WorkNumber) string {
	_, w, err := d.work(n)
	if err != nil {
		return string(n)
	}
	return joinNonEmpty("  ", string(n), joinNonEmpty(", ", w.Title.Text, w.Partner.Text, w.Purpose.Text, w.Place.Text))
}

// noteWork adds a note to a work, as a line.
func (d *desk) noteWork(ctx context.Context, typed, text string) error {
	if k := d.opts.text("kind"); k != "" {
		return misuse("a note of a work has no kind; --kind is for notes on sheets")
	}
	n, err := d.workArgument(typed)
	if err != nil {
		return err
	}
	src, _, err := d.work(n)
	if err != nil {
		return err
	}
	f, _ := work.Read(n.Path(), src)
	by, date, err := d.signed("me")
	if err != nil {
		return err
	}
	c, err := d.appendLine(f, ledger.KV{Key: "date", Value: date}, ledger.KV{Key: "event", Value: ledger.EventNoted}, ledger.KV{Key: "by", Value: by}, ledger.KV{Key: "note", Value: text})
	if err != nil {
		return err
	}
	d.say("%s  noted  %s", n, text)
	return d.enterPicked(ctx, []fileChange{c}, false, "")
}
