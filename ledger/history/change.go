package history

import (
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// Kinds is what a revision did to a record: one or more kinds.
type Kinds uint16

const (
	New          Kinds = 1 << iota // the record is new
	Redetermined                   // another name is current
	Confirmed                      // somebody agrees with a name
	Added                          // an opinion that leaves the current name as it was
	Typed                          // a statement of type status came
	Corrected                      // words of a field were changed or taken out
	Completed                      // a field without words got some
	Annotated                      // something done or noted without a name
	Withdrawn                      // lost, destroyed, given away, a mistake
	Found                          // a withdrawal taken back
	Removed                        // the file is gone
	Unread                         // one of the versions could not be read
)

var kindWords = [...]string{"new", "named anew", "agreed", "opinion added", "type status", "corrected", "completed", "annotated", "withdrawn", "found", "removed", "could not be read"}

func (k Kinds) String() string {
	var out []string
	for i, w := range kindWords {
		if k&(1<<i) != 0 {
			out = append(out, w)
		}
	}
	return strings.Join(out, ", ")
}

// Has reports whether k holds any of the kinds.
func (k Kinds) Has(kinds Kinds) bool { return k&kinds != 0 }

// EntryRef is one entry of an append-only list.
type EntryRef struct {
	List string // determinations, types, annotations or fate
	At   int    // in the new version, from 1
}

// Change is what one commit did to one record, compared with every parent: in
// a merge only what is in none of them, and what a person decided between them.
type Change struct {
	Number    ledger.Number
	Place     int           // of the commit in the view; -1 outside a view
	Kinds     Kinds         //
	Before    string        // the current name before, as written; "" when it had none
	After     string        // the current name after
	Fields    []FieldChange // words changed, added and taken out; entries added to the lists of opinions are in Entered
	Entered   []EntryRef    // entries that came with this commit
	Reason    string        // of the Corrects trailer; "" when there is none
	Corrects  bool          // there is such a trailer
	Sensitive bool          // a version is marked sensitive: Fields and Reason may tell the place
}

// Compare makes the Change between the versions of a record in a commit's
// parents and its own. Parents without the record count as versions without
// it; no parents at all make the record new.
func Compare(n ledger.Number, parents []Version, now Version, corrections []Correction, c reading.Conventions) Change {
	return compare(n, parents, now, corrections, reading.NewReader(c))
}

func compare(n ledger.Number, parents []Version, now Version, corrections []Correction, reader *reading.Reader) Change {
	out := Change{Number: n, Place: -1}
	var reason Correction
	reason, out.Corrects = correctionOf(corrections, n)
	out.Reason = reason.Reason
	var olds []*facts
	for _, p := range parents {
		if p.Record != nil && !p.Unread {
			olds = append(olds, p.known(reader))
			out.Sensitive = out.Sensitive || p.Record.Sensitive.Line > 0
		} else if p.Unread {
			out.Kinds |= Unread
		}
	}
	if now.Record == nil || now.Unread {
		if now.Unread {
			out.Kinds |= Unread
		} else {
			out.Kinds |= Removed
		}
		if len(olds) > 0 {
			out.Before, _ = olds[0].name()
		}
		return out
	}
	out.Sensitive = out.Sensitive || now.Record.Sensitive.Line > 0
	if len(olds) == 0 && out.Kinds&Unread == 0 {
		out.Kinds |= New
	}
	out.compare(olds, now.known(reader))
	return out
}

func (c *Change) compare(olds []*facts, now *facts) {
	var keys []string
	c.After, keys = now.name()
	renamed := len(olds) > 0
	for i, old := range olds {
		before, oldKeys := old.name()
		diff := diffGroups(old.fields(), now.fields())
		if i == 0 {
			c.Before, c.Fields = before, diff
		} else {
			c.Fields = both(c.Fields, diff)
		}
		renamed = renamed && !slices.Equal(keys, oldKeys)
	}
	if renamed {
		c.Kinds |= Redetermined
	}
	for _, f := range c.Fields {
		c.Kinds |= kindOfField(f)
	}
	for _, l := range now.all() {
		for _, at := range entered(olds, l) {
			c.Entered = append(c.Entered, EntryRef{l.Field, at})
			if len(olds) > 0 {
				c.Kinds |= kindOfEntry(l.Field, l.Entries[at-1], renamed)
			}
		}
	}
}

func kindOfField(f FieldChange) Kinds {
	if f.Before == "" {
		return Completed
	}
	return Corrected
}

// both keeps the changes to a field that are changes against either parent.
func both(a, b []FieldChange) []FieldChange {
	return slices.DeleteFunc(a, func(x FieldChange) bool {
		return !slices.ContainsFunc(b, func(y FieldChange) bool { return x.Path == y.Path && x.After == y.After })
	})
}

// entered are the places of entries in no parent's list, from 1. An entry
// that only was altered is not new.
func entered(olds []*facts, now ledger.List) []int {
	from := make([]bool, len(now.Entries))
	for _, old := range olds {
		for _, p := range Align(old.list(now.Field), now.Entries) {
			if p.Old >= 0 && p.New >= 0 {
				from[p.New] = true
			}
		}
	}
	var out []int
	for i, known := range from {
		if !known {
			out = append(out, i+1)
		}
	}
	return out
}

func kindOfEntry(list string, e ledger.Entry, renamed bool) Kinds {
	switch list {
	case "annotations":
		return Annotated
	case "types":
		return Typed
	case "fate":
		if strings.TrimSpace(e.Get("is")) == "found" {
			return Found
		}
		return Withdrawn
	case "determinations":
		switch {
		case opinion.KindOf(e.Get("kind")) == opinion.Conf:
			return Confirmed
		case !renamed:
			return Added
		}
	}
	return 0
}

// Opinions are the places of the determinations among the entries, from 1.
func (c Change) Opinions() (at []int) {
	for _, e := range c.Entered {
		if e.List == "determinations" {
			at = append(at, e.At)
		}
	}
	return at
}

func (e EntryRef) String() string { return e.List + "." + strconv.Itoa(e.At) }
