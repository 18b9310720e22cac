package shelf

import "strconv"

// Place is where one specimen lies.
type Place struct {
	Cover  *Cover
	Bay    *Bay
	Folder int // in the genus, from 1
	Sheet  int // in the folder, from 1
	Turn   int // in walking order past all cabinets, from 0
}

// Same reports whether two places, perhaps of two versions of a ledger, are in
// the same cover: then nobody has to move anything.
func (p Place) Same(q Place) bool {
	a, b := p.Cover, q.Cover
	return a.Series == b.Series && a.Family == b.Family && a.Name == b.Name && a.Region == b.Region && a.Planted == b.Planted && a.Types == b.Types
}

// Words are the whole way to the sheet: cabinet 4, Ranunculaceae, Ranunculus
// acris, Vestland (green), folder 12.
func (p Place) Words() string {
	return "cabinet " + p.Bay.Name + ", " + p.Cover.Words() + ", folder " + strconv.Itoa(p.Folder)
}

// Words are what stands on the cover, with its family: Ranunculaceae 91,
// Ranunculus acris, Vestland (green).
func (c *Cover) Words() string {
	family := c.Family
	if family == "" && c.Name != "" {
		family = "family not known"
	}
	return commas(c.Series, commas(spaced(family, c.Number), c.Title()))
}

// Title is the name on the cover and what parts it from others of the name.
func (c *Cover) Title() string {
	name := c.Name
	switch {
	case name == "":
		name = "not yet named"
	case name == c.Family:
		name = "genus not known"
	case name == c.Genus:
		name += " not named to the species"
	}
	region := c.Region
	if c.Planted {
		region = "cultivated"
	}
	if c.Colour != "" {
		region += " (" + c.Colour + ")"
	}
	types := ""
	if c.Types {
		types = "types"
	}
	return commas(commas(name, region), types)
}

func commas(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + ", " + b
}

func spaced(a, b string) string {
	if a == "" || b == "" {
		return a
	}
	return a + " " + b
}
