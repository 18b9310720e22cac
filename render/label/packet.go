package label

import (
	"fmt"

	"blotter/ledger"
	"blotter/render/paper"
)

// Codes of refusals of packet labels.
const (
	CodePacketTooLong = "packet-too-long"
	CodePacketLetter  = "packet-letter-lacking"
	CodePacketSize    = "packet-size"
)

// Measures of the packet label in millimetres and points (own design).
const (
	packetIn      = 3.0
	packetWhat    = 9.0
	packetWhatRow = 3.8
	packetName    = 12.0
	packetUpright = 10.0
	packetNameRow = 5.0
	packetText    = 9.0
	packetTextRow = 3.8
	packetLast    = 9.5
	packetLastRow = 4.0
	packetGap     = 0.7
)

// Packet is what a packet holds.
type Packet struct {
	What   string // words of the record for the part: "fruits"; "": fragments
	Number string // that the part bears itself; "": none
}

// PacketLabel is the small label that goes onto a packet, as wide as a
// specimen label and height millimetres high: what lies in it and of which
// sheet, so that both find together again; name, place, collector, date.
func PacketLabel(in *Input, p Packet, height float64) (*paper.Block, *Refusal) {
	s := newSetting(in)
	refuse := func(code, why, try string) *Refusal {
		return &Refusal{Of: in.Number(), Code: code, Why: why, Try: try}
	}
	number := in.Record.Specimen.Text
	what := Fill(s.lang.FragmentsOf, number)
	if p.What != "" {
		what = p.What + " (" + number + ")"
	}
	st := paper.Style{Size: packetText}
	name := paper.Set(Name(s.name.words, packetName, packetUpright), Measure)
	if len(name) == 0 {
		name = paper.Set([]paper.Run{{Style: paper.Style{Size: packetUpright}, Text: s.lang.Indet}}, Measure)
	}
	corner := p.Number // the part's own number, else whose it is
	if corner == "" {
		corner = in.Museum.Name.Text
	}
	right := rightCell("part", corner, paper.Style{Size: packetWhat})
	head := paper.Set(prose(what, paper.Style{Size: packetWhat}, Measure), Measure-paper.Width(right.runs...)-columnGap)
	place := paper.Set(prose(placeShort(in.Record, s.lang), st, Measure), Measure)
	foot := packetFoot(in)
	for _, lines := range [][]paper.Line{head, {{Runs: right.runs}}, name, place, foot} {
		if wide := paper.Overflow(lines, Measure); wide != "" {
			return nil, refuse(CodePacketTooLong, wide+" is wider than a packet label", "Look at the words: blotter edit "+number)
		}
		for _, l := range lines {
			if r, lacks := paper.Lacks(l.Runs...); lacks {
				return nil, refuse(CodePacketLetter, "the typeface has no letter "+paper.LetterName(r), "If it is a slip of typing: blotter edit "+number)
			}
		}
	}
	rule := height - packetIn - packetLastRow*float64(len(foot)) - packetGap
	need := packetIn + packetWhatRow*float64(len(head)) + packetNameRow*float64(len(name)) + 2*packetGap
	if need+packetTextRow*float64(len(place)) > rule+tiny {
		return nil, refuse(CodePacketTooLong, fmt.Sprintf("its words need %.0f mm; a packet label is %.4g mm high", need+packetTextRow*float64(len(place))+height-rule, height),
			"Nothing is cut from it. Higher ones: habits.packets.label_height of blotter.yaml")
	}
	b := &paper.Block{W: Width, H: height, Of: number}
	d := drawing{b: b}
	y := packetIn
	stack := func(part string, lines []paper.Line, size, row float64) {
		for _, l := range lines {
			d.text(part, sideIn, y+baseline(size, row), l.Runs)
			y += row
		}
	}
	if corner != "" {
		d.text(right.part, sideIn+right.x, y+baseline(packetWhat, packetWhatRow), right.runs)
	}
	stack("what", head, packetWhat, packetWhatRow)
	y += packetGap
	stack("name", name, packetName, packetNameRow)
	stack("place", place, packetText, packetTextRow)
	b.Add(paper.Rule{X1: sideIn, Y1: rule, X2: sideIn + Measure, Y2: rule, Width: slipRule})
	y = rule + packetGap
	if date := in.Record.Date.Text; date != "" {
		c := rightCell("date", date, paper.Style{Size: packetLast})
		d.text(c.part, sideIn+c.x, y+float64(len(foot)-1)*packetLastRow+baseline(packetLast, packetLastRow), c.runs)
	}
	stack("collector", foot, packetLast, packetLastRow)
	return b, nil
}

// packetFoot is the collector with the number, beside the date.
func packetFoot(in *Input) []paper.Line {
	r := in.Record
	st := paper.Style{Size: packetLast}
	runs := append(prose(r.Collector.Text, st, Measure), paper.Run{Style: st, Text: " ", Keep: true}, paper.Run{Style: st, Text: r.CollNo.Text, Keep: true})
	return paper.Set(runs, Measure-paper.Width(paper.Run{Style: st, Text: r.Date.Text})-columnGap)
}

// placeShort is the place from large to small without the locality, whose
// words stand on the sheet.
func placeShort(r *ledger.Record, lang *Language) string {
	words := ""
	for _, l := range []ledger.Leaf{r.Place.Country, r.Place.Province, r.Place.District} {
		if present(l) {
			words = joined(lang.Colon()+" ", words, l.Text)
		}
	}
	return words
}
