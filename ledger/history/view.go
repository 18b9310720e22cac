package history

import (
	"bytes"
	"cmp"
	"encoding/binary"
	"encoding/hex"
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"blotter/ledger"
)

// ErrUnknownCommit is returned by At for a commit that was not brought.
var ErrUnknownCommit = errors.New("commit is not in the log")

// View is the history as one commit knows it: that commit and everything
// before it. It holds whatever came in what order into the index, so that an
// extended index and a new one give the same View. Safe for several
// goroutines.
type View struct {
	x       *Index
	rows    []uint32 // the commits, oldest first
	place   []int32  // row -> place in rows; -1: not before this commit
	missing bool
	edge    map[int]bool // places of commits whose parents were cut off

	once   sync.Once
	starts []uint32 // key -> its first in byKey
	byKey  []ref

	movesOnce sync.Once
	moved     map[int][]Move // by place: what its message tells; see moves
}

// ref is one touch: the commit's place and where the touch lies.
type ref struct{ place, at uint32 }

// Revision is one version of a record: what one commit made of it.
type Revision struct {
	Place int             // of the commit in the view, for View.Commit
	Blob  ledger.BlobID   // "" when the record was taken away
	Olds  []ledger.BlobID // the version in each parent, "" where there was none; nil: in no parent

	Number ledger.Number // that the plant bore then; "" when it is the one asked for
	From   ledger.Number // that it bore in the parents, when it got another by this commit
	To     ledger.Number // under which it goes on since this commit, when it left the number asked for
}

// was is the number that a plant bore at a revision, n being the one asked for.
func (r Revision) was(n ledger.Number) ledger.Number { return cmp.Or(r.Number, n) }

// At looks at the index from a commit; "" is before the first commit and
// sees nothing. Commits stand oldest first: parents before children, else by
// committer's time, else by id.
func (x *Index) At(tip string) (*View, error) {
	v := &View{x: x, place: make([]int32, len(x.commits))}
	for i := range v.place {
		v.place[i] = -1
	}
	if tip == "" {
		return v, nil
	}
	row, ok := x.row(tip)
	if !ok {
		return nil, fmt.Errorf("view %s: %w", tip, ErrUnknownCommit)
	}
	dates := v.reach(row)
	slices.SortFunc(v.rows, func(a, b uint32) int {
		if c := cmp.Compare(dates[a], dates[b]); c != 0 {
			return c
		}
		return bytes.Compare(x.rawID(x.commits[a]), x.rawID(x.commits[b]))
	})
	for p, r := range v.rows {
		v.place[r] = int32(p)
	}
	return v, nil
}

func (x *Index) rawID(i uint32) []byte { return x.ids[int(i)*x.idSize : int(i+1)*x.idSize] }

// reach collects the commits up to tip and gives each a date that is its
// committer's time, or one second after its youngest parent if that is later.
func (v *View) reach(tip uint32) []int64 {
	const open, done = -2, -3
	x := v.x
	dates := make([]int64, len(x.commits))
	stack := []uint32{tip}
	for len(stack) > 0 {
		row := stack[len(stack)-1]
		if v.place[row] == done {
			stack = stack[:len(stack)-1]
			continue
		}
		ready := v.place[row] == open
		v.place[row] = open
		dates[row] = x.times[2*row+1]
		for _, id := range x.parentsOf(row) {
			p := x.rowOf[id]
			switch {
			case p < 0:
				v.missing = true
			case v.place[p] == done:
				dates[row] = max(dates[row], dates[p]+1)
			case !ready && v.place[p] == -1:
				stack = append(stack, uint32(p))
			}
		}
		if ready {
			v.place[row] = done
			v.rows = append(v.rows, row)
			stack = stack[:len(stack)-1]
		}
	}
	return dates
}

// Len is the number of commits in the view.
func (v *View) Len() int { return len(v.rows) }

// Incomplete reports whether some commit's parent was not brought, as in a
// shallow clone: the history before it is not known.
func (v *View) Incomplete() bool { return v.missing }

// Cut tells the view at which commits a shallow clone was cut: their parents
// were not brought, so what stands in them may have been entered before. It is
// called once, before the view is used.
func (v *View) Cut(ids []string) {
	for _, id := range ids {
		row, ok := v.x.row(id)
		if !ok || v.place[row] < 0 {
			continue
		}
		if v.edge == nil {
			v.edge = map[int]bool{}
		}
		v.missing, v.edge[int(v.place[row])] = true, true
	}
}

// Commit is the commit at a place, oldest first from 0, without its Touches.
func (v *View) Commit(place int) Commit {
	x, row := v.x, v.rows[place]
	c := Commit{ID: x.idText(x.commits[row]), Author: x.personAt(2 * row), Committer: x.personAt(2*row + 1),
		Message: string(span(x.messages, x.messageEnd, int(row)))}
	for _, p := range x.parentsOf(row) {
		c.Parents = append(c.Parents, x.idText(p))
	}
	return c
}

// Message is the message of the commit at a place.
func (v *View) Message(place int) string {
	return string(span(v.x.messages, v.x.messageEnd, int(v.rows[place])))
}

// At is the revision of a plant, which bears n then, that the commit at a place
// is, if it is one.
func (v *View) At(place int, n ledger.Number) (r Revision, ok bool) {
	if r, ok = v.at(place, n); ok {
		r = v.turned(r, n)
	}
	return r, ok
}

func (v *View) at(place int, n ledger.Number) (r Revision, ok bool) {
	k, known := v.x.keys().find(string(n))
	if !known {
		return r, false
	}
	v.each(uint32(place), func(key, at uint32) {
		if key == k {
			_, r = v.revision(ref{uint32(place), at})
			ok = true
		}
	})
	return r, ok
}

func (x *Index) personAt(i uint32) Person {
	name, email, _ := strings.Cut(string(span(x.person, x.personEnd, int(x.people[i]))), "\x00")
	zone := time.FixedZone("", int(x.zones[i])*60)
	return Person{Name: name, Email: email, When: time.Unix(x.times[i], 0).In(zone)}
}

// Since lists the places of v's commits that old does not know, oldest first.
// Both must come from one Index.
func (v *View) Since(old *View) []int {
	var out []int
	for p, row := range v.rows {
		if int(row) >= len(old.place) || old.place[row] < 0 {
			out = append(out, p)
		}
	}
	return out
}

// Of lists the revisions of the plant that bears a number last, oldest first,
// under whatever numbers it went; none for a number that never was.
func (v *View) Of(n ledger.Number) []Revision { return v.follow(n, "") }

// OfVersion is Of for a number of which it is known which version stands. That
// counts only when lines of work that were brought together had two plants at
// one number for a while.
func (v *View) OfVersion(n ledger.Number, stands ledger.BlobID) []Revision {
	return v.follow(n, stands)
}

// Borne lists the revisions of the file of a number, whatever plants bore it.
func (v *View) Borne(n ledger.Number) []Revision { return v.revisions(string(n)) }

// OfFile lists the revisions of another file, for example people.yaml.
func (v *View) OfFile(path string) []Revision { return v.revisions("/" + path) }

func (v *View) revisions(key string) []Revision {
	v.sort()
	k, ok := v.x.keys().find(key)
	if !ok || int(k)+1 >= len(v.starts) || v.starts[k] == v.starts[k+1] {
		return nil
	}
	refs := v.byKey[v.starts[k]:v.starts[k+1]]
	out := make([]Revision, len(refs))
	for i, r := range refs {
		_, out[i] = v.revision(r)
	}
	return out
}

// Touched lists the records that a commit is a revision of, in order of
// number.
func (v *View) Touched(place int) []ledger.Number {
	var out []ledger.Number
	v.each(uint32(place), func(key, _ uint32) {
		if n := string(span(v.x.keyText, v.x.keyEnd, int(key))); n[0] != '/' {
			out = append(out, ledger.Number(n))
		}
	})
	slices.Sort(out)
	return out
}

// Numbers lists every number that a record ever had, in order.
func (v *View) Numbers() []ledger.Number {
	v.sort()
	var out []ledger.Number
	for k := range len(v.starts) - 1 {
		if name := span(v.x.keyText, v.x.keyEnd, k); name[0] != '/' && v.starts[k] < v.starts[k+1] {
			out = append(out, ledger.Number(name))
		}
	}
	slices.Sort(out)
	return out
}

// sort collects the touches by key, once.
func (v *View) sort() {
	v.once.Do(func() {
		v.starts = make([]uint32, len(v.x.keyEnd)+1)
		for p := range v.rows {
			v.each(uint32(p), func(key, _ uint32) { v.starts[key+1]++ })
		}
		for k := range v.x.keyEnd {
			v.starts[k+1] += v.starts[k]
		}
		next := slices.Clone(v.starts)
		v.byKey = make([]ref, v.starts[len(v.starts)-1])
		for p := range v.rows {
			v.each(uint32(p), func(key, at uint32) {
				v.byKey[next[key]] = ref{uint32(p), at}
				next[key]++
			})
		}
	})
}

// each calls f with the key and the offset of every touch of a commit. A
// touch that does not fit its column (a damaged index that still has its
// checksum) ends the walk.
func (v *View) each(place uint32, f func(key, at uint32)) {
	x, row := v.x, v.rows[place]
	var at uint32
	if row > 0 {
		at = x.touchEnd[row-1]
	}
	size := uint32(x.idSize)
	for end := x.touchEnd[row]; at+4+size <= end; {
		key := binary.LittleEndian.Uint32(x.touches[at:])
		next := at + 4 + size
		if key&absentBefore == 0 {
			next += size * uint32(len(x.parentsOf(row)))
		}
		if key &^= absentBefore; next > end || int(key) >= len(x.keyEnd) {
			return
		}
		f(key, at)
		at = next
	}
}

func (v *View) revision(r ref) (key uint32, out Revision) {
	x := v.x
	key = binary.LittleEndian.Uint32(x.touches[r.at:])
	ids := x.touches[r.at+4:]
	out = Revision{Place: int(r.place), Blob: blobAt(ids, 0, x.idSize)}
	if key&absentBefore == 0 {
		for i := range x.parentsOf(v.rows[r.place]) {
			out.Olds = append(out.Olds, blobAt(ids, i+1, x.idSize))
		}
	}
	return key &^ absentBefore, out
}

func blobAt(ids []byte, i, size int) ledger.BlobID {
	raw := ids[i*size : (i+1)*size]
	for _, b := range raw {
		if b != 0 {
			return ledger.BlobID(hex.EncodeToString(raw))
		}
	}
	return ""
}
