package merge

import (
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/history"
)

// entryKeys are the fields by which an entry of a list is known again, though
// others of its fields change: a person by the name, a picture by its file.
var entryKeys = map[string]string{
	"people": "name", "names": "name", "places": "name",
	"partners": "code", "severity": "code", "qualifiers": "word", "blocks": "from", "sensitive.categories": "category",
	"images": "file",
}

func keyOf(list string) string { return entryKeys[list] }

// keysOnly are entries with nothing but their keys.
func keysOnly(es []ledger.Entry, key string) []ledger.Entry {
	out := make([]ledger.Entry, len(es))
	for i, e := range es {
		if k := e.Get(key); k != "" {
			out[i].Fields = []ledger.KV{{Key: key, Value: k}}
		} else {
			out[i] = e
		}
	}
	return out
}

// twins finds what both sides added, wherever they put it: the place of theirs
// by the place of ours. It takes them out of what theirs added.
func twins(key string, ours, theirs []ledger.Entry, o, t side) map[int]int {
	waiting := map[string][]int{}
	for _, gap := range o.added {
		for _, k := range gap {
			w := known(ours[k], key)
			waiting[w] = append(waiting[w], k)
		}
	}
	if len(waiting) == 0 {
		return nil
	}
	both := map[int]int{}
	for g, gap := range t.added {
		rest := gap[:0:0]
		for _, k := range gap {
			w := known(theirs[k], key)
			if mine := waiting[w]; len(mine) > 0 {
				both[mine[0]], waiting[w] = k, mine[1:]
			} else {
				rest = append(rest, k)
			}
		}
		t.added[g] = rest
	}
	return both
}

// known is the words by which an added entry is found on the other side.
func known(e ledger.Entry, key string) string {
	if k := e.Get(key); key != "" && k != "" {
		return key + "\x00" + k
	}
	return history.EntryWords(history.Plainly(e))
}

// cutNumber parts spellings.2 into the list and whether it is one.
func cutNumber(key string) (list string, is bool) {
	list, n, cut := strings.Cut(key, ".")
	if !cut {
		return key, false
	}
	_, err := strconv.Atoi(n)
	return list, err == nil
}

// wordsOf is a list of words within an entry.
func wordsOf(e ledger.Entry, list string) []string {
	var out []string
	for _, kv := range e.Fields {
		if l, is := cutNumber(kv.Key); is && l == list {
			out = append(out, kv.Value)
		}
	}
	return out
}

// mergeLists merges lists of words: what either side added is there, once;
// what either took out is not.
func mergeLists(base, ours, theirs []string) []string {
	entries := func(ws []string) []ledger.Entry {
		out := make([]ledger.Entry, len(ws))
		for i, w := range ws {
			out[i].Fields = []ledger.KV{{Value: w}}
		}
		return out
	}
	a, b := entries(ours), entries(theirs)
	x, y := sideOf("", entries(base), a, true), sideOf("", entries(base), b, true)
	twins("", a, b, x, y)
	var items []item
	for g := 0; g <= len(base); g++ {
		items = mergeGap(items, a, b, x.added[g], y.added[g])
		if g < len(base) && x.became[g] >= 0 && y.became[g] >= 0 && x.same[g] && y.same[g] {
			items = append(items, item{entry: a[x.became[g]]})
		}
	}
	var out []string
	for _, it := range items {
		out = append(out, it.entry.Fields[0].Value)
	}
	return out
}
