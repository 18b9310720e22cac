package figure

import "blotter/render/page"

// AppendMap appends a map as one <svg> to dst.
func AppendMap(dst []byte, m page.Map) []byte {
	d := drawing{dst}
	d.open(width, height, string(m.Sentence))
	d.str("</svg>")
	return d.b
}

// Ring is how the error of a single place is drawn.
type Ring uint8

const (
	UnknownError Ring = iota // the error is not known: a ring that marks the place
	SmallRing                // the error is smaller than the ring
	ErrorCircle              // a circle to scale
	NoRing                   // the error is larger than the map
)

// RingOf says how the place of a map of one spot is marked.
func RingOf(m page.Map) Ring { return SmallRing }
