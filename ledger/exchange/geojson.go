package exchange

import (
	"bufio"
	"io"
	"math"
	"strconv"

	"blotter/ledger"
)

// Spot is one specimen on a map.
type Spot struct {
	Number   string
	Lat, Lon string  // degrees on WGS84, as decimal figures
	Square   *Square // where the exact place is withheld: the square in which it lies
	Metres   float64 // how far the place may be off, from Lat and Lon; 0: not known
	Height   string  // metres above the sea; "": not known
	Page     string  // the address of its page; "": none
	Facts    []ledger.KV
}

// Square is a part of the grid of degrees on WGS84.
type Square struct{ South, West, North, East float64 }

// GeoJSON writes specimens as a FeatureCollection (RFC 7946), one feature a
// line: a Point, or a Polygon where the exact place is withheld. Every
// coordinate is on WGS84, the longitude first.
type GeoJSON struct {
	w     *bufio.Writer
	begun bool
}

// NewGeoJSON begins a collection. about are members beside its features.
func NewGeoJSON(w io.Writer, about []ledger.KV) *GeoJSON {
	g := &GeoJSON{w: bufio.NewWriterSize(w, 1<<16)}
	b := []byte(`{"type":"FeatureCollection"`)
	for _, kv := range about {
		if kv.Value != "" {
			b = AppendJSON(append(AppendJSON(append(b, ','), kv.Key), ':'), kv.Value)
		}
	}
	_, _ = g.w.Write(append(b, ",\"features\":["...)) // an error stays until Close
	return g
}

// Write writes one specimen.
func (g *GeoJSON) Write(s *Spot) error {
	b := g.w.AvailableBuffer()
	if g.begun {
		b = append(b, ',')
	}
	g.begun = true
	b = append(b, "\n{\"type\":\"Feature\",\"id\":"...)
	b = append(AppendJSON(b, s.Number), ",\"geometry\":"...)
	if q := s.Square; q != nil {
		b = append(b, `{"type":"Polygon","coordinates":[[`...)
		corners := [][2]float64{{q.West, q.South}, {q.East, q.South}, {q.East, q.North}, {q.West, q.North}, {q.West, q.South}} // against the clock (3.1.6)
		for i, c := range corners {
			if i > 0 {
				b = append(b, ',')
			}
			b = append(appendDegrees(append(appendDegrees(append(b, '['), c[0]), ','), c[1]), ']')
		}
		b = append(b, "]]}"...)
	} else {
		b = append(b, `{"type":"Point","coordinates":[`...)
		b = append(append(append(append(b, s.Lon...), ','), s.Lat...), "]}"...)
	}
	b = append(b, `,"properties":{"number":`...)
	b = AppendJSON(b, s.Number)
	for _, kv := range s.Facts {
		if kv.Value != "" {
			b = AppendJSON(append(AppendJSON(append(b, ','), kv.Key), ':'), kv.Value)
		}
	}
	if s.Metres > 0 {
		b = strconv.AppendFloat(append(b, `,"uncertainty_m":`...), math.Ceil(s.Metres), 'f', -1, 64)
	}
	if s.Page != "" {
		b = AppendJSON(append(b, `,"page":`...), s.Page)
	}
	_, err := g.w.Write(append(b, "}}"...))
	return err
}

// appendDegrees writes a corner of a square: the finest grid is a thousandth.
func appendDegrees(b []byte, v float64) []byte {
	return strconv.AppendFloat(b, math.Round(v*1e6)/1e6, 'f', -1, 64)
}

// Close ends the collection.
func (g *GeoJSON) Close() error {
	_, err := g.w.WriteString("\n]}\n")
	if err != nil {
		return err
	}
	return g.w.Flush()
}
