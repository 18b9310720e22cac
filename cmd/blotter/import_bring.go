package main

import (
	"context"
	"errors"
	"fmt"
	"iter"
	"strconv"

	"blotter/ledger"
	"blotter/ledger/exchange"
)

// incoming is what an import brings, from whatever kind of file: a table, an
// archive, a folder of pictures. Whoever reads such a file makes an incoming
// and hands it to desk.bring, which rehearses, asks and enters.
type incoming struct {
	name string // of the file or folder, as shown
	noun string // what one record is made of: row, picture

	// made gives the records in the order of the file. It is asked twice, for
	// the rehearsal and for entering, and gives the same both times; a
	// rehearsal keeps counts and examples, never the records. An error stops
	// the import.
	made func(ctx context.Context) iter.Seq2[exchange.Made, error]

	// said says what the file is, once the rehearsal has read it through; nil:
	// nothing.
	said func(records int)

	// numbered reports that records may come with numbers of their own: free
	// ones are then given above all of them.
	numbered bool

	// same says whether the file is still what was shown, before anything is
	// entered; nil: it cannot have changed.
	same func() error
}

// batchSize is how many sheets one entry of a large import has. It is also how
// many are judged together in the rehearsal.
const batchSize = 5000

// bring rehearses what comes in, asks, and enters what is sound, whole batch
// by whole batch.
func (d *desk) bring(ctx context.Context, in incoming) error {
	im, err := d.newImporting(ctx, in)
	if err != nil {
		return err
	}
	if err := im.rehearse(ctx); err != nil {
		return err
	}
	im.show()
	question := im.question()
	if question == "" {
		d.say("Nothing to enter.")
		im.hint()
		return im.fault()
	}
	if im.refused > 0 && d.opts.on("strict") {
		d.say("Nothing was entered: --strict.")
		return errFindings
	}
	if ok, err := d.consent(ctx, question); !ok {
		return err
	}
	if in.same != nil {
		if err := in.same(); err != nil {
			return err
		}
	}
	if err := im.enter(ctx); err != nil {
		return err
	}
	im.hint()
	return im.fault()
}

// question asks for all that would be entered; "" when that is nothing.
func (im *importing) question() string {
	switch {
	case im.sound > 0 && im.corrects > 0:
		return "Enter " + count(im.sound, "sheet") + " and correct " + thousands(im.corrects) + "?"
	case im.sound > 0:
		return "Enter " + count(im.sound, "sheet") + "?"
	case im.corrects > 0:
		return "Correct " + count(im.corrects, "sheet") + "?"
	}
	return ""
}

// hint says how changed rows are entered.
func (im *importing) hint() {
	if im.changed > 0 && !im.opts.on("changed") {
		im.next("the same with --changed corrects what changed")
	}
}

// importing is one run of import.
type importing struct {
	*desk
	in    incoming
	known *imported
	taken map[string]bool // keys of numbers that are or were in the ledger
	batch int

	bears map[string]place // keys of the numbers that the file brings, where first

	later later
	rehearsal
}

// place is where something stands in the file.
type place struct{ at, line int }

// candidate is a record that an import would enter.
type candidate struct {
	exchange.Made
	fileChange
	at int // its place among all rows
}

func (d *desk) newImporting(ctx context.Context, in incoming) (*importing, error) {
	im := &importing{desk: d, in: in, batch: batchSize, taken: map[string]bool{}, bears: map[string]place{}}
	im.rehearsal = newRehearsal()
	im.later = newLater()
	var err error
	if text := d.opts.text("batch"); text != "" {
		if im.batch, err = strconv.Atoi(text); err != nil || im.batch < 1 || im.batch > batchSize {
			return nil, misuse("--batch %s: a number from 1 to %d", text, batchSize)
		}
	}
	if im.known, err = d.knownImports(); err != nil {
		return nil, err
	}
	used, err := d.everUsed(ctx)
	if err != nil {
		return nil, err
	}
	for _, n := range used {
		im.taken[n.Key()] = true
	}
	if in.numbered {
		at := -1
		for m, err := range in.made(ctx) {
			if err != nil {
				return nil, stuck("%v", err)
			}
			at++
			if m.Record != nil && m.Record.Specimen.Set() {
				key := ledger.Number(m.Record.Specimen.Text).Key()
				if _, twice := im.bears[key]; !twice {
					im.bears[key] = place{at, m.Line}
				}
			}
		}
	}
	return im, nil
}

// walk goes through what comes in and hands on batches of candidates; what
// cannot be taken, or is in the ledger already, goes to the rehearsal when
// first is set.
func (im *importing) walk(ctx context.Context, first bool, use func([]candidate) error) error {
	free, err := im.freeNumbers(ctx)
	if err != nil {
		return err
	}
	im.later.begin()
	var batch []candidate
	at := -1
	for m, err := range im.in.made(ctx) {
		if err == nil {
			err = ctx.Err()
		}
		if errors.Is(err, context.Canceled) {
			return errInterrupted
		}
		if err != nil {
			return stuck("%v", err)
		}
		at++
		c, ok, err := im.candidate(ctx, m, at, first, free)
		if err != nil {
			return err
		}
		if !ok || !first && im.bad.has(at) {
			continue
		}
		if batch = append(batch, c); len(batch) == im.batch {
			if err := use(batch); err != nil {
				return err
			}
			batch = batch[:0]
		}
	}
	if len(batch) > 0 {
		if err := use(batch); err != nil {
			return err
		}
	}
	return im.flush(ctx, first)
}

// candidate gives a record its number and its place; ok is false when it is
// not to be entered.
func (im *importing) candidate(ctx context.Context, m exchange.Made, at int, first bool, free func() (ledger.Number, error)) (c candidate, ok bool, err error) {
	if first {
		im.rows++
		im.note(m.Line, m.Notes)
	}
	refuse := func(why string) (candidate, bool, error) {
		if first {
			im.refuse(m.Line, why)
		}
		return c, false, nil
	}
	sheet := im.sheetOf(m)
	if sheet >= 0 {
		im.later.seen.add(sheet)
	}
	switch {
	case m.Record == nil:
		return refuse(m.Why)
	case m.Key != "" && first && im.keyTwice(m, at):
		return refuse(fmt.Sprintf("its key %s stands in line %d too", m.Key, im.later.keys[keyOf(listOf(m), m.Key)].line))
	case m.Key != "" && !first && im.later.keys[keyOf(listOf(m), m.Key)].at != at:
		return c, false, nil
	case im.fromSameFile(m):
		if first {
			im.again++
		}
		return c, false, nil
	case sheet >= 0:
		return c, false, im.laterRow(ctx, m, at, sheet, first)
	case im.sameWords(m):
		if first {
			im.unchanged++
		}
		return c, false, nil
	}
	if first && m.Key != "" {
		im.elsewhere(m)
	}
	n, why, err := im.numberFor(m, at, free)
	if err != nil {
		return c, false, err
	}
	if why != "" {
		return refuse(why)
	}
	m.Record.Specimen = ledger.Leaf{Text: string(n)}
	m.Record.Path = n.Path()
	m.Stamp()
	return candidate{Made: m, fileChange: fileChange{path: m.Record.Path, new: ledger.Encode(m.Record)}, at: at}, true, nil
}

// numberFor is the number that a record brings, else the next free one; why is
// the reason that it cannot bear its own.
func (im *importing) numberFor(m exchange.Made, at int, free func() (ledger.Number, error)) (n ledger.Number, why string, err error) {
	n = ledger.Number(m.Record.Specimen.Text)
	switch key := n.Key(); {
	case n == "":
		for {
			if n, err = free(); err != nil {
				return n, "", err
			}
			if _, borne := im.bears[n.Key()]; !borne {
				return n, "", nil
			}
		}
	case !n.Valid():
		return n, fmt.Sprintf("%q cannot be a number: letters, digits, dot, hyphen and underline, beginning with a letter or digit", n), nil
	case im.bears[key].at != at:
		return n, fmt.Sprintf("its number %s stands in line %d too", n, im.bears[key].line), nil
	case im.taken[key]:
		im.there = true
		return n, string(n) + " is in the ledger already", nil
	}
	return n, "", nil
}

// enter makes one revision of each batch.
func (im *importing) enter(ctx context.Context) error {
	parts := (im.sound + im.batch - 1) / im.batch
	part, done := 0, 0
	err := im.walk(ctx, false, func(batch []candidate) error {
		part++
		subject := fmt.Sprintf("Import %s from %s", count(len(batch), "sheet"), im.in.name)
		if parts > 1 {
			subject += fmt.Sprintf(", part %d of %d", part, parts)
		}
		var changes []fileChange
		for _, c := range batch {
			changes = append(changes, c.fileChange)
		}
		r, err := im.desk.enter(ctx, entry{changes: changes, judged: true, subject: subject})
		if err != nil {
			return err
		}
		done += len(batch)
		im.report(r, count(len(batch), "sheet")+" from "+im.in.name)
		return nil
	})
	if err != nil && done > 0 {
		im.tell("%s of %s are entered; the same command goes on with the rest.", thousands(done), count(im.sound, "sheet"))
	}
	return err
}
