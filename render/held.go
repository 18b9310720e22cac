package render

import (
	"strconv"
	"strings"

	"blotter/ledger/georeference"
	"blotter/ledger/public"
	"blotter/render/page"
)

// withheldNotice says why the place is withheld, when that is looked at again,
// and what is shown.
func (x *sheet) withheldNotice() []page.Part {
	w := x.why
	var more []string
	if w.Category != "" && w.Class != public.Open {
		more = append(more, page.Fill(x.lang.WithheldCategory, w.Class.Category()))
	}
	if w.Review != "" {
		more = append(more, page.Fill(x.lang.WithheldReview, w.Review))
	}
	text := upperFirst(string(x.hold.Reason))
	if len(more) > 0 {
		text += " (" + strings.Join(more, ", ") + ")"
	}
	text += ". "
	switch {
	case w.Cell != nil:
		text += page.Fill(x.lang.WithheldSquare, x.sizeOf(w.Cell))
	case w.Class == public.Extreme:
		text += x.lang.WithheldNothing
	default:
		text += x.lang.WithheldNoPlace
	}
	switch {
	case w.Pictures == 1:
		text += " " + x.lang.PicturesHeld1
	case w.Pictures > 1:
		text += " " + page.Fill(x.lang.PicturesHeldN, itoa(w.Pictures))
	}
	return []page.Part{said(text)}
}

// sizeOf is how wide and how high a square is: 5.4 km by 11.1 km.
func (x *sheet) sizeOf(c *public.Cell) string {
	wide, high := c.Size()
	length := func(km float64) string {
		if km < 0.95 {
			return strconv.Itoa(int(km*1000+0.5)) + " m"
		}
		return strconv.FormatFloat(km, 'f', 1, 64) + " km"
	}
	return page.Fill(x.lang.SizeOf, length(wide), length(high))
}

func degrees(c *public.Cell) string { return strconv.FormatFloat(c.Degrees, 'f', -1, 64) }

// heldPosition adds the position as the square in which it is shown, and the
// elevation, which would tell it.
func (x *sheet) heldPosition(f *page.Fields) {
	if x.withholds("place.position") || x.withholds("read.position") {
		out := page.Field{Name: x.fieldName("position"), None: x.hold}
		if c := x.why.Cell; c != nil {
			out.Readings = [][]page.Part{{said(page.Fill(x.lang.ShownAsSquare, degrees(c), c.Point()))}}
		}
		f.List = append(f.List, out)
	}
	if x.withholds("place.elevation") || x.withholds("read.elevation") {
		f.List = append(f.List, page.Field{Name: x.fieldName("elevation"), None: x.hold})
	}
}

// heldPlace is a map of the square in which it grew, or why there is none.
func (x *sheet) heldPlace() []page.Block {
	c := x.why.Cell
	if c == nil {
		return []page.Block{page.Para{Parts: []page.Part{said(x.lang.NoMapWithheld), x.hold, said(".")}}}
	}
	m := page.Map{Spots: []page.Spot{{Lat: c.Lat, Lon: c.Lon, Degrees: c.Degrees, N: 1}}}
	m.Sentence = page.Said(strings.TrimSpace(page.Fill(x.lang.MapSquareOf, degrees(c), x.sizeOf(c)) + " " + x.mapNote(m)))
	return []page.Block{m, page.Lines{List: [][]page.Part{{said(page.Fill(x.lang.SquareUncertain, georeference.Metres(c.Metres)))}}}}
}
