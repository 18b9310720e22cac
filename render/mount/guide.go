package mount

import (
	"cmp"
	"slices"

	"blotter/render/label"
	"blotter/render/paper"
)

// Head is what the guide says beside the places.
type Head struct {
	Language string      // a code of the label's languages
	Number   string      // the specimen's; "": a template for any
	Name     []paper.Run // of the plant
	Of       string      // "Sheet 1 of 2"; "": there is one
	Cautions []string    // of the record
	From     string      // where the page comes from: "14 July 2026, revision 3f2a91c"
}

// guide is a plan being drawn. Everything is laid down in coordinates of the
// sheet; each page takes what it shows.
type guide struct {
	Plan
	Head
	words *language
	tiles *tiling
	rules []paper.Rule
	texts []paper.Text
}

// Guide draws the plan at true size: on paper as large as the sheet one page, a
// template; on smaller paper pages to be joined. Letters that the typeface
// lacks, and paper that is too small, are errors.
func (p Plan) Guide(size paper.Size, h Head) ([]paper.Page, error) {
	var boxes []paper.Box
	for _, one := range p.Placed {
		boxes = append(boxes, one.Box)
	}
	t, err := tileSheet(p.Sheet, size, boxes)
	if err != nil {
		return nil, err
	}
	g := &guide{Plan: p, Head: h, words: languageOf(h.Language), tiles: t}
	g.outline()
	g.field()
	for _, one := range p.Placed {
		g.piece(one)
	}
	if err := g.lacking(); err != nil {
		return nil, err
	}
	var marks []cross
	if !t.whole {
		marks = t.crosses(g.ruleBoxes())
	}
	var pages []paper.Page
	for i := range t.tiles {
		pages = append(pages, g.page(i, marks))
	}
	return pages, nil
}

// Widths of lines and lengths of dashes.
const (
	sheetLine = 0.2
	pieceLine = 0.35
	thinLine  = 0.15
	looseDash = 2.0
	plantDash = 0.6
	trimDash  = 1.0
)

// frame lays a rectangle down as four lines, so that a page can show a part.
func (g *guide) frame(b paper.Box, width, dash float64) {
	h := width / 2
	if dash > 0 {
		h = 0
	}
	line := func(x1, y1, x2, y2 float64) {
		g.rules = append(g.rules, paper.Rule{X1: x1, Y1: y1, X2: x2, Y2: y2, Width: width, Dash: dash})
	}
	line(b.X-h, b.Y, b.Right()+h, b.Y)
	line(b.X-h, b.Bottom(), b.Right()+h, b.Bottom())
	line(b.X, b.Y, b.X, b.Bottom())
	line(b.Right(), b.Y, b.Right(), b.Bottom())
}

// outline is the edges of the sheet, where the paper is larger.
func (g *guide) outline() {
	line := func(x1, y1, x2, y2 float64) {
		g.rules = append(g.rules, paper.Rule{X1: x1, Y1: y1, X2: x2, Y2: y2, Width: sheetLine})
	}
	left, top, right, bottom := true, true, true, true
	if g.tiles.whole {
		at, page := g.tiles.tiles[0].at, g.tiles.page
		left, right = at.X >= printerEdge, page.W-at.Right() >= printerEdge
		top, bottom = at.Y >= printerEdge, page.H-at.Bottom() >= printerEdge
	}
	if left {
		line(0, 0, 0, g.H)
	}
	if right {
		line(g.W, 0, g.W, g.H)
	}
	if top {
		line(0, 0, g.W, 0)
	}
	if bottom {
		line(0, g.H, g.W, g.H)
	}
}

// piece is the frame of one piece and its words.
func (g *guide) piece(p Placed) {
	dash := 0.0
	if p.Kind == Pencil || p.Assumed {
		dash = looseDash
	}
	h := pieceLine / 2
	g.frame(paper.Box{X: p.X + h, Y: p.Y + h, W: p.Box.W - pieceLine, H: p.Box.H - pieceLine}, pieceLine, dash)
	name, says := capital(g.words.of(p.Kind)), p.Says
	if p.Kind == Pencil {
		name, says = name+g.words.Colon+" "+cmp.Or(says, g.words.Number), ""
	}
	lines := []textLine{{runs: styled(10.5, name)}}
	if says != "" {
		lines = append(lines, textLine{runs: styled(9, says)})
	}
	size := onPaper(p.Box.W, p.Box.H)
	lines = append(lines, textLine{runs: styled(8.5, size+", "+g.words.where(g.Plan.Sheet, p.Box, p.hangs(g.Plan.Sheet)))})
	switch {
	case p.Kind == OldLabel:
		lines = append(lines, textLine{runs: styled(8.5, g.words.KeepLabel)})
	case p.Kind == Label || p.Kind == Transcript:
		lines = append(lines, textLine{runs: styled(8.5, g.words.GlueLabel)})
	}
	if p.Assumed {
		lines = append(lines, textLine{runs: styled(8.5, capital(g.words.Assumed)+".")})
	}
	in := p.Box
	if p.No == 1 && g.tiles.whole && in.W >= controlLength+2*inset+7 && in.H >= 40 {
		in.H -= controlRoom
		g.control(in.X+inset+7, in.Bottom()+controlRoom-6)
	}
	g.numbered(in, number(float64(p.No)), lines, size)
}

// The line that must measure 50 mm, since a printer may shrink what it prints.
const controlLength, controlRoom = 50.0, 13.0

func controlItems(x, y float64, words string) (rules []paper.Rule, text paper.Text) {
	rules = append(rules, paper.Rule{X1: x, Y1: y, X2: x + controlLength, Y2: y, Width: 0.2})
	for _, at := range []float64{x + 0.1, x + controlLength - 0.1} {
		rules = append(rules, paper.Rule{X1: at, Y1: y - 0.9, X2: at, Y2: y + 0.9, Width: 0.2})
	}
	return rules, paper.Text{X: x, Y: y + 3.2, Runs: styled(7, words)}
}

func (g *guide) control(x, y float64) {
	rules, text := controlItems(x, y, g.words.Measure)
	g.rules, g.texts = append(g.rules, rules...), append(g.texts, text)
}

// field is the room for the plant, the plant in its middle, and what is said of
// the whole.
func (g *guide) field() {
	if g.Free.W <= 0 {
		return
	}
	g.frame(g.Free, thinLine, 0)
	var lines []textLine
	add := func(size float64, words string) {
		if words != "" {
			lines = append(lines, textLine{runs: styled(size, capital(words))})
		}
	}
	title := g.words.Title
	if g.Number != "" {
		title = g.Number
	}
	lines = append(lines, textLine{runs: styled(18, title)})
	if len(g.Name) > 0 {
		lines = append(lines, textLine{runs: g.Name})
	}
	add(10.5, g.Of)
	if n := len(lines) - 1; n >= 0 {
		lines[n].apart = true
	}
	add(9, label.Fill(g.words.Sheet, onPaper(g.W, g.H)))
	add(9, label.Fill(g.words.Room, onPaper(g.Free.W, g.Free.H)))
	if g.Plant.W > 0 {
		add(9, label.Fill(g.words.Plant, onPaper(g.Plant.W, g.Plant.H)))
	}
	for _, w := range g.warnings(g.words, onPaper) {
		lines = append(lines, textLine{runs: styled(9, capital(w)+"."), framed: true})
	}
	for _, w := range g.Cautions {
		lines = append(lines, textLine{runs: styled(9, w), framed: true})
	}
	add(8.5, g.words.GluePlant)
	in := g.Free
	if g.Plant.W > 0 && g.Fits() {
		b := g.plantBox()
		g.frame(b, thinLine, plantDash)
		in = g.beside(b)
	}
	if g.tiles.whole {
		if at := g.tiles.tiles[0].at; at.X < printerEdge && (g.tiles.page.W > g.W+tiny || g.tiles.page.H > g.H+tiny) {
			add(8.5, g.words.Edge)
		}
		add(7, g.From)
	}
	g.head(in, lines)
}

// plantBox is the plant in the middle of its room.
func (g *guide) plantBox() paper.Box {
	return paper.Box{X: g.Free.X + (g.Free.W-g.Plant.W)/2, Y: g.Free.Y + (g.Free.H-g.Plant.H)/2, W: g.Plant.W, H: g.Plant.H}
}

// beside is where words stand in the field without crossing the lines of the
// plant: within these, to the left of them, or above; the first with room, else
// the largest.
func (g *guide) beside(plant paper.Box) paper.Box {
	f := g.Free
	all := []paper.Box{plant, {X: f.X, Y: f.Y, W: plant.X - f.X, H: f.H}, {X: f.X, Y: f.Y, W: f.W, H: plant.Y - f.Y}}
	best := all[0]
	for _, b := range all {
		part, _ := g.part(b)
		if part.W >= 80 && part.H >= 70 {
			return b
		}
		if b.W*b.H > best.W*best.H {
			best = b
		}
	}
	return best
}

// ruleBoxes are the lines as boxes, for what keeps clear of them.
func (g *guide) ruleBoxes() []paper.Box {
	var all []paper.Box
	for _, r := range g.rules {
		all = append(all, r.Box())
	}
	return all
}

// page is what one page shows.
func (g *guide) page(i int, marks []cross) paper.Page {
	t := g.tiles.tiles[i]
	b := &paper.Block{}
	for _, r := range g.rules {
		if r, ok := clipped(r, t.shows); ok {
			b.Add(r)
		}
	}
	for _, text := range g.texts {
		if within(ink(text), t.shows) {
			b.Add(text)
		}
	}
	for _, c := range marks {
		if within(c.box(), grown(t.shows, tiny)) {
			b.Add(c.items()...)
		}
	}
	if t.trim.X > 0 {
		b.Add(paper.Rule{X1: t.trim.X, Y1: t.shows.Y, X2: t.trim.X, Y2: t.shows.Bottom(), Width: thinLine, Dash: trimDash})
	}
	if t.trim.Y > 0 {
		b.Add(paper.Rule{X1: t.shows.X, Y1: t.trim.Y, X2: t.shows.Right(), Y2: t.trim.Y, Width: thinLine, Dash: trimDash})
	}
	page := paper.Page{Size: g.tiles.page}
	page.Put(b, t.at.X-t.shows.X, t.at.Y-t.shows.Y)
	if !g.tiles.whole {
		page.Items = append(page.Items, g.foot(i)...)
	}
	return page
}

// clipped is the part of a line, across or down, within a box.
func clipped(r paper.Rule, in paper.Box) (paper.Rule, bool) {
	x, y := min(r.X1, r.X2), min(r.Y1, r.Y2)
	endX, endY := max(r.X1, r.X2), max(r.Y1, r.Y2)
	h := r.Width / 2
	if y == endY && (y < in.Y-h || y > in.Bottom()+h) || x == endX && (x < in.X-h || x > in.Right()+h) {
		return r, false
	}
	if y == endY {
		x, endX = max(x, in.X), min(endX, in.Right())
	} else {
		y, endY = max(y, in.Y), min(endY, in.Bottom())
	}
	if endX-x+endY-y < tiny {
		return r, false
	}
	r.X1, r.Y1, r.X2, r.Y2 = x, y, endX, endY
	return r, true
}

// lacking finds a letter that the typeface has not.
func (g *guide) lacking() error {
	for _, t := range g.texts {
		if r, lacks := paper.Lacks(t.Runs...); lacks {
			return errLacks(r)
		}
	}
	return nil
}

// foot stands below what a page shows: the line of 50 mm, which page it is,
// how the pages are joined.
func (g *guide) foot(i int) []paper.Item {
	page := g.tiles.page
	y := page.H - edge - 5
	rules, text := controlItems(edge, y, g.words.Measure)
	var out []paper.Item
	for _, r := range rules {
		out = append(out, r)
	}
	out = append(out, text)
	right := page.W - edge
	out = append(out, g.keyMap(i, &right, y)...)
	right -= 2.5
	room := right - edge - max(controlLength, paper.Width(text.Runs...)) - 4
	of := label.Fill(g.words.Page, number(float64(i+1)), number(float64(len(g.tiles.tiles))))
	first := g.Number
	if first == "" {
		first = g.words.Title
	}
	first += ", " + of
	if g.Of != "" {
		first = g.Number + ", " + g.Of + ", " + of
	}
	var lines []paper.Line
	for _, w := range []string{first, g.words.Join, g.From} {
		if w != "" {
			lines = append(lines, paper.Set(styled(7, w), room)...)
		}
	}
	if paper.Overflow(lines, room) != "" || len(lines) > 4 {
		lines = paper.Set(styled(7, of), room)
	}
	base := page.H - edge - paper.Descent*7*paper.Point
	for _, l := range slices.Backward(lines) {
		out = append(out, paper.Text{X: right - l.Width, Y: base, Runs: l.Runs})
		base -= 2.8
	}
	return out
}

// keyMap is all pages in small, this one black.
func (g *guide) keyMap(i int, right *float64, y float64) []paper.Item {
	cols, rows := len(g.tiles.cols)+1, len(g.tiles.rows)+1
	h := min(3.6, 9/float64(rows))
	w := h * 0.75
	x0, y0 := *right-float64(cols)*w, y+4.6-float64(rows)*h
	var out []paper.Item
	for k, t := range g.tiles.tiles {
		b := paper.Box{X: x0 + float64(t.col)*w, Y: y0 + float64(t.row)*h, W: w, H: h}
		out = append(out, paper.Frame{B: b, Width: 0.15})
		if k == i {
			out = append(out, paper.Area{Boxes: []paper.Box{b}})
		}
	}
	*right = x0
	return out
}
