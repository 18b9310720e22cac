package history

import (
	"slices"

	"blotter/ledger"
)

// Elsewhere is what the lines of work that a merge joins say of one number, for
// the parent at the end of one of them: a correction excuses what the entry
// that told it changed, and nothing that another line said meanwhile. The nil
// Elsewhere excuses nothing.
type Elsewhere struct {
	gone   map[string]bool   // what corrections on the other lines took out or altered, as it was
	was    map[string]string // what corrections on this line made: as it is, as it was
	lists  [][]ledger.List   // of the other parents
	unread bool              // what one of them corrected cannot be read
}

// Keys of what is no entry of a list.
const (
	keyRecord = "the record"
	keyMark   = "the mark of sensitivity"
)

// Correct adds an entry on another line that told a correction: the version
// before it and its own, nil where there is none.
func (e *Elsewhere) Correct(before, after ledger.Document) {
	if e.gone == nil {
		e.gone = map[string]bool{}
	}
	for _, c := range correctedIn(before, after) {
		e.gone[c.was] = true
	}
}

// CorrectHere adds an entry on the parent's own line that told one.
func (e *Elsewhere) CorrectHere(before, after ledger.Document) {
	if e.was == nil {
		e.was = map[string]string{}
	}
	for _, c := range correctedIn(before, after) {
		if c.is != "" {
			e.was[c.is] = c.was
		}
	}
}

// Unread says that what was corrected on another line cannot be read.
func (e *Elsewhere) Unread() { e.unread = true }

// Beside adds the version of another parent, by which the order of what both
// have may go.
func (e *Elsewhere) Beside(d ledger.Document) { e.lists = append(e.lists, ledger.Lists(d)) }

// excuses reports whether what a parent says need not stand in the merge.
func (e *Elsewhere) excuses(key string) bool {
	if e == nil {
		return false
	}
	for range len(e.was) + 1 {
		if e.gone[key] || e.unread {
			return true
		}
		was, ok := e.was[key]
		if !ok {
			return false
		}
		key = was
	}
	return false
}

// excusesRecord reports whether a record or work may be gone: taken away by a
// correction, with all that the parent says of it.
func (e *Elsewhere) excusesRecord(parent ledger.Document) bool {
	if !e.excuses(keyRecord) {
		return false
	}
	for _, l := range ledger.Lists(parent) {
		for _, entry := range l.Entries {
			if !e.excuses(entryKey(l.Field, entry)) {
				return false
			}
		}
	}
	return true
}

// beside are the versions of one list in the other parents.
func (e *Elsewhere) beside(field string) [][]ledger.Entry {
	if e == nil {
		return nil
	}
	var out [][]ledger.Entry
	for _, ls := range e.lists {
		for _, l := range ls {
			if l.Field == field {
				out = append(out, l.Entries)
			}
		}
	}
	return out
}

func entryKey(list string, e ledger.Entry) string {
	return list + "\x00" + EntryWords(Plainly(e))
}

func (b Break) key() string {
	if b.Moved {
		return "order\x00" + entryKey(b.List, b.Old)
	}
	return entryKey(b.List, b.Old)
}

// corrected is one thing that a correction altered; is "" when it is gone.
type corrected struct{ was, is string }

func correctedIn(before, after ledger.Document) []corrected {
	if before == nil {
		return nil
	}
	var out []corrected
	if after == nil {
		out = append(out, corrected{was: keyRecord})
		for _, l := range ledger.Lists(before) {
			for _, e := range l.Entries {
				out = append(out, corrected{was: entryKey(l.Field, e)})
			}
		}
		return out
	}
	for _, b := range Broken(plainLists(ledger.Lists(before)), plainLists(ledger.Lists(after))) {
		c := corrected{was: b.key()}
		if b.New != nil && !b.Moved {
			c.is = entryKey(b.List, *b.New)
		}
		out = append(out, c)
	}
	switch old := before.(type) {
	case *ledger.Record:
		if now, ok := after.(*ledger.Record); ok && marked(old) && !marked(now) {
			out = append(out, corrected{was: keyMark})
		}
	case *ledger.Work:
		if now, ok := after.(*ledger.Work); ok {
			for _, h := range headingsBroken(old, now, false) {
				c := corrected{was: h.key()}
				if h.now != "" {
					c.is = headingBreak{field: h.field, was: h.now}.key()
				}
				out = append(out, c)
			}
		}
	}
	return out
}

// broken is BrokenJoined, where the other parents' versions of a list
// are known: of two entries that the parents have in two orders one order
// stands, and is not broken.
func (e *Elsewhere) broken(parent, child []ledger.List) []Break {
	var out []Break
	for _, b := range BrokenJoined(parent, child) {
		switch {
		case e.excuses(b.key()):
		case b.Moved && e.ordered(b.List, parent, child):
		default:
			out = append(out, b)
		}
	}
	return out
}

// ordered reports whether every two entries that the child has in another
// order than the parent stand so in another parent.
func (e *Elsewhere) ordered(field string, parent, child []ledger.List) bool {
	of := func(ls []ledger.List) map[string]int {
		i := slices.IndexFunc(ls, func(l ledger.List) bool { return l.Field == field })
		if i < 0 {
			return nil
		}
		return placesOf(field, ls[i].Entries)
	}
	was, is := of(parent), of(child)
	var others []map[string]int
	for _, es := range e.beside(field) {
		others = append(others, placesOf(field, es))
	}
	for a := range was {
		for b := range was {
			if _, there := is[a]; !there || was[a] >= was[b] || is[a] <= is[b] || !has(is, b) {
				continue
			}
			if !slices.ContainsFunc(others, func(o map[string]int) bool { return has(o, a) && has(o, b) && o[b] < o[a] }) {
				return false
			}
		}
	}
	return true
}

func has(m map[string]int, key string) bool { _, ok := m[key]; return ok }

// placesOf is where each entry of a list stands first.
func placesOf(field string, es []ledger.Entry) map[string]int {
	out := make(map[string]int, len(es))
	for i, e := range es {
		if k := entryKey(field, e); !has(out, k) {
			out[k] = i
		}
	}
	return out
}
