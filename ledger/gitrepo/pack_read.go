package gitrepo

import (
	"bufio"
	"bytes"
	"cmp"
	"compress/zlib"
	"context"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
)

// Each reads every object of the pack back from its file, in the order in
// which they were written. body holds until yield returns.
func (p *Pack) Each(ctx context.Context, yield func(kind string, id ObjectID, body []byte) error) error {
	if err := p.w.Flush(); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	trees := newBodies()
	for i := range p.rows {
		if err := ctx.Err(); err != nil {
			return err
		}
		row := &p.rows[i]
		body, err := p.read(row, trees)
		if err != nil {
			return fmt.Errorf("read pack: %w", err)
		}
		if row.kind == packTree {
			trees.put(string(row.id[:]), string(body))
		}
		if idOf(packKinds[row.kind], body) != row.id {
			return fmt.Errorf("read pack: object %s reads otherwise than it was written", row.id.Hex())
		}
		if err := yield(packKinds[row.kind], row.id, body); err != nil {
			return err
		}
	}
	return nil
}

// read reads one object; trees holds those that were read lately.
func (p *Pack) read(row *packRow, trees *bodies) ([]byte, error) {
	in := bufio.NewReaderSize(io.NewSectionReader(p.f, row.offset, p.offset-row.offset), 4096)
	kind, size, err := readPackHead(in)
	if err != nil {
		return nil, err
	}
	if kind != packOfsDelta {
		return inflate(in, size)
	}
	back, err := readBack(in)
	if err != nil {
		return nil, err
	}
	delta, err := inflate(in, size)
	if err != nil {
		return nil, err
	}
	under, ok := p.rowAt(row.offset - back)
	if !ok {
		return nil, errors.New("a difference has no base")
	}
	base, ok := trees.get(string(under.id[:]))
	if !ok {
		b, err := p.read(under, trees)
		if err != nil {
			return nil, err
		}
		base = string(b)
		trees.put(string(under.id[:]), base)
	}
	return undelta(base, delta)
}

// rowAt is the object at an offset; rows lie in order of it.
func (p *Pack) rowAt(offset int64) (*packRow, bool) {
	lo, hi := 0, len(p.rows)
	for lo < hi {
		if m := (lo + hi) / 2; p.rows[m].offset < offset {
			lo = m + 1
		} else {
			hi = m
		}
	}
	if lo < len(p.rows) && p.rows[lo].offset == offset {
		return &p.rows[lo], true
	}
	return nil, false
}

func inflate(in io.Reader, size int) ([]byte, error) {
	z, err := zlib.NewReader(in)
	if err != nil {
		return nil, err
	}
	body := make([]byte, size)
	if _, err := io.ReadFull(z, body); err != nil {
		return nil, err
	}
	return body, z.Close()
}

// inflater unpacks one object after another through one reader.
type inflater struct{ z io.ReadCloser }

// next turns to the object that comes next in in; z reads it.
func (f *inflater) next(in io.Reader) (err error) {
	if f.z == nil {
		f.z, err = zlib.NewReader(in)
		return err
	}
	return f.z.(zlib.Resetter).Reset(in, nil)
}

// ended holds that nothing more follows of the object, and that its checksum is
// of what was read.
func (f *inflater) ended() error {
	if n, err := io.ReadFull(f.z, make([]byte, 1)); n != 0 || err != io.EOF {
		return cmp.Or(err, errors.New("it is longer than it says"))
	}
	return nil
}

func readPackHead(in io.ByteReader) (kind uint8, size int, err error) {
	c, err := in.ReadByte()
	kind, size = c>>4&7, int(c&15)
	for shift := 4; err == nil && c&0x80 != 0 && shift < 60; shift += 7 {
		c, err = in.ReadByte()
		size |= int(c&0x7f) << shift
	}
	return kind, size, err
}

func readBack(in io.ByteReader) (back int64, err error) {
	c, err := in.ReadByte()
	back = int64(c & 0x7f)
	for err == nil && c&0x80 != 0 {
		c, err = in.ReadByte()
		back = (back+1)<<7 | int64(c&0x7f)
	}
	return back, err
}

var errDelta = errors.New("a difference is damaged")

// undelta carries out a difference (gitformat-pack(5), "Deltified
// representation").
func undelta[T string | []byte](base T, delta []byte) ([]byte, error) {
	return undeltaInto(nil, base, delta)
}

// undeltaInto is undelta in the memory of out, which is empty.
func undeltaInto[T string | []byte](out []byte, base T, delta []byte) ([]byte, error) {
	size, n := binary.Uvarint(delta)
	if n <= 0 || size != uint64(len(base)) {
		return nil, errDelta
	}
	delta = delta[n:]
	if size, n = binary.Uvarint(delta); n <= 0 || size > maxObject {
		return nil, errDelta
	}
	delta = delta[n:]
	out = slices.Grow(out, int(min(size, 1<<24)))
	for len(delta) > 0 {
		c := delta[0]
		delta = delta[1:]
		switch {
		case c&0x80 != 0:
			from, n, rest, ok := copyOrder(c, delta)
			if !ok || from+n > uint64(len(base)) {
				return nil, errDelta
			}
			out, delta = append(out, base[from:from+n]...), rest
		case c > 0 && len(delta) >= int(c):
			out, delta = append(out, delta[:c]...), delta[c:]
		default:
			return nil, errDelta
		}
		if uint64(len(out)) > size {
			return nil, errDelta
		}
	}
	if uint64(len(out)) != size {
		return nil, errDelta
	}
	return out, nil
}

// copyOrder reads from where to copy how much: the bits of c say which bytes
// of the two numbers are written.
func copyOrder(c byte, delta []byte) (from, n uint64, rest []byte, ok bool) {
	for bit := range 7 {
		if c>>bit&1 == 0 {
			continue
		}
		if len(delta) == 0 {
			return 0, 0, nil, false
		}
		if bit < 4 {
			from |= uint64(delta[0]) << (8 * bit)
		} else {
			n |= uint64(delta[0]) << (8 * (bit - 4))
		}
		delta = delta[1:]
	}
	if n == 0 {
		n = 0x10000
	}
	return from, n, delta, true
}

// Each reads every object of the repository, in no order. body holds until
// yield returns.
func (b *Bare) Each(ctx context.Context, yield func(kind string, id ObjectID, body []byte) error) error {
	ids, err := b.IDs()
	if err != nil {
		return err
	}
	for _, id := range ids {
		kind, body, err := b.repo.pool.read(ctx, id.Hex(), 0)
		if err != nil {
			return fmt.Errorf("read %s: %w", id.Hex(), err)
		}
		if idOf(kind, body) != id {
			return fmt.Errorf("read %s: it reads otherwise than its id says", id.Hex())
		}
		if err := yield(kind, id, body); err != nil {
			return err
		}
	}
	return nil
}

// TreeNames calls yield with the name of every entry of a tree, and whether it
// is a plain file or a folder rather than anything else.
func TreeNames(body []byte, yield func(name string, plain bool)) error {
	for rest := string(body); rest != ""; {
		var e entry
		var err error
		if e, rest, err = cutEntry(rest, len(ObjectID{})); err != nil {
			return err
		}
		yield(e.name, e.mode == modeFile || e.mode == modeTree)
	}
	return nil
}

// Leads calls yield with every object that an object leads to: of a commit its
// tree and parents, of a tree its entries.
func Leads(kind string, body []byte, yield func(ObjectID)) error {
	switch kind {
	case "tree":
		for rest := string(body); rest != ""; {
			var e entry
			var err error
			if e, rest, err = cutEntry(rest, len(ObjectID{})); err != nil {
				return err
			}
			yield(ObjectID([]byte(e.id)))
		}
	case "commit":
		for line := range bytes.Lines(body) {
			key, id, _ := strings.Cut(strings.TrimSuffix(string(line), "\n"), " ")
			if key != "tree" && key != "parent" {
				break
			}
			raw, err := hex.DecodeString(id)
			if err != nil || len(raw) != len(ObjectID{}) {
				return fmt.Errorf("read commit: %q is no id", id)
			}
			yield(ObjectID(raw))
		}
	}
	return nil
}
