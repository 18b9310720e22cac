package public

import (
	"bytes"
	"encoding/binary"

	"blotter/ledger/pictures"
)

// Markers of a JPEG (ITU-T T.81, table B.1; from memory).
const (
	markSOF0  = 0xc0 // baseline
	markSOF1  = 0xc1 // extended
	markSOF2  = 0xc2 // progressive
	markDHT   = 0xc4
	markRST0  = 0xd0
	markRST7  = 0xd7
	markSOI   = 0xd8
	markEOI   = 0xd9
	markSOS   = 0xda
	markDQT   = 0xdb
	markDRI   = 0xdd
	markAPP0  = 0xe0
	markAPP1  = 0xe1
	markAPP14 = 0xee
	markAPP15 = 0xef
	markCOM   = 0xfe
)

// jpegStrip is one JPEG on its way.
type jpegStrip struct {
	in, out    []byte
	jfif       bool // its JFIF segment is written
	exif       bool // its first Exif block was met
	adobe      bool
	components int // of its frame; 0: no frame yet
	scans      int
}

func stripJPEG(in []byte) ([]byte, bool) {
	s := jpegStrip{in: in[2:], out: append(make([]byte, 0, len(in)), 0xff, markSOI)}
	for {
		marker, ok := s.marker()
		if !ok {
			return nil, false
		}
		if marker == markEOI && s.scans > 0 {
			return append(s.out, 0xff, markEOI), true
		}
		body, ok := s.body()
		if !ok || !s.segment(marker, body) {
			return nil, false
		}
	}
}

// marker takes the next marker and what fills the room before it.
func (s *jpegStrip) marker() (byte, bool) {
	for {
		i := bytes.IndexByte(s.in, 0xff)
		if i < 0 {
			return 0, false
		}
		s.in = s.in[i+1:]
		for len(s.in) > 0 && s.in[0] == 0xff {
			s.in = s.in[1:]
		}
		if len(s.in) == 0 {
			return 0, false
		}
		m := s.in[0]
		s.in = s.in[1:]
		if m != 0 {
			return m, true
		}
	}
}

// body takes the bytes of a segment.
func (s *jpegStrip) body() ([]byte, bool) {
	if len(s.in) < 2 {
		return nil, false
	}
	n := int(binary.BigEndian.Uint16(s.in))
	if n < 2 || n > len(s.in) {
		return nil, false
	}
	b := s.in[2:n]
	s.in = s.in[n:]
	return b, true
}

// put writes a segment.
func (s *jpegStrip) put(marker byte, body []byte) {
	s.out = append(s.out, 0xff, marker)
	s.out = binary.BigEndian.AppendUint16(s.out, uint16(len(body)+2))
	s.out = append(s.out, body...)
}

// segment keeps, cuts or leaves one segment; false when the file is no JPEG
// that can be shown.
func (s *jpegStrip) segment(marker byte, body []byte) bool {
	switch marker {
	case markSOF0, markSOF1, markSOF2:
		if s.components > 0 || !frameFits(body) {
			return false
		}
		s.components = int(body[5])
	case markDQT:
		if !quantFits(body) {
			return false
		}
	case markDHT:
		if !huffmanFits(body) {
			return false
		}
	case markDRI:
		if len(body) != 2 {
			return false
		}
	case markSOS:
		return s.scan(body)
	case markAPP0, markAPP1, markAPP14:
		s.application(marker, body)
		return true
	default: // other applications and comments say nothing of the pixels; any other is a JPEG that no browser shows
		return marker > markAPP0 && marker <= markAPP15 || marker == markCOM
	}
	s.put(marker, body)
	return true
}

// application keeps of the program's own segments what says how the pixels
// are to be shown.
func (s *jpegStrip) application(marker byte, body []byte) {
	switch {
	case marker == markAPP0 && !s.jfif && len(body) >= 14 && string(body[:5]) == "JFIF\x00":
		s.jfif = true
		s.put(markAPP0, append(bytes.Clone(body[:12]), 0, 0)) // without its thumbnail
	case marker == markAPP14 && !s.adobe && len(body) >= 12 && string(body[:5]) == "Adobe":
		s.adobe = true
		s.put(markAPP14, body[:12])
	case marker == markAPP1 && !s.exif && bytes.HasPrefix(body, []byte("Exif\x00\x00")):
		s.exif = true
		if m, ok := pictures.Block(body[6:]); ok && m.Orientation > 1 {
			s.put(markAPP1, append([]byte("Exif\x00\x00"), exifOf(m.Orientation)...))
		}
	}
}

// scan keeps the head of a scan and its coded data, up to the next marker that
// is no restart.
func (s *jpegStrip) scan(head []byte) bool {
	if s.components == 0 || len(head) < 6 || len(head) != 4+2*int(head[0]) || int(head[0]) > s.components {
		return false
	}
	s.scans++
	s.put(markSOS, head)
	for i := 0; ; {
		n := bytes.IndexByte(s.in[i:], 0xff)
		if n < 0 || i+n+1 >= len(s.in) {
			return false // it does not end
		}
		i += n
		if c := s.in[i+1]; c == 0 || c >= markRST0 && c <= markRST7 {
			i += 2
			continue
		}
		s.out = append(s.out, s.in[:i]...)
		s.in = s.in[i:]
		return true
	}
}

// frameFits reports whether a frame header is whole and has a size.
func frameFits(b []byte) bool {
	if len(b) < 6 || len(b) != 6+3*int(b[5]) {
		return false
	}
	height, width, n := binary.BigEndian.Uint16(b[1:]), binary.BigEndian.Uint16(b[3:]), b[5]
	return b[0] == 8 && height > 0 && width > 0 && n >= 1 && n <= 4
}

// quantFits reports whether b is quantization tables and nothing else.
func quantFits(b []byte) bool {
	for len(b) > 0 {
		n := 1 + 64
		if b[0]>>4 == 1 {
			n = 1 + 128
		}
		if b[0]>>4 > 1 || b[0]&15 > 3 || len(b) < n {
			return false
		}
		b = b[n:]
	}
	return true
}

// huffmanFits reports whether b is Huffman tables and nothing else.
func huffmanFits(b []byte) bool {
	for len(b) > 0 {
		if len(b) < 17 || b[0]>>4 > 1 || b[0]&15 > 3 {
			return false
		}
		n := 17
		for _, c := range b[1:17] {
			n += int(c)
		}
		if n > 17+256 || len(b) < n {
			return false
		}
		b = b[n:]
	}
	return true
}
