package history

import (
	"fmt"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Plainly is an entry as it is compared where two people may have typed one
// fact: blanks between words are one, and a date that can be read in one way
// alone stands as its days, so that 14.vii.1987 and 1987-07-14 are the same. A
// date that is approximate, doubtful, open or ambiguous stands as its words.
func Plainly(e ledger.Entry) ledger.Entry {
	out := ledger.Entry{Fields: make([]ledger.KV, len(e.Fields)), Line: e.Line}
	for i, kv := range e.Fields {
		words := strings.Join(strings.Fields(kv.Value), " ")
		if kv.Key == "date" {
			words = plainDate(words)
		}
		out.Fields[i] = ledger.KV{Key: kv.Key, Value: words}
	}
	return out
}

func plainDate(words string) string {
	day, minutes := dates.CutClock(words)
	r := dates.Read(day, dates.Ask)
	if !r.Known() || len(r.Readings) > 0 || r.OpenStart || r.OpenEnd || r.Approximate || r.Uncertain {
		return words
	}
	return fmt.Sprintf("%d..%d/%d %d", r.First, r.Last, r.Precision, minutes)
}

// plainLists are lists with every entry as Plainly gives it.
func plainLists(ls []ledger.List) []ledger.List {
	out := make([]ledger.List, len(ls))
	for i, l := range ls {
		out[i].Field = l.Field
		for _, e := range l.Entries {
			out[i].Entries = append(out[i].Entries, Plainly(e))
		}
	}
	return out
}

// BrokenJoined is Broken for a child of several parents. Of a fact that was
// typed on both sides in two spellings one stands, so that entries are
// compared plainly; what is broken all the same is told as it was written.
func BrokenJoined(parent, child []ledger.List) []Break {
	exact := Broken(parent, child)
	if len(exact) == 0 || len(Broken(plainLists(parent), plainLists(child))) == 0 {
		return nil
	}
	return exact
}
