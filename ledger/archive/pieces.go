package archive

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"hash/crc32"
	"io"
)

// Piece is a stretch of a member, compressed by itself: members are put
// together from pieces, so that one that stands need not be made anew.
type Piece struct {
	Data []byte // deflated, ending at a whole byte, without an end of the stream
	CRC  uint32 // of the text, IEEE
	Size int64  // of the text, in bytes
}

// Packer makes pieces. It is not for several goroutines at once.
type Packer struct {
	out bytes.Buffer
	w   *flate.Writer
}

// Pack compresses a text.
func (p *Packer) Pack(text []byte) (Piece, error) {
	p.out.Reset()
	if p.w == nil {
		w, err := flate.NewWriter(&p.out, flate.DefaultCompression)
		if err != nil {
			return Piece{}, err
		}
		p.w = w
	} else {
		p.w.Reset(&p.out)
	}
	if _, err := p.w.Write(text); err != nil {
		return Piece{}, err
	}
	if err := p.w.Flush(); err != nil {
		return Piece{}, err
	}
	return Piece{Data: bytes.Clone(p.out.Bytes()), CRC: crc32.ChecksumIEEE(text), Size: int64(len(text))}, nil
}

// Joined is a member put together from pieces, which wait in a file until the
// member is written.
type Joined struct {
	to   io.Writer
	crc  uint32
	size int64 // of the text
	held int64 // of the pieces
}

// Join begins a member whose pieces wait in to.
func Join(to io.Writer) *Joined { return &Joined{to: to} }

// Add adds a piece.
func (j *Joined) Add(p Piece) error {
	j.crc = joinCRC(j.crc, p.CRC, p.Size)
	j.size += p.Size
	j.held += int64(len(p.Data))
	_, err := j.to.Write(p.Data)
	return err
}

// endOfStream is an empty last block of a deflated stream (RFC 1951, 3.2.6).
var endOfStream = []byte{0x03, 0x00}

// Put writes a member that was put together; from has its pieces, from their
// beginning.
func (w *Writer) Put(name string, j *Joined, from io.Reader) error {
	h := &zip.FileHeader{Name: name, Method: zip.Deflate, CRC32: j.crc, UncompressedSize64: uint64(j.size), CompressedSize64: uint64(j.held) + uint64(len(endOfStream))}
	y, m, d := w.when.Date()
	//lint:ignore SA1019 CreateRaw writes this and does not look at Modified
	h.ModifiedDate = uint16(d + int(m)<<5 + (y-1980)<<9) // as zip files have it: day, month, year from 1980
	//lint:ignore SA1019 the same
	h.ModifiedTime = uint16(w.when.Second()/2 + w.when.Minute()<<5 + w.when.Hour()<<11)
	m2, err := w.z.CreateRaw(h)
	if err != nil {
		return err
	}
	if _, err := io.Copy(m2, from); err != nil {
		return err
	}
	_, err = m2.Write(endOfStream)
	return err
}

// joinCRC is the checksum of two texts one after the other, by that of each
// and the length of the second. Appending a byte of zeros is a linear map of
// the 32 bits; appending n of them is its n-th power, by squaring.
func joinCRC(a, b uint32, length int64) uint32 {
	if length == 0 {
		return a
	}
	var byOne, power [32]uint32
	byOne[0] = crc32.IEEE // by one bit
	for i := 1; i < 32; i++ {
		byOne[i] = 1 << (i - 1)
	}
	power = squared(squared(squared(byOne))) // by eight bits
	for n := length; n > 0; n >>= 1 {
		if n&1 != 0 {
			a = applied(power, a)
		}
		power = squared(power)
	}
	return a ^ b
}

// applied is a map of 32 bits, by its columns, applied to v.
func applied(m [32]uint32, v uint32) (out uint32) {
	for i := 0; v != 0; i, v = i+1, v>>1 {
		if v&1 != 0 {
			out ^= m[i]
		}
	}
	return out
}

func squared(m [32]uint32) (out [32]uint32) {
	for i := range m {
		out[i] = applied(m, m[i])
	}
	return out
}
