package history

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
)

// FieldChange is one field whose words differ between two versions. A whole
// entry of a list that came or went is one change, its fields on one line.
type FieldChange struct {
	Path   string // place.elevation; determinations.1.by, counted in the new version, in the old one where the new has none
	Before string // "" when the field was not there
	After  string // "" when it is there no more

	Decided bool // a person chose After, in a merge; Before is what the other copy, or one of the two, said
}

// FieldList is a list of a record, or one value outside its lists.
type FieldList struct {
	Path    string
	Value   string
	List    bool
	Entries []ledger.Entry
}

// Group splits a record's fields into single values and lists, in the order of
// the field table; none for a nil record.
func Group(r *ledger.Record) []FieldList {
	if r == nil {
		return nil
	}
	return GroupOf(r)
}

// GroupOf is Group for any document.
func GroupOf(d ledger.Document) []FieldList {
	var out []FieldList
	for _, kv := range ledger.Flatten(d) {
		path, at, key := splitPath(kv.Key)
		if at == 0 {
			out = append(out, FieldList{Path: kv.Key, Value: kv.Value})
			continue
		}
		if n := len(out); n == 0 || !out[n-1].List || out[n-1].Path != path {
			out = append(out, FieldList{Path: path, List: true})
		}
		l := &out[len(out)-1]
		for len(l.Entries) < at {
			l.Entries = append(l.Entries, ledger.Entry{})
		}
		e := &l.Entries[at-1]
		e.Fields = append(e.Fields, ledger.KV{Key: key, Value: kv.Value})
	}
	return out
}

// splitPath parts determinations.2.by into its list, place and field; at is 0
// for a value outside lists. Columns of an import have any name, so nothing
// under import is a list.
func splitPath(p string) (path string, at int, key string) {
	if strings.HasPrefix(p, "import.") {
		return p, 0, ""
	}
	parts := strings.Split(p, ".")
	for i := 1; i < len(parts); i++ {
		if n, err := strconv.Atoi(parts[i]); err == nil && n > 0 {
			return strings.Join(parts[:i], "."), n, strings.Join(parts[i+1:], ".")
		}
	}
	return p, 0, ""
}

// tableOrder is the place of every field in the field table.
var tableOrder = sync.OnceValue(func() map[string]int {
	m := map[string]int{}
	for i, f := range ledger.Fields() {
		m[f.Path] = i
	}
	return m
})

// DiffFields lists what differs between two versions of a record, in the
// order of the field table. Entries added to the lists of opinions
// (determinations, types, annotations, fate) are no changes of fields; a nil
// record has no fields.
func DiffFields(old, new *ledger.Record) []FieldChange {
	return diffGroups(Group(old), Group(new))
}

// DiffDocuments is DiffFields for any kind of document.
func DiffDocuments(old, new ledger.Document) []FieldChange {
	return diffGroups(GroupOf(old), GroupOf(new))
}

func diffGroups(a, b []FieldList) []FieldChange {
	met := make([]bool, len(b))
	at := make(map[string]int, len(b))
	for i := range b {
		at[b[i].Path] = i
	}
	var out []FieldChange
	for i := range a {
		k, ok := at[a[i].Path]
		switch {
		case !ok:
			out = a[i].diff(out, FieldList{Path: a[i].Path})
		default:
			out = a[i].diff(out, b[k])
			met[k] = true
		}
	}
	for i := range b {
		if !met[i] {
			out = FieldList{Path: b[i].Path, List: b[i].List}.diff(out, b[i])
		}
	}
	order := tableOrder()
	slices.SortStableFunc(out, func(x, y FieldChange) int { return orderOf(order, x.Path) - orderOf(order, y.Path) })
	return out
}

func orderOf(order map[string]int, p string) int {
	path, _, _ := splitPath(p)
	if strings.HasPrefix(path, "import.") {
		path = "import"
	}
	return order[path]
}

func (l FieldList) diff(out []FieldChange, now FieldList) []FieldChange {
	if !l.List {
		if l.Value != now.Value {
			out = append(out, FieldChange{Path: l.Path, Before: l.Value, After: now.Value})
		}
		return out
	}
	pairs := Align(l.Entries, now.Entries)
	if !IsOpinions(l.Path) {
		pairs = PairLeftovers(pairs)
	}
	for _, p := range pairs {
		switch {
		case p.Same:
		case p.Old < 0:
			if !IsOpinions(l.Path) {
				out = append(out, FieldChange{Path: l.Path + "." + strconv.Itoa(p.New+1), After: EntryWords(now.Entries[p.New])})
			}
		case p.New < 0:
			out = append(out, FieldChange{Path: l.Path + "." + strconv.Itoa(p.Old+1), Before: EntryWords(l.Entries[p.Old])})
		default:
			out = diffEntry(out, l.Path+"."+strconv.Itoa(p.New+1), l.Entries[p.Old], now.Entries[p.New])
		}
	}
	return out
}

func diffEntry(out []FieldChange, path string, old, new ledger.Entry) []FieldChange {
	for _, kv := range old.Fields {
		if now := new.Get(kv.Key); now != kv.Value {
			out = append(out, FieldChange{Path: under(path, kv.Key), Before: kv.Value, After: now})
		}
	}
	for _, kv := range new.Fields {
		if old.Get(kv.Key) == "" && kv.Value != "" {
			out = append(out, FieldChange{Path: under(path, kv.Key), After: kv.Value})
		}
	}
	return out
}

func under(path, key string) string {
	if key == "" {
		return path
	}
	return path + "." + key
}

// PairLeftovers pairs the removed and added entries of one gap in order.
func PairLeftovers(ps []Pair) []Pair {
	var out []Pair
	for i := 0; i < len(ps); {
		var gone, come []Pair
		for ; i < len(ps) && (ps[i].Old < 0 || ps[i].New < 0); i++ {
			if ps[i].New < 0 {
				gone = append(gone, ps[i])
			} else {
				come = append(come, ps[i])
			}
		}
		both := min(len(gone), len(come))
		for k := range both {
			out = append(out, Pair{Old: gone[k].Old, New: come[k].New})
		}
		out = append(append(out, gone[both:]...), come[both:]...)
		if i < len(ps) {
			out = append(out, ps[i])
			i++
		}
	}
	return out
}

// EntryWords is an entry on one line: "sent: Fjellheim Museum; date: 2025".
func EntryWords(e ledger.Entry) string {
	words := make([]string, len(e.Fields))
	for i, kv := range e.Fields {
		words[i] = kv.Value
		if kv.Key != "" {
			words[i] = kv.Key + ": " + kv.Value
		}
	}
	return strings.Join(words, "; ")
}

// IsOpinions reports whether a list is append-only by the field table.
func IsOpinions(path string) bool { return opinionLists()[path] != "" }

// opinionLists gives each append-only list what one entry of it is called.
var opinionLists = sync.OnceValue(func() map[string]string {
	words := map[string]string{"determinations": "opinion", "types": "type entry", "annotations": "annotation", "fate": "entry of fate", "lines": "line"}
	m := map[string]string{}
	for _, f := range slices.Concat(ledger.Fields(), ledger.FieldsOf(ledger.WorkFileKind)) {
		if f.AppendOnly {
			m[f.Path] = "entry of " + f.Path
			if w, ok := words[f.Path]; ok {
				m[f.Path] = w
			}
		}
	}
	return m
})
