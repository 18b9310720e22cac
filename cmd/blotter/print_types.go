package main

import (
	"context"

	"blotter/ledger"
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
	ns, err := d.sheetsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	var records []*ledger.Record
	var refused []refusedPaper
	for _, n := range ns {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		_, _, r, err := d.record(n)
		switch {
		case err != nil:
			return nil, nil, err
		case len(r.Types) == 0:
			continue
		}
		if no := d.notToPrint(n, r); no.Code == "sheet-withdrawn" {
			refused = append(refused, no)
			continue
		}
		records = append(records, r)
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	for _, in := range ins {
		made, no := label.Types(in, opts)
		refused = append(refused, d.refusedSlips(no)...)
		out.Blocks = append(out.Blocks, smallOf(in, made)...)
	}
	return out, refused, nil
}

// typeWords are all type labels of one record.
func typeWords(_ *desk, in *label.Input) ([]*paper.Block, []label.Refusal) {
	return label.Types(in, label.SlipOptions{Parts: mostParts})
}
