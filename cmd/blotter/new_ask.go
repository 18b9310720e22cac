package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// question is one thing that new asks for.
type question struct {
	label string
	path  string // of the field, or newNameKey, newBy, newNamed
	only  string // asked only when this other one was answered
}

const labelWidth = 15

// questions of new, in the order of a label. The museum's own words stand for
// the levels of place.
func (d *desk) questions() []question {
	level := []string{"country", "province", "district"}
	for i, own := range d.museum.PlaceLevels {
		if i < len(level) && own.Set() {
			level[i] = own.Text
		}
	}
	return []question{
		{"collector", "collector", ""}, {"with", "with", "collector"}, {"number", "coll_no", ""}, {"date", "date", ""},
		{level[0], "place.country", ""}, {level[1], "place.province", ""}, {level[2], "place.district", ""},
		{"locality", "place.locality", ""}, {"position", "place.position", ""}, {"datum", "place.datum", "place.position"},
		{"elevation", "place.elevation", ""}, {"habitat", "habitat", ""}, {"plant", "description", ""}, {"phenology", "phenology", ""},
		{"name", newNameKey, ""}, {"det. by", newBy, newNameKey}, {"det. date", newNamed, newNameKey},
	}
}

// interview is one run of new at a terminal.
type interview struct {
	desk    *desk
	a       *asker
	answers map[string]string
	last    map[string]string // of the last sheet, for =
	like    bool              // Enter alone repeats it
	number  ledger.Number
	free    func() (ledger.Number, error)
}

// newAsking asks for everything and writes the record. Broken off, it leaves
// a draft. first: how to answer was not said yet.
func (d *desk) newAsking(ctx context.Context, free func() (ledger.Number, error), like *ledger.Record, first bool) error {
	next, err := free()
	if err != nil {
		return err
	}
	iv := &interview{desk: d, a: d.asker(), answers: map[string]string{}, like: like != nil, last: likeAnswers(like), free: free}
	if like == nil {
		iv.last = likeAnswers(d.lastSheet())
	}
	words := string(next) + " is the next free number."
	if first {
		words += " Empty: not yet typed.  -: none on the label.  =: as on the last sheet.  ?: explain.  <: back."
	}
	d.tell("%s", wrap(words, d.Width, ""))
	d.showPractice(next)
	if err := iv.askNumber(ctx, next); err != nil {
		return err
	}
	if iv.number != next {
		d.showPractice(iv.number)
	}
	err = iv.askAll(ctx, d.questions())
	if errors.Is(err, errInterrupted) {
		return iv.keepDraft(ctx)
	}
	if err != nil {
		return err
	}
	return iv.finish(ctx)
}

// askNumber takes the number on the sheet, or the next free one.
func (iv *interview) askNumber(ctx context.Context, next ledger.Number) error {
	for {
		typed, err := iv.a.ask(ctx, "  "+pad("on the sheet", labelWidth))
		if errors.Is(err, io.EOF) {
			return errInterrupted
		}
		if err != nil {
			return err
		}
		switch typed {
		case "?":
			iv.explain("The number that the sheet bears already, typed or scanned.", "LK7-0000482, or Enter for "+string(next))
			continue
		case "":
			iv.number = next
			return nil
		}
		n := fullNumber(typed, iv.desk)
		if err := iv.desk.mayBeGiven(ctx, n); err != nil {
			iv.reply(err.Error())
			continue
		}
		iv.number = n
		return nil
	}
}

// reply shows words below an answer, in the column of the answers.
func (iv *interview) reply(words string) {
	iv.desk.tell("%s", hang("  "+pad("", labelWidth), words, iv.desk.Width))
}

func (iv *interview) explain(meaning, example string) {
	iv.reply(meaning)
	if example != "" {
		iv.reply("For example: " + example)
	}
}

// askAll asks the questions in order; < goes back one.
func (iv *interview) askAll(ctx context.Context, qs []question) error {
	for i := 0; i < len(qs); {
		q := qs[i]
		if !iv.follows(q) {
			i++
			continue
		}
		back, err := iv.askOne(ctx, q)
		if err != nil {
			return err
		}
		if !back {
			i++
			continue
		}
		for i > 0 {
			i--
			if iv.follows(qs[i]) {
				break
			}
		}
	}
	return nil
}

// follows reports whether a question is to be asked: the one that it depends on
// was answered, with more than that the label has none.
func (iv *interview) follows(q question) bool {
	return q.only == "" || reading.AbsenceOf(iv.answers[q.only]) != reading.Untyped && iv.answers[q.only] != wordForNone(q.only)
}

// askOne asks until the answer is clear.
func (iv *interview) askOne(ctx context.Context, q question) (back bool, err error) {
	doubted := ""
	if had := iv.answers[q.path]; had != "" {
		iv.reply("now: " + had + "   (Enter keeps it)")
	}
	for {
		typed, err := iv.a.ask(ctx, "  "+pad(q.label, labelWidth))
		if errors.Is(err, io.EOF) {
			return false, errInterrupted
		}
		if err != nil {
			return false, err
		}
		switch {
		case typed == "<":
			return true, nil
		case typed == "?":
			iv.explain(explainField(q.path))
			continue
		case typed == "=" || typed == "" && iv.like && iv.last[q.path] != "" && iv.answers[q.path] == "":
			if typed = iv.last[q.path]; typed == "" {
				iv.reply("the last sheet has none")
				continue
			}
			iv.reply(typed)
			iv.answers[q.path] = typed
			return false, nil
		case typed == "-":
			typed = wordForNone(q.path)
			iv.reply(typed)
		case typed == "":
			return false, nil // what was answered before < stays
		}
		shown, doubt := iv.desk.readBack(q.path, typed)
		if shown != "" {
			iv.reply(shown)
		}
		if doubt && doubted != typed {
			doubted = typed
			iv.reply("The same once more leaves it as it is.")
			continue
		}
		iv.answers[q.path] = typed
		return false, nil
	}
}

// explainField is what ? shows: the field's meaning and an example.
func explainField(path string) (meaning, example string) {
	switch path {
	case newNameKey:
		path = "determinations.name"
	case newBy:
		return "Who gave the name on the label. Enter: the collector. -: nobody signed.", "K. Moldstad"
	case newNamed:
		return "When the name was given. Enter: the day of collecting. -: no date.", "1931"
	}
	f, ok := ledger.FieldAt(ledger.RecordKind, path)
	if !ok {
		return "No field of that name.", ""
	}
	return f.Meaning, f.Example
}

// keepDraft writes what was answered before Ctrl-C.
func (iv *interview) keepDraft(ctx context.Context) error {
	ctx = context.WithoutCancel(ctx)
	if len(iv.answers) == 0 {
		return errInterrupted
	}
	c, err := iv.place(true, func(c fileChange) error { return iv.keep(ctx, c) })
	if err != nil {
		return err
	}
	iv.desk.say("%s kept as a draft: %s", iv.number, c.path)
	iv.desk.next("blotter edit %s, to go on with it", iv.desk.brief(iv.number))
	return errInterrupted
}

// keep writes one new file without entering it.
func (iv *interview) keep(ctx context.Context, c fileChange) error {
	unlock, err := iv.desk.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if err := iv.desk.notOvertaken([]fileChange{c}); err != nil {
		return err
	}
	if err := iv.desk.write(ctx, []fileChange{c}); err != nil {
		return err
	}
	iv.desk.rememberLast(iv.number)
	return nil
}

// place makes the record and hands it to write. When another command took
// the number meanwhile, the sheet gets the next free one, and no answer is
// lost.
func (iv *interview) place(draft bool, write func(fileChange) error) (fileChange, error) {
	for {
		c, err := iv.desk.newRecord(iv.number, iv.answers, draft)
		if err != nil {
			return c, err
		}
		if err = write(c); !errors.Is(err, errOvertaken) {
			return c, err
		}
		taken := iv.number
		if iv.number, err = iv.free(); err != nil {
			return c, err
		}
		iv.desk.tell("%s", wrap(fmt.Sprintf("%s was given to another sheet meanwhile; this one is %s. Look at the number on the sheet.", taken, iv.number), iv.desk.Width, ""))
	}
}

// finish enters the new record or leaves it on disk, as the person likes.
func (iv *interview) finish(ctx context.Context) error {
	draft := iv.desk.opts.on("draft")
	keep := func(c fileChange) error { return iv.keep(context.WithoutCancel(ctx), c) }
	ok := !iv.desk.opts.on("hold") && !iv.desk.opts.on("dry-run")
	var err error
	if ok && !iv.desk.opts.on("yes") {
		ok, err = iv.a.yesNo(ctx, "Enter it now?", true)
		if err != nil && !errors.Is(err, errInterrupted) {
			return err
		}
	}
	if ok {
		var r entered
		c, err := iv.place(draft, func(c fileChange) (err error) {
			r, err = iv.desk.enter(ctx, entry{changes: []fileChange{c}})
			return err
		})
		if err == nil {
			iv.desk.rememberLast(iv.number)
			iv.desk.reportNew(r, []fileChange{c})
			return nil
		}
		iv.desk.tell("It stays on disk as typed.")
		if _, kept := iv.place(draft, keep); kept != nil {
			return kept
		}
		return err
	}
	if iv.desk.opts.on("dry-run") {
		iv.desk.report(entered{dry: true}, "")
		return nil
	}
	c, err := iv.place(draft, keep)
	if err != nil {
		return err
	}
	iv.desk.reportNew(entered{held: true}, []fileChange{c})
	return nil
}

// The last sheet that new made in this copy, for =. It is a convenience of
// this computer: when it is lost, the highest number serves.

func (d *desk) lastFile() string {
	if d.repo == nil {
		return ""
	}
	return filepath.Join(d.repo.StateDir(), "last-sheet")
}

func (d *desk) rememberLast(n ledger.Number) {
	if f := d.lastFile(); f != "" && os.MkdirAll(filepath.Dir(f), 0o777) == nil {
		_ = os.WriteFile(f, []byte(string(n)+"\n"), 0o666)
	}
}

// lastSheet is the record that = repeats; nil when there is none.
func (d *desk) lastSheet() *ledger.Record {
	n := ledger.Number("")
	if f := d.lastFile(); f != "" {
		if b, err := os.ReadFile(f); err == nil {
			n = ledger.Number(strings.TrimSpace(string(b)))
		}
	}
	if _, ok := d.find(n); !ok {
		all := d.numbers()
		if len(all) == 0 {
			return nil
		}
		n = all[len(all)-1]
	}
	_, _, r, err := d.record(n)
	if err != nil {
		return nil
	}
	return r
}
