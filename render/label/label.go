package label

import (
	"cmp"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// Measures of the specimen label in millimetres and points (interface.md 3,
// own design). A slip is as wide, so that the stack on a sheet has one edge.
const (
	Width  = 105.0 // of the label
	sideIn = 5.0   // from the sides to the text
	topIn  = 4.0   // above and below the text

	headSize, headRow, headRule = 8.5, 3.6, 1.0 // rule 4.6 below the top of the text
	headSpread                  = 0.04          // between capitals, of an em
	bodyGap                     = 1.0           // below the rule
	nameSize, nameUpright       = 12.5, 10.0
	nameRow                     = 5.5
	detSize, detIn              = 9.0, 5.0
	cautionSize                 = 9.0
	nameGap                     = 0.8 // between the name and the place
	sectionGap                  = 1.0 // above habitat and other sections of a subject of their own
	footGap                     = 0.6 // least room above the rule of the foot
	footAbove                   = 0.8 // rule to collector
	collectorSize, collectorRow = 10.5, 4.6
	footBetween                 = 0.4
	footSize, footRow           = 8.5, 3.6 // so that the rule is 9.4 above the foot of the text
	columnGap                   = 4.0      // least room between words at the left and at the right
	thin, frameWidth            = 0.2, 0.3
	framePad                    = 0.9
)

// Options are what is asked of a run of labels.
type Options struct {
	// Parts is into how many labels one that fits none of the heights may be
	// divided; 0 and 1: it is refused.
	Parts int
}

// Made is the label of one record: one block, or its parts in their order.
type Made struct {
	Of     ledger.Number
	Blocks []*paper.Block
	Size   float64 // points of the text
	Height float64 // millimetres
}

// Labels sets the labels of a run, in the order of ins. All labels of one
// gathering (collector and number) take one size. When any is refused the
// labels of the others are of no use: a run is printed whole or not at all.
func Labels(ins []*Input, o Options) ([]Made, []Refusal) {
	var refused []Refusal
	all := make([]*setting, len(ins))
	most := map[string]int{}
	for i, in := range ins {
		s := newSetting(in)
		if rs := s.refusals(); len(rs) > 0 {
			refused = append(refused, rs...)
			continue
		}
		var r *Refusal
		if s.symbol, r = s.barcode(); r != nil {
			refused = append(refused, *r)
			continue
		}
		if r := s.fit(max(o.Parts, 1)); r != nil {
			refused = append(refused, *r)
			continue
		}
		all[i] = s
		key := in.gathering()
		most[key] = max(most[key], s.at)
	}
	made := make([]Made, 0, len(ins))
	for i, s := range all {
		if s == nil {
			continue
		}
		if at := most[ins[i].gathering()]; at != s.at {
			s.at, s.laid = at, nil
		}
		st := s.steps[s.at]
		made = append(made, Made{Of: ins[i].Number(), Blocks: s.draw(), Size: st.size, Height: st.height})
	}
	return made, refused
}

// gathering is the same for two records exactly when collector and number
// are; a record without a number is a gathering of its own.
func (in *Input) gathering() string {
	r := in.Record
	if reading.AbsenceOf(r.CollNo.Text) != reading.Present {
		return "\x00" + r.Specimen.Text
	}
	return r.Collector.Text + "\x00" + r.CollNo.Text
}

// setting is a label being set.
type setting struct {
	in    *Input
	lang  *Language
	set   *ledger.Labels
	name  chosen
	steps []step
	at    int // the step it is set in
	parts int // into how many labels it is divided

	symbol *symbol // the barcode; nil: none

	laid   *layout  // at the step in which it fits
	bodies [][]para // of each part there
}

func newSetting(in *Input) *setting {
	s := &setting{in: in, set: &in.Habits.Labels, lang: LanguageOf(in.Habits.Labels.Language.Text), parts: 1}
	if in.Issued != nil {
		s.set = issuedSections(s.set)
	}
	s.name = s.choose()
	s.steps = stepsOf(s.set)
	return s
}

// Lines are the words of a block as they stand on it, a line an entry; words
// at the left and at the right of a line are parted by three spaces.
func Lines(b *paper.Block) []string {
	type placed struct {
		y, x float64
		text string
	}
	var all []placed
	for _, it := range b.Items {
		t, ok := it.(paper.Text)
		if !ok || t.Turn != 0 {
			continue
		}
		words := paper.Line{Runs: t.Runs}.Text()
		all = append(all, placed{t.Y, t.X, words})
	}
	slices.SortStableFunc(all, func(a, b placed) int {
		if d := cmp.Compare(a.y, b.y); d != 0 {
			return d
		}
		return cmp.Compare(a.x, b.x)
	})
	var lines []string
	last := -1.0
	for _, p := range all {
		if len(lines) > 0 && p.y-last < 0.01 {
			lines[len(lines)-1] += "   " + p.text
			continue
		}
		lines, last = append(lines, p.text), p.y
	}
	return lines
}

// number is a number of the settings; standard when it is none.
func number(l ledger.Leaf, standard float64) float64 {
	if v, err := strconv.ParseFloat(strings.TrimSpace(l.Text), 64); err == nil && v > 0 {
		return v
	}
	return standard
}
