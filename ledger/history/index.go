package history

import (
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"slices"
	"strings"
	"sync"

	"blotter/ledger"
)

// Index is the log of a ledger in memory: every commit brought to it and
// every version that a commit gave a record or a settings file. Its columns
// only grow, so that it is saved by their tails (Segment) and extended by new
// commits alone. It knows no branch: At looks at it from one commit.
//
// An Index is not safe for use while Add or Load runs.
type Index struct {
	idSize int    // bytes of an id: 20, or 32 for SHA-256
	ids    []byte // ids of commits brought, and of parents not brought

	commits    []uint32 // for each commit, its id
	parentsEnd []uint32 // for each commit, the end of its parents in parents
	parents    []uint32 // ids
	people     []uint32 // for each commit, author and committer
	times      []int64  // for each commit, author's and committer's moment, Unix seconds
	zones      []int16  // for each commit, author's and committer's zone, minutes east
	messageEnd []uint32
	messages   []byte
	touchEnd   []uint32
	touches    []byte // see absentBefore

	keyEnd    []uint32 // touched files: a record's number, or "/" and the path of another file
	keyText   []byte
	personEnd []uint32 // name, a zero byte, e-mail address
	person    []byte

	rowOf    []int32 // for each id, its commit; -1: not brought
	idOf     *table  // made when first needed
	personOf *table

	keysOnce sync.Once
	keyOf    *table // through keys
}

// Add brings commits, children before parents or after them; one that is
// there already is passed over. An error means that a commit cannot be true
// (its id is no hexadecimal number, its touches disagree with its parents);
// the index then holds the commits before it.
func (x *Index) Add(commits ...Commit) error {
	x.prepare()
	for i := range commits {
		if err := x.add(&commits[i]); err != nil {
			return fmt.Errorf("add commit %s: %w", commits[i].ID, err)
		}
	}
	return nil
}

// Len is the number of commits brought.
func (x *Index) Len() int { return len(x.commits) }

// Has reports whether the commit was brought.
func (x *Index) Has(id string) bool {
	_, ok := x.row(id)
	return ok
}

func (x *Index) row(id string) (uint32, bool) {
	x.prepare()
	raw, err := hex.DecodeString(id)
	if err != nil {
		return 0, false
	}
	i, ok := x.idOf.find(string(raw))
	if !ok || x.rowOf[i] < 0 {
		return 0, false
	}
	return uint32(x.rowOf[i]), true
}

func (x *Index) add(c *Commit) error {
	if x.idSize == 0 {
		x.idSize = len(c.ID) / 2
	}
	touches, err := x.packTouches(c)
	if err != nil {
		return err
	}
	id, err := x.internID(c.ID)
	if err != nil {
		return err
	}
	if x.rowOf[id] >= 0 {
		return nil
	}
	parents := make([]uint32, len(c.Parents))
	for i, p := range c.Parents {
		if parents[i], err = x.internID(p); err != nil {
			return err
		}
	}
	x.rowOf[id] = int32(len(x.commits))
	x.commits = append(x.commits, id)
	x.parents = append(x.parents, parents...)
	x.parentsEnd = append(x.parentsEnd, uint32(len(x.parents)))
	for _, p := range []Person{c.Author, c.Committer} {
		x.people = append(x.people, x.internPerson(p))
		_, east := p.When.Zone()
		x.times, x.zones = append(x.times, p.When.Unix()), append(x.zones, int16(east/60))
	}
	x.messages = append(x.messages, c.Message...)
	x.messageEnd = append(x.messageEnd, uint32(len(x.messages)))
	for _, t := range touches {
		x.touches = t.append(x.touches, x.internKey(t.key))
	}
	x.touchEnd = append(x.touchEnd, uint32(len(x.touches)))
	return nil
}

// prepare makes the tables that adding and looking up need.
func (x *Index) prepare() {
	if x.idOf != nil {
		return
	}
	x.personOf = newTable(len(x.personEnd), func(i uint32) []byte { return span(x.person, x.personEnd, int(i)) })
	x.idOf = newTable(len(x.rowOf), func(i uint32) []byte { return x.ids[int(i)*x.idSize : int(i+1)*x.idSize] })
}

// span is the i-th of the byte strings that lie one after another in text.
func span(text []byte, ends []uint32, i int) []byte {
	var from uint32
	if i > 0 {
		from = ends[i-1]
	}
	return text[from:ends[i]]
}

func (x *Index) internID(id string) (uint32, error) {
	raw, err := x.decodeID(nil, id)
	if err != nil {
		return 0, err
	}
	if i, ok := x.idOf.find(string(raw)); ok {
		return i, nil
	}
	i := uint32(len(x.rowOf))
	x.ids, x.rowOf = append(x.ids, raw...), append(x.rowOf, -1)
	x.idOf.grow()
	return i, nil
}

func (x *Index) decodeID(dst []byte, id string) ([]byte, error) {
	n := len(dst)
	dst, err := hex.AppendDecode(dst, []byte(id))
	if err != nil || len(dst)-n != x.idSize || x.idSize == 0 {
		return nil, fmt.Errorf("id %q is not %d bytes in hexadecimal", id, x.idSize)
	}
	return dst, nil
}

func (x *Index) internPerson(p Person) uint32 {
	k := p.Name + "\x00" + p.Email
	if i, ok := x.personOf.find(k); ok {
		return i
	}
	i := uint32(len(x.personEnd))
	x.person = append(x.person, k...)
	x.personEnd = append(x.personEnd, uint32(len(x.person)))
	x.personOf.grow()
	return i
}

func (x *Index) internKey(k string) uint32 {
	keys := x.keys()
	if i, ok := keys.find(k); ok {
		return i
	}
	i := uint32(len(x.keyEnd))
	x.keyText = append(x.keyText, k...)
	x.keyEnd = append(x.keyEnd, uint32(len(x.keyText)))
	keys.grow()
	return i
}

func (x *Index) keys() *table {
	x.keysOnce.Do(func() {
		x.keyOf = newTable(len(x.keyEnd), func(i uint32) []byte { return span(x.keyText, x.keyEnd, int(i)) })
	})
	return x.keyOf
}

func (x *Index) parentsOf(row uint32) []uint32 {
	var from uint32
	if row > 0 {
		from = x.parentsEnd[row-1]
	}
	return x.parents[from:x.parentsEnd[row]]
}

func (x *Index) idText(i uint32) string {
	return hex.EncodeToString(x.ids[int(i)*x.idSize : int(i+1)*x.idSize])
}

// keyOfPath is the key of a touched file: the number of a record, "/" and the
// path of a settings or work file, false for what has no history here
// (pictures, pages).
func keyOfPath(p string) (string, bool) {
	if n, ok := ledger.NumberOfPath(p); ok && n != "" {
		return string(n), true
	}
	if !strings.HasSuffix(p, ".yaml") || strings.HasPrefix(p, ledger.ImagesDir+"/") {
		return "", false
	}
	return "/" + p, true
}

// Touches of a commit lie one after another in Index.touches: the key in four
// bytes, whose top bit says that no parent has the file; the id of the new
// content; then, without that bit, the id in each parent. Zeros: no file.
const absentBefore = 1 << 31

type packedTouch struct {
	key    string
	absent bool
	ids    []byte
}

func (t packedTouch) append(dst []byte, key uint32) []byte {
	if t.absent {
		key |= absentBefore
	}
	return append(binary.LittleEndian.AppendUint32(dst, key), t.ids...)
}

func (x *Index) packTouches(c *Commit) ([]packedTouch, error) {
	out := make([]packedTouch, 0, len(c.Touches))
	for i := range c.Touches {
		t := &c.Touches[i]
		key, ok := keyOfPath(t.Path)
		if !ok {
			continue
		}
		p := packedTouch{key: key, absent: !slices.ContainsFunc(t.Olds, func(b ledger.BlobID) bool { return b != "" })}
		if !p.absent && len(t.Olds) != len(c.Parents) {
			return nil, fmt.Errorf("%s has %d former versions for %d parents", t.Path, len(t.Olds), len(c.Parents))
		}
		ids := []ledger.BlobID{t.Blob}
		if !p.absent {
			ids = append(ids, t.Olds...)
		}
		p.ids = make([]byte, 0, len(ids)*x.idSize)
		for _, id := range ids {
			var err error
			if id == "" {
				p.ids = append(p.ids, make([]byte, x.idSize)...)
			} else if p.ids, err = x.decodeID(p.ids, string(id)); err != nil {
				return nil, err
			}
		}
		out = append(out, p)
	}
	return out, nil
}
