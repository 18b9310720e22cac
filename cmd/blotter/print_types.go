package main

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/work/printed"
	"blotter/render/label"
	"blotter/render/paper"
)

// typesPrint are the labels that say of what name a sheet is a type.
func typesPrint() printKind {
	return printKind{
		Name: "types", Takes: "SHEETS", Says: "type labels, the status first and how it is known in words; black only: print them on red paper if they are to be red",
		Flags: []*flag{flagParts}, Blocks: typePapers, Again: printedAgain(typeWords),
	}
}

// typePapers sets the type labels of the sheets that are typed.
func typePapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	out := &smallPapers{Noun: "type label", Place: paper.Size{W: label.Width, H: label.SlipHeight}, Paper: "types"}
	opts, err := d.slipOptions()
	if err != nil {
		return nil, nil, err
	}
	records, refused, err := d.recordsWith(ctx, words, func(r *ledger.Record) bool { return len(r.Types) > 0 })
	if err != nil {
		return nil, nil, err
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	for _, in := range ins {
		o, err := d.slipsLeft(ctx, opts, in.Record, printed.Types)
		if err != nil {
			return nil, nil, err
		}
		made, no := label.Types(in, o)
		refused = append(refused, d.refusedPapers(no)...)
		out.Blocks = append(out.Blocks, smallOf(in, made)...)
	}
	return out, refused, nil
}

// typeWords are all type labels of one record.
func typeWords(_ *desk, in *label.Input) ([]*paper.Block, []label.Refusal) {
	return label.Types(in, label.SlipOptions{Parts: mostParts})
}
