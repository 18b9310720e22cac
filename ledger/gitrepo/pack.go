package gitrepo

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"crypto/sha1"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strconv"

	"blotter/ledger/internal/fault"
)

// Pack is new objects for a Bare repository, written one after another into
// one file of git's pack format, version 2 (gitformat-pack(5)). Nothing of it
// counts before Bare.Take. One goroutine at a time uses it.
type Pack struct {
	dir    string // objects/pack of the repository
	f      *os.File
	w      *bufio.Writer
	deflat *zlib.Writer
	offset int64
	rows   []packRow
	at     map[objectID]int32 // place in rows
	kept   *bodies            // of trees, by raw id
	sum    string             // of the finished file
}

// objectID is the raw SHA-1 id of an object.
type objectID [sha1.Size]byte

// ObjectID is one object of a Bare repository or Pack by its raw id.
type ObjectID = objectID

// Hex is the id as git prints it.
func (id objectID) Hex() string { return hex.EncodeToString(id[:]) }

// packRow is one object in the pack.
type packRow struct {
	id     objectID
	offset int64
	crc    uint32
	depth  uint8 // how many deltas lie under it
	kind   uint8 // its own kind, whatever it is written as
}

// The kinds of objects as a pack numbers them.
const (
	packCommit   = 1
	packTree     = 2
	packBlob     = 3
	packTag      = 4
	packOfsDelta = 6
	packRefDelta = 7
)

var packKinds = map[uint8]string{packCommit: "commit", packTree: "tree", packBlob: "blob", packTag: "tag"}

// deepest is how many trees may be written as differences, one upon the other.
const deepest = 48

// newPack begins a pack in the folder dir.
func newPack(dir string) (*Pack, error) {
	if _, err := fault.Step("create", "pack"); err != nil {
		return nil, err
	}
	f, err := os.CreateTemp(dir, tempPack+"*")
	if err != nil {
		return nil, fmt.Errorf("write pack: %w", err)
	}
	p := &Pack{dir: dir, f: f, w: bufio.NewWriterSize(f, 1<<18), at: map[objectID]int32{}, kept: newBodies(), offset: 12}
	p.deflat, _ = zlib.NewWriterLevel(nil, zlib.BestSpeed)
	_, err = p.w.Write([]byte("PACK\x00\x00\x00\x02\x00\x00\x00\x00"))
	return p, err
}

// tempPack begins the names of packs that are being written.
const tempPack = "tmp_blotter_"

// Len is the number of objects in the pack.
func (p *Pack) Len() int { return len(p.rows) }

// Has reports whether the pack holds an object.
func (p *Pack) Has(id ObjectID) bool {
	_, ok := p.at[id]
	return ok
}

// IDs are the ids of its objects, in the order in which they were written.
func (p *Pack) IDs() []ObjectID {
	out := make([]ObjectID, len(p.rows))
	for i := range p.rows {
		out[i] = p.rows[i].id
	}
	return out
}

// BlobID is the id of a file's content.
func BlobID(body []byte) ObjectID { return idOf("blob", body) }

func idOf(kind string, body []byte) objectID {
	h := sha1.New()
	h.Write(strconv.AppendInt(append([]byte(kind), ' '), int64(len(body)), 10))
	h.Write([]byte{0})
	h.Write(body)
	return objectID(h.Sum(nil))
}

// Blob writes the content of a file.
func (p *Pack) Blob(body []byte) (ObjectID, error) { return p.put(packBlob, body, "") }

// put writes an object that the pack does not hold yet. A tree is written as
// its difference from the tree base when the pack holds that.
func (p *Pack) put(kind uint8, body []byte, base string) (objectID, error) {
	id := idOf(packKinds[kind], body)
	if _, ok := p.at[id]; ok {
		return id, nil
	}
	row := packRow{id: id, offset: p.offset, kind: kind}
	head, data := packHead(kind, len(body)), body
	if from, under, ok := p.baseOf(base); ok {
		delta := deltaOf(from, string(body))
		if len(delta) < len(body)/2 {
			data = delta
			head = appendBack(packHead(packOfsDelta, len(delta)), row.offset-under.offset)
			row.depth = under.depth + 1
		}
	}
	if _, err := fault.Step("write", "pack"); err != nil {
		return id, err
	}
	crc := crc32.NewIEEE()
	n := &counter{w: io.MultiWriter(p.w, crc)}
	n.Write(head)
	p.deflat.Reset(n)
	p.deflat.Write(data)
	p.deflat.Close()
	if n.err != nil {
		return id, fmt.Errorf("write pack: %w", n.err)
	}
	row.crc = crc.Sum32()
	p.offset += n.n
	p.at[id] = int32(len(p.rows))
	p.rows = append(p.rows, row)
	if kind == packTree {
		p.kept.put(string(id[:]), string(body))
	}
	return id, nil
}

// counter counts what goes through it and keeps the first error.
type counter struct {
	w   io.Writer
	n   int64
	err error
}

func (c *counter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	c.n += int64(n)
	if c.err == nil {
		c.err = err
	}
	return n, err
}

// baseOf is the tree with raw id base, if a difference may be upon it.
func (p *Pack) baseOf(base string) (body string, row packRow, ok bool) {
	if len(base) != len(objectID{}) {
		return "", row, false
	}
	i, ok := p.at[objectID([]byte(base))]
	if !ok || p.rows[i].depth >= deepest {
		return "", row, false
	}
	body, ok = p.kept.get(base)
	return body, p.rows[i], ok
}

// packHead is an object's kind and length as a pack begins it.
func packHead(kind uint8, size int) []byte {
	b := []byte{kind<<4 | byte(size&15)}
	for size >>= 4; size > 0; size >>= 7 {
		b[len(b)-1] |= 0x80
		b = append(b, byte(size&0x7f))
	}
	return b
}

// appendBack appends how far before an object its base lies.
func appendBack(b []byte, back int64) []byte {
	out := []byte{byte(back & 0x7f)}
	for back >>= 7; back > 0; back >>= 7 {
		back--
		out = append(out, byte(back&0x7f)|0x80)
	}
	slices.Reverse(out)
	return append(b, out...)
}

// deltaOf says how to make now of old: what both begin and end with, and what
// stands between.
func deltaOf(old, now string) []byte {
	head := 0
	for head < len(old) && head < len(now) && old[head] == now[head] {
		head++
	}
	tail := 0
	for tail < len(old)-head && tail < len(now)-head && old[len(old)-1-tail] == now[len(now)-1-tail] {
		tail++
	}
	b := binary.AppendUvarint(nil, uint64(len(old)))
	b = binary.AppendUvarint(b, uint64(len(now)))
	b = appendCopy(b, 0, head)
	for middle := now[head : len(now)-tail]; middle != ""; {
		n := min(len(middle), 127)
		b = append(append(b, byte(n)), middle[:n]...)
		middle = middle[n:]
	}
	return appendCopy(b, len(old)-tail, tail)
}

// appendCopy appends the order to copy n bytes from a place of the base.
func appendCopy(b []byte, from, n int) []byte {
	for n > 0 {
		size := min(n, 0xffff)
		b = append(b, 0x80|0x0f|0x30, byte(from), byte(from>>8), byte(from>>16), byte(from>>24), byte(size), byte(size>>8))
		from, n = from+size, n-size
	}
	return b
}

// finish completes the file: the number of objects, the checksum, the index
// beside it.
func (p *Pack) finish() error {
	if p.sum != "" {
		return nil
	}
	if err := p.w.Flush(); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	count := binary.BigEndian.AppendUint32(nil, uint32(len(p.rows)))
	if _, err := p.f.WriteAt(count, 8); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	h := sha1.New()
	if _, err := io.Copy(h, io.NewSectionReader(p.f, 0, p.offset)); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	sum := h.Sum(nil)
	if _, err := p.f.WriteAt(sum, p.offset); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	if err := errors.Join(p.f.Sync(), writeLasting(p.f.Name()+".idx", packIndex(p.rows, sum))); err != nil {
		return fmt.Errorf("write pack: %w", err)
	}
	p.sum = hex.EncodeToString(sum)
	return nil
}

// writeLasting writes a new file and waits until the disk has its bytes.
func writeLasting(file string, data []byte) error {
	f, err := os.OpenFile(file, os.O_WRONLY|os.O_CREATE|os.O_TRUNC, 0o444)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	return errors.Join(err, f.Sync(), f.Close())
}

// packIndex is the index, version 2, of a pack that ends with packSum.
func packIndex(rows []packRow, packSum []byte) []byte {
	rows = slices.Clone(rows)
	slices.SortFunc(rows, func(a, b packRow) int { return bytes.Compare(a.id[:], b.id[:]) })
	b := append(make([]byte, 0, 1100+len(rows)*28), "\xfftOc\x00\x00\x00\x02"...)
	n := 0
	for first := range 256 {
		for n < len(rows) && int(rows[n].id[0]) <= first {
			n++
		}
		b = binary.BigEndian.AppendUint32(b, uint32(n))
	}
	for i := range rows {
		b = append(b, rows[i].id[:]...)
	}
	for i := range rows {
		b = binary.BigEndian.AppendUint32(b, rows[i].crc)
	}
	var far []byte
	for i := range rows {
		at := uint32(rows[i].offset)
		if rows[i].offset >= 1<<31 {
			at = 1<<31 | uint32(len(far)/8)
			far = binary.BigEndian.AppendUint64(far, uint64(rows[i].offset))
		}
		b = binary.BigEndian.AppendUint32(b, at)
	}
	b = append(append(b, far...), packSum...)
	sum := sha1.Sum(b)
	return append(b, sum[:]...)
}

// Close gives the pack up, unless it was taken.
func (p *Pack) Close() {
	p.f.Close()
	os.Remove(p.f.Name())
	os.Remove(p.f.Name() + ".idx")
}

// base is the name that the finished pack will have, without ending.
func (p *Pack) base() string { return filepath.Join(p.dir, "pack-"+p.sum) }
