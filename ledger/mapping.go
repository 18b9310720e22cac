package ledger

// Mapping says which column of a table feeds which field (FORMAT.md,
// "Mappings for import"). It lies beside the table, not in the ledger.
type Mapping struct {
	Separator Leaf         `yaml:"separator"` // between cells; empty: as the line of the headings looks
	Quotes    Leaf         `yaml:"quotes"`    // "no": quote marks are part of the text
	Encoding  Leaf         `yaml:"encoding"`  // empty: as the bytes look
	Sheet     Leaf         `yaml:"sheet"`     // of a workbook; empty: the first
	HeadLine  Leaf         `yaml:"head_line"` // line of the headings; empty: the first that is not blank
	List      Leaf         `yaml:"list"`      // what all versions of the table are called; empty: the file's name
	Number    Leaf         `yaml:"number"`    // column that holds the number on the sheet; empty: the next free one
	Key       []Leaf       `yaml:"key"`       // columns by which a row is known in a later version of the table
	Nothing   []Leaf       `yaml:"nothing"`   // cells that mean that nothing was recorded, for example NA
	Columns   []Column     `yaml:"columns"`   //
	Opinions  []OpinionMap `yaml:"opinions"`  // columns that become determinations, oldest first
	Fixed     []FixedValue `yaml:"fixed"`     // the same value in every record
	Ignore    []Leaf       `yaml:"ignore"`    // columns that say nothing of the specimen; listed, not kept
}

// Column feeds one field from one column, or several.
type Column struct {
	Column  Leaf   `yaml:"column"`
	Field   Leaf   `yaml:"field"`
	And     []Leaf `yaml:"and"`     // further columns, after the first: longitude after latitude
	Join    Leaf   `yaml:"join"`    // what stands between them; empty: a comma and a blank
	Split   Leaf   `yaml:"split"`   // what parts the entries of a list
	Unit    Leaf   `yaml:"unit"`    // unit named by the heading, written after the number: ft
	Order   Leaf   `yaml:"order"`   // dates in figures: day-month or month-day
	Century Leaf   `yaml:"century"` // of years written with two figures
	Nothing []Leaf `yaml:"nothing"` // cells of this column that mean nothing: 99
	Absent  Leaf   `yaml:"absent"`  // words for none when the cell says nothing: s.n., s.d., unknown
	Read    Leaf   `yaml:"read"`    // "yes": beside words from another column it is a reading of them
	Line    int32
}

// OpinionMap makes determinations from a column of names.
type OpinionMap struct {
	Names   Leaf   `yaml:"names"` // column of the name, or of several in order
	And     []Leaf `yaml:"and"`   // further columns of the name: epithet and authors after the genus
	Split   Leaf   `yaml:"split"` // what parts several names
	Newest  Leaf   `yaml:"newest"`
	Nothing []Leaf `yaml:"nothing"`
	Kind    Leaf   `yaml:"kind"` // default det
	By      Leaf   `yaml:"by"`   // the person; or
	ByCol   Leaf   `yaml:"by_column"`
	Date    Leaf   `yaml:"date"` // the date; or
	Dated   Leaf   `yaml:"date_column"`
	From    Leaf   `yaml:"from"`
	WhyCol  Leaf   `yaml:"why_column"`
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
