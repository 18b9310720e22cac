package label

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// SlipHeight is the height of a slip and of a type label in millimetres, and
// of a place on a sheet of them. A slip that is as wide as a label (Width).
const SlipHeight = 27.0

// SlipOptions are what is asked of a run of slips.
type SlipOptions struct {
	// Parts is how many places high a slip may be whose words do not fit one;
	// 0 and 1: it is refused.
	Parts int
	// Printed is the record as it was when its slips were last printed; what
	// it said then gets no slip again. nil: all get one.
	Printed *ledger.Record
	// Labelled is the record as it was when its label was last printed here;
	// the opinion that stands on that label gets no slip. nil: none was.
	Labelled *ledger.Record
}

// Slips sets the slips of one record: one for each opinion and each act that
// its history tells and that no slip or label on the sheet tells already, the
// oldest first. Entries made by mistake get none, nor do questions. Block.Of
// is the number.
func Slips(in *Input, o SlipOptions) ([]*paper.Block, []Refusal) {
	events := slipsFor(in, o)
	var blocks []*paper.Block
	var refused []Refusal
	for _, e := range events {
		b, r := newSlip(in).event(e).fit(o.Parts)
		if r != nil {
			refused = append(refused, *r)
			continue
		}
		blocks = append(blocks, b)
	}
	return blocks, refused
}

// CountSlips is how many slips Slips would make, whether they can be set or
// not. Of the reading it needs the opinions alone.
func CountSlips(in *Input, o SlipOptions) int { return len(slipsFor(in, o)) }

// slipsFor are the entries of a record that get a slip.
func slipsFor(in *Input, o SlipOptions) []slipEvent {
	events := slipEvents(in)
	if o.Printed != nil {
		events = unprinted(events, slipEvents(in.as(o.Printed)))
	}
	if o.Labelled != nil {
		was := in.as(o.Labelled)
		set := setting{in: was, set: &was.Habits.Labels}
		if given := set.chooseWords().given; given != nil {
			events = unprinted(events, []slipEvent{{key: opinionKey(given)}})
		}
	}
	return events
}

// as is the input of the record as it once was, its opinions alone read.
func (in *Input) as(r *ledger.Record) *Input {
	was := *in
	was.Record, was.Reading, was.On = r, reading.Opinions(r, reading.ConventionsOf(in.Museum)), 0
	return &was
}

func opinionKey(d *ledger.Determination) string {
	return keyOf(opinion.KindOf(d.Kind.Text).String(), d.Name, d.By, d.At, d.Date, d.Seen, d.Part, d.Source, d.Why)
}

// slipEvent is one entry of a record that gets a slip.
type slipEvent struct {
	list string // determinations or annotations
	at   int    // in the list, from 0
	key  string // its words: equal for two entries that say the same
}

// slipEvents are the entries of a record that get a slip, oldest first;
// annotations follow the opinions.
func slipEvents(in *Input) []slipEvent {
	var out []slipEvent
	set := &in.Habits.Slips
	for _, i := range in.Reading.Chain.Order {
		d := &in.Record.Determinations[i]
		from := d.From.Text
		if d.Mistake.Set() || from == "slip" || from == "label" {
			continue
		}
		if opinion.KindOf(d.Kind.Text) == opinion.NameChange && set.NameChanges.Text == "none" {
			continue
		}
		out = append(out, slipEvent{"determinations", i, opinionKey(d)})
	}
	wanted := leafTexts(set.Annotations)
	for i := range in.Record.Annotations {
		a := &in.Record.Annotations[i]
		if a.From.Text != "slip" && a.From.Text != "label" && a.Kind.Text != "question" && slices.Contains(wanted, a.Kind.Text) {
			out = append(out, slipEvent{"annotations", i, keyOf(a.Kind.Text, a.What, a.By, a.Date)})
		}
	}
	return out
}

func keyOf(kind string, words ...ledger.Leaf) string {
	var b strings.Builder
	b.WriteString(kind)
	for _, w := range words {
		b.WriteByte(0)
		b.WriteString(w.Text)
	}
	return b.String()
}

// unprinted leaves out the events that were there when the slips were printed.
// They are known by their words, not by their places: an older slip that is
// found later is inserted before them. Of two that say the same each counts.
func unprinted(now, then []slipEvent) []slipEvent {
	had := map[string]int{}
	for _, e := range then {
		had[e.key]++
	}
	var out []slipEvent
	for _, e := range now {
		if had[e.key] > 0 {
			had[e.key]--
			continue
		}
		out = append(out, e)
	}
	return out
}
