package public

import (
	"strconv"
	"strings"

	"blotter/ledger"
)

// filling makes a record in which sentences stand for what is withheld.
type filling struct {
	w       *Withheld
	out     []ledger.KV
	entries map[string]string // list.N as it is -> as it will be
	lists   map[string]int    // how many entries a list has
}

// silent are fields that say something about words that are withheld anyway;
// one sentence is enough.
var silent = map[string]bool{
	"place.datum": true, "place.gps_accuracy": true, "place.uncertainty": true, "place.position_by": true, "place.elevation_by": true,
	"fieldbook.page": true, "exsiccata.fascicle": true, "exsiccata.number": true,
}

// kept passes a field on that is shown.
func (f *filling) kept(kv ledger.KV) {
	if list, n, rest, ok := entryOf(kv.Key); ok {
		kv.Key = f.entry(list, n) + rest
	}
	f.out = append(f.out, kv)
}

// hidden puts a sentence in the place of a field, unless the field takes none:
// those of a closed list of words or of a shape, those of a list that has its
// sentence, and readings, since what they read has it.
func (f *filling) hidden(key string) {
	row, ok := ledger.FieldAt(ledger.RecordKind, key)
	if !ok || ShownTo(ledger.RecordKind, key) == Staff || row.Shape != "" || row.Enum != nil && !row.Open || silent[row.Path] || strings.HasPrefix(key, "read.") {
		return
	}
	kv := ledger.KV{Key: key, Value: f.w.Sentence(row.Path)}
	list, n, rest, ok := entryOf(key)
	if !ok {
		f.out = append(f.out, kv)
		return
	}
	if !partly[list] {
		if f.lists[list] > 0 {
			return
		}
		if main, ok := mainField[list]; ok {
			rest = "." + main
		}
	}
	kv.Key = f.entry(list, n) + rest
	f.out = append(f.out, kv)
}

// partly are the lists whose entries are shown in part, so that each keeps its
// place; of any other one entry says that it is withheld.
var partly = map[string]bool{"determinations": true, "types": true, "annotations": true, "images": true, "fate": true, "parts": true}

// mainField is where the sentence for a list of entries stands.
var mainField = map[string]string{"duplicates": "sent", "writings": "text"}

// entry is the new place of an entry of a list.
func (f *filling) entry(list, n string) string {
	old := list + "." + n
	if f.entries[old] == "" {
		f.lists[list]++
		f.entries[old] = list + "." + strconv.Itoa(f.lists[list])
	}
	return f.entries[old]
}

// entryOf takes the path of a field in a list apart: determinations, 2, .by.
func entryOf(key string) (list, n, rest string, ok bool) {
	list, tail, ok := strings.Cut(key, ".")
	if !ok {
		return "", "", "", false
	}
	n, rest, more := strings.Cut(tail, ".")
	if strings.Trim(n, "0123456789") != "" {
		return "", "", "", false
	}
	if more {
		rest = "." + rest
	}
	return list, n, rest, true
}
