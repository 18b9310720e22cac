package ledger

// FilingHabits is the order of the cabinets, in the museum's own words.
type FilingHabits struct {
	Order        []Leaf        `yaml:"order"`    // levels, the widest first
	Families     Leaf          `yaml:"families"` // alphabet or sequence
	Sequence     []FamilyPlace `yaml:"sequence"`
	Groups       []Leaf        `yaml:"groups"`       // major groups, in order
	Regions      []Region      `yaml:"regions"`      // in order
	Types        Leaf          `yaml:"types"`        // apart, folder or among
	Cultivated   Leaf          `yaml:"cultivated"`   // last or among
	Undetermined Leaf          `yaml:"undetermined"` // last or first
	Hybrids      Leaf          `yaml:"hybrids"`      // last or among
	Apart        []Leaf        `yaml:"apart"`        // words of kept_as that have a series of their own
	PerFolder    Leaf          `yaml:"per_folder"`   // sheets
	PerCabinet   Leaf          `yaml:"per_cabinet"`  // sheets
	Cabinets     []Cabinet     `yaml:"cabinets"`     // in walking order
}

// FamilyPlace is one family of the museum's sequence.
type FamilyPlace struct {
	Family Leaf `yaml:"family"`
	Number Leaf `yaml:"number"` // in the museum's system
	Group  Leaf `yaml:"group"`  // major group
	Line   int32
}

// Region is one region of the covers, with the colour that the museum gives
// it.
type Region struct {
	Region Leaf   `yaml:"region"`
	Colour Leaf   `yaml:"colour"`
	Places []Leaf `yaml:"places"` // countries, provinces and districts in it; none: whatever is left
	Line   int32
}

// Cabinet is one cabinet.
type Cabinet struct {
	Cabinet Leaf `yaml:"cabinet"`
	First   Leaf `yaml:"first"` // the first family, genus or name in it, or types
	Holds   Leaf `yaml:"holds"` // sheets
	Room    Leaf `yaml:"room"`
	Line    int32
}

// InventoryHabits are those of the rounds through the cabinets.
type InventoryHabits struct {
	Percent Leaf `yaml:"percent"` // of the sheets, a round
	Search  Leaf `yaml:"search"`  // days until a missing sheet is looked for again
}

// Reviewing is how much of a person's records a second reader looks at.
type Reviewing struct {
	First      Leaf `yaml:"first"`        // records of a new person, all of them
	Of100      Leaf `yaml:"of_100"`       // then so many of every hundred
	MoreThan   Leaf `yaml:"more_than"`    // with more wrong ones than this
	More       Leaf `yaml:"more"`         // so many more are looked at
	LaterOf100 Leaf `yaml:"later_of_100"` // once all is well
	LaterAfter Leaf `yaml:"later_after"`  // hundreds in a row without too many wrong ones
	Confidence Leaf `yaml:"confidence"`   // of the interval, in per cent
}

// Salvaging is what is saved first after water or fire.
type Salvaging struct {
	First    []Leaf `yaml:"first"`    // in this order
	Historic Leaf   `yaml:"historic"` // gathered before this year
	Families []Leaf `yaml:"families"` // that go before others
	Mould    Leaf   `yaml:"mould"`    // hours until mould
	Freeze   []Leaf `yaml:"freeze"`   // hours, from and to; what is not dry by then is frozen
	Cold     Leaf   `yaml:"cold"`     // °C
	Call     []Leaf `yaml:"call"`     // whom to call, in order
}
