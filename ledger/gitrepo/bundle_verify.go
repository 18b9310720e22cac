package gitrepo

import (
	"bufio"
	"bytes"
	"context"
	"crypto/sha1"
	"crypto/sha256"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash"
	"io"
)

// bundleRow is one object in a bundle's pack.
type bundleRow struct {
	id    anyID
	at    int64 // in the file
	base  int64 // where the object lies that it is a difference from; 0: none, or one named by id
	kind  uint8 // its own kind, 0 while that is not known
	delta bool
}

// verifying is one pass over a whole bundle.
type verifying struct {
	*Bundle
	inflater
	ctx    context.Context
	hash   hash.Hash
	buf    bytes.Buffer       // body of the object at hand
	carry  []byte             // what a difference comes to
	lately recent             // bodies of the objects read before it
	byID   map[anyID][]int32  // differences from an object that is named by id
	below  [][]int32          // differences from each object, by place in rows
	wanted map[anyID]struct{} // what the objects lead to

	progress    func(done, total int) // nil: silent
	from, total int                   // objects done before these, and to be done in all
}

// Verify reads every object, works out its id again, and holds that all which
// the refs and objects lead to is there, so that nothing outside the file is
// needed. The error is ErrDamaged or ErrPartOfHistory. Memory grows with the
// number of objects (some 100 bytes each), not with their size, but for the
// largest.
func (b *Bundle) Verify(ctx context.Context) error {
	v := &verifying{Bundle: b, ctx: ctx, hash: newHash(b.width), byID: map[anyID][]int32{}, wanted: map[anyID]struct{}{}}
	b.rows, b.places, b.stray = nil, map[anyID]int32{}, ""
	for _, step := range []func() error{v.sum, v.whole, v.differences, v.complete} {
		if err := step(); err != nil {
			return fmt.Errorf("read bundle: %w", err)
		}
	}
	return nil
}

func newHash(width int) hash.Hash {
	if width == 32 {
		return sha256.New()
	}
	return sha1.New()
}

// Objects is how many objects Verify found.
func (b *Bundle) Objects() int { return len(b.rows) }

// Commits is how many of the objects are commits.
func (b *Bundle) Commits() (n int) {
	for i := range b.rows {
		if b.rows[i].kind == packCommit {
			n++
		}
	}
	return n
}

// packEnd is where the checksum of the pack begins.
func (b *Bundle) packEnd() int64 { return b.end - int64(b.width) }

// sum holds the pack to the checksum that ends it.
func (v *verifying) sum() error {
	if v.packEnd() < v.start+12 {
		return fmt.Errorf("%w: it is cut short", ErrDamaged)
	}
	in := io.NewSectionReader(v.in, v.start, v.packEnd()-v.start)
	buf := make([]byte, 1<<16)
	for {
		n, err := in.Read(buf)
		v.hash.Write(buf[:n])
		if err == io.EOF {
			break
		}
		if err := errors.Join(err, v.ctx.Err()); err != nil {
			return err
		}
	}
	want := make([]byte, v.width)
	if _, err := v.in.ReadAt(want, v.packEnd()); err != nil && err != io.EOF {
		return err
	}
	if !bytes.Equal(v.hash.Sum(nil), want) {
		return fmt.Errorf("%w: the checksum at its end is of other bytes; it is cut short or was changed", ErrDamaged)
	}
	return nil
}

// farReader reads a file from one place on and knows how far it is.
type farReader struct {
	*bufio.Reader
	at int64
}

func (p *farReader) ReadByte() (byte, error) {
	c, err := p.Reader.ReadByte()
	if err == nil {
		p.at++
	}
	return c, err
}

func (p *farReader) Read(b []byte) (int, error) {
	n, err := p.Reader.Read(b)
	p.at += int64(n)
	return n, err
}

// whole reads the objects in the order of the file. Those that are written
// whole get their ids, and the differences whose base was read lately; of
// others only the places are kept.
func (v *verifying) whole() error {
	if v.lately.room == nil {
		v.lately = newRecent(min(recentRoom, max(1<<16, 16*(v.packEnd()-v.start)))) // a pack seldom unpacks to more
	}
	defer func() { v.lately = recent{} }()
	in := &farReader{bufio.NewReaderSize(io.NewSectionReader(v.in, v.start, v.packEnd()-v.start), 1<<18), v.start}
	head := make([]byte, 12)
	if _, err := io.ReadFull(in, head); err != nil || string(head[:4]) != "PACK" || binary.BigEndian.Uint32(head[4:]) != 2 {
		return fmt.Errorf("%w: no pack of version 2 follows its head", ErrDamaged)
	}
	n := binary.BigEndian.Uint32(head[8:])
	for i := range n {
		if err := v.ctx.Err(); err != nil {
			return err
		}
		at := in.at
		if v.progress != nil && i&0x3ff == 0 {
			v.progress(min(v.from+int(i), v.total), v.total)
		}
		if err := v.one(in); err != nil {
			return fmt.Errorf("%w: object %d of %d, at byte %d: %v", ErrDamaged, i+1, n, at, err)
		}
	}
	if in.at != v.packEnd() {
		return fmt.Errorf("%w: bytes follow its last object", ErrDamaged)
	}
	return nil
}

// differences works out the objects that are written as differences, from
// those upward that are written whole.
func (v *verifying) differences() error {
	v.below = make([][]int32, len(v.rows))
	for i := range v.rows {
		if r := &v.rows[i]; r.kind == 0 && r.base != 0 {
			j, ok := v.rowAt(r.base)
			if !ok || j >= i {
				return fmt.Errorf("%w: object %d is a difference from nothing", ErrDamaged, i+1)
			}
			v.below[j] = append(v.below[j], int32(i))
		}
	}
	for i := range v.rows {
		if v.rows[i].kind == 0 || len(v.below[i])+len(v.byID[v.rows[i].id]) == 0 {
			continue
		}
		body, err := v.body(&v.rows[i])
		if err == nil {
			err = v.grow(int32(i), body, 0)
		}
		if err != nil {
			return fmt.Errorf("%w: %w", ErrDamaged, err)
		}
	}
	for i := range v.rows {
		if v.rows[i].kind == 0 {
			return fmt.Errorf("%w: object %d is a difference from one that is not in it", ErrPartOfHistory, i+1)
		}
	}
	return nil
}

// deepChain is how many differences may lie upon each other; git makes 4,095
// at most.
const deepChain = 4096

// grow works out the differences from one object, whose body is given.
func (v *verifying) grow(i int32, body []byte, depth int) error {
	if err := v.ctx.Err(); err != nil {
		return err
	}
	if depth > deepChain {
		return errors.New("too many differences lie upon each other")
	}
	for _, list := range [][]int32{v.below[i], v.byID[v.rows[i].id]} {
		for _, j := range list {
			row := &v.rows[j]
			if row.kind != 0 {
				continue
			}
			_, delta, err := v.object(row)
			if err != nil {
				return err
			}
			now, err := undelta(body, delta)
			if err != nil {
				return fmt.Errorf("object %d: %w", j+1, err)
			}
			row.kind = v.rows[i].kind
			if row.id, err = v.took(row.kind, now); err != nil {
				return fmt.Errorf("object %d: %w", j+1, err)
			}
			v.places[row.id] = j
			if err := v.grow(j, now, depth+1); err != nil {
				return err
			}
		}
	}
	return nil
}

// complete holds that all that is wanted is there.
func (v *verifying) complete() error {
	for _, r := range v.Refs {
		raw, err := hex.DecodeString(r.ID)
		if err != nil {
			return err
		}
		if _, ok := v.places[idFrom(raw)]; !ok {
			return fmt.Errorf("%w: %s leads to %.10s, which is not in it", ErrPartOfHistory, r.Name, r.ID)
		}
	}
	lacks := 0
	for id := range v.wanted {
		if _, ok := v.places[id]; !ok {
			lacks++
		}
	}
	if lacks > 0 {
		return fmt.Errorf("%w: %d objects that others lead to are not in it", ErrPartOfHistory, lacks)
	}
	return nil
}
