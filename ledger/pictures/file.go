package pictures

import (
	"bytes"
	"encoding/binary"
	"io"
)

// Format is the kind of a picture file, by its first bytes.
type Format string

// Formats that are read. Any other is Other.
const (
	JPEG  Format = "JPEG"
	PNG   Format = "PNG"
	TIFF  Format = "TIFF"
	Other Format = ""
)

// pngHead is how every PNG begins.
const pngHead = "\x89PNG\r\n\x1a\n"

// FormatOf is the kind of the file that begins with head, of which 8 bytes
// are enough.
func FormatOf(head []byte) Format {
	switch {
	case bytes.HasPrefix(head, []byte("\xff\xd8\xff")):
		return JPEG
	case bytes.HasPrefix(head, []byte(pngHead)):
		return PNG
	case bytes.HasPrefix(head, []byte("II*\x00")), bytes.HasPrefix(head, []byte("MM\x00*")):
		return TIFF
	}
	return Other
}

// exifHead is what an Exif block in a JPEG begins with.
const exifHead = "Exif\x00\x00"

// Read reads what a picture file of size bytes says of itself. A file of
// another format, or one that says nothing, gives an empty Meta. It reads a
// few kilobytes, wherever in the file they lie. The error is that of r.
func Read(r io.ReaderAt, size int64) (Meta, error) {
	c := &careful{r: r}
	var head [8]byte
	n, _ := c.ReadAt(head[:], 0)
	var m Meta
	switch FormatOf(head[:n]) {
	case JPEG:
		m = readJPEG(c, size)
	case PNG:
		m = readPNG(c, size)
	case TIFF:
		m, _ = readExif(c, 0, size)
	}
	return m, c.err
}

// Block reads an Exif block as it stands in a file, without the word Exif.
func Block(b []byte) (Meta, bool) {
	m, err := readExif(bytes.NewReader(b), 0, int64(len(b)))
	return m, err == nil
}

// careful keeps the first error that is not the end of the file.
type careful struct {
	r   io.ReaderAt
	err error
}

func (c *careful) ReadAt(b []byte, off int64) (int, error) {
	n, err := c.r.ReadAt(b, off)
	if err != nil && err != io.EOF && c.err == nil {
		c.err = err
	}
	return n, err
}

// maxSegments bounds how many segments or chunks are looked at for the block.
const maxSegments = 1 << 12

// readJPEG looks for the first Exif block before the picture itself.
func readJPEG(r io.ReaderAt, size int64) Meta {
	var b [10]byte
	off := int64(2)
	for range maxSegments {
		if n, _ := r.ReadAt(b[:], off); n < 4 || b[0] != 0xff {
			return Meta{}
		}
		if b[1] == 0xff { // a fill byte
			off++
			continue
		}
		if b[1] == 0xda || b[1] == 0xd9 { // the picture, or the end
			return Meta{}
		}
		length := int64(binary.BigEndian.Uint16(b[2:]))
		if length < 2 || off+2+length > size {
			return Meta{}
		}
		if b[1] == 0xe1 && length >= 8 && string(b[4:10]) == exifHead {
			m, _ := readExif(r, off+10, length-8)
			return m
		}
		off += 2 + length
	}
	return Meta{}
}

// readPNG looks for the Exif chunk, before or after the picture itself.
func readPNG(r io.ReaderAt, size int64) Meta {
	var b [8]byte
	off := int64(len(pngHead))
	for range maxSegments {
		if n, _ := r.ReadAt(b[:], off); n < 8 {
			return Meta{}
		}
		length := int64(binary.BigEndian.Uint32(b[:]))
		if length > 1<<31-1 || off+12+length > size {
			return Meta{}
		}
		switch string(b[4:]) {
		case "eXIf":
			m, _ := readExif(r, off+8, length)
			return m
		case "IEND":
			return Meta{}
		}
		off += 12 + length
	}
	return Meta{}
}
