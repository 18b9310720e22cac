// Package picturestest makes pictures that say things of themselves, for tests.
package picturestest

import (
	"bytes"
	"encoding/binary"
	"image"
	"image/jpeg"
	"math"
	"slices"
)

// Order is the order of bytes: binary.BigEndian or binary.LittleEndian.
type Order interface {
	binary.ByteOrder
	binary.AppendByteOrder
}

// Said is what a picture is to say of itself; what is empty is left out.
type Said struct {
	Order       Order // nil: big-endian
	Orientation uint16
	Artist      string
	Copyright   string
	Taken       string // 2026:03:02 14:05:06
	Offset      string // +01:00
	Placed      bool
	Lat, Lon    float64
	Altitude    float64 // metres; 0: left out
	DOP, Error  float64
	Datum       string
	Day         string // 2026:03:02, in UTC
	Clock       [3]uint32
}

type field struct {
	tag, kind uint16
	count     uint32
	data      []byte
}

// Exif is the Exif block of s, as Exif 2.3 has it (from memory).
func Exif(s Said) []byte {
	var o Order = binary.BigEndian
	if s.Order != nil {
		o = s.Order
	}
	head := []byte("MM\x00*")
	if o.Uint16([]byte{1, 0}) == 1 {
		head = []byte("II*\x00")
	}
	w := writer{o: o, b: o.AppendUint32(head, 8)}
	var top, sub, gps []field
	top = w.text(top, 0x013b, s.Artist)
	top = w.text(top, 0x8298, s.Copyright)
	if s.Orientation != 0 {
		top = append(top, field{0x0112, 3, 1, o.AppendUint16(nil, s.Orientation)})
	}
	sub = w.text(sub, 0x9003, s.Taken)
	sub = w.text(sub, 0x9011, s.Offset)
	if s.Placed {
		gps = w.position(s)
	}
	size := func(fs []field) uint32 {
		n := uint32(2 + 12*len(fs) + 4)
		for _, f := range fs {
			if len(f.data) > 4 {
				n += uint32(len(f.data)+1) &^ 1
			}
		}
		return n
	}
	extra := 0
	if len(sub) > 0 {
		extra++
	}
	if len(gps) > 0 {
		extra++
	}
	next := 8 + size(append(slices.Clone(top), make([]field, extra)...))
	if len(sub) > 0 {
		top = append(top, field{0x8769, 4, 1, o.AppendUint32(nil, next)})
		next += size(sub)
	}
	if len(gps) > 0 {
		top = append(top, field{0x8825, 4, 1, o.AppendUint32(nil, next)})
	}
	w.directory(top)
	if len(sub) > 0 {
		w.directory(sub)
	}
	if len(gps) > 0 {
		w.directory(gps)
	}
	return w.b
}

type writer struct {
	o Order
	b []byte
}

func (w *writer) text(to []field, tag uint16, words string) []field {
	if words == "" {
		return to
	}
	return append(to, field{tag, 2, uint32(len(words) + 1), append([]byte(words), 0)})
}

func (w *writer) rationals(tag uint16, values ...[2]uint32) field {
	f := field{tag: tag, kind: 5, count: uint32(len(values))}
	for _, v := range values {
		f.data = w.o.AppendUint32(w.o.AppendUint32(f.data, v[0]), v[1])
	}
	return f
}

func (w *writer) angle(tag uint16, a float64) field {
	a = math.Abs(a)
	total := uint64(math.Round(a * 3600 * 10000)) // in ten thousandths of a second
	return w.rationals(tag, [2]uint32{uint32(total / 36000000), 1}, [2]uint32{uint32(total / 600000 % 60), 1}, [2]uint32{uint32(total % 600000), 10000})
}

func (w *writer) position(s Said) []field {
	letter := func(v float64, plus, minus string) string {
		if v < 0 {
			return minus
		}
		return plus
	}
	fs := []field{w.angle(2, s.Lat), w.angle(4, s.Lon)}
	fs = w.text(fs, 1, letter(s.Lat, "N", "S"))
	fs = w.text(fs, 3, letter(s.Lon, "E", "W"))
	thousandths := func(v float64) [2]uint32 { return [2]uint32{uint32(math.Round(math.Abs(v) * 1000)), 1000} }
	if s.Altitude != 0 {
		below := byte(0)
		if s.Altitude < 0 {
			below = 1
		}
		fs = append(fs, field{5, 1, 1, []byte{below}}, w.rationals(6, thousandths(s.Altitude)))
	}
	if s.DOP != 0 {
		fs = append(fs, w.rationals(0x0b, thousandths(s.DOP)))
	}
	if s.Error != 0 {
		fs = append(fs, w.rationals(0x1f, thousandths(s.Error)))
	}
	fs = w.text(fs, 0x12, s.Datum)
	if s.Day != "" {
		fs = w.text(fs, 0x1d, s.Day)
		fs = append(fs, w.rationals(7, [2]uint32{s.Clock[0], 1}, [2]uint32{s.Clock[1], 1}, [2]uint32{s.Clock[2], 1}))
	}
	return fs
}

// directory writes fields in order of tag, then what did not fit into them.
func (w *writer) directory(fs []field) {
	slices.SortFunc(fs, func(a, b field) int { return int(a.tag) - int(b.tag) })
	at := uint32(len(w.b) + 2 + 12*len(fs) + 4)
	w.b = w.o.AppendUint16(w.b, uint16(len(fs)))
	var rest []byte
	for _, f := range fs {
		w.b = w.o.AppendUint32(w.o.AppendUint16(w.o.AppendUint16(w.b, f.tag), f.kind), f.count)
		if len(f.data) <= 4 {
			w.b = append(w.b, append(slices.Clone(f.data), 0, 0, 0, 0)[:4]...)
			continue
		}
		w.b = w.o.AppendUint32(w.b, at+uint32(len(rest)))
		if rest = append(rest, f.data...); len(rest)%2 == 1 {
			rest = append(rest, 0)
		}
	}
	w.b = append(w.o.AppendUint32(w.b, 0), rest...)
}

// JPEG is img as a JPEG with s in it.
func JPEG(img image.Image, s Said) ([]byte, error) {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 90}); err != nil {
		return nil, err
	}
	block := append([]byte("Exif\x00\x00"), Exif(s)...)
	seg := append(binary.BigEndian.AppendUint16([]byte{0xff, 0xe1}, uint16(len(block)+2)), block...)
	return slices.Concat(b.Bytes()[:2], seg, b.Bytes()[2:]), nil
}
