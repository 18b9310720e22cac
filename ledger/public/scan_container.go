package public

import (
	"archive/zip"
	"bytes"
	"compress/gzip"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"unicode/utf16"
)

// Bounds on what is unpacked: the outputs are our own, and one that is beyond
// them is refused rather than passed over.
const (
	maxDepth    = 3
	maxUnpacked = 8 << 30
)

// bytes looks through a file by what its first bytes say it is: an archive
// member by member, a picture by its texts, anything else as text.
func (l *looking) bytes(data []byte, depth int) error {
	if l.engine == nil {
		return nil
	}
	switch {
	case bytes.HasPrefix(data, []byte("PK\x03\x04")), bytes.HasPrefix(data, []byte("\x1f\x8b")):
		return l.readerAt(bytes.NewReader(data), int64(len(data)), depth)
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		l.text(pngTexts(data), 0)
	case bytes.HasPrefix(data, []byte("\xff\xd8\xff")):
		l.text(jpegTexts(data), 0)
	case bytes.HasPrefix(data, []byte("\xff\xfe")), bytes.HasPrefix(data, []byte("\xfe\xff")):
		l.text(fromUTF16(data), 0)
	case len(data) > pieceSize:
		return l.stream(bytes.NewReader(data))
	default:
		l.text(data, 0)
	}
	return nil
}

// readerAt is bytes of a file that is not in memory.
func (l *looking) readerAt(r io.ReaderAt, size int64, depth int) error {
	if l.engine == nil {
		return nil
	}
	if depth > maxDepth {
		return fmt.Errorf("look through %s: %w", l.file, errTooDeep)
	}
	var head [8]byte
	n, err := r.ReadAt(head[:min(size, 8)], 0)
	if err != nil && err != io.EOF {
		return fmt.Errorf("look through %s: %w", l.file, err)
	}
	switch h := head[:n]; {
	case bytes.HasPrefix(h, []byte("PK\x03\x04")):
		return l.zip(r, size, depth)
	case bytes.HasPrefix(h, []byte("\x1f\x8b")):
		z, err := gzip.NewReader(io.NewSectionReader(r, 0, size))
		if err != nil {
			return fmt.Errorf("look through %s: %w", l.file, err)
		}
		return l.member("", z, depth)
	case bytes.HasPrefix(h, []byte("\x89PNG")), bytes.HasPrefix(h, []byte("\xff\xd8\xff")), bytes.HasPrefix(h, []byte("\xff\xfe")), bytes.HasPrefix(h, []byte("\xfe\xff")):
		data := make([]byte, size)
		if _, err := r.ReadAt(data, 0); err != nil && err != io.EOF {
			return fmt.Errorf("look through %s: %w", l.file, err)
		}
		return l.bytes(data, depth)
	}
	if err := l.stream(io.NewSectionReader(r, 0, size)); err != nil {
		return fmt.Errorf("look through %s: %w", l.file, err)
	}
	return nil
}

// zip looks through every member of an archive, their names too.
func (l *looking) zip(r io.ReaderAt, size int64, depth int) error {
	z, err := zip.NewReader(r, size)
	if err != nil {
		return fmt.Errorf("look through %s: %w", l.file, err)
	}
	l.text([]byte(z.Comment), 0)
	for _, f := range z.File {
		l.text([]byte(f.Name+" "+f.Comment), 0)
		m, err := f.Open()
		if err != nil {
			return fmt.Errorf("look through %s!%s: %w", l.file, f.Name, err)
		}
		err = l.member(f.Name, m, depth)
		m.Close()
		if err != nil {
			return err
		}
	}
	return nil
}

// member looks through one member; one that is no text is taken into memory.
func (l *looking) member(name string, r io.Reader, depth int) error {
	in := &looking{x: l.x, ctx: l.ctx, engine: l.engine, file: l.file + "!" + name}
	defer func() { l.hits += in.hits }()
	r = io.LimitReader(r, maxUnpacked)
	head := make([]byte, 8)
	n, err := io.ReadFull(r, head)
	if err != nil && err != io.EOF && err != io.ErrUnexpectedEOF {
		return fmt.Errorf("look through %s: %w", in.file, err)
	}
	head = head[:n]
	whole := io.MultiReader(bytes.NewReader(head), r)
	for _, magic := range []string{"PK\x03\x04", "\x1f\x8b", "\x89PNG", "\xff\xd8\xff", "\xff\xfe", "\xfe\xff"} {
		if bytes.HasPrefix(head, []byte(magic)) {
			data, err := io.ReadAll(whole)
			if err != nil {
				return fmt.Errorf("look through %s: %w", in.file, err)
			}
			if magic == "PK\x03\x04" || magic == "\x1f\x8b" {
				return in.readerAt(bytes.NewReader(data), int64(len(data)), depth+1)
			}
			return in.bytes(data, depth+1)
		}
	}
	if err := in.stream(whole); err != nil {
		return fmt.Errorf("look through %s: %w", in.file, err)
	}
	return nil
}

// pngTexts are the bytes of all chunks of a picture but its pixels, those that
// are packed unpacked, and what stands behind its end.
func pngTexts(data []byte) []byte {
	var out []byte
	at := 8
	for at+12 <= len(data) {
		n := int(binary.BigEndian.Uint32(data[at:]))
		kind := string(data[at+4 : at+8])
		if n < 0 || n > len(data)-at-12 {
			break
		}
		body := data[at+8 : at+8+n]
		at += 12 + n
		switch kind {
		case "IDAT":
			continue
		case "zTXt", "iTXt", "iCCP":
			out = append(out, unpacked(body)...)
		case "eXIf":
			out = append(out, exifPosition(body)...)
		}
		out = append(append(out, body...), rowBreak)
	}
	return append(out, data[min(at, len(data)):]...)
}

// unpacked is what follows the first zlib stream in a chunk of text.
func unpacked(body []byte) []byte {
	for i := 0; i+2 < len(body) && i < 256; i++ {
		if body[i] != 0x78 {
			continue
		}
		z, err := zlib.NewReader(bytes.NewReader(body[i:]))
		if err != nil {
			continue
		}
		text, _ := io.ReadAll(io.LimitReader(z, 16<<20))
		if len(text) > 0 {
			return append(text, rowBreak)
		}
	}
	return nil
}

// jpegTexts are the bytes of all segments of a picture but its pixels, and
// what stands behind its end.
func jpegTexts(data []byte) []byte {
	var out []byte
	at := 2
	for at+4 <= len(data) && data[at] == 0xff {
		kind := data[at+1]
		if kind == 0xff {
			at++
			continue
		}
		if kind == 0xd9 || kind == 0xda {
			break
		}
		n := int(binary.BigEndian.Uint16(data[at+2:]))
		if n < 2 || at+2+n > len(data) {
			break
		}
		body := data[at+4 : at+2+n]
		if kind >= 0xe0 || kind == 0xfe {
			out = append(append(out, body...), rowBreak)
			if e, ok := bytes.CutPrefix(body, []byte("Exif\x00\x00")); ok {
				out = append(out, exifPosition(e)...)
			}
		}
		at += 2 + n
	}
	if end := bytes.LastIndex(data, []byte{0xff, 0xd9}); end >= 0 && end+2 < len(data) {
		out = append(out, data[end+2:]...)
	}
	return out
}

// exifPosition is the position that a camera wrote, as text; nil when there is
// none. EXIF 2.32: the GPS directory is tag 0x8825, latitude 2, longitude 4,
// each three rationals.
func exifPosition(tiff []byte) []byte {
	if len(tiff) < 8 {
		return nil
	}
	var order binary.ByteOrder = binary.BigEndian
	if string(tiff[:2]) == "II" {
		order = binary.LittleEndian
	}
	gps := exifEntry(tiff, order, order.Uint32(tiff[4:]), 0x8825)
	if gps == 0 {
		return nil
	}
	var out []byte
	for _, tag := range []uint16{2, 4} {
		at := int64(exifEntry(tiff, order, gps, tag))
		if at == 0 || at+24 > int64(len(tiff)) {
			return nil
		}
		v := 0.0
		for i, unit := range []float64{1, 60, 3600} {
			p := tiff[at+int64(8*i):]
			if d := order.Uint32(p[4:]); d != 0 {
				v += float64(order.Uint32(p)) / float64(d) / unit
			}
		}
		out = fmt.Appendf(out, " %.6f", v)
	}
	return append(out, rowBreak)
}

// exifEntry is the value of a tag in the directory at dir, or where it lies; 0
// when it is not there.
func exifEntry(tiff []byte, order binary.ByteOrder, dir uint32, tag uint16) uint32 {
	if int64(dir)+2 > int64(len(tiff)) {
		return 0
	}
	n := int64(order.Uint16(tiff[dir:]))
	for i := range n {
		at := int64(dir) + 2 + 12*i
		if at+12 > int64(len(tiff)) {
			return 0
		}
		if order.Uint16(tiff[at:]) == tag {
			return order.Uint32(tiff[at+8:])
		}
	}
	return 0
}

func fromUTF16(data []byte) []byte {
	var order binary.ByteOrder = binary.BigEndian
	if data[0] == 0xff {
		order = binary.LittleEndian
	}
	units := make([]uint16, 0, len(data)/2)
	for i := 2; i+1 < len(data); i += 2 {
		units = append(units, order.Uint16(data[i:]))
	}
	return []byte(string(utf16.Decode(units)))
}
