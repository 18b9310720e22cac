package ledger

// Mapping says which column of a table feeds which field (FORMAT.md,
// "Mappings for import"). It lies beside the table, not in the ledger.
type Mapping struct {
	Format   Leaf         `yaml:"format"`   // csv or tsv; empty: by the file's ending
	Quotes   Leaf         `yaml:"quotes"`   // "no": quote marks are part of the text
	Number   Leaf         `yaml:"number"`   // column that holds the number on the sheet; empty: the next free one
	Nothing  []Leaf       `yaml:"nothing"`  // cells that mean that nothing was recorded, for example NA
	Columns  []Column     `yaml:"columns"`  //
	Opinions []OpinionMap `yaml:"opinions"` // columns that become determinations, oldest first
	Fixed    []FixedValue `yaml:"fixed"`    // the same value in every record
	Ignore   []Leaf       `yaml:"ignore"`   // columns that say nothing of the specimen; listed, not kept
}

// Column feeds one field from one column, or two.
type Column struct {
	Column Leaf `yaml:"column"`
	Field  Leaf `yaml:"field"`
	And    Leaf `yaml:"and"`    // a second column, after a comma: longitude after latitude
	Split  Leaf `yaml:"split"`  // what parts the entries of a list
	Unit   Leaf `yaml:"unit"`   // unit named by the heading, written after the number: ft
	Order  Leaf `yaml:"order"`  // dates in figures: day-month or month-day
	Absent Leaf `yaml:"absent"` // words for none when the cell says nothing: s.n., s.d., unknown
	Line   int32
}

// OpinionMap makes determinations from a column of names.
type OpinionMap struct {
	Names   Leaf   `yaml:"names"` // column of the name, or of several in order
	Split   Leaf   `yaml:"split"` // what parts several names
	Kind    Leaf   `yaml:"kind"`  // default det
	By      Leaf   `yaml:"by"`    // the person; or
	ByCol   Leaf   `yaml:"by_column"`
	Date    Leaf   `yaml:"date"` // the date; or
	Dated   Leaf   `yaml:"date_column"`
	From    Leaf   `yaml:"from"`
	Mark    Leaf   `yaml:"mark_column"` // a column of a mark, then a date: "! 11/24/20"
	Marks   []Mark `yaml:"marks"`
	Order   Leaf   `yaml:"order"`
	Century Leaf   `yaml:"century"`
	Line    int32
}

// Mark is what a reviewer's sign means.
type Mark struct {
	Sign Leaf `yaml:"sign"`
	Kind Leaf `yaml:"kind"`
	Line int32
}

// FixedValue is one value that every record of an import has.
type FixedValue struct {
	Field Leaf `yaml:"field"`
	Value Leaf `yaml:"value"`
	Line  int32
}
