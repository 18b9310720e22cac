package main

import (
	"context"
	"errors"
	"io"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/merge"
)

// askReadings asks a person which of two readings is right, for each of them,
// and returns the answers by field. An empty answer decides nothing.
func (d *desk) askReadings(ctx context.Context, a *asker, path string, open []merge.Conflict) (map[string]merge.Answer, error) {
	answers := map[string]merge.Answer{}
	for _, c := range open {
		if c.Kind == merge.File {
			continue
		}
		d.sayReadings(d.tell, path, c)
		question := "Which is right? 1, 2, or other words; empty: decide later  "
		if c.Kind != merge.Field {
			question = "Which is right? 1 or 2; empty: decide later  "
		}
		for {
			words, err := a.ask(ctx, question)
			if errors.Is(err, io.EOF) {
				return answers, nil
			}
			if err != nil {
				return nil, err
			}
			answer, ok := readAnswer(words, c)
			if !ok {
				d.tell("Answer 1 or 2.")
				continue
			}
			if answer.Is != merge.Undecided {
				answers[c.Path] = answer
			}
			break
		}
	}
	return answers, nil
}

func readAnswer(words string, c merge.Conflict) (merge.Answer, bool) {
	switch words {
	case "":
		return merge.Answer{}, true
	case "1":
		return merge.Answer{Is: merge.Ours}, true
	case "2":
		return merge.Answer{Is: merge.Theirs}, true
	}
	return merge.Answer{Is: merge.Words, Words: words}, c.Kind == merge.Field
}

// sayReadings shows both readings, who wrote them, and what stood before.
func (d *desk) sayReadings(tell func(string, ...any), path string, c merge.Conflict) {
	tell("%s  %s", sheetOrPath(path), c.Path)
	hand := func(h merge.Hand, copy string) string {
		var parts []string
		if h.Name != "" {
			parts = append(parts, h.Name)
		}
		if !h.When.IsZero() {
			parts = append(parts, h.When.In(d.zone).Format("2 January 2006"))
		}
		return "  (" + strings.Join(append(parts, copy), ", ") + ")"
	}
	words := func(s string) string {
		switch {
		case s == "" && c.Kind == merge.Entry && c.Ours == "" && c.Theirs == "":
			return "entries that the other has not"
		case s == "" && c.Kind == merge.Entry:
			return "taken out"
		case s == "":
			return "nothing"
		}
		return s
	}
	if c.Base != "" {
		tell("%s", wrap("  was  "+c.Base, d.Width, "       "))
	}
	tell("%s", wrap("  1    "+words(c.Ours)+hand(c.OursBy, "here"), d.Width, "       "))
	tell("%s", wrap("  2    "+words(c.Theirs)+hand(c.TheirsBy, "in the other copy"), d.Width, "       "))
}

// settleFile asks about the readings that stand in a file and writes what was
// decided; left is how many still stand.
func (d *desk) settleFile(ctx context.Context, a *asker, path string) (left int, err error) {
	src, err := d.read(path)
	if err != nil {
		return 0, err
	}
	_, open, err := merge.Settle(path, src, nil)
	if errors.Is(err, merge.ErrUnmarked) {
		return 0, nil
	}
	if err != nil || a == nil {
		return len(open), err
	}
	answers, err := d.askReadings(ctx, a, path, open)
	if err != nil {
		return 0, err
	}
	return d.decided(path, src, func(c merge.Conflict) merge.Answer { return answers[c.Path] })
}

// decided writes a file with what was decided of its readings.
func (d *desk) decided(path string, src []byte, decide merge.Decide) (left int, err error) {
	out, rest, err := merge.Settle(path, src, decide)
	if err != nil {
		return 0, stuck("%s is left as it is: %v", sheetOrPath(path), err).try("blotter edit " + d.briefPath(path))
	}
	if string(out) == string(src) {
		return len(rest), nil
	}
	if err := disk.WriteFile(d.file(path), out); err != nil {
		return 0, stuck("write %s: %v", sheetOrPath(path), err)
	}
	return len(rest), nil
}

// setUndecided decides, by set, between the readings that stand in a file.
func (d *desk) setUndecided(path string, src []byte, values map[string]string) error {
	met := map[string]bool{}
	if d.opts.on("dry-run") {
		d.tell("Nothing was changed: --dry-run.")
		return nil
	}
	_, open, err := merge.Settle(path, src, nil)
	if err != nil {
		return err
	}
	for _, c := range open {
		met[c.Path] = true
	}
	for field := range values {
		if !met[field] {
			return misuse("%s: two readings stand in its file, of %s; decide between them first", sheetOrPath(path), fieldsOf(open)).
				try("blotter set " + d.briefPath(path) + " " + open[0].Path + "=VALUE")
		}
	}
	left, err := d.decided(path, src, func(c merge.Conflict) merge.Answer {
		words, ok := values[c.Path]
		switch {
		case !ok:
			return merge.Answer{}
		case words == c.Ours:
			return merge.Answer{Is: merge.Ours}
		case words == c.Theirs:
			return merge.Answer{Is: merge.Theirs}
		}
		return merge.Answer{Is: merge.Words, Words: words}
	})
	if err != nil {
		return err
	}
	if left > 0 {
		after, err := d.read(path)
		if err != nil {
			return err
		}
		_, rest, err := merge.Settle(path, after, nil)
		if err != nil {
			return err
		}
		d.say("%s written; two readings still stand, of %s.", sheetOrPath(path), fieldsOf(rest))
		d.next("blotter edit %s", d.briefPath(path))
		return errFindings
	}
	d.say("%s written, not yet entered. No two readings stand in it any more.", sheetOrPath(path))
	d.next("blotter enter")
	return nil
}

func fieldsOf(open []merge.Conflict) string {
	var names []string
	for _, c := range open {
		name := c.Path
		if name == "" {
			name = "line " + itoa(c.Line) + " on"
		}
		names = append(names, name)
	}
	return strings.Join(names, ", ")
}

// twoReadings reports whether two readings stand in a file, and its text.
func (d *desk) twoReadings(path string) ([]byte, bool) {
	src, err := d.read(path)
	if err != nil {
		return nil, false
	}
	_, ok := ledger.ReadMarks(src)
	return src, ok
}
