package render

import (
	"cmp"
	"math"
	"slices"

	"blotter/ledger/book"
	"blotter/ledger/public"
	"blotter/render/figure"
	"blotter/render/page"
)

// maxWhere places in words stand beside a map.
const maxWhere = 12

// perSpot is the grid on which two positions are one place of a map: a
// thousandth of a degree, some 100 m.
const perSpot = 1000

// spot is a place on the map, or the square in which withheld ones are shown,
// in ten-thousandths of a degree.
type spot struct {
	lat, lon int32
	class    public.Class
}

// spotOf is where an entry is on a map.
func (s *shelf) spotOf(e *book.Entry) spot {
	c := s.class(e)
	if c == public.Open {
		return spot{int32(math.Round(e.Lat*perSpot)) * 10, int32(math.Round(e.Lon*perSpot)) * 10, c}
	}
	return spot{int32(math.Round(e.Lat * perSpot * 10)), int32(math.Round(e.Lon * perSpot * 10)), c}
}

// distribution is a map of where the sheets of a list are from, and the places
// in words beside it. A sheet whose place is withheld is in the square in which
// it is shown, or not on the map.
func (s *shelf) distribution(list []*book.Entry) []page.Block {
	spots := map[spot]int{}
	shown, held := 0, 0
	for _, e := range list {
		if !e.Positioned {
			continue
		}
		p := s.spotOf(e)
		spots[p]++
		shown++
		held += boolInt(p.class != public.Open)
	}
	if shown == 0 {
		return nil
	}
	m := page.Map{Many: true, Spots: make([]page.Spot, 0, len(spots))}
	for p, n := range spots {
		m.Spots = append(m.Spots, page.Spot{Lat: float64(p.lat) / perSpot / 10, Lon: float64(p.lon) / perSpot / 10, Degrees: p.class.Degrees(), N: n})
	}
	slices.SortFunc(m.Spots, func(a, b page.Spot) int {
		return cmp.Or(cmp.Compare(a.Lat, b.Lat), cmp.Compare(a.Lon, b.Lon), cmp.Compare(a.Degrees, b.Degrees))
	})
	text := page.Fill(s.lang.MapMany, page.Count(len(spots), s.lang.Place1, s.lang.PlaceN), s.sheetsWord(shown))
	if held > 0 {
		text += " " + page.Fill(s.lang.MapHeldSquares, s.sheetsWord(held))
	}
	if rest := len(list) - shown; rest > 0 {
		text += " " + page.Fill(s.lang.MapRest, s.sheetsWord(rest))
	}
	if len(spots) > figure.MaxDots {
		text += " " + s.lang.MapSquares
	}
	m.Sentence = page.Said(text)
	return []page.Block{m, s.where(list)}
}

// where is the smallest regions that the sheets on a map are from, those with
// the most sheets first.
func (s *shelf) where(list []*book.Entry) page.Lines {
	count := map[string]int{}
	for _, e := range list {
		if e.Positioned {
			count[placeWords(e)]++
		}
	}
	words := sorted(count)
	slices.SortStableFunc(words, func(a, b string) int { return cmp.Compare(count[b], count[a]) })
	var out page.Lines
	more := 0
	for i, w := range words {
		switch {
		case i >= maxWhere:
			more++
		case w == "":
			out.List = append(out.List, []page.Part{said(s.lang.NoPlaceWords + ": " + s.sheetsWord(count[w]))})
		default:
			out.List = append(out.List, []page.Part{page.Person(w), said(": " + s.sheetsWord(count[w]))})
		}
	}
	if more > 0 {
		out.List = append(out.List, []page.Part{said(page.Fill(s.lang.MorePlaces, page.Count(more, s.lang.Place1, s.lang.PlaceN)))})
	}
	return out
}
