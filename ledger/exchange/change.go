package exchange

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Alteration is one field that a later version of a row has otherwise.
type Alteration struct {
	Field   string
	Was, Is string // the words of the row before and now; "" for none
	Here    string // of a conflict: the words of the ledger, which somebody changed
}

// Change is what a later version of a row means for its record.
type Change struct {
	Alters    []Alteration // words that nobody changed in the ledger: they can be corrected
	Added     []Alteration // entries of lists that only grow, new in the row: Is
	Conflicts []Alteration // words that somebody changed, or opinions that the row has otherwise: they stay
	Ops       []ledger.Op  // the edits for Alters and Added
}

// None reports whether the row means nothing new.
func (c Change) None() bool { return len(c.Alters)+len(c.Added)+len(c.Conflicts) == 0 }

// Base is what a row once said, field by field, as its record tells.
type Base struct {
	units map[string]unit
	lists map[string][]ledger.Entry
}

// unit is what is compared as a whole: one field, one list, one reading.
type unit struct {
	words  string
	fields []ledger.KV
}

// NewBase begins with the record as the row first made it.
func NewBase(r *ledger.Record) *Base {
	b := &Base{units: map[string]unit{}, lists: map[string][]ledger.Entry{}}
	order, units := unitsOf(r)
	for _, u := range order {
		b.units[u] = units[u]
	}
	for _, l := range ledger.Lists(r) {
		b.lists[l.Field] = l.Entries
	}
	return b
}

// Corrected takes in that an import later changed the record from was to is.
// What persons changed in between is not the row's and is left out.
func (b *Base) Corrected(was, is *ledger.Record) {
	_, before := unitsOf(was)
	_, after := unitsOf(is)
	for u := range before {
		if _, still := after[u]; !still {
			delete(b.units, u)
		}
	}
	for u, x := range after {
		if x.words != before[u].words {
			b.units[u] = x
		}
	}
	old := map[string][]ledger.Entry{}
	for _, l := range ledger.Lists(was) {
		old[l.Field] = l.Entries
	}
	for _, l := range ledger.Lists(is) {
		for _, e := range l.Entries {
			if at(old[l.Field], e) < 0 {
				b.lists[l.Field] = append(b.lists[l.Field], e)
			}
		}
	}
}

// unitsOf parts a record into what is compared, in the order of its fields.
// The number, the lists that only grow and where the record comes from are no
// units; who signed a reading, and when, is not compared.
func unitsOf(r *ledger.Record) (order []string, units map[string]unit) {
	units = map[string]unit{}
	for _, kv := range ledger.Flatten(r) {
		name, counts := unitOf(kv.Key)
		if name == "" {
			continue
		}
		u, seen := units[name]
		if !seen {
			order = append(order, name)
		}
		u.fields = append(u.fields, kv)
		if counts {
			if u.words != "" {
				u.words += "; "
			}
			u.words += kv.Value
		}
		units[name] = u
	}
	return order, units
}

// unitOf is the unit that a field belongs to; counts is false for words that
// are not compared.
func unitOf(path string) (name string, counts bool) {
	top, rest, _ := strings.Cut(path, ".")
	switch top {
	case "specimen":
		return "", false
	case "import":
		if Provenance(rest) {
			return "", false
		}
		return path, true
	case "read":
		what, leaf, _ := strings.Cut(rest, ".")
		return "read." + what, leaf == "is" || leaf == "uncertainty"
	}
	f, ok := ledger.FieldAt(ledger.RecordKind, top)
	switch {
	case !ok || f.AppendOnly:
		return "", false
	case f.Kind == ledger.Entries || f.Kind == ledger.Texts:
		return top, true
	}
	return path, true
}

// Same reports whether two records say the same, wherever they come from.
func Same(a, b *ledger.Record) bool { return Content(a) == Content(b) }

// Content is all that a record says besides its number and where it comes
// from, as one text.
func Content(r *ledger.Record) string {
	var b strings.Builder
	order, units := unitsOf(r)
	for _, u := range order {
		b.WriteString(u + "\x00" + units[u].words + "\x00")
	}
	for _, l := range ledger.Lists(r) {
		for _, e := range l.Entries {
			for _, kv := range e.Fields {
				b.WriteString(l.Field + "." + kv.Key + "\x00" + kv.Value + "\x00")
			}
			b.WriteString("\x01")
		}
	}
	return b.String()
}

// Compare holds what a row said, what it says now and its record against each
// other. A word that the row changed and nobody else is altered; one that
// somebody changed in the ledger stays and is a conflict; a list that only
// grows gets what the row added to it.
func Compare(row *Base, made, now *ledger.Record) Change {
	var c Change
	order, is := unitsOf(made)
	_, here := unitsOf(now)
	for u := range row.units {
		if _, still := is[u]; !still {
			order = append(order, u)
		}
	}
	slices.SortFunc(order[len(is):], strings.Compare)
	for _, name := range order {
		was, now := row.units[name].words, is[name].words
		switch {
		case was == now || here[name].words == now:
		case here[name].words == was:
			c.Alters = append(c.Alters, Alteration{Field: name, Was: was, Is: now})
			c.Ops = append(c.Ops, unitOps(name, is[name])...)
		default:
			c.Conflicts = append(c.Conflicts, Alteration{Field: name, Was: was, Is: now, Here: here[name].words})
		}
	}
	have := ledger.Lists(now)
	for i, l := range ledger.Lists(made) {
		c.list(l.Field, row.lists[l.Field], l.Entries, have[i].Entries)
	}
	return c
}

// unitOps are the edits that give a unit other words.
func unitOps(name string, u unit) []ledger.Op {
	f, ok := ledger.FieldAt(ledger.RecordKind, name)
	if len(u.fields) == 0 {
		return []ledger.Op{ledger.Remove(name)}
	}
	switch {
	case !ok || f.Kind == ledger.Text:
		return []ledger.Op{ledger.Set(name, u.fields[0].Value)}
	case f.Kind == ledger.Texts:
		var values []string
		for _, kv := range u.fields {
			values = append(values, kv.Value)
		}
		return []ledger.Op{ledger.SetList(name, values...)}
	case f.Kind == ledger.Entries:
		ops := []ledger.Op{ledger.Remove(name)}
		var entry []ledger.KV
		last := ""
		for _, kv := range u.fields {
			n, field, _ := strings.Cut(strings.TrimPrefix(kv.Key, name+"."), ".")
			if n != last && last != "" {
				ops = append(ops, ledger.Append(name, entry...))
				entry = nil
			}
			last = n
			entry = append(entry, ledger.KV{Key: field, Value: kv.Value})
		}
		return append(ops, ledger.Append(name, entry...))
	}
	var ops []ledger.Op // a reading
	for _, kv := range u.fields {
		ops = append(ops, ledger.Set(kv.Key, kv.Value))
	}
	return ops
}

// list compares a list that only grows. What the row added goes in before the
// entry that follows it in the row, or at the end. When the row altered or
// took away what it had before, the list stays as it is.
func (c *Change) list(field string, was, is, here []ledger.Entry) {
	k := 0
	var fresh []int // places in is
	for i, e := range is {
		if k < len(was) && was[k].Equal(e) {
			k++
			continue
		}
		fresh = append(fresh, i)
	}
	if k < len(was) {
		if !slices.EqualFunc(is, here, ledger.Entry.Equal) {
			c.Conflicts = append(c.Conflicts, Alteration{Field: field, Was: saying(was[k]), Is: sayings(is), Here: sayings(here)})
		}
		return
	}
	here = slices.Clone(here)
	for _, i := range fresh {
		if at(here, is[i]) >= 0 {
			continue
		}
		place := placeOf(here, is, i)
		c.Added = append(c.Added, Alteration{Field: field, Is: saying(is[i])})
		c.Ops = append(c.Ops, ledger.Insert(field, place, is[i].Fields...))
		if place == 0 {
			here = append(here, is[i])
		} else {
			here = slices.Insert(here, place-1, is[i])
		}
	}
}

// placeOf is where the i-th entry of a row goes in the ledger's list, from 1; 0
// is the end: before the entry that follows it in the row, otherwise before
// what persons added that is younger. One without a date stands right behind
// the one before it in the row.
func placeOf(here, is []ledger.Entry, i int) int {
	for _, next := range is[i+1:] {
		if p := at(here, next); p >= 0 {
			return p + 1
		}
	}
	after := 0
	for _, before := range is[:i] {
		after = max(after, at(here, before)+1)
	}
	day := dates.Read(is[i].Get("date"), dates.Ask)
	for p := after; p < len(here); p++ {
		other := dates.Read(here[p].Get("date"), dates.Ask)
		if !day.Known() || other.Known() && day.First < other.First {
			return p + 1
		}
	}
	return 0
}

// at is the place of an entry with the same words; -1 for none.
func at(list []ledger.Entry, e ledger.Entry) int { return slices.IndexFunc(list, e.Equal) }

// saying is an entry in a line.
func saying(e ledger.Entry) string {
	var words []string
	for _, kv := range e.Fields {
		words = append(words, kv.Value)
	}
	return strings.Join(words, ", ")
}

func sayings(list []ledger.Entry) string {
	var all []string
	for _, e := range list {
		all = append(all, saying(e))
	}
	return strings.Join(all, "; ")
}
