package public

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"hash/crc32"
	"io"

	"blotter/ledger/pictures"
)

// pngChunks are the chunks that are kept as they are and how long each may be
// (PNG, third edition, from memory): what the colours are, and how large a
// pixel is meant to be.
var pngChunks = map[string]func(n int) bool{
	"PLTE": func(n int) bool { return n > 0 && n <= 256*3 && n%3 == 0 },
	"tRNS": func(n int) bool { return n > 0 && n <= 256 },
	"gAMA": exactly(4),
	"cHRM": exactly(32),
	"sRGB": exactly(1),
	"cICP": exactly(4),
	"sBIT": func(n int) bool { return n > 0 && n <= 4 },
	"pHYs": exactly(9),
}

func exactly(want int) func(int) bool { return func(n int) bool { return n == want } }

const pngHead = "\x89PNG\r\n\x1a\n"

// pngStrip is one PNG on its way.
type pngStrip struct {
	out         []byte
	data        []byte // of its IDAT chunks
	orientation int
	met         map[string]bool
	raw         int64 // bytes of its rows, unpacked
	colour      byte  // its colour type
}

func stripPNG(in []byte) ([]byte, bool) {
	s := pngStrip{out: append(make([]byte, 0, len(in)), pngHead...), met: map[string]bool{}}
	rest, last := in[len(pngHead):], ""
	for len(rest) >= 12 {
		n := binary.BigEndian.Uint32(rest)
		if n > 1<<31-1 || int64(n) > int64(len(rest)-12) {
			return nil, false
		}
		kind, body := string(rest[4:8]), rest[8:8+n]
		if crc32.ChecksumIEEE(rest[4:8+n]) != binary.BigEndian.Uint32(rest[8+n:]) {
			return nil, false
		}
		rest = rest[12+n:]
		if (last == "") != (kind == "IHDR") || kind == "IDAT" && s.met["IDAT"] && last != "IDAT" {
			return nil, false
		}
		if kind == "IEND" {
			return s.end(n)
		}
		if !s.chunk(kind, body) {
			return nil, false
		}
		last = kind
	}
	return nil, false
}

// chunk keeps or leaves one chunk; false when the file is no PNG that can be
// shown.
func (s *pngStrip) chunk(kind string, body []byte) bool {
	twice := s.met[kind]
	s.met[kind] = true
	switch {
	case kind == "IHDR":
		s.raw = rawLength(body)
		if s.raw == 0 {
			return false
		}
		s.colour = body[9]
		s.put(kind, body)
	case kind == "PLTE" && s.colour&2 == 0, kind == "tRNS" && (s.colour > 3 || s.colour == 3 && !s.met["PLTE"]):
		return false
	case kind == "IDAT":
		s.data = append(s.data, body...)
	case kind == "eXIf":
		if m, ok := pictures.Block(body); ok && !twice && m.Orientation > 1 {
			s.orientation = m.Orientation
		}
	case pngChunks[kind] != nil:
		late := s.met["IDAT"] || kind != "PLTE" && kind != "tRNS" && kind != "pHYs" && s.met["PLTE"]
		if twice || !pngChunks[kind](len(body)) || late {
			return kind != "PLTE" && kind != "tRNS" // a reader leaves such a one out, too
		}
		s.put(kind, body)
	default:
		return kind[0]&0x20 != 0 // one that every reader must know, and we do not
	}
	return true
}

// end writes the picture itself, which must be the rows of its size and
// nothing more.
func (s *pngStrip) end(n uint32) ([]byte, bool) {
	r := bytes.NewReader(s.data)
	z, err := zlib.NewReader(r)
	if n > 0 || err != nil || s.colour == 3 && !s.met["PLTE"] {
		return nil, false
	}
	got, err := io.Copy(io.Discard, io.LimitReader(z, s.raw+1))
	if err != nil || got != s.raw {
		return nil, false
	}
	if _, err := z.Read(make([]byte, 1)); err != io.EOF { // also its checksum
		return nil, false
	}
	if s.orientation > 0 {
		s.put("eXIf", exifOf(s.orientation))
	}
	s.put("IDAT", s.data[:len(s.data)-r.Len()])
	s.put("IEND", nil)
	return s.out, true
}

// put writes a chunk.
func (s *pngStrip) put(kind string, body []byte) {
	s.out = binary.BigEndian.AppendUint32(s.out, uint32(len(body)))
	from := len(s.out)
	s.out = append(append(s.out, kind...), body...)
	s.out = binary.BigEndian.AppendUint32(s.out, crc32.ChecksumIEEE(s.out[from:]))
}

// depths are the bits of a sample that each colour type may have, and how many
// samples a pixel has.
var depths = map[byte]struct {
	samples int64
	bits    string
}{0: {1, "\x01\x02\x04\x08\x10"}, 2: {3, "\x08\x10"}, 3: {1, "\x01\x02\x04\x08"}, 4: {2, "\x08\x10"}, 6: {4, "\x08\x10"}}

// maxRaw is how many bytes of rows are unpacked to look at a picture.
const maxRaw = 4 << 30

// rawLength is how many bytes the rows of a picture of this header have,
// unpacked, each with its filter byte; 0 when the header cannot be.
func rawLength(b []byte) int64 {
	if len(b) != 13 {
		return 0
	}
	w, h := int64(binary.BigEndian.Uint32(b)), int64(binary.BigEndian.Uint32(b[4:]))
	d, ok := depths[b[9]]
	if !ok || bytes.IndexByte([]byte(d.bits), b[8]) < 0 || b[10] != 0 || b[11] != 0 || b[12] > 1 || w < 1 || h < 1 || w >= 1<<31 || h >= 1<<31 {
		return 0
	}
	bits := d.samples * int64(b[8])
	var total int64
	add := func(w, h int64) bool {
		row := (w*bits+7)/8 + 1
		if w > 0 && h > 0 {
			if row > maxRaw/h {
				return false
			}
			total += row * h
		}
		return total <= maxRaw
	}
	if b[12] == 0 {
		if !add(w, h) {
			return 0
		}
		return total
	}
	for _, p := range [7][4]int64{{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}} { // Adam7: x, y, step x, step y
		if !add((w-p[0]+p[2]-1)/p[2], (h-p[1]+p[3]-1)/p[3]) {
			return 0
		}
	}
	return total
}
