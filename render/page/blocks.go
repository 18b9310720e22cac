package page

// Block is one piece of a page; each kind is written by one function per
// medium.
type Block interface{ block() }

type (
	// Para is a paragraph that the program says.
	Para struct{ Parts []Part }

	// Passage is a person's words, set as a paragraph in the serif.
	Passage struct{ Runs []Run }

	// Opinions are the names given to a specimen, newest first.
	Opinions struct{ List []Opinion }

	// Fields are named values in the order of a label.
	Fields struct{ List []Field }

	// Letters are a label's or a slip's words to the letter, line ends kept.
	Letters struct {
		On   Said // what they stand on
		Text Words
		Hand Words
	}

	// Rows are sheets, one line each; the number of them is said elsewhere.
	Rows struct{ List []Row }

	// Group is a heading below a section's, with its own blocks: a decade, a day.
	Group struct {
		Heading Said
		Blocks  []Block
	}

	// Tally is a list of pages with what each holds.
	Tally struct{ List []TallyLine }

	// Lines are sentences, one an item.
	Lines struct{ List [][]Part }

	// Table is for figures and corrections alone.
	Table struct {
		Caption Said
		Head    []Said
		Rows    [][]Cell
	}

	// Chart is a row of bars with the sentence that says what it shows.
	Chart struct {
		Sentence Said // what the bars show, in one sentence
		Category Said // what a bar is, such as "year"
		Measure  Said // what it counts, such as "sheets"
		Bars     []Bar
	}

	// Map shows where one or many sheets are from.
	Map struct {
		Sentence Said // what the map shows, in one sentence
		Spots    []Spot
		Many     bool // the places of many sheets, a dot each; else one place with its error
	}

	// Prose is a page that the museum wrote: its Markdown, and what goldmark
	// made of it, without raw HTML.
	Prose struct {
		Markdown string
		HTML     string
	}

	// Search is the search field; with Parts, the place for its results too,
	// and that many files of data.
	Search struct{ Parts int }
)

func (Para) block()     {}
func (Passage) block()  {}
func (Opinions) block() {}
func (Fields) block()   {}
func (Letters) block()  {}
func (Rows) block()     {}
func (Group) block()    {}
func (Tally) block()    {}
func (Lines) block()    {}
func (Table) block()    {}
func (Chart) block()    {}
func (Map) block()      {}
func (Prose) block()    {}
func (Search) block()   {}

// Mark is the sign on the rail beside an opinion; its word says the same.
type Mark uint8

const (
	Stands  Mark = iota // a disc
	Earlier             // a ring
	Renamed             // a bar: the plant was not looked at
)

// Opinion is one name given to a specimen, or one agreement with it.
type Opinion struct {
	Anchor  string // name-N, N its place in the record, oldest first
	Mark    Mark
	Day     Said   // in words
	What    Said   // named anew, agrees, on the label
	State   Said   // stands, earlier
	Mistake []Part // "entered by mistake: REASON"; nil when it is none
	Name    Name
	By      []Part
	Grounds Words
	More    []Part // source, what was seen, which part
	Entered []Part
	Gap     Said // the time to the next older one
}

// Field is one field of the label.
type Field struct {
	Name     Said
	Words    []Run
	Readings [][]Part // each on its own line, in the program's voice
	None     Absence
}

// Row is one sheet in a list.
type Row struct {
	Name      Name
	As        []Part // " (det. as NAME)" when the museum's list has the name of the determination under another
	Number    Words
	To        Address
	Collector Words
	Date      Said
	Place     []Part // Quote or Absence
	Tail      []Part // type, was NAME, place withheld
}

// TallyLine is one page in a list with its count.
type TallyLine struct {
	Link Link
	Note Said
}

// Cell is one cell of a table: what the program says, or a person's words.
type Cell struct {
	Said  []Part
	Words Words
}

// Bar is one bar of a chart.
type Bar struct {
	Label  string
	N      int
	Doubt  bool // counted here for want of a surer place: hatched
	Sparse bool // its label may be left out when there is no room
}

// Spot is one place on a map, in degrees of WGS84.
type Spot struct {
	Lat, Lon float64
	Metres   float64 // the error, 0 when not known
	Degrees  float64 // side of the square that is shown instead of the place; 0: it is a place
	N        int
}
