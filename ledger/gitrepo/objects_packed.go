package gitrepo

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
)

// packed reads objects straight out of packs. Of a pack's index it keeps the
// bytes as they are, once for all readers of a repository: 28 an object, where
// go-git makes tables of some 190 for every reader, which at a million records
// is most of what a command holds. An object that is in no pack, and whatever
// is otherwise than expected here, is asked of rest.
type packed struct {
	rest  objects
	packs []*openPack
	kept  *bodies // objects read lately, each after the byte of its kind, by pack and place

	near *bufio.Reader
	inflater
}

// openPack is a pack that is read from.
type openPack struct {
	*packFiles
	name string // tells it from the others of a reader
	file *os.File
	end  int64 // where its checksum begins
}

// keptPart is how long an object may be to be kept for those that differ from
// it: pictures are not.
const keptPart = 1 << 20

var errOddPack = errors.New("a pack reads otherwise than expected")

// packIndexes are the indexes of packs that some reader has open.
type packIndexes struct {
	mu   sync.Mutex
	read map[string]*packFiles // by file, size and time
}

// openPacked opens a reader of the packs that are there now.
func (r *Repo) openPacked() (objects, error) {
	rest, err := r.openNative()
	if err != nil {
		return nil, err
	}
	dirs, err := r.objectDirs()
	if err != nil {
		return rest, nil
	}
	p := &packed{rest: rest, kept: newBodies(), near: bufio.NewReaderSize(nil, 4096)}
	for _, dir := range dirs {
		files, err := filepath.Glob(filepath.Join(dir, "pack", "*.pack"))
		if err != nil {
			continue // a name that Glob takes for a pattern: rest finds what is there
		}
		for _, f := range files {
			if o := r.openPack(f); o != nil {
				o.name = strconv.Itoa(len(p.packs)) + ":"
				p.packs = append(p.packs, o)
			}
		}
	}
	return p, nil
}

// openPack opens a pack and its index; nil when that cannot be, so that rest
// may say why.
func (r *Repo) openPack(file string) *openPack {
	index, err := r.indexes.of(strings.TrimSuffix(file, ".pack")+".idx", r.width)
	if err != nil {
		return nil
	}
	f, err := os.Open(file)
	if err != nil {
		return nil
	}
	o := &openPack{packFiles: index, file: f}
	if !o.fits() {
		f.Close()
		return nil
	}
	return o
}

// fits reports whether the pack is the one that its index is of.
func (o *openPack) fits() bool {
	st, err := o.file.Stat()
	if err != nil || st.Size() < int64(12+o.width) {
		return false
	}
	o.end = st.Size() - int64(o.width)
	var head [12]byte
	sum := make([]byte, o.width)
	if _, err := o.file.ReadAt(head[:], 0); err != nil {
		return false
	}
	if _, err := o.file.ReadAt(sum, o.end); err != nil {
		return false
	}
	return string(head[:8]) == "PACK\x00\x00\x00\x02" && int(binary.BigEndian.Uint32(head[8:])) == o.count() && bytes.Equal(sum, o.packSum)
}

// of is the index in a file, read once.
func (x *packIndexes) of(file string, width int) (*packFiles, error) {
	st, err := os.Stat(file)
	if err != nil {
		return nil, err
	}
	key := file + "\x00" + strconv.FormatInt(st.Size(), 10) + "\x00" + st.ModTime().String()
	x.mu.Lock()
	defer x.mu.Unlock()
	if f := x.read[key]; f != nil {
		return f, nil
	}
	f := &packFiles{index: file}
	if err := f.readIndex(width); err != nil {
		return nil, err
	}
	if x.read == nil {
		x.read = map[string]*packFiles{}
	}
	x.read[key] = f
	return f, nil
}

func (p *packed) close() {
	for _, o := range p.packs {
		o.file.Close()
	}
	p.rest.close()
}

func (p *packed) read(id string, limit int64) (string, []byte, error) {
	raw, err := hex.DecodeString(id)
	if err != nil {
		return p.rest.read(id, limit)
	}
	for i, o := range p.packs {
		if len(raw) != o.width {
			continue
		}
		place, ok := o.find(raw)
		if !ok {
			continue
		}
		if i > 0 { // the next is likely to be in the same pack
			p.packs[0], p.packs[i] = p.packs[i], p.packs[0]
		}
		body, err := p.object(o, o.place(place))
		if err != nil {
			break
		}
		if limit > 0 && int64(len(body)-1) > limit {
			return "", nil, errTooLarge
		}
		return packKinds[body[0]], []byte(body[1:]), nil
	}
	return p.rest.read(id, limit)
}

// object is the object at a place of a pack, after the byte of its kind:
// where it is written as a difference, the chain is followed down to an object
// that is written whole or was read lately.
func (p *packed) object(o *openPack, at int64) (string, error) {
	type step struct {
		at    int64
		delta []byte
	}
	var chain []step
	for {
		if body, ok := p.kept.get(o.name + strconv.FormatInt(at, 36)); ok {
			for i := len(chain) - 1; i >= 0; i-- {
				whole, err := undelta(body[1:], chain[i].delta)
				if err != nil {
					return "", err
				}
				body = body[:1] + string(whole)
				p.keep(o, chain[i].at, body)
			}
			return body, nil
		}
		kind, base, body, err := p.written(o, at)
		if err != nil {
			return "", err
		}
		if kind != packOfsDelta && kind != packRefDelta {
			p.kept.put(o.name+strconv.FormatInt(at, 36), string(rune(kind))+string(body)) // whatever its length: it is asked for above
			continue
		}
		if chain = append(chain, step{at, body}); len(chain) > deepChain || madeBy(body) > ledger.MaxFile {
			return "", errOddPack
		}
		at = base
	}
}

// madeBy is the length of what a difference makes.
func madeBy(delta []byte) uint64 {
	_, n := binary.Uvarint(delta)
	size, _ := binary.Uvarint(delta[max(n, 0):])
	return size
}

func (p *packed) keep(o *openPack, at int64, body string) {
	if len(body) <= keptPart {
		p.kept.put(o.name+strconv.FormatInt(at, 36), body)
	}
}

// written is what is written at a place: an object, or a difference and the
// place of its base.
func (p *packed) written(o *openPack, at int64) (kind uint8, base int64, body []byte, err error) {
	if at < 12 || at >= o.end {
		return 0, 0, nil, errOddPack
	}
	p.near.Reset(io.NewSectionReader(o.file, at, o.end-at))
	kind, size, err := readPackHead(p.near)
	if err != nil || size < 0 || size > ledger.MaxFile { // a large one is go-git's, which streams it
		return 0, 0, nil, errOddPack
	}
	switch kind {
	case packCommit, packTree, packBlob, packTag:
	case packOfsDelta:
		back, err := readBack(p.near)
		if err != nil || back <= 0 {
			return 0, 0, nil, errOddPack
		}
		base = at - back
	case packRefDelta:
		id := make([]byte, o.width)
		if _, err := io.ReadFull(p.near, id); err != nil {
			return 0, 0, nil, err
		}
		i, ok := o.find(id)
		if !ok {
			return 0, 0, nil, errOddPack
		}
		base = o.place(i)
	default:
		return 0, 0, nil, errOddPack
	}
	body, err = p.inflate(size)
	return kind, base, body, err
}

// inflate unpacks what comes next, which must be of that size.
func (p *packed) inflate(size int) ([]byte, error) {
	if err := p.next(p.near); err != nil {
		return nil, err
	}
	body := make([]byte, size)
	if _, err := io.ReadFull(p.z, body); err != nil {
		return nil, err
	}
	return body, p.ended()
}
