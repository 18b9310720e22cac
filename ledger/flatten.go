package ledger

import (
	"reflect"
	"strconv"
	"strings"
)

// KV is one field and its words.
type KV struct{ Key, Value string }

// Document is a decoded file of the ledger that has a field table, such as a
// *Record or a *Work.
type Document interface{ fileKind() FileKind }

func (*Record) fileKind() FileKind      { return RecordKind }
func (*Museum) fileKind() FileKind      { return MuseumKind }
func (*People) fileKind() FileKind      { return PeopleKind }
func (*FamilyNames) fileKind() FileKind { return NamesKind }
func (*Places) fileKind() FileKind      { return PlacesKind }
func (*Public) fileKind() FileKind      { return PublicKind }
func (*Work) fileKind() FileKind        { return WorkFileKind }

// DecodeDocument is Decode, DecodeWork or one of their kin, by what lies at
// the path.
func DecodeDocument(path string, src []byte) (Document, []Finding) {
	switch kind, _ := KindOf(path); kind {
	case MuseumKind:
		return DecodeMuseum(path, src)
	case PeopleKind:
		return DecodePeople(path, src)
	case NamesKind:
		return DecodeNames(path, src)
	case PlacesKind:
		return DecodePlaces(path, src)
	case PublicKind:
		return DecodePublic(path, src)
	case WorkFileKind:
		return DecodeWork(path, src)
	}
	return Decode(path, src)
}

// Flatten lists every field of a document that has words, with its dotted path, in the
// order of the field table whatever the order of the file. Entries of lists
// count from 1: determinations.2.by, with.1. Columns of an import stand under
// import with their own names.
func Flatten(d Document) []KV {
	return flatten(make([]KV, 0, 32), plans()[d.fileKind()], reflect.ValueOf(d).Elem(), "")
}

func flatten(out []KV, p *plan, v reflect.Value, prefix string) []KV {
	for i := range p.fields {
		f := &p.fields[i]
		fv := v.Field(f.index)
		switch f.Kind {
		case Text:
			if l := fv.Addr().Interface().(*Leaf); l.Text != "" {
				out = append(out, KV{prefix + f.key, l.Text})
			}
		case Group:
			out = flatten(out, f.sub, fv, prefix+f.key+".")
		case Texts:
			for k, l := range *fv.Addr().Interface().(*[]Leaf) {
				out = append(out, KV{prefix + f.key + "." + strconv.Itoa(k+1), l.Text})
			}
		case Entries:
			for k := range fv.Len() {
				out = flatten(out, f.sub, fv.Index(k), prefix+f.key+"."+strconv.Itoa(k+1)+".")
			}
		case Pairs:
			for _, pair := range *fv.Addr().Interface().(*[]Pair) {
				out = append(out, KV{prefix + f.key + "." + pair.Key, pair.Value.Text})
			}
		}
	}
	return out
}

// Entry is one entry of a list: its fields that have words, in the order of
// the field table.
type Entry struct {
	Fields []KV
	Line   int32
}

// Get is the words of one field of the entry; "" when it has none.
func (e Entry) Get(key string) string {
	for _, kv := range e.Fields {
		if kv.Key == key {
			return kv.Value
		}
	}
	return ""
}

// Equal reports whether two entries have the same words; where they stand
// does not count.
func (e Entry) Equal(o Entry) bool {
	if len(e.Fields) != len(o.Fields) {
		return false
	}
	for i := range e.Fields {
		if e.Fields[i] != o.Fields[i] {
			return false
		}
	}
	return true
}

// List is one append-only list of a document.
type List struct {
	Field   string // determinations, types, annotations or fate; lines of a work
	Entries []Entry
}

// Lists gives the append-only lists of a document in the order of the field
// table, the empty ones included.
func Lists(d Document) []List {
	var out []List
	p, v := plans()[d.fileKind()], reflect.ValueOf(d).Elem()
	for i := range p.fields {
		f := &p.fields[i]
		if !f.AppendOnly {
			continue
		}
		list, fv := List{Field: f.key}, v.Field(f.index)
		for k := range fv.Len() {
			e := fv.Index(k)
			entry := Entry{Fields: flatten(nil, f.sub, e, "")}
			if f.sub.line >= 0 {
				entry.Line = int32(e.Field(f.sub.line).Int())
			}
			list.Entries = append(list.Entries, entry)
		}
		out = append(out, list)
	}
	return out
}

// LineOf is the line on which the field at a dotted path stands, outside the
// lists of entries; 0 when it is not there.
func LineOf(d Document, path string) int {
	return int(lineOf(plans()[d.fileKind()], reflect.ValueOf(d).Elem(), path))
}

func lineOf(p *plan, v reflect.Value, path string) int32 {
	key, rest, _ := strings.Cut(path, ".")
	for i := range p.fields {
		f := &p.fields[i]
		if f.key != key {
			continue
		}
		fv := v.Field(f.index)
		switch f.Kind {
		case Text:
			return fv.Addr().Interface().(*Leaf).Line
		case Group:
			return lineOf(f.sub, fv, rest)
		case Texts:
			list := *fv.Addr().Interface().(*[]Leaf)
			if n := numberPart(rest); n > 0 && n <= len(list) {
				return list[n-1].Line
			} else if len(list) > 0 {
				return list[0].Line
			}
		}
	}
	return 0
}
