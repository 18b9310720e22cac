package work

import (
	"slices"
	"strings"

	"blotter/ledger"
)

// Row is one row of the table of states as FORMAT.md prints it.
type Row struct {
	Events string // that the row is of, in the order of their place in a thing's life
	Kinds  string // of work that have them
	Usual  string // where a thing is before
	Then   string // where it is then
	Done   string // what is marked as done
	Needs  string // what must have been done before
}

// Table is the table of states, in the order in which the events of one day
// count.
func Table() []Row {
	out := make([]Row, 0, len(table))
	for i := range table {
		m := &table[i]
		r := Row{Events: strings.Join(m.events, ", "), Kinds: kindWords(m), Usual: "anywhere", Then: "where it was", Done: m.done}
		if m.usual != nil {
			r.Usual = placeList(m.usual)
		}
		if m.to != "" {
			r.Then = string(m.to)
		}
		switch {
		case len(m.stays) > 4:
			r.Then += ", when it was coming"
		case m.stays != nil:
			r.Then += ", but for " + placeList(m.stays)
		}
		if m.leaves {
			r.Then += "; the work lets go of it"
		}
		switch m.needs {
		case needDry:
			r.Needs = "dried, when it was pressed"
		case needClean:
			r.Needs = "treated since it came into the house"
		}
		out = append(out, r)
	}
	return out
}

// placeList names places, or, when nearly all are meant, the others.
func placeList(list []Place) string {
	var in, out []string
	for _, p := range places {
		if slices.Contains(list, p.is) {
			in = append(in, string(p.is))
		} else {
			out = append(out, string(p.is))
		}
	}
	if len(out) < 6 {
		return "all but " + strings.Join(out, ", ")
	}
	return strings.Join(in, ", ")
}

// kindWords names the kinds in which a row holds.
func kindWords(m *move) string {
	var out []string
	for _, k := range ledger.WorkKinds() {
		for _, e := range m.events {
			if moves[k.Name+" "+e] == m && !slices.Contains(out, k.Name) {
				out = append(out, k.Name)
			}
		}
	}
	if len(out) == len(ledger.WorkKinds()) {
		return "all"
	}
	return strings.Join(out, ", ")
}

// PlaceTable is every place with its phrase and what it means.
func PlaceTable() [][3]string {
	var out [][3]string
	for _, p := range places {
		out = append(out, [3]string{string(p.is), p.words, p.says})
	}
	return out
}
