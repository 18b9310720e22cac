package main

import (
	"context"

	"blotter/ledger"
	"blotter/render/label"
	"blotter/render/paper"
)

// exsiccataPrint are the labels of a printed set.
func exsiccataPrint() printKind {
	return printKind{
		Name: "exsiccata", Takes: "SHEETS", Says: "labels of a printed set, without the museum's number: the same for every set, as many as --copies says",
		Flags: []*flag{flagParts}, Blocks: exsiccataPapers, Again: printedAgain(exsiccataWords),
	}
}

// exsiccataPapers sets the labels of the sheets that are typed.
func exsiccataPapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	out := &smallPapers{Noun: "label", Place: paper.Size{W: label.Width, H: placeHeight(d.museum)}, Paper: "exsiccata"}
	opts, err := d.slipOptions()
	if err != nil {
		return nil, nil, err
	}
	records, refused, err := d.recordsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	made, no := label.Exsiccatae(ins, ledger.WithStandard(d.museum).Exsiccatae, label.Options{Parts: opts.Parts})
	refused = append(refused, d.refusedPapers(no)...)
	for _, m := range made {
		for _, b := range m.Blocks {
			out.Blocks = append(out.Blocks, smallPaper{Block: b, Of: m.Of})
		}
	}
	return out, refused, nil
}

// exsiccataWords are the labels of one record.
func exsiccataWords(d *desk, in *label.Input) (blocks []*paper.Block, refused []label.Refusal) {
	made, refused := label.Exsiccatae([]*label.Input{in}, ledger.WithStandard(d.museum).Exsiccatae, label.Options{Parts: mostParts})
	for _, m := range made {
		blocks = append(blocks, m.Blocks...)
	}
	return blocks, refused
}
