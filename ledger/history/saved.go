package history

import (
	"encoding/binary"
	"errors"
	"fmt"
	"hash/crc32"
	"slices"
)

// SavedVersion is part of the key of a saved index; it changes when the form
// or the meaning of a segment does.
const SavedVersion = 2

// ErrDamaged is returned by Load for a segment that is cut short, altered, of
// another version, or not the next one. A caller starts again from the log.
var ErrDamaged = errors.New("saved history is damaged")

// Mark is how far an index had grown: the lengths of its columns.
type Mark [14]uint32

// Mark says how far the index has grown by now.
func (x *Index) Mark() Mark {
	return Mark{
		uint32(len(x.ids)), uint32(len(x.commits)), uint32(len(x.parentsEnd)), uint32(len(x.parents)),
		uint32(len(x.people)), uint32(len(x.times)), uint32(len(x.zones)), uint32(len(x.messageEnd)),
		uint32(len(x.messages)), uint32(len(x.touchEnd)), uint32(len(x.touches)), uint32(len(x.keyEnd)),
		uint32(len(x.keyText)), uint32(len(x.personEnd)),
	}
}

var segmentHead = [4]byte{'B', 'H', 'I', SavedVersion}

// Segment is what the index gained since a mark (the zero Mark: everything),
// to be saved beside the segments before it.
func (x *Index) Segment(since Mark) []byte {
	to := x.Mark()
	size := 0
	for i := range to {
		size += int(to[i]-since[i]) * [...]int{1, 4, 4, 4, 4, 8, 2, 4, 1, 4, 1, 4, 1, 4}[i]
	}
	out := append(make([]byte, 0, size+len(x.person)+256), segmentHead[:]...)
	out = binary.LittleEndian.AppendUint32(out, uint32(x.idSize))
	for _, m := range []Mark{since, to} {
		for _, n := range m {
			out = binary.LittleEndian.AppendUint32(out, n)
		}
	}
	people := x.person[personStart(x, since):]
	out = binary.LittleEndian.AppendUint32(out, uint32(len(people)))
	out = append(out, x.ids[since[0]:]...)
	out = appendU32(out, x.commits[since[1]:], x.parentsEnd[since[2]:], x.parents[since[3]:], x.people[since[4]:])
	for _, t := range x.times[since[5]:] {
		out = binary.LittleEndian.AppendUint64(out, uint64(t))
	}
	for _, z := range x.zones[since[6]:] {
		out = binary.LittleEndian.AppendUint16(out, uint16(z))
	}
	out = appendU32(out, x.messageEnd[since[7]:])
	out = append(out, x.messages[since[8]:]...)
	out = appendU32(out, x.touchEnd[since[9]:])
	out = append(out, x.touches[since[10]:]...)
	out = appendU32(out, x.keyEnd[since[11]:])
	out = append(out, x.keyText[since[12]:]...)
	out = appendU32(out, x.personEnd[since[13]:])
	out = append(out, people...)
	return binary.LittleEndian.AppendUint32(out, crc32.ChecksumIEEE(out))
}

func personStart(x *Index, m Mark) uint32 {
	if m[13] == 0 {
		return 0
	}
	return x.personEnd[m[13]-1]
}

func appendU32(dst []byte, columns ...[]uint32) []byte {
	for _, c := range columns {
		for _, v := range c {
			dst = binary.LittleEndian.AppendUint32(dst, v)
		}
	}
	return dst
}

// Load builds an index from its segments, in the order in which they were
// saved. The error is ErrDamaged.
func Load(segments ...[]byte) (*Index, error) {
	x := &Index{}
	if n := len(segments); n > 0 {
		whole := 0
		for _, s := range segments {
			whole += len(s)
		}
		x.reserve(segments[n-1], whole)
	}
	for i, s := range segments {
		if err := x.load(s); err != nil {
			return nil, fmt.Errorf("load segment %d: %w", i+1, err)
		}
	}
	if err := x.relate(); err != nil {
		return nil, err
	}
	return x, nil
}

// fixedSize is what stands before the columns of a segment.
const fixedSize = 4 + 4 + 2*len(Mark{})*4 + 4

// reserve makes room for all that an index holds whose last segment is b, and
// for some commits more: columns of a million touches are copied each time that
// they grow. No column is longer than all segments together; that b is damaged is
// found by load.
func (x *Index) reserve(b []byte, whole int) {
	if len(b) < fixedSize {
		return
	}
	size := func(column int) int {
		n := min(int(binary.LittleEndian.Uint32(b[4+4+(len(Mark{})+column)*4:])), whole)
		return n + n/64
	}
	x.ids, x.messages = make([]byte, 0, size(0)), make([]byte, 0, size(8))
	x.touches, x.keyText = make([]byte, 0, size(10)), make([]byte, 0, size(12))
	x.keyEnd = make([]uint32, 0, size(11))
}

func (x *Index) load(b []byte) error {
	if len(b) < fixedSize+4 || [4]byte(b[:4]) != segmentHead ||
		crc32.ChecksumIEEE(b[:len(b)-4]) != binary.LittleEndian.Uint32(b[len(b)-4:]) {
		return ErrDamaged
	}
	r := reader{b: b[4 : len(b)-4]}
	idSize := int(r.u32())
	var from, to Mark
	for _, m := range []*Mark{&from, &to} {
		for i := range m {
			m[i] = r.u32()
		}
	}
	if from != x.Mark() || x.idSize != 0 && idSize != x.idSize {
		return ErrDamaged
	}
	x.idSize = idSize
	n := func(i int) int { return int(to[i]) - int(from[i]) }
	people := int(r.u32())
	x.ids = r.bytes(x.ids, n(0))
	x.commits, x.parentsEnd = r.u32s(x.commits, n(1)), r.u32s(x.parentsEnd, n(2))
	x.parents, x.people = r.u32s(x.parents, n(3)), r.u32s(x.people, n(4))
	times := r.cut(n(5) * 8)
	x.times = slices.Grow(x.times, len(times)/8)
	for ; len(times) >= 8; times = times[8:] {
		x.times = append(x.times, int64(binary.LittleEndian.Uint64(times)))
	}
	zones := r.cut(n(6) * 2)
	x.zones = slices.Grow(x.zones, len(zones)/2)
	for ; len(zones) >= 2; zones = zones[2:] {
		x.zones = append(x.zones, int16(binary.LittleEndian.Uint16(zones)))
	}
	x.messageEnd = r.u32s(x.messageEnd, n(7))
	x.messages = r.bytes(x.messages, n(8))
	x.touchEnd = r.u32s(x.touchEnd, n(9))
	x.touches = r.bytes(x.touches, n(10))
	x.keyEnd = r.u32s(x.keyEnd, n(11))
	x.keyText = r.bytes(x.keyText, n(12))
	x.personEnd = r.u32s(x.personEnd, n(13))
	x.person = r.bytes(x.person, people)
	if r.short || len(r.b) != 0 {
		return ErrDamaged
	}
	return nil
}

// reader takes columns off the front of b; short is set when b ends too soon.
type reader struct {
	b     []byte
	short bool
}

func (r *reader) cut(n int) []byte {
	if n < 0 || n > len(r.b) {
		r.short = true
		r.b = nil
		return nil
	}
	out := r.b[:n]
	r.b = r.b[n:]
	return out
}

func (r *reader) u32() uint32 {
	if v := r.cut(4); v != nil {
		return binary.LittleEndian.Uint32(v)
	}
	return 0
}

func (r *reader) bytes(dst []byte, n int) []byte { return append(dst, r.cut(n)...) }

func (r *reader) u32s(dst []uint32, n int) []uint32 {
	b := r.cut(n * 4)
	dst = slices.Grow(dst, len(b)/4)
	for i := 0; i+4 <= len(b); i += 4 {
		dst = append(dst, binary.LittleEndian.Uint32(b[i:]))
	}
	return dst
}

// relate rebuilds rowOf and holds every reference against its column.
func (x *Index) relate() error {
	if x.idSize == 0 {
		return nil
	}
	n := len(x.commits)
	ids := len(x.ids) / x.idSize
	if len(x.ids)%x.idSize != 0 || len(x.parentsEnd) != n || len(x.people) != 2*n || len(x.times) != 2*n ||
		len(x.zones) != 2*n || len(x.messageEnd) != n || len(x.touchEnd) != n {
		return ErrDamaged
	}
	if !rising(x.parentsEnd, len(x.parents)) || !rising(x.messageEnd, len(x.messages)) || !rising(x.touchEnd, len(x.touches)) ||
		!rising(x.keyEnd, len(x.keyText)) || !rising(x.personEnd, len(x.person)) ||
		!below(x.commits, ids) || !below(x.parents, ids) || !below(x.people, len(x.personEnd)) {
		return ErrDamaged
	}
	x.rowOf = make([]int32, ids)
	for i := range x.rowOf {
		x.rowOf[i] = -1
	}
	for row, id := range x.commits {
		x.rowOf[id] = int32(row)
	}
	return nil
}

func rising(ends []uint32, whole int) bool {
	var last uint32
	for _, e := range ends {
		if e < last {
			return false
		}
		last = e
	}
	return int(last) == whole
}

func below(refs []uint32, n int) bool {
	for _, r := range refs {
		if int(r) >= n {
			return false
		}
	}
	return true
}
