package ledger

import (
	"reflect"
	"strconv"
)

// KV is one field and its words.
type KV struct{ Key, Value string }

// Flatten lists every field of r that has words, with its dotted path, in the
// order of the field table whatever the order of the file. Entries of lists
// count from 1: determinations.2.by, with.1. Columns of an import stand under
// import with their own names.
func Flatten(r *Record) []KV {
	return flatten(make([]KV, 0, 32), plans()[RecordKind], reflect.ValueOf(r).Elem(), "")
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

// List is one append-only list of a record.
type List struct {
	Field   string // determinations, types, annotations or fate
	Entries []Entry
}

// Lists gives the append-only lists of r in the order of the field table, the
// empty ones included.
func Lists(r *Record) []List {
	var out []List
	p, v := plans()[RecordKind], reflect.ValueOf(r).Elem()
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
