package main

import (
	"slices"

	"blotter/ledger"
	"blotter/render/label"
	"blotter/render/mount"
	"blotter/render/paper"
)

// pencilHeight is the line above the label for what is written by hand, in
// millimetres (own judgement).
const pencilHeight = 7.0

// usualPieces are those of a template: label, line for the pencil, one slip, a
// packet, the strip.
func (d *desk) usualPieces() []mount.Piece {
	return append([]mount.Piece{
		{Kind: mount.Label, W: label.Width, H: placeHeight(d.museum)},
		{Kind: mount.Pencil, W: label.Width, H: pencilHeight},
		{Kind: mount.Slip, W: label.Width, H: label.SlipHeight},
		d.packet(""),
	}, d.stripPieces()...)
}

func (d *desk) packet(says string) mount.Piece {
	set := ledger.WithStandard(d.museum).Packets
	return mount.Piece{Kind: mount.Packet, W: millimetresOr(set.Width, 140), H: millimetresOr(set.Height, 90), Says: says}
}

// stripPieces is the strip with the barcode, when sheets get one.
func (d *desk) stripPieces() []mount.Piece {
	habits := ledger.WithStandard(d.museum)
	if habits.Mounting.Strip.Text == "none" {
		return nil
	}
	return []mount.Piece{{Kind: mount.Strip, W: millimetresOr(habits.Strips.Width, 52.5), H: millimetresOr(habits.Strips.Height, 12)}}
}

// piecesOf are the pieces of one sheet, each of the size that it is printed in.
// A specimen on several sheets has label, pencil line and barcode on each, the
// rest on the first (common practice, no source).
func (d *desk) piecesOf(in *label.Input, labels []*paper.Block) []mount.Piece {
	pencil := mount.Piece{Kind: mount.Pencil, W: label.Width, H: pencilHeight, Says: joinNonEmpty(", ", in.Record.Specimen.Text, sheetWords(in))}
	all := []mount.Piece{pencil}
	own := mount.Label
	if in.HasOwnLabel() {
		own = mount.Transcript
		all = append(all, mount.Piece{Kind: mount.OldLabel, W: label.Width, H: placeHeight(d.museum), Assumed: true})
	}
	for _, b := range labels {
		all = append(all, mount.Piece{Kind: own, W: b.W, H: b.H})
	}
	if len(labels) == 0 {
		all = append(all, mount.Piece{Kind: own, W: label.Width, H: placeHeight(d.museum), Assumed: true})
	}
	all = append(all, d.stripPieces()...)
	if in.Sheet > 1 {
		return all
	}
	all = append(all, glued(in)...)
	for _, k := range []struct {
		kind mount.Kind
		of   func(*label.Input, label.SlipOptions) ([]*paper.Block, []label.Refusal)
	}{{mount.TypeLabel, label.Types}, {mount.Slip, label.Slips}} {
		made, refused := k.of(in, label.SlipOptions{Parts: mostParts})
		for _, b := range made {
			all = append(all, mount.Piece{Kind: k.kind, W: b.W, H: b.H, Says: partOf(b, "signature")})
		}
		for range refused { // it is not ready; its place is kept
			all = append(all, mount.Piece{Kind: k.kind, W: label.Width, H: label.SlipHeight, Assumed: true})
		}
	}
	for _, p := range packetsOnSheet(in.Record) {
		all = append(all, d.packet(p.What))
	}
	return all
}

// sheetWords is "Sheet 1 of 2" in the language of the label; "": there is one.
func sheetWords(in *label.Input) string {
	if in.Sheets < 2 {
		return ""
	}
	return label.Fill(label.LanguageOf(in.Habits.Labels.Language.Text).SheetOf, itoa(in.Sheet), itoa(in.Sheets))
}

// setOf are the labels of a sheet as they are printed; what the record still
// lacks changes no size. None: they cannot be set.
func setOf(in *label.Input) []*paper.Block {
	draft := *in
	draft.Draft = true
	made, refused := label.Labels([]*label.Input{&draft}, label.Options{Parts: mostParts})
	if len(made) == 0 || len(refused) > 0 {
		return nil
	}
	return made[0].Blocks
}

// glued are the slips that the sheet bears already, by its record; their size
// is taken to be that of ours.
func glued(in *label.Input) []mount.Piece {
	var all []mount.Piece
	add := func(says string) {
		all = append(all, mount.Piece{Kind: mount.Slip, W: label.Width, H: label.SlipHeight, Says: says, Assumed: true})
	}
	for _, i := range in.Reading.Chain.Order {
		if o := &in.Record.Determinations[i]; o.From.Text == "slip" && !o.Mistake.Set() {
			add(joinNonEmpty(", ", o.By.Text, o.Date.Text))
		}
	}
	for i := range in.Record.Annotations {
		if a := &in.Record.Annotations[i]; a.From.Text == "slip" {
			add(joinNonEmpty(", ", a.By.Text, a.Date.Text))
		}
	}
	return all
}

// packetsOnSheet are the packets that are not kept elsewhere.
func packetsOnSheet(r *ledger.Record) []label.Packet {
	elsewhere := 0
	var all []label.Packet
	for _, p := range r.Parts {
		switch {
		case !isPacket(p.Part.Text) || p.Fate.Set():
		case p.Where.Text != "":
			elsewhere++
		default:
			all = append(all, label.Packet{What: p.Part.Text, Number: p.Number.Text})
		}
	}
	if len(all) == 0 && elsewhere == 0 {
		return packetsOf(r)
	}
	return all
}

// mountHead is what the guide says of a sheet.
func mountHead(in *label.Input, labels []*paper.Block) mount.Head {
	h := mount.Head{Language: in.Habits.Labels.Language.Text, Number: in.Record.Specimen.Text, Of: sheetWords(in)}
	for _, b := range labels {
		if name := partOf(b, "name"); name != "" && len(h.Name) == 0 {
			h.Name = label.Name(name, 12, 10)
		}
		for _, p := range b.Parts {
			if p.Name == "caution" && !slices.Contains(h.Cautions, p.Text) {
				h.Cautions = append(h.Cautions, p.Text)
			}
		}
	}
	return h
}

// partOf is the words of a part of a paper; "": it has none.
func partOf(b *paper.Block, name string) string {
	for _, p := range b.Parts {
		if p.Name == name {
			return p.Text
		}
	}
	return ""
}
