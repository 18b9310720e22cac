package main

import (
	"context"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
	"blotter/render/label"
	"blotter/render/paper"
)

// labelsPrint are the labels that go onto the sheets.
func labelsPrint() printKind {
	return printKind{
		Name: "labels", Takes: "SHEETS", Says: "specimen labels, to be cut from a sheet; of old sheets a transcript, never a replacement",
		Flags: []*flag{flagOn, flagDrafts, flagParts}, Blocks: labelPapers, Again: printedAgain(labelWords),
	}
}

// labelPapers sets the labels of the sheets that are typed.
func labelPapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	parts, err := d.number(flagParts, 1)
	if err != nil {
		return nil, nil, err
	}
	records, refused, err := d.recordsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	ins, err := d.labelInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	made, no := label.Labels(ins, label.Options{Parts: parts})
	refused = append(refused, d.refusedPapers(no)...)
	out := &smallPapers{Noun: "label", Place: paper.Size{W: label.Width, H: placeHeight(d.museum)}, Paper: "labels"}
	copies, err := d.copies()
	if err != nil {
		return nil, nil, err
	}
	var again []label.Made
	if len(no) == 0 && copies > 1 {
		again, _ = label.Labels(copiesOf(ins), label.Options{Parts: parts})
	}
	for i, m := range made {
		for k, b := range m.Blocks {
			s := smallPaper{Block: b, Of: m.Of}
			if len(again) > 0 && k < len(again[i].Blocks) {
				s.Again = again[i].Blocks[k]
			}
			out.Blocks = append(out.Blocks, s)
		}
	}
	out.Said = labelsSaid(ins, made)
	return out, refused, nil
}

// labelWords are the words of the labels of one record, in however many parts.
func labelWords(d *desk, in *label.Input) (blocks []*paper.Block, refused []label.Refusal) {
	made, refused := label.Labels(sheetsOfOne(in), label.Options{Parts: mostParts})
	for _, m := range made {
		blocks = append(blocks, m.Blocks...)
	}
	return blocks, refused
}

// placeHeight is the height of a place on the sheet: that of the lowest label.
func placeHeight(m *ledger.Museum) float64 {
	for _, l := range ledger.WithStandard(m).Labels.Heights {
		if h, err := strconv.ParseFloat(l.Text, 64); err == nil {
			return h
		}
	}
	return 68
}

// labelInputs are the labels to be set: one for each sheet that a specimen is
// mounted on.
func (d *desk) labelInputs(ctx context.Context, records []*ledger.Record) ([]*label.Input, error) {
	var on dates.Day
	if d.opts.given(flagOn.Name) {
		day, err := d.onDay()
		if err != nil {
			return nil, err
		}
		on = day
	}
	all, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, err
	}
	var out []*label.Input
	for _, in := range all {
		in.On = on
		out = append(out, sheetsOfOne(in)...)
	}
	return out, nil
}

// sheetsOfOne are the labels of one specimen: one for each sheet that it is
// mounted on.
func sheetsOfOne(in *label.Input) []*label.Input {
	sheets := sheetsOf(in.Record)
	out := make([]*label.Input, max(sheets, 1))
	for i := range out {
		one := *in
		if sheets > 1 {
			one.Sheet, one.Sheets = i+1, sheets
		}
		out[i] = &one
	}
	return out
}

// sheetsOf is on how many sheets a specimen is mounted: its parts that say so.
func sheetsOf(r *ledger.Record) int {
	n := 0
	for _, p := range r.Parts {
		if strings.HasPrefix(strings.ToLower(p.Part.Text), "sheet") && !p.Fate.Set() {
			n++
		}
	}
	return n
}

// copiesOf are the same labels as they stand on duplicates.
func copiesOf(ins []*label.Input) []*label.Input {
	out := make([]*label.Input, len(ins))
	for i, in := range ins {
		one := *in
		one.Copy = true
		out[i] = &one
	}
	return out
}

// labelsSaid tells what whoever prints should know.
func labelsSaid(ins []*label.Input, made []label.Made) []string {
	var said []string
	old, held := 0, 0
	aged := map[ledger.Number]bool{}
	for _, in := range ins {
		if slices.ContainsFunc(in.Reading.Cautions, func(c reading.Caution) bool { return c.Assumed }) {
			aged[in.Number()] = true
		}
		if in.HasOwnLabel() {
			old++
		}
		if in.Withheld {
			held++
		}
	}
	small, parts := 0, 0
	for _, m := range made {
		if m.Size < made[0].Size || m.Size < 9.5 {
			small++
		}
		if len(m.Blocks) > 1 {
			parts++
		}
	}
	if small > 0 {
		said = append(said, count(small, "label")+" in smaller type, since the words are many.")
	}
	if parts > 0 {
		said = append(said, count(parts, "label")+" in several parts; all parts go onto the sheet.")
	}
	if old > 0 {
		said = append(said, count(old, "label")+" of an old sheet, headed as a transcript: glue it beside the old label, which stays.")
	}
	if held > 0 {
		said = append(said, count(held, "label")+" with an exact place that is not to be published; it says so.")
	}
	if n := len(aged); n > 0 {
		said = append(said, "Caution: "+thousands(n)+" of these sheets may carry old poisons (mercury, arsenic) by "+map[bool]string{true: "its", false: "their"}[n == 1]+
			" age; a label bears only what the record says of it. Gloves, moving air, wash your hands. "+ownRules)
	}
	return said
}
