package paper

// Point is a point of the printer in millimetres.
const Point = 25.4 / 72

// Size is a piece of paper.
type Size struct {
	Name string // "A4"; empty: only its measures
	W, H float64
}

// Box is a rectangle.
type Box struct{ X, Y, W, H float64 }

// Right and Bottom are the far sides of b.
func (b Box) Right() float64  { return b.X + b.W }
func (b Box) Bottom() float64 { return b.Y + b.H }

// Style is how letters are set.
type Style struct {
	Face   Face
	Size   float64 // points
	Spread float64 // room added between letters, of an em
	Grey   float64 // 0 black, 1 white; only for what must not be read as a word of the record
}

// Run is words in one style.
type Run struct {
	Style
	Text string
	Keep bool // never broken over two lines
}

// Item is something drawn: Text, Rule, Frame or Area.
type Item interface {
	moved(dx, dy float64) Item
	// Box is the room it takes; of Text from the ascenders to the descenders.
	Box() Box
}

// Text is one line of letters.
type Text struct {
	X, Y float64 // of the first letter, on the base line
	Runs []Run
	Turn float64 // degrees anticlockwise about X, Y
}

// Rule is a straight line, its middle from one point to the other.
type Rule struct {
	X1, Y1, X2, Y2, Width float64
	Dash                  float64 // length of dashes and gaps; 0: unbroken
}

// Frame is a rectangle drawn with a line; its middle runs on the box.
type Frame struct {
	B     Box
	Width float64
}

// Area is rectangles filled with ink: a thick rule, the bars of a barcode.
// They are drawn as one shape, so that no hairline parts what touches.
type Area struct{ Boxes []Box }

func (t Text) moved(dx, dy float64) Item { t.X, t.Y = t.X+dx, t.Y+dy; return t }
func (r Rule) moved(dx, dy float64) Item {
	r.X1, r.X2, r.Y1, r.Y2 = r.X1+dx, r.X2+dx, r.Y1+dy, r.Y2+dy
	return r
}
func (f Frame) moved(dx, dy float64) Item { f.B.X, f.B.Y = f.B.X+dx, f.B.Y+dy; return f }
func (a Area) moved(dx, dy float64) Item {
	boxes := make([]Box, len(a.Boxes))
	for i, b := range a.Boxes {
		boxes[i] = Box{b.X + dx, b.Y + dy, b.W, b.H}
	}
	return Area{boxes}
}

// Box of a turned text is that of the text before it was turned.
func (t Text) Box() Box {
	up, down := 0.0, 0.0
	for _, r := range t.Runs {
		up, down = max(up, Ascent*r.Size*Point), max(down, Descent*r.Size*Point)
	}
	return Box{t.X, t.Y - up, Width(t.Runs...), up + down}
}

func (r Rule) Box() Box {
	x, y, h := min(r.X1, r.X2), min(r.Y1, r.Y2), r.Width/2
	b := Box{x, y - h, max(r.X1, r.X2) - x, r.Width}
	if r.X1 == r.X2 {
		b = Box{x - h, y, r.Width, max(r.Y1, r.Y2) - y}
	}
	return b
}

func (f Frame) Box() Box {
	h := f.Width / 2
	return Box{f.B.X - h, f.B.Y - h, f.B.W + f.Width, f.B.H + f.Width}
}

func (a Area) Box() Box {
	if len(a.Boxes) == 0 {
		return Box{}
	}
	b := a.Boxes[0]
	for _, c := range a.Boxes[1:] {
		right, bottom := max(b.Right(), c.Right()), max(b.Bottom(), c.Bottom())
		b.X, b.Y = min(b.X, c.X), min(b.Y, c.Y)
		b.W, b.H = right-b.X, bottom-b.Y
	}
	return b
}

// Block is a drawing of its own size that can be put anywhere: a label, a
// slip, a cover. Its parts are named boxes that do not meet: "heading",
// "name", "place"; tests measure them and the mounting guide asks for them.
type Block struct {
	W, H  float64
	Of    string // whose it is: "LK7-0000482"
	Items []Item
	Parts []Part
}

// Part is a named box of a block.
type Part struct {
	Name string
	Box  Box
	Text string // its words in reading order, one space between
}

// Add draws.
func (b *Block) Add(items ...Item) { b.Items = append(b.Items, items...) }

// Page is one side of paper.
type Page struct {
	Size  Size
	Items []Item
}

// Put draws b with its upper left corner at x, y.
func (p *Page) Put(b *Block, x, y float64) {
	for _, it := range b.Items {
		p.Items = append(p.Items, it.moved(x, y))
	}
}

// Put draws other in b with its upper left corner at x, y; parts go with it.
func (b *Block) Put(other *Block, x, y float64) {
	for _, it := range other.Items {
		b.Items = append(b.Items, it.moved(x, y))
	}
	for _, p := range other.Parts {
		p.Box.X, p.Box.Y = p.Box.X+x, p.Box.Y+y
		b.Parts = append(b.Parts, p)
	}
}
