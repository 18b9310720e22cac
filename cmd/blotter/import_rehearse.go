package main

import (
	"context"
	"fmt"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/exchange"
)

// rehearsal is what an import would bring, in counts and examples.
type rehearsal struct {
	rows      int // all
	again     int // in the ledger already, from this same file
	unchanged int // in the ledger already, from an earlier version of the file, and as they were
	changed   int // otherwise than in the earlier version
	corrects  int // of them, sheets that would be corrected
	conflicts int // words that the ledger has otherwise
	sound     int // would be entered
	drafts    int
	stubs     int
	names     int // opinions on names
	refused   int
	there     bool   // a row has a number that is in the ledger already
	bad       bitset // places of rows with an error

	first, last ledger.Number
	notTaken    []exchange.Refused // the first ones
	notes       map[string]int     // what is odd about rows, by kind
	noted       map[string]string  // the first of each kind
	counts      map[string]int     // warnings by code
	examples    map[string]ledger.Finding
}

func newRehearsal() rehearsal {
	return rehearsal{notes: map[string]int{}, noted: map[string]string{}, counts: map[string]int{}, examples: map[string]ledger.Finding{}}
}

// bitset is a set of small numbers, one bit each.
type bitset []uint64

func (b *bitset) add(i int) {
	for i/64 >= len(*b) {
		*b = append(*b, 0)
	}
	(*b)[i/64] |= 1 << (i % 64)
}

func (b bitset) has(i int) bool { return i/64 < len(b) && b[i/64]>>(i%64)&1 == 1 }

func (r *rehearsal) refuse(line int, why string) {
	r.refused++
	if len(r.notTaken) < manyOfOneCode {
		r.notTaken = append(r.notTaken, exchange.Refused{Line: line, Why: why})
	}
}

// note counts what is odd about a row.
func (r *rehearsal) note(line int, notes []exchange.Note) {
	for _, n := range notes {
		if r.notes[n.Kind]++; r.notes[n.Kind] == 1 {
			r.noted[n.Kind] = strings.TrimPrefix(fmt.Sprintf("line %d: %s", line, n.Words), "line 0: ")
		}
	}
}

// fault ends a run in exit 1 when rows were not taken.
func (r *rehearsal) fault() error {
	if r.refused > 0 {
		return errFindings
	}
	return nil
}

// rehearse makes every record once and judges it as an entry would be.
func (im *importing) rehearse(ctx context.Context) error {
	return im.walk(ctx, true, func(batch []candidate) error {
		byPath := make(map[string]candidate, len(batch))
		changes := make([]fileChange, len(batch))
		for i, c := range batch {
			byPath[c.path], changes[i] = c, c.fileChange
		}
		sound, faulty, found, err := im.sortOut(ctx, changes)
		if err != nil {
			return err
		}
		errs := im.sift(found)
		for _, f := range faulty {
			c := byPath[f.path]
			im.bad.add(c.at)
			im.refuse(c.Line, errs[f.path])
		}
		for _, s := range sound {
			im.count(byPath[s.path].Record)
		}
		return nil
	})
}

// sift counts warnings and gives the first error of each file.
func (r *rehearsal) sift(found []ledger.Finding) map[string]string {
	errs := map[string]string{}
	for _, f := range found {
		if f.Severity == ledger.Error {
			if _, twice := errs[f.Path]; !twice {
				errs[f.Path] = f.Message
			}
			continue
		}
		if r.counts[f.Code] == 0 {
			r.examples[f.Code] = f
		}
		r.counts[f.Code]++
	}
	return errs
}

// count adds a record that would be entered.
func (r *rehearsal) count(rec *ledger.Record) {
	r.sound++
	n := ledger.Number(rec.Specimen.Text)
	if r.first == "" || lower(n, r.first) {
		r.first = n
	}
	if r.last == "" || lower(r.last, n) {
		r.last = n
	}
	r.names += len(rec.Determinations)
	switch rec.Entry.Text {
	case string(ledger.Draft):
		r.drafts++
	case string(ledger.Stub):
		r.stubs++
	}
}

// lower reports whether a stands before b in a series.
func lower(a, b ledger.Number) bool {
	x, _ := a.Serial()
	y, _ := b.Serial()
	return x < y || x == y && a < b
}

// span is the lowest number to the highest.
func (r *rehearsal) span() string {
	if r.first == r.last {
		return string(r.first)
	}
	return string(r.first + " to " + r.last)
}

// show says what would be made and what was found, by kind.
func (im *importing) show() {
	d := im.desk
	if im.in.said != nil {
		im.in.said(im.rows)
	}
	if im.again > 0 {
		d.say("%s in the ledger already, from this same file.", count(im.again, im.in.noun))
	}
	im.showLater()
	if im.sound > 0 {
		d.say("Would be made: %s, %s, with %s on names.", count(im.sound, "sheet"), im.span(), count(im.rehearsal.names, "opinion"))
	}
	if im.drafts > 0 {
		d.say("%s of them would be drafts, not published yet: collector, date or place is missing.", thousands(im.drafts))
	}
	if im.stubs > 0 {
		d.say("%s of them would be stubs: a number and a picture.", thousands(im.stubs))
	}
	for _, kind := range slices.Sorted(maps.Keys(im.notes)) {
		d.say("%s", hang(fmt.Sprintf("  %6s  ", thousands(im.notes[kind])), kind+" ("+strings.TrimSuffix(im.noted[kind], ": ")+")", d.Width))
	}
	for _, code := range slices.Sorted(maps.Keys(im.counts)) {
		n, _ := ledger.NumberOfPath(im.examples[code].Path)
		d.say("%s", hang(fmt.Sprintf("  %6s  %-20s  ", thousands(im.counts[code]), code), string(n)+": "+im.examples[code].Message, d.Width))
	}
	for _, r := range im.notTaken {
		d.say("%s", hang(fmt.Sprintf("  line %-5d not taken: ", r.Line), r.Why, d.Width))
	}
	if more := im.refused - len(im.notTaken); more > 0 {
		d.say("  and %s more %ss not taken", thousands(more), im.in.noun)
	}
	if im.there {
		d.say("%s", wrap("  Sheets that are in the ledger already stay as they are, whatever the table says. To correct one: blotter set SHEET FIELD=VALUE --why TEXT", d.Width, "  "))
	}
}
