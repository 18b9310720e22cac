package shelf

import (
	"bytes"
	"slices"
	"sort"
	"strconv"

	"blotter/ledger/book"
)

// Cover is what lies together under one name.
type Cover struct {
	Series  string // "", types, or a word of apart
	Group   string
	Family  string // "" when nobody says which
	Number  string // of the family in the museum's system
	Genus   string // "" for what is named to the family, or not at all
	Name    string // without authors; "" for not yet named
	Region  string // "" where regions are not parted
	Colour  string // of its region
	Planted bool   // those that are cultivated or planted
	Types   bool   // the folder of types beside its species
	Sheets  int
	First   int // number of its first folder in the genus, from 1
	Folders int

	head  string // what is the same in the keys of all its sheets
	start int    // its first sheet in the order
	from  int32  // its first folder of all
}

// Bay is one cabinet as it is filled.
type Bay struct {
	Name    string // what stands on its door
	Room    string
	Holds   int // sheets
	Sheets  int
	Folders int
	First   *Cover // nil: empty
	Last    *Cover
	Listed  bool // in the settings; false: counted from the sheets
}

// Shelves is every specimen in its place.
type Shelves struct {
	Order     *Order
	PerFolder int
	Covers    []Cover
	Bays      []Bay

	sheets  []*book.Entry // in the order of the cabinets
	covers  []int32       // of each sheet
	byPath  []int32       // places in sheets, by path
	folders []int32       // bay of each folder of all
}

// Fill puts the specimens of a book in their places. leave says which have
// none: withdrawn ones never have; it may be nil.
func Fill(b *book.Book, o *Order, leave func(*book.Entry) bool) *Shelves {
	s := &Shelves{Order: o, PerFolder: number(o.habits.PerFolder, 6)}
	type keyed struct {
		e     *book.Entry
		key   string
		cover int32
	}
	all := make([]keyed, 0, b.Len())
	var buf []byte
	for e := range b.All() {
		if e.Fate != "" || leave != nil && leave(e) {
			continue
		}
		key, cover := o.key(e, buf[:0])
		buf = key
		all = append(all, keyed{e, string(key), int32(cover)})
	}
	slices.SortStableFunc(all, func(a, b keyed) int { return compare(a.key, b.key) })
	s.sheets, s.covers = make([]*book.Entry, len(all)), make([]int32, len(all))
	for i, k := range all {
		s.sheets[i] = k.e
		head := k.key[:k.cover]
		if n := len(s.Covers); n == 0 || s.Covers[n-1].head != head {
			s.Covers = append(s.Covers, o.cover(k.e, head, i))
		}
		s.Covers[len(s.Covers)-1].Sheets++
		s.covers[i] = int32(len(s.Covers) - 1)
	}
	s.fold()
	s.bays()
	s.byPath = make([]int32, len(s.sheets))
	for i := range s.byPath {
		s.byPath[i] = int32(i)
	}
	slices.SortFunc(s.byPath, func(a, b int32) int { return compare(s.sheets[a].Path, s.sheets[b].Path) })
	return s
}

func compare(a, b string) int {
	switch {
	case a < b:
		return -1
	case a > b:
		return 1
	}
	return 0
}

// cover is the cover of a sheet.
func (o *Order) cover(e *book.Entry, head string, start int) Cover {
	t := o.taxonOf(e)
	c := Cover{Group: t.group, Family: t.family, Number: t.number, Genus: t.genus, Name: t.name, head: head, start: start}
	_, c.Series = o.series(e)
	c.Planted = e.Flags.Has(book.Cultivated) && o.habits.Cultivated.Text != "among"
	if c.Planted {
		c.Colour = o.planted
	}
	c.Types = len(e.Types) > 0 && o.habits.Types.Text == "folder"
	if i := o.regionOf(e); i >= 0 && o.has(byRegion) && !c.Planted {
		c.Region, c.Colour = o.regions[i].name, o.regions[i].colour
	}
	return c
}

// fold counts the folders of the covers.
func (s *Shelves) fold() {
	var all int32
	next := 1
	for i := range s.Covers {
		c := &s.Covers[i]
		if i > 0 && !sameGenus(c, &s.Covers[i-1]) {
			next = 1
		}
		c.Folders = (c.Sheets + s.PerFolder - 1) / s.PerFolder
		c.First, c.from = next, all
		next += c.Folders
		all += int32(c.Folders)
	}
	s.folders = make([]int32, all)
}

func sameGenus(a, b *Cover) bool {
	return a.Series == b.Series && a.Family == b.Family && a.Genus == b.Genus
}

// bays fills the cabinets. One whose first is named begins there; another goes
// on where the one before is full. A folder is never parted between two.
func (s *Shelves) bays() {
	o, each := s.Order, number(s.Order.habits.PerCabinet, 2000)
	heads := make([][]byte, len(o.habits.Cabinets))
	for i, c := range o.habits.Cabinets {
		heads[i] = o.firstOf(c.First.Text)
		s.Bays = append(s.Bays, Bay{Name: c.Cabinet.Text, Room: c.Room.Text, Holds: number(c.Holds, each), Listed: true})
	}
	listed := len(s.Bays)
	if listed == 0 {
		s.Bays = append(s.Bays, Bay{Name: "1", Holds: each})
	}
	at := 0
	for i := range s.Covers {
		c := &s.Covers[i]
		for j := at + 1; j < listed; j++ {
			if heads[j] != nil && bytes.Compare(heads[j], []byte(c.head)) <= 0 {
				at = j
			}
		}
		for f := range c.Folders {
			n := min(s.PerFolder, c.Sheets-f*s.PerFolder)
			if b := &s.Bays[at]; b.Sheets > 0 && b.Sheets+n > b.Holds {
				switch {
				case listed == 0:
					s.Bays = append(s.Bays, Bay{Name: strconv.Itoa(len(s.Bays) + 1), Holds: each})
					at++
				case at+1 < listed && heads[at+1] == nil:
					at++
				}
			}
			s.Bays[at].put(c, n)
			s.folders[int(c.from)+f] = int32(at)
		}
	}
}

func (b *Bay) put(c *Cover, sheets int) {
	b.Sheets += sheets
	b.Folders++
	if b.First == nil {
		b.First = c
	}
	b.Last = c
}

// Len is how many specimens have a place.
func (s *Shelves) Len() int { return len(s.sheets) }

// At is the i-th specimen in the order of the cabinets, from 0, and its place.
func (s *Shelves) At(i int) (*book.Entry, Place) { return s.sheets[i], s.place(i) }

// Of is the place of a specimen; false when it has none.
func (s *Shelves) Of(e *book.Entry) (Place, bool) {
	k := sort.Search(len(s.byPath), func(k int) bool { return s.sheets[s.byPath[k]].Path >= e.Path })
	if k == len(s.byPath) || s.sheets[s.byPath[k]].Path != e.Path {
		return Place{}, false
	}
	return s.place(int(s.byPath[k])), true
}

// FolderBay is the cabinet of folder i of a cover, from 0.
func (s *Shelves) FolderBay(c *Cover, i int) *Bay { return &s.Bays[s.folders[int(c.from)+i]] }

func (s *Shelves) place(i int) Place {
	c := &s.Covers[s.covers[i]]
	in := i - c.start
	f := in / s.PerFolder
	return Place{Cover: c, Bay: &s.Bays[s.folders[int(c.from)+f]], Folder: c.First + f, Sheet: in%s.PerFolder + 1, Turn: i}
}
