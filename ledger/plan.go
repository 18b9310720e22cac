package ledger

import (
	"reflect"
	"sync"
)

// plan joins one struct type with its rows of the field table, so that
// decoding, encoding and flattening walk both in step.
type plan struct {
	fields []planField
	byKey  map[string]int
	line   int // index of the struct's Line field; -1 for none
}

type planField struct {
	*Field
	key   string
	index int   // of the struct field
	sub   *plan // for Group and Entries
}

// plans are the plans of the kinds of file, made on first use.
var plans = sync.OnceValue(func() (ps [MappingKind + 1]*plan) {
	for k, v := range []any{Record{}, Museum{}, People{}, FamilyNames{}, Places{}, Public{}, Work{}, Mapping{}} {
		ps[k] = newPlan(FileKind(k), reflect.TypeOf(v), "")
	}
	return ps
})

func newPlan(k FileKind, t reflect.Type, prefix string) *plan {
	p := &plan{byKey: map[string]int{}, line: -1}
	rows, index := FieldsOf(k), fieldIndex()[k]
	for i := range t.NumField() {
		sf := t.Field(i)
		key := sf.Tag.Get("yaml")
		if sf.Name == "Line" {
			p.line = i
		}
		if key == "" || key == "-" {
			continue
		}
		row, ok := index[prefix+key]
		if !ok {
			panic("ledger: field table lacks " + prefix + key)
		}
		f := planField{Field: &rows[row], key: key, index: i}
		switch f.Kind {
		case Group:
			f.sub = newPlan(k, sf.Type, prefix+key+".")
		case Entries:
			f.sub = newPlan(k, sf.Type.Elem(), prefix+key+".")
		}
		p.byKey[key] = len(p.fields)
		p.fields = append(p.fields, f)
	}
	return p
}

// find is the row of a key; nil when the plan has none.
func (p *plan) find(key string) *planField {
	i, ok := p.byKey[key]
	if !ok {
		return nil
	}
	return &p.fields[i]
}
