package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/ledger/work/printed"
	"blotter/render/label"
	"blotter/render/paper"
)

// slipsPrint are the slips of opinions and acts that no slip or label on the
// sheet tells already.
func slipsPrint() printKind {
	return printKind{
		Name: "slips", Takes: "SHEETS", Says: "determination slips, one for each opinion that did not come from a slip or label; and of what was removed, photographed, seen",
		Flags: []*flag{flagParts}, Blocks: slipPapers, Again: printedAgain(slipWords),
	}
}

// slipPapers sets the slips of the sheets that are typed.
func slipPapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	out := &smallPapers{Noun: "slip", Place: paper.Size{W: label.Width, H: label.SlipHeight}, Paper: "slips"}
	opts, err := d.slipOptions()
	if err != nil {
		return nil, nil, err
	}
	records, refused, err := d.recordsWith(ctx, words, func(r *ledger.Record) bool { return len(r.Determinations)+len(r.Annotations) > 0 })
	if err != nil {
		return nil, nil, err
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	for _, in := range ins {
		o, err := d.slipsLeft(ctx, opts, in.Record, printed.Slips)
		if err != nil {
			return nil, nil, err
		}
		made, no := label.Slips(in, o)
		refused = append(refused, d.refusedPapers(no)...)
		out.Blocks = append(out.Blocks, smallOf(in, made)...)
	}
	return out, refused, nil
}

// slipWords are all slips of one record.
func slipWords(_ *desk, in *label.Input) ([]*paper.Block, []label.Refusal) {
	return label.Slips(in, label.SlipOptions{Parts: mostParts})
}

// slipOptions are those that are typed.
func (d *desk) slipOptions() (o label.SlipOptions, err error) {
	o.Parts, err = d.number(flagParts, 1)
	return o, err
}

// slipsLeft adds what --unprinted and --changed leave out: what was printed
// in the same words already. A slip that was corrected is another.
func (d *desk) slipsLeft(ctx context.Context, o label.SlipOptions, r *ledger.Record, paper string) (label.SlipOptions, error) {
	if !d.opts.on("unprinted") && !d.opts.on("changed") {
		return o, nil
	}
	var err error
	if o.Printed, err = d.asPrinted(ctx, paper, r); err == nil && paper == printed.Slips {
		o.Labelled, err = d.asPrinted(ctx, printed.Labels, r)
	}
	return o, err
}

// smallOf are the papers of one record.
func smallOf(in *label.Input, made []*paper.Block) []smallPaper {
	var out []smallPaper
	for _, b := range made {
		out = append(out, smallPaper{Block: b, Of: in.Number()})
	}
	return out
}

// refusedPapers are refusals with the number as people type it.
func (d *desk) refusedPapers(no []label.Refusal) []refusedPaper {
	var out []refusedPaper
	for _, r := range no {
		out = append(out, refusedPaper{Of: r.Of, Code: r.Code, Why: r.Why, Try: strings.ReplaceAll(r.Try, string(r.Of), d.brief(r.Of))})
	}
	return out
}
