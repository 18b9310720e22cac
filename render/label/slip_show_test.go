package label

import (
	"testing"

	"blotter/render/paper"
)

// slipSamples are slips, type labels and an exsiccata of every kind, to be
// looked at: TRY=FILE.pdf go test -run ShowSlips.
const slipSamples = `specimen: LK7-0000482
entry: draft
determinations:
  - {name: Ranunculus acris L., by: Signe Rask, date: 2025-07-14, from: label}
  - {name: Ranunculus acris cf. subsp. pumilus, by: M. Ostrander, date: 2026-11-02, why: "Beak and receptacle hairs, against the regional flora"}
  - {name: Ranunculus acris cf. subsp. pumilus, kind: conf, by: S. Bannister, date: 2027-03-01}
  - {name: Ranunculus acris subsp. borealis (Regel) Nyman var. glabratus (Lange) Hyl. f. villosissimus (Neuman) Samuelsson, by: M. Ostrander, at: Fjellheim Museum, date: 2027-05-07, part: left-hand plant, source: "Flora Vossensis, 2nd ed., p. 214"}
  - {name: Salix lapponum L., kind: not, by: M. Ostrander, date: 2018-06-01, seen: picture}
  - {name: Ranunculus acris L., by: "M. Ostrander, S. Bannister & Þóra Ægisdóttir", at: Botanical Museum of the University of Fjellheim, date: 1931, seen: duplicate, why: "Achenes 2.8 mm with a short beak; stems hairy below; leaves cut to the base into five to seven lobes, petals clear yellow"}
  - {name: Bistorta vivipara (L.) Delarbre, kind: name-change, by: Tiril Aune, date: 2026-01-09, source: "regional flora, 2nd ed."}
types:
  - {status: isotype, of: Hieracium vossense Moldstad, published: "Flora Vossensis: 31 (1907)", basis: verified, by: M. Ostrander, date: 2018-06-01}
  - {status: isolectotype, of: Ranunculus acris subsp. borealis (Regel) Nyman var. glabratus (Lange) Hyl. f. villosissimus (Neuman) Samuelsson, published: "Botaniska Notiser 1923: 112; lectotype here designated: sheet of the right-hand plant, Raundal, July 1931", basis: label, part: right-hand plant, by: M. Ostrander, date: 2018-06-01}
  - {status: holotype, of: Hieracium vossense Moldstad, published: "Flora Vossensis: 31 (1907)", basis: suspected, by: M. Ostrander, date: 2018-06-01}
annotations:
  - {kind: material-removed, what: one leaf of the right-hand plant for extraction of DNA in the study of mountain buttercups by the University of Fjellheim, by: Tiril Aune, date: 2026-03-02}
  - {kind: photographed, by: Tiril Aune, date: 2026-03-05}
`

func TestShowSlips(t *testing.T) {
	in := pumilus(input(t, slipSamples, ""))
	blocks := slipsOf(t, in, SlipOptions{Parts: 2})
	types, refused := Types(in, SlipOptions{Parts: 2})
	for _, b := range types {
		slipSound(t, b)
	}
	if len(refused) > 0 {
		t.Errorf("%+v", refused)
	}
	blocks = append(blocks, types...)
	issued := input(t, sketch+issuedRecord, issuedSettings)
	made, _ := Exsiccatae([]*Input{issued}, issued.Habits.Exsiccatae, Options{})
	for _, m := range made {
		blocks = append(blocks, m.Blocks...)
	}
	show(t, append([]*paper.Block(nil), blocks...))
}
