package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// news is what one copy has that another has not, in words.
type news struct {
	entries int // all revisions
	authors []*newsBy
}

// newsBy is what one person entered.
type newsBy struct {
	name   string
	sheets map[string][]ledger.Number // by what was done
	order  []string                   // of what was done, as it came
	fresh  map[ledger.Number]bool
	works  []string
	files  []string
}

// newsIn tells what is in tip and not in known; "" is nothing.
func (d *desk) newsIn(ctx context.Context, tip, known string) (*news, error) {
	t := &news{}
	by := map[string]*newsBy{}
	var not []string
	if known != "" {
		not = []string{known}
	}
	err := d.repo.Steps(ctx, tip, not, func(s gitrepo.Step) error {
		t.entries++
		if len(s.Commit.Parents) > 1 {
			return nil // it brings two together; what they hold is told by itself
		}
		a := by[s.Commit.Author.Name]
		if a == nil {
			a = &newsBy{name: s.Commit.Author.Name, sheets: map[string][]ledger.Number{}, fresh: map[ledger.Number]bool{}}
			by[a.name] = a
			t.authors = append(t.authors, a)
		}
		for _, c := range s.Changes {
			if err := d.tellChange(ctx, a, c); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, stuck("%v", err)
	}
	return t, nil
}

func (d *desk) tellChange(ctx context.Context, a *newsBy, c gitrepo.Change) error {
	if n, ok := ledger.NumberOfPath(c.Path); ok {
		old, err := d.recordOf(ctx, c.Path, c.Old)
		if err != nil {
			return err
		}
		now, err := d.recordOf(ctx, c.Path, c.New)
		if err != nil {
			return err
		}
		if now == nil && a.fresh[n] { // it was given another number before anybody had it
			a.unmade(n)
			return nil
		}
		a.sheet(history.ActOf(history.RecordChange{Number: n, Old: old, New: now}).Word, n)
		return nil
	}
	if n, ok := ledger.WorkNumberOfPath(c.Path); ok {
		old, err := d.workOf(ctx, c.Path, c.Old)
		if err != nil {
			return err
		}
		now, err := d.workOf(ctx, c.Path, c.New)
		if err != nil {
			return err
		}
		a.works = append(a.works, string(n)+" "+history.WordOfWork(history.WorkChange{Number: n, Old: old, New: now}))
		return nil
	}
	if !slices.Contains(a.files, c.Path) {
		a.files = append(a.files, c.Path)
	}
	return nil
}

func (d *desk) recordOf(ctx context.Context, path string, blob ledger.BlobID) (*ledger.Record, error) {
	src, err := d.blobOf(ctx, blob)
	return decoded(path, src), err
}

func (d *desk) workOf(ctx context.Context, path string, blob ledger.BlobID) (*ledger.Work, error) {
	src, err := d.blobOf(ctx, blob)
	return decodedWork(path, src), err
}

func (d *desk) blobOf(ctx context.Context, blob ledger.BlobID) ([]byte, error) {
	if blob == "" {
		return nil, nil
	}
	src, err := d.repo.Blob(ctx, blob)
	if src == nil && err == nil {
		src = []byte{}
	}
	return src, err
}

// sheet adds what was done to one sheet; what was done to a new one belongs to
// its being new, but for notes.
func (a *newsBy) sheet(what string, n ledger.Number) {
	if what == "new" {
		a.fresh[n] = true
	}
	if a.fresh[n] && what != "new" && what != "noted" {
		return
	}
	if a.sheets[what] == nil {
		a.order = append(a.order, what)
	}
	if what == "noted" || !slices.Contains(a.sheets[what], n) {
		a.sheets[what] = append(a.sheets[what], n)
	}
}

// unmade takes a sheet out of those that are new.
func (a *newsBy) unmade(n ledger.Number) {
	delete(a.fresh, n)
	for what, list := range a.sheets {
		a.sheets[what] = slices.DeleteFunc(list, func(have ledger.Number) bool { return have == n })
		if len(a.sheets[what]) == 0 {
			delete(a.sheets, what)
			a.order = slices.DeleteFunc(a.order, func(have string) bool { return have == what })
		}
	}
}

// fewNumbers is how many sheets are named one by one in a line.
const fewNumbers = 5

// words are what a person did: "3 new sheets, 1 note; freezer-2026-002 closed".
func (a *newsBy) words(numbers bool) string {
	var parts []string
	for _, what := range a.order {
		ns := a.sheets[what]
		words := ""
		switch what {
		case "new":
			words = strings.Replace(count(len(ns), "sheet"), " ", " new ", 1)
		case "noted":
			words = count(len(ns), "note")
		default:
			words = count(len(ns), "sheet") + " " + what
		}
		if numbers && len(ns) <= fewNumbers {
			var names []string
			for _, n := range ns {
				if !slices.Contains(names, string(n)) {
					names = append(names, string(n))
				}
			}
			words += " (" + strings.Join(names, ", ") + ")"
		}
		parts = append(parts, words)
	}
	if n := len(a.works); n > fewNumbers {
		parts = append(parts, strings.Replace(count(n, "line"), " ", " ", 1)+" in works")
	} else if n > 0 {
		parts = append(parts, strings.Join(a.works, ", "))
	}
	if n := len(a.files); n > fewNumbers {
		parts = append(parts, count(n, "other file")+" altered")
	} else if n > 0 {
		parts = append(parts, strings.Join(a.files, ", ")+" altered")
	}
	return strings.Join(parts, "; ")
}

// people are whose entries these are.
func (t *news) people() string {
	var names []string
	for _, a := range t.authors {
		names = append(names, a.name)
	}
	switch n := len(names); {
	case n == 0:
		return "others"
	case n > 3:
		return strings.Join(names[:2], ", ") + " and " + thousands(n-2) + " others"
	case n > 1:
		return strings.Join(names[:n-1], ", ") + " and " + names[n-1]
	}
	return names[0]
}

// all is everything in words, whoever did it.
func (t *news) all() string {
	sum := &newsBy{sheets: map[string][]ledger.Number{}, fresh: map[ledger.Number]bool{}}
	for _, a := range t.authors {
		for _, what := range a.order {
			for _, n := range a.sheets[what] {
				sum.sheet(what, n)
			}
		}
		sum.works = append(sum.works, a.works...)
		for _, f := range a.files {
			if !slices.Contains(sum.files, f) {
				sum.files = append(sum.files, f)
			}
		}
	}
	return sum.words(false)
}

func (s *sharing) showReceived(t *news) {
	said := "Received from "
	if s.opts.on("dry-run") {
		said = "To be received from "
	}
	for _, a := range t.authors {
		if words := a.words(true); words != "" {
			s.say("%s", wrap(said+a.name+": "+words+".", s.Width, ""))
		}
	}
}
