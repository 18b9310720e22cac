// Package pictures reads what a picture file says about itself: when, by whom
// and where it was taken, and which way up it is shown.
//
// It reads the Exif block of JPEG, PNG and TIFF files and nothing else of
// them. Tags and types are those of Exif 2.3 (CIPA DC-008) and TIFF 6.0, from
// memory; the tests hold the reading against another reader's.
package pictures

import (
	"encoding/binary"
	"errors"
	"io"
	"strings"
)

// Meta is what a picture says of itself. A value that is absent or makes no
// sense is left out.
type Meta struct {
	Orientation int    // 1 to 8 as Exif counts; 0: not said
	Taken       Moment // when the shutter was open
	Artist      string // who took it, as written
	Copyright   string // as written
	GPS         GPS
}

// errExif is a block that is no Exif block.
var errExif = errors.New("read exif: no header of an exif block")

// Tags that are read, by the block in which they stand.
const (
	tagOrientation = 0x0112
	tagDateTime    = 0x0132
	tagArtist      = 0x013b
	tagCopyright   = 0x8298
	tagExif        = 0x8769
	tagGPS         = 0x8825

	tagOriginal       = 0x9003
	tagOffsetOriginal = 0x9011

	tagGPSLatRef    = 0x01
	tagGPSLat       = 0x02
	tagGPSLonRef    = 0x03
	tagGPSLon       = 0x04
	tagGPSAltRef    = 0x05
	tagGPSAlt       = 0x06
	tagGPSTime      = 0x07
	tagGPSDOP       = 0x0b
	tagGPSDatum     = 0x12
	tagGPSDate      = 0x1d
	tagGPSErrorHori = 0x1f
)

// Types of values, and how many bytes one takes.
const (
	typeByte     = 1
	typeASCII    = 2
	typeShort    = 3
	typeLong     = 4
	typeRational = 5
)

// Bounds of what is read from a block that may be hostile.
const (
	maxEntries = 1024 // of one directory
	maxWords   = 4096 // bytes of a text
)

// exif is an Exif block: the bytes of a TIFF file from base on.
type exif struct {
	r     io.ReaderAt
	base  int64
	size  int64 // of the block
	order binary.ByteOrder
}

// field is one entry of a directory.
type field struct {
	tag, kind uint16
	count     uint32
	value     [4]byte // the value, or where it lies
}

// readExif reads the block of size bytes at base.
func readExif(r io.ReaderAt, base, size int64) (Meta, error) {
	x := exif{r: r, base: base, size: size}
	var head [8]byte
	if !x.at(head[:], 0) {
		return Meta{}, errExif
	}
	switch string(head[:4]) {
	case "II*\x00":
		x.order = binary.LittleEndian
	case "MM\x00*":
		x.order = binary.BigEndian
	default:
		return Meta{}, errExif
	}
	var m Meta
	top := x.directory(x.order.Uint32(head[4:]))
	if f, ok := top[tagOrientation]; ok && f.kind == typeShort {
		if o := int(x.order.Uint16(f.value[:])); o >= 1 && o <= 8 {
			m.Orientation = o
		}
	}
	m.Artist, m.Copyright = x.words(top[tagArtist]), copyright(x.raw(top[tagCopyright]))
	taken := x.words(top[tagDateTime])
	offset := ""
	if f, ok := top[tagExif]; ok && f.kind == typeLong {
		sub := x.directory(x.order.Uint32(f.value[:]))
		if w := x.words(sub[tagOriginal]); w != "" {
			taken, offset = w, x.words(sub[tagOffsetOriginal])
		}
	}
	m.Taken = momentOf(taken, offset)
	if f, ok := top[tagGPS]; ok && f.kind == typeLong {
		m.GPS = x.gps(x.directory(x.order.Uint32(f.value[:])))
	}
	return m, nil
}

// at reads len(b) bytes of the block; false when they are not all there.
func (x *exif) at(b []byte, off int64) bool {
	if off < 0 || off > x.size-int64(len(b)) {
		return false
	}
	n, err := x.r.ReadAt(b, x.base+off)
	return n == len(b) && (err == nil || err == io.EOF)
}

// directory is the fields of the directory at off; of a tag that stands twice
// the first. What lies outside the block is left out.
func (x *exif) directory(off uint32) map[uint16]field {
	var n [2]byte
	if !x.at(n[:], int64(off)) {
		return nil
	}
	count := min(int(x.order.Uint16(n[:])), maxEntries)
	count = min(count, int(max(0, x.size-int64(off)-2)/12))
	b := make([]byte, 12*count)
	if !x.at(b, int64(off)+2) {
		return nil
	}
	out := make(map[uint16]field, count)
	for ; len(b) > 0; b = b[12:] {
		f := field{tag: x.order.Uint16(b), kind: x.order.Uint16(b[2:]), count: x.order.Uint32(b[4:])}
		copy(f.value[:], b[8:])
		if _, twice := out[f.tag]; !twice {
			out[f.tag] = f
		}
	}
	return out
}

// raw is the bytes of a text, "" when it is none.
func (x *exif) raw(f field) string {
	if f.kind != typeASCII || f.count == 0 || f.count > maxWords {
		return ""
	}
	if f.count <= 4 {
		return string(f.value[:f.count])
	}
	b := make([]byte, f.count)
	if !x.at(b, int64(x.order.Uint32(f.value[:]))) {
		return ""
	}
	return string(b)
}

// words is a text up to its end mark, with blanks trimmed and without
// characters that are no text.
func (x *exif) words(f field) string {
	s, _, _ := strings.Cut(x.raw(f), "\x00")
	return plain(s)
}

// copyright is the photographer's and the editor's line, which Exif parts by
// an end mark.
func copyright(raw string) string {
	var out []string
	for part := range strings.SplitSeq(raw, "\x00") {
		if part = plain(part); part != "" {
			out = append(out, part)
		}
	}
	return strings.Join(out, "; ")
}

// plain is text as UTF-8 on one line: bytes that are no UTF-8 are taken as
// Latin 1, and control characters as blanks.
func plain(s string) string {
	if !validUTF8(s) {
		r := make([]rune, 0, len(s))
		for i := range len(s) {
			r = append(r, rune(s[i]))
		}
		s = string(r)
	}
	return strings.Join(strings.FieldsFunc(s, func(r rune) bool { return r <= ' ' || r >= 0x7f && r <= 0xa0 || r == '\u2028' || r == '\u2029' }), " ")
}

// rationals are n unsigned fractions; nil when they are not there or one is
// over zero.
func (x *exif) rationals(f field, n int) []float64 {
	if f.kind != typeRational || int64(f.count) != int64(n) {
		return nil
	}
	b := make([]byte, 8*n)
	if !x.at(b, int64(x.order.Uint32(f.value[:]))) {
		return nil
	}
	out := make([]float64, n)
	for i := range out {
		num, den := x.order.Uint32(b[8*i:]), x.order.Uint32(b[8*i+4:])
		if den == 0 {
			if num != 0 {
				return nil
			}
			den = 1 // 0/0 is how some cameras leave a part out
		}
		out[i] = float64(num) / float64(den)
	}
	return out
}
