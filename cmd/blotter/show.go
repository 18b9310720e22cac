package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

func showCommand() *command {
	return &command{
		Name: "show", Family: famAsk, Synopsis: "SHEETS|WORK|KIND",
		Says: "Shows sheets or works: the words as written, what is read in them, how they stand.",
		Examples: []example{
			{"blotter show 482", "one sheet"},
			{"blotter show 482 --at 2025-12-31", "as it was entered at the end of that day"},
			{"blotter show loan-2026-004", "a work: its lines, what it holds and where each thing is"},
		},
		Args:  []argument{{"SHEETS|WORK|KIND", "482, 480..489, 482,485 or -; works by their numbers; loan: all loans; work: all that needs a hand"}},
		Flags: joinFlags([]*flag{flagPath, flagAt, flagOn, flagNoCache}, sheetFlags, askFlags),
		Kin:   []string{"history", "find", "edit"}, Complete: "sheets",
		Run: runShow,
	}
}

func runShow(ctx context.Context, c *call) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.asksForWork(c.args) {
		return d.showWorks(ctx, c.args)
	}
	var versions []sheetVersion
	if c.opts.text("at") != "" {
		for _, typed := range c.args {
			v, err := d.versionOfSheet(ctx, typed)
			if err != nil {
				return err
			}
			versions = append(versions, v)
		}
	} else {
		ns, _, err := d.sheets(ctx, c.args)
		if err != nil {
			return err
		}
		for _, n := range ns {
			path, src, r, err := d.record(n)
			if err != nil {
				return err
			}
			versions = append(versions, sheetVersion{number: n, path: path, src: src, record: r})
		}
	}
	if len(versions) == 0 {
		return misuse("which sheets?").try("blotter show 482")
	}
	for i, v := range versions {
		switch {
		case c.opts.on("path"):
			c.say("%s", v.path)
		case c.asksJSON():
			told, err := d.whereabouts(ctx, v.number)
			if err != nil {
				return err
			}
			if err := c.printJSON(d.recordJSON(v, told)); err != nil {
				return err
			}
		default:
			if i > 0 {
				c.say("")
			}
			told, err := d.whereabouts(ctx, v.number)
			if err != nil {
				return err
			}
			d.showSheet(v, told.lines()...)
		}
	}
	return nil
}

// shownAlways are the fields whose absence is said too.
var shownAlways = map[string]bool{"collector": true, "coll_no": true, "date": true, "place.country": true, "place.locality": true}

// showSheet prints one record: words first, what is read in them after.
func (d *desk) showSheet(v sheetVersion, places ...string) {
	r := v.record
	if to, gone := history.Retired(r); gone {
		f := r.Fate[0]
		d.say("%s goes on as %s since %s: %s", v.number, to, d.shownDate(f.Date.Text), joinNonEmpty(", ", f.Why.Text, f.By.Text))
		d.next("blotter show %s", d.briefOf(to))
		return
	}
	read := reading.Of(r, reading.ConventionsOf(d.museum))
	s := d.standing(r)
	d.say("%s  %s", v.number, s.shown)
	if s.line != "" {
		d.say("  %s", s.line)
	}
	if s.notBy != "" {
		d.say("  no name stands: the last was taken back by %s", s.notBy)
	}
	for _, n := range s.steps {
		d.say("%s", hang("  renamed, the plant was not looked at: ", joinNonEmpty(", ", n.of, n.by, d.shownIfAny(n.date), n.source), d.Width))
	}
	for _, line := range append(places, d.stateLines(r, read)...) {
		d.say("  %s", wrap(line, d.Width-2, "  "))
	}
	var rows [][]string
	have := map[string]string{}
	for _, kv := range ledger.Flatten(r) {
		have[kv.Key] = kv.Value
	}
	for _, f := range ledger.Fields() {
		if f.Path == "specimen" || inEntries(f.Path) || strings.HasPrefix(f.Path, "read.") {
			continue
		}
		value := have[f.Path]
		switch f.Kind {
		case ledger.Texts:
			value = strings.Join(listWords(have, f.Path), ", ")
		case ledger.Text:
		default:
			continue
		}
		if value == "" && !shownAlways[f.Path] && handOf(f.Path, read) == nil {
			continue
		}
		rows = append(rows, []string{fieldLabel(f.Path), d.wordsAndReading(f.Path, value, read)})
		if f.Path == "place.locality" {
			rows = append(rows, d.reckonedRow(read)...)
		}
	}
	d.table("  ", rows)
	d.showLists(r)
	d.say("%s", hang("  ", midsLine(d.midsOf(read)), d.Width))
}

// shownIfAny is a date in words, "" for none.
func (d *desk) shownIfAny(date string) string {
	if date == "" {
		return ""
	}
	return d.shownDate(date)
}

// stateLines are what a reader must know before the words: fate, stage,
// types, withheld place.
func (d *desk) stateLines(r *ledger.Record, read *reading.Reading) []string {
	var lines []string
	if read.Fate != "" {
		f := r.Fate[len(r.Fate)-1]
		lines = append(lines, "Withdrawn: "+joinNonEmpty(", ", read.Fate, f.To.Text, d.shownDate(f.Date.Text))+"; "+f.Why.Text)
	}
	if !read.Full() {
		lines = append(lines, "Not ready to publish: "+r.Entry.Text)
	}
	for _, t := range read.Types {
		if !t.Mistake {
			lines = append(lines, "Type: "+t.String())
		}
	}
	if r.Sensitive.Why.Set() {
		lines = append(lines, "The exact place is not to become public: "+r.Sensitive.Why.Text)
	}
	for _, c := range read.Cautions {
		words := c.Words
		if c.Treated() {
			words = "treated: may carry mercury or arsenic. Gloves, a ventilated place, wash your hands; your own rules and licensed practice come first"
			switch {
			case c.Perhaps:
				words += " (assumed, since its age is not known)"
			case c.Assumed:
				words += " (assumed from its age)"
			}
		}
		lines = append(lines, "Caution: "+words)
	}
	return lines
}

// fieldLabel is a field's name for a person.
func fieldLabel(path string) string {
	if rest, ok := strings.CutPrefix(path, "place."); ok {
		path = rest
	}
	return strings.ReplaceAll(strings.ReplaceAll(path, ".", " "), "_", " ")
}

// wordsAndReading are the words of a field, and what is read in them.
func (d *desk) wordsAndReading(path, words string, read *reading.Reading) string {
	absence, hand := reading.AbsenceOf(words), handOf(path, read)
	if words == "" && hand == nil {
		return absence.String()
	}
	out := words
	if words != "" && absence != reading.Present {
		out += " (" + absence.String() + ")"
	}
	switch path {
	case "date":
		if s := read.Date.Written.String(); s != "" && s != words && !read.Date.FromHand() {
			out += "   read as " + s
		}
	case "place.position":
		return strings.TrimPrefix(out+positionRead(words, read.Position)+d.handRead(hand)+sharesBelow(read.Position.Estimate), "\n")
	case "place.elevation":
		if shown, _ := readHeight(words); shown != "" && absence == reading.Present {
			out += "   " + shown
		}
	case "depth":
		if shown, _ := lengthSaid(words, places.ReadDepth(words), "depth"); shown != "" {
			out += "   " + shown
		}
	}
	return strings.TrimPrefix(out+d.handRead(hand), "\n")
}

// handOf is a person's reading of a field; nil for none.
func handOf(path string, read *reading.Reading) *ledger.ReadValue {
	switch path {
	case "date":
		return read.Date.ByHand
	case "place.position":
		return read.Position.ByHand
	case "place.elevation":
		return read.Elevation.ByHand
	case "place.country":
		return read.Country.ByHand
	}
	return nil
}

// handRead is a person's reading, on a line of its own; "" for none.
func (d *desk) handRead(hand *ledger.ReadValue) string {
	if hand == nil {
		return ""
	}
	is := joinNonEmpty(", ± ", hand.Is.Text, strings.TrimLeft(hand.Uncertainty.Text, "± "))
	return "\nread as " + is + " by " + joinNonEmpty(": ", joinNonEmpty(", ", hand.By.Text, d.shownDate(hand.Date.Text), prefixedAny("from ", hand.From.Text)), hand.Why.Text)
}

// showLists prints the lists of entries: earlier names, types, notes.
func (d *desk) showLists(r *ledger.Record) {
	if n := len(r.Determinations); n > 1 {
		d.say("  %s; all of them: blotter history %s", count(n, "opinion"), d.brief(d.numberOf(r)))
	}
	for _, a := range r.Annotations {
		d.say("%s", hang("  "+a.Kind.Text+": ", joinNonEmpty(", ", a.What.Text, a.By.Text, d.shownDate(a.Date.Text)), d.Width))
	}
	for _, x := range r.Duplicates {
		d.say("%s", hang("  duplicates: ", joinNonEmpty(", ", prefixedAny("made ", x.Made.Text), prefixedAny("on hand ", x.OnHand.Text),
			prefixedAny("sent to ", x.Sent.Text), x.Date.Text, prefixedAny("there ", x.Number.Text)), d.Width))
	}
	for _, x := range r.Images {
		d.say("%s", hang("  picture: ", joinNonEmpty(", ", x.File.Text, x.Shows.Text), d.Width))
	}
	for _, x := range r.Writings {
		d.say("%s", hang("  "+joinNonEmpty(" ", x.OnSheet.Text, "to the letter")+": ", x.Text.Text, d.Width))
	}
	for _, x := range r.Sic {
		d.say("%s", hang("  stands so: ", joinNonEmpty(", ", x.Code.Text, x.Why.Text, x.By.Text), d.Width))
	}
}

func prefixedAny(what, word string) string {
	if word == "" {
		return ""
	}
	return what + word
}
