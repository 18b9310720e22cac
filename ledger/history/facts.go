package history

import (
	"blotter/ledger"
	"blotter/ledger/reading"
)

// facts is what comparisons ask of one version, worked out when first asked.
type facts struct {
	record   *ledger.Record
	reader   *reading.Reader
	opinions *reading.Reading
	lists    []ledger.List
	groups   []FieldList
}

// known is the facts of a version that has a record.
func (v Version) known(reader *reading.Reader) *facts {
	if v.facts != nil {
		return v.facts
	}
	return &facts{record: v.Record, reader: reader}
}

// name is the name that holds, as written, and the keys it is compared by.
func (f *facts) name() (words string, keys []string) {
	name, _ := f.read().Current()
	keys = name.Keys
	if len(keys) == 0 && name.Words != "" {
		keys = []string{name.Words}
	}
	return name.Words, keys
}

func (f *facts) read() *reading.Reading {
	if f.opinions == nil {
		f.opinions = f.reader.Opinions(f.record)
	}
	return f.opinions
}

// list is one of the record's append-only lists.
func (f *facts) list(field string) []ledger.Entry {
	for _, l := range f.all() {
		if l.Field == field {
			return l.Entries
		}
	}
	return nil
}

// all is every append-only list.
func (f *facts) all() []ledger.List {
	if f.lists == nil {
		f.lists = ledger.Lists(f.record)
	}
	return f.lists
}

func (f *facts) fields() []FieldList {
	if f.groups == nil {
		f.groups = Group(f.record)
	}
	return f.groups
}
