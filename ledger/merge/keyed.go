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
func (m *merger) mergeLists(base, ours, theirs []string) []string {
	a, b := wordEntries(ours), wordEntries(theirs)
	facts := factsOf("", wordEntries(base), a, b, true)
	for i := range facts {
		switch f := &facts[i]; {
		case f.base >= 0 && (f.ours < 0 || f.theirs < 0):
			f.dropped = true
		case f.ours >= 0 && f.theirs >= 0:
			was := ""
			if f.base >= 0 {
				was = base[f.base]
			}
			f.entry.Fields = []ledger.KV{{Value: m.spelled(was, ours[f.ours], theirs[f.theirs])}}
		case f.ours >= 0:
			f.entry = a[f.ours]
		default:
			f.entry = b[f.theirs]
		}
	}
	var out []string
	for _, it := range weave(facts, len(ours), len(theirs)) {
		if !it.dropped {
			out = append(out, it.entry.Fields[0].Value)
		}
	}
	return out
}

func wordEntries(ws []string) []ledger.Entry {
	out := make([]ledger.Entry, len(ws))
	for i, w := range ws {
		out[i].Fields = []ledger.KV{{Value: w}}
	}
	return out
}
