package document

import (
	"fmt"
	"time"

	"blotter/render/page"
	"blotter/render/paper"
)

// Options are what the pages of a document need beside its words.
type Options struct {
	Size     paper.Size
	Day      time.Time // of the revision: kept in the file
	Revision string    // in the foot: "revision 8c1d0fe"
	Lang     string    // "" is en
}

// smallest is the least width and height of a page, in millimetres.
const smallest = 90

// Paper is the document as pages. Nothing stands outside the margins and no
// word is lost: a word wider than its column is broken at a letter, a row
// higher than a page goes on over the next. A letter that the typeface lacks
// is an error that names it.
func (d *Document) Paper(o Options) (*paper.Paper, error) {
	if o.Size.W < smallest || o.Size.H < smallest {
		return nil, fmt.Errorf("set %q: paper of %g x %g mm is less than %d mm wide or high", d.Title, o.Size.W, o.Size.H, smallest)
	}
	if d.Wide && o.Size.W < o.Size.H {
		o.Size.W, o.Size.H = o.Size.H, o.Size.W
	}
	s := &setter{doc: d, size: o.Size}
	s.margin = min(20, o.Size.W*0.095)
	s.width = o.Size.W - 2*s.margin
	pieces := s.pieces()
	if s.lacks != nil {
		return nil, s.lacks
	}
	p := &paper.Paper{Title: page.Visible(d.Title), Lang: o.Lang, Day: o.Day}
	if p.Lang == "" {
		p.Lang = "en"
	}
	f := &flow{setter: s, paper: p}
	for i := range pieces {
		f.place(pieces, i)
	}
	f.feet(o.Revision)
	if s.lacks != nil {
		return nil, s.lacks
	}
	return p, nil
}

// Room above and below the words of a page, in millimetres.
const (
	headRoom = 18.0
	footRoom = 20.0
)

// flow puts pieces on pages.
type flow struct {
	*setter
	paper    *paper.Paper
	y        float64 // where the next piece stands
	used     bool    // something stands on this page
	together int     // pieces before this index stand where the one before them does
	letters  []letter
}

// letter is pages that are counted together.
type letter struct {
	first int
	title string
}

func (f *flow) bottom() float64 { return f.size.H - footRoom }

func (f *flow) newPage() {
	f.paper.Pages = append(f.paper.Pages, paper.Page{Size: f.size})
	f.y, f.used = headRoom, false
}

// place puts piece i where it belongs.
func (f *flow) place(all []piece, i int) {
	p := &all[i]
	if p.page {
		if len(f.paper.Pages) == 0 || f.used || f.doc.Letters {
			f.newPage()
		}
		if len(f.letters) == 0 || f.doc.Letters {
			f.letters = append(f.letters, letter{len(f.paper.Pages) - 1, p.title})
		}
	}
	if p.block == nil {
		if p.foot {
			f.toFoot(all, i)
		}
		return
	}
	if i >= f.together {
		f.keep(all, i)
	}
	if f.used && f.y+p.before+p.block.H > f.bottom()+slack {
		f.newPage()
		f.headAgain(p)
	}
	if f.used {
		f.y += p.before
	}
	f.draw(p.block)
}

// slack is less than any paper can show.
const slack = 1e-6

// keep begins a new page when piece i and those that stay with it do not fit
// on this one, but would on the next.
func (f *flow) keep(all []piece, i int) {
	need, j := 0.0, i
	for ; j < len(all) && all[j].block != nil; j++ {
		if j > i && all[j].page {
			break
		}
		need += all[j].before + all[j].block.H
		if !all[j].glue {
			j++
			break
		}
	}
	f.together = j
	p := &all[i]
	if !f.used || f.y+need <= f.bottom()+slack {
		return
	}
	again := 0.0
	if p.heads != nil {
		again = p.heads.H
	}
	if again+need-p.before > f.bottom()-headRoom+slack {
		return // no page has so much room
	}
	f.newPage()
	f.headAgain(p)
}

// headAgain repeats the heads of the table whose row begins a page.
func (f *flow) headAgain(p *piece) {
	if p.heads != nil {
		f.draw(p.heads)
	}
}

func (f *flow) draw(b *paper.Block) {
	f.paper.Pages[len(f.paper.Pages)-1].Put(b, f.margin, f.y)
	f.y += b.H
	f.used = true
}

// toFoot draws further empty rows as far as the page goes, with room kept for
// what still belongs on it.
func (f *flow) toFoot(all []piece, i int) {
	after := 0.0
	for _, p := range all[i+1:] {
		if p.page {
			break
		}
		if p.block != nil {
			after += p.before + p.block.H
		}
	}
	end := f.bottom()
	if after < end-headRoom-40 {
		end -= after
	}
	for f.y+all[i].heads.H <= end+slack {
		f.draw(all[i].heads)
	}
}

// feet writes what stands below every page: what it is, from which revision,
// which page of how many.
func (f *flow) feet(revision string) {
	for k, l := range f.letters {
		end := len(f.paper.Pages)
		if k+1 < len(f.letters) {
			end = f.letters[k+1].first
		}
		for i := l.first; i < end; i++ {
			f.foot(&f.paper.Pages[i], l.title, revision, fmt.Sprintf("%d of %d", i-l.first+1, end-l.first))
		}
	}
}

// foot writes as many words of the title as there is room for.
func (f *flow) foot(p *paper.Page, title, revision, number string) {
	y := f.size.H - 11
	p.Items = append(p.Items, paper.Rule{X1: f.margin, Y1: y - 4.6, X2: f.margin + f.width, Y2: y - 4.6, Width: 0.1})
	right := []paper.Run{{Style: footStyle, Text: number}}
	at := f.margin + f.width - paper.Width(right...)
	p.Items = append(p.Items, paper.Text{X: at, Y: y, Runs: right})
	if revision != "" {
		words := f.run(footStyle, revision)
		if w := paper.Width(words...); w < (f.width-20)/2 {
			at -= w + 8
			p.Items = append(p.Items, paper.Text{X: at, Y: y, Runs: words})
		}
	}
	if lines := paper.Set(f.run(footStyle, title), at-6-f.margin); len(lines) > 0 && lines[0].Width <= at-6-f.margin {
		p.Items = append(p.Items, paper.Text{X: f.margin, Y: y, Runs: lines[0].Runs})
	}
}
