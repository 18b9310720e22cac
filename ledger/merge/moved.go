package merge

import (
	"blotter/ledger"
	"blotter/ledger/history"
)

// movedOn leaves both versions to a person where one copy gave the plant
// another number, or the number another plant, and the other said more of it
// here: this file alone does not show where that belongs. (share knows what both
// copies entered, and carries it there.)
func (m *merger) movedOn() ([]byte, []Conflict, bool) {
	base, ok := m.b.Document.(*ledger.Record)
	if !ok || len(m.base) == 0 {
		return nil, nil, false
	}
	_, was := history.Retired(base)
	o, _ := m.o.Document.(*ledger.Record)
	t, _ := m.t.Document.(*ledger.Record)
	c := Conflict{Number: m.number(), Kind: File, Line: 1}
	toO, goneO := history.Retired(o)
	toT, goneT := history.Retired(t)
	switch {
	case !was && goneO != goneT:
		to := toO
		if goneT {
			to = toT
		}
		c.Message = "in one copy the plant goes on as " + string(to) + ", and the other said more of it under this number"
		c.Hint = "Put what it said more into the record of " + history.Short(to) + ", keep here what is left of the number (entry: stub), " +
			"take the lines of the markers out, then: blotter enter"
	case anotherPlant(m.b, m.o) != anotherPlant(m.b, m.t):
		c.Message = "in one copy the number bears another plant, and the other changed the one that it bore"
		c.Hint = "If two sheets exchanged their numbers, put what was changed into the record of the other number; " +
			"take the lines of the markers out, then: blotter enter"
	default:
		return nil, nil, false
	}
	return m.whole(m.ours, m.theirs), []Conflict{c}, true
}

// anotherPlant reports whether two of collector, number and day were given
// other words at once.
func anotherPlant(was, now version) bool {
	n := 0
	for _, path := range ofOnePlant[:3] {
		x, y := was.fields[path].Value, now.fields[path].Value
		if x != "" && y != "" && fold(x) != fold(y) {
			n++
		}
	}
	return n >= 2
}
