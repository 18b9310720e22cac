package ledger

import (
	"hash/fnv"
	"reflect"
)

// WorkVersion differs whenever MarshalBinary of a work would write another
// form, or DecodeWork would read another work out of the same bytes.
func WorkVersion() int {
	h := fnv.New32a()
	for _, f := range FieldsOf(WorkFileKind) {
		h.Write([]byte(f.Path + "\x00" + f.Kind.String() + "\x00"))
	}
	return DecodeVersion*1_000_000 + int(h.Sum32()%1_000_000)
}

// MarshalBinary writes w for caches, as Record's does; without its Path.
func (w *Work) MarshalBinary() ([]byte, error) {
	return packGroup([]byte{binaryVersion}, plans()[WorkFileKind], reflect.ValueOf(w).Elem()), nil
}

// UnmarshalBinary reads what MarshalBinary wrote; other bytes give ErrBinary.
func (w *Work) UnmarshalBinary(b []byte) error {
	*w = Work{}
	return unpack(b, plans()[WorkFileKind], reflect.ValueOf(w).Elem())
}
