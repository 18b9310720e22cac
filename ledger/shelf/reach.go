package shelf

import (
	"strconv"
	"strings"

	"blotter/ledger/book"
)

// Near is one specimen that lies in or near a cabinet.
type Near struct {
	Entry *book.Entry
	Place Place
	There bool // in the very cabinet, and in the very folder when one was asked for
}

// Cabinet is the place among Bays of the cabinet that words name: what stands
// on its door, with or without the word cabinet before it; false for none.
func (s *Shelves) Cabinet(words string) (int, bool) {
	want := fold(words)
	for i := range s.Bays {
		if name := fold(s.Bays[i].Name); want == name || want == "cabinet "+name {
			return i, true
		}
	}
	return 0, false
}

// Around are the cabinets in reach of one: so many on either side of it in
// walking order, in the same room where rooms are named. It is among them.
func (s *Shelves) Around(bay, reach int) []int {
	var out []int
	room := s.Bays[bay].Room
	for i := max(0, bay-reach); i <= min(len(s.Bays)-1, bay+reach); i++ {
		if r := s.Bays[i].Room; i == bay || r == room || r == "" || room == "" {
			out = append(out, i)
		}
	}
	return out
}

// In are the specimens of some cabinets in the order of the shelf; folder,
// when it is not "", narrows what is There in bay: a folder's number, the name
// on it (a species, a genus, a family), or both: Ranunculus 2.
func (s *Shelves) In(bays []int, bay int, folder string) []Near {
	wanted := map[*Bay]bool{}
	for _, i := range bays {
		wanted[&s.Bays[i]] = true
	}
	var out []Near
	for i := range s.Len() {
		e, p := s.At(i)
		if wanted[p.Bay] {
			out = append(out, Near{e, p, p.Bay == &s.Bays[bay] && p.in(folder)})
		}
	}
	return out
}

// in reports whether a place is in the folder of these words.
func (p Place) in(folder string) bool {
	words := fold(folder)
	words = strings.TrimSpace(strings.TrimPrefix(words, "folder "))
	name, no := words, ""
	if i := strings.LastIndexByte(words, ' '); i >= 0 {
		if _, err := strconv.Atoi(words[i+1:]); err == nil {
			name, no = words[:i], words[i+1:]
		}
	} else if _, err := strconv.Atoi(words); err == nil {
		name, no = "", words
	}
	if no != "" && no != strconv.Itoa(p.Folder) {
		return false
	}
	c := p.Cover
	return name == "" || name == fold(c.Name) || name == fold(c.Genus) || name == fold(c.Family)
}
