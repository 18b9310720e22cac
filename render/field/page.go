package field

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/render/paper"
)

// Margins of a page. The left one is wide enough for holes or a seam.
const (
	marginLeft   = 16.0
	marginRight  = 9.0
	marginTop    = 8.0
	marginBottom = 7.0
	footSize     = 7.5
	footPitch    = 3.2
	footGap      = 2.5
)

// Pages are the pages of a field book, as many gatherings on a page as have
// room, or most if that is not 0.
func (s Sheet) Pages(size paper.Size, most int) (*paper.Paper, error) {
	width := size.W - marginLeft - marginRight
	if r, lacks := paper.Lacks(s.printed()...); lacks {
		return nil, fmt.Errorf("the typeface has no %s", paper.LetterName(r))
	}
	head := s.head(width)
	foot := s.foot(width)
	high := size.H - marginTop - marginBottom - float64(len(head))*linePitch - apart - footGap - float64(len(foot))*footPitch
	f := s.form(width)
	if w := f.widest(); w > width {
		return nil, fmt.Errorf("paper of %s is too narrow for a field form: a line of it needs %.0f mm, and there are %.0f", measures(size), w, width)
	}
	each := int((high + apart) / (f.height(linePitch) + apart))
	if each < 1 {
		return nil, fmt.Errorf("paper of %s is too low for a field form: a gathering needs %.0f mm, and there are %.0f", measures(size), f.height(linePitch), high)
	}
	if most > 0 {
		each = min(each, most)
	}
	room := (high - float64(each-1)*apart) / float64(each)
	pitch := f.fill(room)
	p := &paper.Paper{Title: s.title(), Lang: s.Language.Code}
	pages := (len(s.Numbers) + each - 1) / each
	for at := range pages {
		page := paper.Page{Size: size}
		page.Put(s.drawHead(head, width, at+1, pages), marginLeft, marginTop)
		y := marginTop + float64(len(head))*linePitch + apart
		for i := at * each; i < min((at+1)*each, len(s.Numbers)); i++ {
			page.Put(f.draw(&s, s.Numbers[i], pitch), marginLeft, y)
			y += room + apart
		}
		b := &paper.Block{W: width}
		for i, l := range foot {
			b.Add(paper.Text{X: 0, Y: float64(i) * footPitch, Runs: l.Runs})
		}
		page.Put(b, marginLeft, size.H-marginBottom-float64(len(foot)-1)*footPitch-0.5)
		p.Pages = append(p.Pages, page)
	}
	return p, nil
}

func measures(size paper.Size) string {
	if size.Name != "" {
		return size.Name
	}
	return fmt.Sprintf("%g x %g mm", size.W, size.H)
}

// printed are the words that a ledger brings.
func (s *Sheet) printed() []paper.Run {
	all := []string{s.Museum, s.Collector, strings.Join(s.Numbers, " "), strings.Join(s.Levels, " ")}
	return []paper.Run{{Text: strings.Join(all, " ")}}
}

func (s *Sheet) title() string {
	return strings.Join(strings.Fields(s.Museum+" "+s.Collector), " ")
}

// widest is the least width of the widest cell.
func (f *form) widest() float64 {
	w := 0.0
	for _, b := range f.body {
		for _, c := range b.cells {
			if !c.q.long {
				w = max(w, c.least+2*frameSide)
			}
		}
	}
	for _, b := range f.head {
		for _, c := range b.cells {
			w = max(w, c.least+numberRoom+cellGap)
		}
	}
	return w
}

// head is what is asked once a page: beside the museum's name, and below it.
func (s *Sheet) head(width float64) []*band {
	var title, rest []*cell
	for i := range questions {
		switch q := &questions[i]; {
		case q.title:
			title = append(title, s.cell(q))
		case q.Once:
			c := s.cell(q)
			if q.Key == "collector" {
				c.value = s.Collector
			}
			rest = append(rest, c)
		}
	}
	room := 0.0
	for _, c := range title {
		room += c.least + cellGap
	}
	first := bands(title, room-cellGap, false)[0]
	for _, c := range first.cells {
		c.x += width - room + cellGap
	}
	return append([]*band{first}, bands(rest, width, false)...)
}

func (s *Sheet) drawHead(head []*band, width float64, page, pages int) *paper.Block {
	b := &paper.Block{W: width, H: float64(len(head)) * linePitch}
	museum := []paper.Run{{Style: paper.Style{Size: labelSize, Spread: 0.04}, Text: strings.ToUpper(s.Museum)},
		{Style: labelStyle, Text: "    " + strconv.Itoa(page) + " / " + strconv.Itoa(pages)}}
	b.Add(paper.Text{X: 0, Y: linePitch - underBase, Runs: museum})
	for i, line := range head {
		line.draw(b, 0, linePitch*float64(i+1), linePitch, linePitch)
	}
	return b
}

// foot is the reminder below every page.
func (s *Sheet) foot(width float64) []paper.Line {
	style := paper.Style{Size: footSize}
	return paper.Set([]paper.Run{{Style: style, Text: s.Language.Say(saysPencil) + " " + s.Language.Say(saysBack) + " " + s.Language.Say(saysSafety)}}, width)
}
