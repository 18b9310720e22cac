package work

import (
	"bytes"
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
)

// Taught reports whether a specimen, by the events that are about it, is in a
// teaching or student lot on a day and was not taken in.
func Taught(events []*Event, on dates.Day) bool {
	is := false
	for _, ev := range events {
		if ev.Day > on || ev.File.Kind.Name != "accession" {
			continue
		}
		switch {
		case ev.Verb == "taken-in":
			is = false
		case teaching(ev.File):
			is = true
		}
	}
	return is
}

// teaching reports whether a lot is of teaching or student material.
func teaching(f *File) bool {
	return f.Work.Standing.Text == "teaching" || f.Work.Standing.Text == "student"
}

// Aside is the keys of the specimens that are in a teaching or student lot and
// were not taken in, whatever day their lines name: they stay out of all that
// is public, and of exports. Works are read only when there is such a lot.
func Aside(ctx context.Context, src ledger.Source, b *book.Book) (map[string]bool, error) {
	found := false
	for f := range b.Works() {
		if !strings.HasPrefix(f.Path, ledger.WorkDir+"/accession/") {
			continue
		}
		text, err := src.Read(ctx, f)
		if found = err != nil || bytes.Contains(text, []byte("teaching")) || bytes.Contains(text, []byte("student")); found {
			break
		}
	}
	if !found {
		return nil, nil
	}
	w, err := Load(ctx, src, b)
	if err != nil {
		return nil, err
	}
	out := map[string]bool{}
	for _, ev := range w.events {
		if ev.File.Kind.Name != "accession" || !teaching(ev.File) {
			continue
		}
		for _, t := range w.About(ev) {
			if n := t.Sheet; n != "" && !out[n.Key()] && Taught(w.HistoryOf(n), 1<<30) {
				out[n.Key()] = true
			}
		}
	}
	return out, nil
}
