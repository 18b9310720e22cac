package gitrepo

import (
	"bytes"
	"context"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"sort"

	"blotter/ledger/disk"
)

// packFiles is one pack and the index beside it.
type packFiles struct {
	pack, index string
	width       int
	names       []byte // ids in order, one after another
	places      []byte // where each lies, four bytes
	far         []byte // where those lie that are far out, eight bytes
	sum         []byte // of the index's own bytes
	packSum     []byte // of the pack, as the index has it
}

// readIndex reads a pack's index, version 2 (gitformat-pack(5)), and holds it
// to its checksum. Version 1, which git has not written since 2008, is left
// unread: the pack alone is then looked at.
func (f *packFiles) readIndex(width int) error {
	f.width = width
	b, err := os.ReadFile(f.index)
	if err != nil {
		return err
	}
	if len(b) < 8+1024+2*width || string(b[:8]) != "\xfftOc\x00\x00\x00\x02" {
		return errors.New("is no index of a pack, version 2")
	}
	h := newHash(width)
	h.Write(b[:len(b)-width])
	if !bytes.Equal(h.Sum(nil), b[len(b)-width:]) {
		return errors.New("the checksum at its end is of other bytes; it is cut short or was changed")
	}
	n := int(binary.BigEndian.Uint32(b[8+1020:]))
	at := 8 + 1024
	if len(b) < at+n*(width+8)+2*width {
		return errors.New("is shorter than it says")
	}
	f.names = b[at : at+n*width]
	at += n * (width + 4)
	f.places, f.far = b[at:at+4*n], b[at+4*n:len(b)-2*width]
	f.packSum, f.sum = b[len(b)-2*width:len(b)-width], b[len(b)-width:]
	return nil
}

func (f packFiles) count() int { return len(f.names) / max(f.width, 1) }

func (f packFiles) name(i int) []byte { return f.names[i*f.width : (i+1)*f.width] }

// find is where an id stands in the index; false when it does not.
func (f packFiles) find(id []byte) (int, bool) {
	n := f.count()
	i := sort.Search(n, func(i int) bool { return bytes.Compare(f.name(i), id) >= 0 })
	return i, i < n && bytes.Equal(f.name(i), id)
}

func (f packFiles) has(id []byte) bool {
	_, ok := f.find(id)
	return ok
}

// place is where the i-th object lies in the pack; -1 when the index does not
// say.
func (f packFiles) place(i int) int64 {
	at := binary.BigEndian.Uint32(f.places[4*i:])
	if at < 1<<31 {
		return int64(at)
	}
	if at &^= 1 << 31; int(at)*8+8 <= len(f.far) {
		return int64(binary.BigEndian.Uint64(f.far[at*8:]))
	}
	return -1
}

// provedPacks keeps, by the checksums of a pack and its index, that every
// object in it was unpacked and hashed, and what they lead to elsewhere.
var provedPacks = disk.Bucket{Name: "whole", Version: 1}

// packs looks at every pack.
func (w *wholing) packs([]string) error {
	for i := range w.files {
		if err := w.pack(&w.files[i]); err != nil {
			return err
		}
	}
	return nil
}

// pack looks at one pack: at each of its bytes, and, when the cache does not
// know them, at each of its objects.
func (w *wholing) pack(f *packFiles) error {
	file, err := os.Open(f.pack)
	if err != nil {
		return err
	}
	defer file.Close()
	st, err := file.Stat()
	if err != nil {
		return err
	}
	v := newVerifying(w.ctx, file, st.Size(), w.r.width)
	if err := v.sum(); err != nil {
		return w.torn(f, err)
	}
	if sum := v.hash.Sum(nil); f.packSum != nil && !bytes.Equal(sum, f.packSum) {
		w.fault(f.index, "", "is the index of another pack than the one beside it")
		f.names = nil
	}
	key := append(bytes.Clone(f.packSum), f.sum...)
	if kept := w.cache.Get(provedPacks, key); len(key) > 0 && len(kept)%w.r.width == 0 && len(kept) > 0 {
		for kept = kept[w.r.width:]; len(kept) > 0; kept = kept[w.r.width:] { // the first stands for none
			w.lacking[idFrom(kept[:w.r.width])] = struct{}{}
		}
		w.looked(f.count())
		return nil
	}
	v.progress = w.progress
	v.from, v.total = w.found.Objects, w.total
	for _, step := range []func() error{v.whole, v.differences} {
		if err := step(); err != nil {
			return w.torn(f, err)
		}
	}
	w.looked(len(v.rows))
	w.found.Anew += len(v.rows)
	whole := w.agrees(f, v)
	if f.names == nil {
		f.nameBy(v)
	}
	outside := make([]byte, w.r.width)
	for id := range v.wanted {
		if _, ok := v.places[id]; !ok {
			w.lacking[id] = struct{}{}
			outside = append(outside, id[:w.r.width]...)
		}
	}
	if whole && len(key) > 0 {
		w.cache.Put(provedPacks, []disk.Entry{{Key: key, Value: outside}})
	}
	return nil
}

// agrees holds a pack's index to the objects that were found in it.
func (w *wholing) agrees(f *packFiles, v *verifying) bool {
	if f.names == nil {
		return false
	}
	if f.count() != len(v.rows) {
		w.fault(f.index, "", "lists %d objects, the pack holds %d", f.count(), len(v.rows))
		return false
	}
	for i := range v.rows {
		if at, ok := f.find(v.rows[i].id[:f.width]); !ok || f.place(at) != v.rows[i].at {
			w.fault(f.index, hex.EncodeToString(v.rows[i].id[:f.width]), "does not lead to the object where it lies")
			return false
		}
	}
	return true
}

// nameBy fills the names of a pack whose index cannot be read: its objects are
// there, git alone does not find them.
func (f *packFiles) nameBy(v *verifying) {
	ids := make([]anyID, len(v.rows))
	for i := range v.rows {
		ids[i] = v.rows[i].id
	}
	slices.SortFunc(ids, func(a, b anyID) int { return bytes.Compare(a[:], b[:]) })
	for _, id := range ids {
		f.names = append(f.names, id[:f.width]...)
	}
}

// mostNamed is how many damaged objects of one pack are named.
const mostNamed = 200

// torn tells of a pack that is damaged, and of which objects cannot be read
// for it.
func (w *wholing) torn(f *packFiles, err error) error {
	if w.ctx.Err() != nil {
		return w.ctx.Err()
	}
	w.fault(f.pack, "", "%v", err)
	named := 0
	for i := range f.count() {
		id := hex.EncodeToString(f.name(i))
		kind, body, err := w.r.pool.read(w.ctx, id, 0)
		if w.ctx.Err() != nil {
			return w.ctx.Err()
		}
		if err == nil && w.hashed(kind, body) == idFrom(f.name(i)) {
			continue
		}
		if named++; named > mostNamed {
			break
		}
		w.fault(f.pack, id, "cannot be read")
	}
	w.looked(f.count())
	return nil
}

func (w *wholing) hashed(kind string, body []byte) anyID {
	h := newHash(w.r.width)
	fmt.Fprintf(h, "%s %d\x00", kind, len(body))
	h.Write(body)
	return idFrom(h.Sum(nil))
}

func newVerifying(ctx context.Context, in io.ReaderAt, size int64, width int) *verifying {
	b := &Bundle{in: in, end: size, width: width, trees: newBodies(), places: map[anyID]int32{}}
	return &verifying{Bundle: b, ctx: ctx, hash: newHash(width), byID: map[anyID][]int32{}, wanted: map[anyID]struct{}{}}
}
