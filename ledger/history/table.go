package history

import "hash/maphash"

// table finds the place of a text in a column that only grows. It keeps no
// text and no pointer, only places: for a million numbers it takes 8 MB and is
// made in a small part of the time that a map of strings takes.
type table struct {
	slots []uint32 // place+1, at the hash of its text or after it; 0: none; twice as many as texts, or more
	count int      // places 0 to count-1 are in
	text  func(place uint32) []byte
}

var tableSeed = maphash.MakeSeed()

// newTable has the places 0 to count-1.
func newTable(count int, text func(place uint32) []byte) *table {
	t := &table{text: text}
	t.resize(count)
	for place := range uint32(count) {
		t.put(place)
	}
	t.count = count
	return t
}

func (t *table) resize(count int) {
	size := 16
	for size < 2*count+2 {
		size *= 2
	}
	t.slots = make([]uint32, size)
}

func (t *table) put(place uint32) {
	mask := uint64(len(t.slots) - 1)
	at := maphash.Bytes(tableSeed, t.text(place)) & mask
	for t.slots[at] != 0 {
		at = (at + 1) & mask
	}
	t.slots[at] = place + 1
}

// find is the place of a text; false when it has none.
func (t *table) find(text string) (uint32, bool) {
	mask := uint64(len(t.slots) - 1)
	for at := maphash.String(tableSeed, text) & mask; t.slots[at] != 0; at = (at + 1) & mask {
		if place := t.slots[at] - 1; string(t.text(place)) == text {
			return place, true
		}
	}
	return 0, false
}

// grow takes in the place after the last, whose text is in the column by now.
func (t *table) grow() {
	if place := uint32(t.count); 2*(t.count+1) <= len(t.slots) {
		t.put(place)
		t.count++
		return
	}
	*t = *newTable(t.count+1, t.text)
}
