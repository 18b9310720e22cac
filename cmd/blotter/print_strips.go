package main

import (
	"cmp"
	"context"

	"blotter/ledger"
	"blotter/render/label"
	"blotter/render/paper"
)

// flagBarcode is the kind of barcode on strips.
var flagBarcode = &flag{Name: "barcode", Value: "KIND", Help: "of strips: datamatrix, qr or code128; otherwise what the museum's settings say"}

// stripsPrint are the strips with the barcodes of sheets.
func stripsPrint() printKind {
	return printKind{
		Name: "strips", Takes: "SHEETS", Says: "strips with the barcode of each sheet, its number and the museum",
		Flags: []*flag{flagBarcode}, Blocks: stripPapers,
	}
}

// stripPapers sets the strips of the sheets that are typed.
func stripPapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	s, err := d.strip()
	if err != nil {
		return nil, nil, err
	}
	ns, err := d.sheetsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	out := &smallPapers{Noun: "strip", Place: paper.Size{W: s.W, H: s.H}, Paper: "strips"}
	var refused []refusedPaper
	for _, n := range ns {
		if err := ctx.Err(); err != nil {
			return nil, nil, err
		}
		_, _, r, err := d.record(n)
		if err != nil {
			return nil, nil, err
		}
		if no := d.notToPrint(n, r); no.Code == "sheet-withdrawn" {
			refused = append(refused, no)
			continue
		}
		b, no := s.Of(n)
		if no != nil {
			refused = append(refused, d.refusedPapers([]label.Refusal{*no})...)
			continue
		}
		out.Blocks = append(out.Blocks, smallPaper{Block: b, Of: n})
	}
	return out, refused, nil
}

// strip is how strips are made: --barcode, and the settings.
func (d *desk) strip() (label.Strip, error) {
	set := ledger.WithStandard(d.museum).Strips
	s := label.Strip{Kind: paper.BarcodeKind(cmp.Or(d.opts.text(flagBarcode.Name), set.Code.Text)),
		W: millimetresOr(set.Width, 52.5), H: millimetresOr(set.Height, 12), Module: millimetresOr(set.Module, 0.508), Museum: d.museum.Name.Text}
	for _, k := range paper.BarcodeKinds {
		if s.Kind == k {
			return s, nil
		}
	}
	return s, misuse("--barcode %s is no kind of barcode: datamatrix, qr or code128", s.Kind)
}
