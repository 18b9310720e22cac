package label

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// typeStatusSize is the size of the status in capitals, in points.
const typeStatusSize = 10.0

// Types sets the type labels of one record: one for each statement of type
// status that still holds, and one for each that says that it is no type.
// Entries made by mistake get none. Red is for the paper, not the ink: the
// status stands in words.
func Types(in *Input, o SlipOptions) ([]*paper.Block, []Refusal) {
	var blocks []*paper.Block
	var refused []Refusal
	for _, i := range typesFor(in, o) {
		t := &in.Reading.Types[i]
		b, r := newSlip(in).typed(i, t).fit(o.Parts)
		if r != nil {
			refused = append(refused, *r)
			continue
		}
		blocks = append(blocks, b)
	}
	return blocks, refused
}

// typesFor are the places of the entries that get a label. What Printed said
// in the same words gets none again.
func typesFor(in *Input, o SlipOptions) []int {
	had := map[string]int{}
	if o.Printed != nil {
		was := reading.Of(o.Printed, reading.ConventionsOf(in.Museum))
		for i := range was.Types {
			if t := &was.Types[i]; labelled(t) {
				had[typeKey(t)]++
			}
		}
	}
	var out []int
	for i := range in.Reading.Types {
		t := &in.Reading.Types[i]
		if !labelled(t) {
			continue
		}
		if key := typeKey(t); had[key] > 0 {
			had[key]--
			continue
		}
		out = append(out, i)
	}
	return out
}

// labelled reports whether an entry gets a label: it holds, or says that the
// sheet is no type.
func labelled(t *reading.Type) bool { return !t.Mistake && (!t.Ended || t.Denied) }

func typeKey(t *reading.Type) string {
	g := t.Given
	return keyOf(g.Status.Text, g.Of, g.Published, g.Part, g.Basis, g.By, g.Date)
}

// typed takes in what a type entry says.
func (s *slip) typed(at int, t *reading.Type) *slip {
	g := t.Given
	s.field, s.kind, s.noun = "types."+itoa(at+1), typeLabel, "types"
	s.head = []paper.Run{
		{Style: paper.Style{Size: typeStatusSize, Spread: headSpread}, Text: strings.ToUpper(s.status(t)), Keep: true},
		{Style: paper.Style{Size: slipUpright}, Text: " ", Keep: true},
		{Style: paper.Style{Size: slipUpright}, Text: s.lang.TypeOf},
		{Style: paper.Style{Size: slipUpright}, Text: " "},
	}
	s.head = append(s.head, Name(s.named(g.Of.Text), slipName, slipUpright)...)
	s.say("published", g.Published)
	s.say("part", g.Part)
	if !t.Denied {
		s.phrase("basis", s.basis(g))
	}
	if g.Basis.Text == "verified" {
		s.mark = s.lang.VerifiedBy
	}
	s.who, s.date = []ledger.Leaf{g.By}, s.dated(g.Date)
	return s
}

// status is the word for the kind of type; one that is only suspected says so.
func (s *slip) status(t *reading.Type) string {
	words := strings.Join(strings.Fields(t.Given.Status.Text), " ")
	if words == "" {
		words = "type"
	}
	if _, doubted := t.Doubted(); t.Suspected && !doubted && !t.Denied {
		return Fill(s.lang.PossibleType, words)
	}
	return words
}

// basis is how the status is known, in words; "" when somebody verified it.
func (s *slip) basis(g *ledger.TypeEntry) string {
	switch g.Basis.Text {
	case "verified":
		return ""
	case "label":
		return s.lang.SaidOnLabel
	case "picture":
		return s.lang.SeenInPicture
	case "suspected":
		return s.lang.SuspectedOnly
	}
	return s.lang.NotVerified
}
