package ledger

import (
	"encoding/binary"
	"errors"
	"reflect"
)

// binaryVersion changes whenever MarshalBinary would write another form or
// Decode would read another record out of the same bytes; caches carry it.
const binaryVersion = 9

// MarshalBinary writes r compactly with every position, for caches. The form
// may change with any version of the program. It gives no error.
func (r *Record) MarshalBinary() ([]byte, error) { return r.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (r *Record) AppendBinary(b []byte) ([]byte, error) {
	b = append(b, binaryVersion)
	b = appendString(b, r.Path)
	return packGroup(b, plans()[RecordKind], reflect.ValueOf(r).Elem()), nil
}

// ErrBinary says that bytes are not what MarshalBinary of this version writes.
var ErrBinary = errors.New("unpack record: another version or damaged")

// UnmarshalBinary reads what MarshalBinary wrote: the record is then equal to
// the one that Decode gave. It keeps no part of b. Other bytes give ErrBinary.
func (r *Record) UnmarshalBinary(b []byte) error {
	if len(b) == 0 || b[0] != binaryVersion {
		return ErrBinary
	}
	*r = Record{}
	u := &unpacker{rest: string(b[1:])}
	r.Path = u.str()
	u.group(plans()[RecordKind], reflect.ValueOf(r).Elem())
	if u.bad || u.rest != "" {
		*r = Record{}
		return ErrBinary
	}
	return nil
}

func appendString(b []byte, s string) []byte {
	return append(binary.AppendUvarint(b, uint64(len(s))), s...)
}

func packLeaf(b []byte, l *Leaf) []byte {
	b = binary.AppendUvarint(b, uint64(uint32(l.Line)))
	b = binary.AppendUvarint(b, uint64(uint32(l.Col)))
	return appendString(b, l.Text)
}

// packGroup writes the fields that are there, each behind its number in the
// plan from 1, then 0.
func packGroup(b []byte, p *plan, v reflect.Value) []byte {
	if p.line >= 0 {
		b = binary.AppendUvarint(b, uint64(uint32(v.Field(p.line).Int())))
	}
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		switch f.Kind {
		case Text:
			if l := fv.Addr().Interface().(*Leaf); *l != (Leaf{}) {
				b = packLeaf(append(b, byte(i+1)), l)
			}
		case Group:
			if !fv.IsZero() {
				b = packGroup(append(b, byte(i+1)), f.sub, fv)
			}
		case Texts:
			if ls := *fv.Addr().Interface().(*[]Leaf); ls != nil {
				b = binary.AppendUvarint(append(b, byte(i+1)), uint64(len(ls)))
				for k := range ls {
					b = packLeaf(b, &ls[k])
				}
			}
		case Entries:
			if !fv.IsNil() {
				b = binary.AppendUvarint(append(b, byte(i+1)), uint64(fv.Len()))
				for k := range fv.Len() {
					b = packGroup(b, f.sub, fv.Index(k))
				}
			}
		case Pairs:
			if ps := *fv.Addr().Interface().(*[]Pair); ps != nil {
				b = binary.AppendUvarint(append(b, byte(i+1)), uint64(len(ps)))
				for k := range ps {
					b = packLeaf(appendString(b, ps[k].Key), &ps[k].Value)
				}
			}
		}
	}
	return append(b, 0)
}

// unpacker reads what packGroup wrote; strings are parts of rest, so that a
// record is one allocation of text.
type unpacker struct {
	rest string
	bad  bool
}

func (u *unpacker) num() int {
	var n uint64
	for i := 0; i < len(u.rest) && i < 5; i++ {
		n |= uint64(u.rest[i]&0x7f) << (7 * i)
		if u.rest[i] < 0x80 {
			u.rest = u.rest[i+1:]
			return int(n)
		}
	}
	u.bad, u.rest = true, ""
	return 0
}

// count is a number of things that take at least size bytes each.
func (u *unpacker) count(size int) int {
	n := u.num()
	if n > len(u.rest)/size {
		u.bad, u.rest = true, ""
		return 0
	}
	return n
}

func (u *unpacker) str() string {
	n := u.count(1)
	s := u.rest[:n]
	u.rest = u.rest[n:]
	return s
}

func (u *unpacker) leaf(l *Leaf) {
	l.Line, l.Col = int32(u.num()), int32(u.num())
	l.Text = u.str()
}

func (u *unpacker) group(p *plan, v reflect.Value) {
	if p.line >= 0 {
		v.Field(p.line).SetInt(int64(int32(u.num())))
	}
	for {
		i := u.num()
		if i == 0 || u.bad {
			return
		}
		if i > len(p.fields) {
			u.bad, u.rest = true, ""
			return
		}
		f := &p.fields[i-1]
		fv := v.Field(f.index)
		switch f.Kind {
		case Text:
			u.leaf(fv.Addr().Interface().(*Leaf))
		case Group:
			u.group(f.sub, fv)
		case Texts:
			ls := make([]Leaf, u.count(3))
			for k := range ls {
				u.leaf(&ls[k])
			}
			fv.Set(reflect.ValueOf(ls))
		case Entries:
			n := u.count(1)
			s := reflect.MakeSlice(fv.Type(), n, n)
			for k := range n {
				u.group(f.sub, s.Index(k))
			}
			fv.Set(s)
		case Pairs:
			ps := make([]Pair, u.count(4))
			for k := range ps {
				ps[k].Key = u.str()
				u.leaf(&ps[k].Value)
			}
			fv.Set(reflect.ValueOf(ps))
		}
	}
}

// MarshalBinary writes n for caches, as Record's does; without its Path.
func (n *FamilyNames) MarshalBinary() ([]byte, error) {
	return packGroup([]byte{binaryVersion}, plans()[NamesKind], reflect.ValueOf(n).Elem()), nil
}

// UnmarshalBinary reads what MarshalBinary wrote; other bytes give ErrBinary.
func (n *FamilyNames) UnmarshalBinary(b []byte) error {
	*n = FamilyNames{}
	return unpack(b, plans()[NamesKind], reflect.ValueOf(n).Elem())
}

// MarshalBinary writes p for caches, as Record's does.
func (p *People) MarshalBinary() ([]byte, error) {
	return packGroup([]byte{binaryVersion}, plans()[PeopleKind], reflect.ValueOf(p).Elem()), nil
}

// UnmarshalBinary reads what MarshalBinary wrote; other bytes give ErrBinary.
func (p *People) UnmarshalBinary(b []byte) error {
	*p = People{}
	return unpack(b, plans()[PeopleKind], reflect.ValueOf(p).Elem())
}

// unpack fills the zero v; v stays zero when b is not what packGroup wrote.
func unpack(b []byte, p *plan, v reflect.Value) error {
	if len(b) == 0 || b[0] != binaryVersion {
		return ErrBinary
	}
	u := &unpacker{rest: string(b[1:])}
	u.group(p, v)
	if u.bad || u.rest != "" {
		v.SetZero()
		return ErrBinary
	}
	return nil
}
