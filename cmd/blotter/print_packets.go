package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/render/label"
	"blotter/render/paper"
)

var flagFold = &flag{Name: "fold", Help: "of packets: each label on a sheet that is folded into the packet"}

// packetsPrint are the labels of packets, and the packets themselves.
func packetsPrint() printKind {
	return printKind{
		Name: "packets", Takes: "SHEETS", Says: "labels of packets of fragments, mosses and seeds; --fold: sheets to be folded into packets",
		Flags: []*flag{flagFold}, Blocks: packetPapers,
	}
}

// packetPapers sets the labels of the packets of the sheets that are typed:
// one for each part that is a packet, otherwise one of fragments.
func packetPapers(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
	set := ledger.WithStandard(d.museum).Packets
	height := millimetresOr(set.LabelHeight, 34)
	out := &smallPapers{Noun: "packet label", Place: paper.Size{W: label.Width, H: height}, Paper: "packets"}
	fold := d.opts.on(flagFold.Name)
	var sheet label.Fold
	if fold {
		var err error
		if sheet, err = d.packetFold(set); err != nil {
			return nil, nil, err
		}
		out.Noun, out.Place = "packet", paper.Size{W: sheet.W, H: sheet.H}
		out.Said = []string{"Lay the print face down. Fold 1 over, then 2 from both sides, then 3 over all; the label is in front."}
		if sheet.Cut > 0 {
			out.Said = append(out.Said, "Cut along the unbroken lines first.")
		}
	}
	records, refused, err := d.recordsToPrint(ctx, words)
	if err != nil {
		return nil, nil, err
	}
	ins, err := d.paperInputs(ctx, records)
	if err != nil {
		return nil, nil, err
	}
	for _, in := range ins {
		for _, p := range packetsOf(in.Record) {
			b, no := label.PacketLabel(in, p, height)
			if no != nil {
				refused = append(refused, d.refusedPapers([]label.Refusal{*no})...)
				continue
			}
			if fold {
				if b, err = label.PacketSheet(sheet, b, foldWords(sheet)); err != nil {
					return nil, nil, misuse("%v", err).try("habits.packets of blotter.yaml: width, height, label_height")
				}
			}
			out.Blocks = append(out.Blocks, smallPaper{Block: b, Of: in.Number()})
		}
	}
	return out, refused, nil
}

// packetFold is the sheet of a packet: the paper without the strip of its foot.
func (d *desk) packetFold(set ledger.Packets) (label.Fold, error) {
	size, err := d.paperSize()
	if err != nil {
		return label.Fold{}, err
	}
	f, err := label.NewFold(size.W, size.H-footStrip, millimetresOr(set.Width, 140), millimetresOr(set.Height, 90))
	if err != nil {
		return f, misuse("%s: %v", sizeWords(size), err).try("Larger paper: --paper A3", "Smaller packets: habits.packets.width and habits.packets.height of blotter.yaml")
	}
	return f, nil
}

// footStrip is what the foot of a printed sheet takes of its height, in
// millimetres; a packet is cut off above it.
const footStrip = 10.0

func foldWords(f label.Fold) []string {
	var out []string
	if f.Cut > 0 {
		out = append(out, "Cut along the unbroken lines.")
	}
	return append(out, "Lay this side down. Fold along 1, then 2 from both sides, then 3 over all.", "Packet of "+measures(f.Front.W, f.Front.H)+".")
}

// packetsOf are the packets of a record: its parts that are called so and are
// not gone, otherwise one of fragments.
func packetsOf(r *ledger.Record) []label.Packet {
	var all []label.Packet
	for _, p := range r.Parts {
		if isPacket(p.Part.Text) && !p.Fate.Set() {
			all = append(all, label.Packet{What: p.Part.Text, Number: p.Number.Text})
		}
	}
	if len(all) == 0 {
		all = []label.Packet{{}}
	}
	return all
}

// isPacket reports whether a part lies in a packet, by the words of its name.
func isPacket(part string) bool {
	part = strings.ToLower(part)
	for _, w := range []string{"packet", "envelope", "capsule", "fragment"} {
		if strings.Contains(part, w) {
			return true
		}
	}
	return false
}
