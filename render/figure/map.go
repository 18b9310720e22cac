package figure

import "blotter/render/page"

// AppendMap appends a map as one <svg> to dst.
func AppendMap(dst []byte, m page.Map) []byte {
	d := drawing{dst}
	d.open(width, height, string(m.Sentence))
	d.str("</svg>")
	return d.b
}
