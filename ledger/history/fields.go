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
}

// fieldList is a list of a record; one value outside lists is kept as a
// fieldList without entries.
type fieldList struct {
	path    string
	value   string
	list    bool
	entries []ledger.Entry
}

// group splits a record's fields into single values and lists.
func group(r *ledger.Record) []fieldList {
	var out []fieldList
	if r == nil {
		return nil
	}
	for _, kv := range ledger.Flatten(r) {
		path, at, key := splitPath(kv.Key)
		if at == 0 {
			out = append(out, fieldList{path: kv.Key, value: kv.Value})
			continue
		}
		if n := len(out); n == 0 || !out[n-1].list || out[n-1].path != path {
			out = append(out, fieldList{path: path, list: true})
		}
		l := &out[len(out)-1]
		for len(l.entries) < at {
			l.entries = append(l.entries, ledger.Entry{})
		}
		e := &l.entries[at-1]
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
	a, b := group(old), group(new)
	at := make(map[string]int, len(b))
	for i := range b {
		at[b[i].path] = i
	}
	var out []FieldChange
	for i := range a {
		k, ok := at[a[i].path]
		switch {
		case !ok:
			out = a[i].diff(out, fieldList{path: a[i].path})
		default:
			out = a[i].diff(out, b[k])
			b[k].path = "" // met
		}
	}
	for i := range b {
		if b[i].path != "" {
			out = fieldList{path: b[i].path, list: b[i].list}.diff(out, b[i])
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

func (l fieldList) diff(out []FieldChange, now fieldList) []FieldChange {
	if !l.list {
		if l.value != now.value {
			out = append(out, FieldChange{l.path, l.value, now.value})
		}
		return out
	}
	pairs := align(l.entries, now.entries)
	if !isOpinions(l.path) {
		pairs = pairLeftovers(pairs)
	}
	for _, p := range pairs {
		switch {
		case p.same:
		case p.old < 0:
			if !isOpinions(l.path) {
				out = append(out, FieldChange{l.path + "." + strconv.Itoa(p.new+1), "", entryWords(now.entries[p.new])})
			}
		case p.new < 0:
			out = append(out, FieldChange{l.path + "." + strconv.Itoa(p.old+1), entryWords(l.entries[p.old]), ""})
		default:
			out = diffEntry(out, l.path+"."+strconv.Itoa(p.new+1), l.entries[p.old], now.entries[p.new])
		}
	}
	return out
}

func diffEntry(out []FieldChange, path string, old, new ledger.Entry) []FieldChange {
	for _, kv := range old.Fields {
		if now := new.Get(kv.Key); now != kv.Value {
			out = append(out, FieldChange{under(path, kv.Key), kv.Value, now})
		}
	}
	for _, kv := range new.Fields {
		if old.Get(kv.Key) == "" && kv.Value != "" {
			out = append(out, FieldChange{under(path, kv.Key), "", kv.Value})
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

// pairLeftovers pairs the removed and added entries of one gap in order.
func pairLeftovers(ps []pair) []pair {
	var out []pair
	for i := 0; i < len(ps); {
		var gone, come []pair
		for ; i < len(ps) && (ps[i].old < 0 || ps[i].new < 0); i++ {
			if ps[i].new < 0 {
				gone = append(gone, ps[i])
			} else {
				come = append(come, ps[i])
			}
		}
		both := min(len(gone), len(come))
		for k := range both {
			out = append(out, pair{old: gone[k].old, new: come[k].new})
		}
		out = append(append(out, gone[both:]...), come[both:]...)
		if i < len(ps) {
			out = append(out, ps[i])
			i++
		}
	}
	return out
}

// entryWords is an entry on one line: "sent: Fjellheim Museum; date: 2025".
func entryWords(e ledger.Entry) string {
	words := make([]string, len(e.Fields))
	for i, kv := range e.Fields {
		words[i] = kv.Value
		if kv.Key != "" {
			words[i] = kv.Key + ": " + kv.Value
		}
	}
	return strings.Join(words, "; ")
}

// isOpinions reports whether a list is append-only by the field table.
func isOpinions(path string) bool { return opinionLists()[path] != "" }

// opinionLists gives each append-only list what one entry of it is called.
var opinionLists = sync.OnceValue(func() map[string]string {
	words := map[string]string{"determinations": "opinion", "types": "type entry", "annotations": "annotation", "fate": "entry of fate"}
	m := map[string]string{}
	for _, f := range ledger.Fields() {
		if f.AppendOnly {
			m[f.Path] = "entry of " + f.Path
			if w, ok := words[f.Path]; ok {
				m[f.Path] = w
			}
		}
	}
	return m
})
