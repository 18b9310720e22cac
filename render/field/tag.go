package field

import (
	"fmt"

	"blotter/render/paper"
)

// TagWidth and TagHeight are one tag: half an A4 wide, as labels and slips
// are, with three lines to write on. 8 tags make a column of 272 mm, on A4 and
// on Letter.
const (
	TagWidth  = 105.0
	TagHeight = 34.0
)

// Of a tag, in millimetres and points.
const (
	tagMargin = 5.0
	tagFirst  = 11.0 // the line of the number
	tagPitch  = 8.6
	tagNumber = 26.0
	tagMuseum = 7.5
	tagLabel  = 8.0
	tagSpace  = 2.5
)

// Tag is the paper that goes with a plant into its newspaper fold: number and
// collector printed, the rest for a pencil. Its parts are named by what they
// ask.
func (s Sheet) Tag(number string) (*paper.Block, error) {
	if r, lacks := paper.Lacks(paper.Run{Text: s.Museum + s.Collector + number}); lacks {
		return nil, fmt.Errorf("the typeface has no %s", paper.LetterName(r))
	}
	b := &paper.Block{W: TagWidth, H: TagHeight}
	right := TagWidth - tagMargin
	from := s.tagNumber(b, number)
	s.tagHead(b, from, right)
	y := tagFirst + tagPitch
	s.tagLine(b, y, tagMargin, tagMargin+34, "date")
	s.tagLine(b, y, tagMargin+34+tagSpace, right, "name")
	y += tagPitch
	fold := s.foldWidth()
	s.tagLine(b, y, tagMargin, right-fold-tagSpace, "locality")
	x := right - fold
	x = s.tagLine(b, y, x, x+s.tagRoom(saysPress, 8), saysPress) + tagSpace
	x = s.tagLine(b, y, x, x+s.tagRoom(saysFold, 8), saysFold) + tagSpace
	s.tagLine(b, y, x, right, saysOf)
	return b, nil
}

// tagNumber sets the number large, or leaves a line for it, and says where it
// ends.
func (s Sheet) tagNumber(b *paper.Block, number string) float64 {
	const most = 46.0
	if number == "" {
		return s.tagLine(b, tagFirst, tagMargin, tagMargin+40, "number") + tagSpace
	}
	run := paper.Run{Style: paper.Style{Size: tagNumber}, Text: number}
	if w := paper.Width(run); w > most {
		run.Size *= most / w
	}
	t := paper.Text{X: tagMargin, Y: tagFirst, Runs: []paper.Run{run}}
	b.Add(t)
	b.Parts = append(b.Parts, paper.Part{Name: "number", Box: paper.Box{X: tagMargin, Y: 2, W: paper.Width(run), H: tagFirst - 2}, Text: number})
	return tagMargin + paper.Width(run) + 2*tagSpace
}

// tagHead sets the museum and the collector to the right of the number.
func (s Sheet) tagHead(b *paper.Block, from, right float64) {
	museum := fitted(paper.Run{Style: paper.Style{Size: tagMuseum}, Text: s.Museum}, right-from)
	b.Add(paper.Text{X: right - paper.Width(museum), Y: 5, Runs: []paper.Run{museum}})
	b.Parts = append(b.Parts, paper.Part{Name: "museum", Box: paper.Box{X: from, Y: 2, W: right - from, H: 3.6}, Text: s.Museum})
	if s.Collector == "" {
		s.tagLine(b, tagFirst, from, right, "collector")
		return
	}
	who := fitted(paper.Run{Style: paper.Style{Size: 12}, Text: s.Collector}, right-from)
	b.Add(paper.Text{X: right - paper.Width(who), Y: tagFirst, Runs: []paper.Run{who}})
	b.Parts = append(b.Parts, paper.Part{Name: "collector", Box: paper.Box{X: from, Y: 5.8, W: right - from, H: tagFirst - 5.8}, Text: s.Collector})
}

// fitted is the run made smaller until it is not wider than width.
func fitted(r paper.Run, width float64) paper.Run {
	if w := paper.Width(r); w > width {
		r.Size *= width / w
	}
	return r
}

func (s Sheet) tagRoom(word string, room float64) float64 {
	return paper.Width(paper.Run{Style: paper.Style{Size: tagLabel}, Text: s.Language.Say(word)}) + labelGap + room
}

// foldWidth is the room for press, fold and of how many.
func (s Sheet) foldWidth() float64 {
	return s.tagRoom(saysPress, 8) + s.tagRoom(saysFold, 8) + s.tagRoom(saysOf, 8) + 2*tagSpace
}

// tagLine asks a question, with a line to write on at y, and says where it
// ends.
func (s Sheet) tagLine(b *paper.Block, y, from, to float64, word string) float64 {
	run := paper.Run{Style: paper.Style{Size: tagLabel}, Text: s.Language.Say(word)}
	b.Add(paper.Text{X: from, Y: y - underBase, Runs: []paper.Run{run}})
	b.Add(paper.Rule{X1: from + paper.Width(run) + labelGap, Y1: y, X2: to, Y2: y, Width: hairline})
	high := tagPitch
	if y == tagFirst {
		high = 5.2
		if word == "number" {
			high = tagFirst - 2
		}
	}
	b.Parts = append(b.Parts, paper.Part{Name: word, Box: paper.Box{X: from, Y: y - high, W: to - from, H: high}, Text: run.Text})
	return to
}
