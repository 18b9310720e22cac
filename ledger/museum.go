package ledger

// FormatVersion is the one version of the format that this program reads and
// writes; a ledger that names another is refused (FORMAT.md, "Version").
const FormatVersion = "1"

// Museum is blotter.yaml: who keeps the ledger and by which habits.
type Museum struct {
	Format      Leaf        `yaml:"format"`
	Name        Leaf        `yaml:"name"`
	Code        Leaf        `yaml:"code"`
	Numbering   Numbering   `yaml:"numbering"`
	Timezone    Leaf        `yaml:"timezone"` // IANA name; default UTC
	Site        Site        `yaml:"site"`
	Dataset     Dataset     `yaml:"dataset"`
	PlaceLevels []Leaf      `yaml:"place_levels"` // the museum's own words for country, province, district
	Dates       DateHabits  `yaml:"dates"`
	Severity    []Override  `yaml:"severity"` // codes raised from warning to error
	Blocks      []Block     `yaml:"blocks"`
	Shared      Leaf        `yaml:"shared_computer"` // "yes": several people type at one computer
	Partners    []Partner   `yaml:"partners"`
	Qualifiers  []Qualifier `yaml:"qualifiers"`
	Treated     Leaf        `yaml:"treated_before"` // year before which a sheet is assumed treated with poison
	Sensitive   Stricter    `yaml:"sensitive"`
	Checks      Checks      `yaml:"checks"` // thresholds of ledger/check; its Settings say what each is
	Habits      Habits      `yaml:"habits"` // of the work; where it says nothing standard.yaml holds
}

// Numbering is how new specimen numbers are made: prefix, then the number in
// at least that many digits.
type Numbering struct {
	Prefix Leaf `yaml:"prefix"`
	Digits Leaf `yaml:"digits"`
}

// Site is what the published catalogue says of itself.
type Site struct {
	Title    Leaf `yaml:"title"`
	Address  Leaf `yaml:"address"` // https address it will stand at; for feed, sitemap and citations
	Language Leaf `yaml:"language"`
	Licence  Leaf `yaml:"licence"`
	Contact  Leaf `yaml:"contact"`
}

// Dataset is what archives say of themselves; what is empty comes from Site
// and the museum's name.
type Dataset struct {
	Title       Leaf   `yaml:"title"`
	Description Leaf   `yaml:"description"`
	Creators    []Leaf `yaml:"creators"`
	Contact     Leaf   `yaml:"contact"` // mail or web address
	ID          Leaf   `yaml:"id"`      // of the data set, as a registry gave it
	Institution Leaf   `yaml:"institution_id"`
	Collection  Leaf   `yaml:"collection_code"`
	Methods     Leaf   `yaml:"methods"`
}

// DateHabits settle ambiguous dates of old material.
type DateHabits struct {
	Order         Leaf `yaml:"order"`           // day-month or month-day; empty: ask
	TwoDigitYears Leaf `yaml:"two_digit_years"` // first of the hundred years they lie in; empty: ask
}

// Override raises the severity of one code.
type Override struct {
	Code Leaf `yaml:"code"`
	Is   Leaf `yaml:"is"`
	Line int32
}

// Stricter is where the museum withholds more than it must.
type Stricter struct {
	Categories []CategoryAs `yaml:"categories"`
	Withhold   []Leaf       `yaml:"withhold"` // fields of a sensitive record
	Line       int32
}

// CategoryAs is a category that is held as strictly as another.
type CategoryAs struct {
	Category Leaf `yaml:"category"`
	As       Leaf `yaml:"as"`
	Line     int32
}

// Block is a run of numbers kept for one person or machine.
type Block struct {
	For  Leaf `yaml:"for"`
	From Leaf `yaml:"from"`
	To   Leaf `yaml:"to"`
	Line int32
}

// Partner is a herbarium, institution or person that sheets go to and come
// from. The entry that has the museum's own code is the museum itself.
type Partner struct {
	Code    Leaf   `yaml:"code"`
	Name    Leaf   `yaml:"name"`
	Address []Leaf `yaml:"address"`
	Country Leaf   `yaml:"country"`
	Treaty  Leaf   `yaml:"treaty"` // its code as an institution registered under the treaty on trade in species
	Line    int32
}

// Qualifier is what a word such as cf. means in this museum.
type Qualifier struct {
	Word  Leaf `yaml:"word"`
	Means Leaf `yaml:"means"`
	Line  int32
}

// People is people.yaml.
type People struct {
	People []Person `yaml:"people"`
}

// Person is one collector, determiner or member of staff.
type Person struct {
	Name      Leaf   `yaml:"name"`
	Spellings []Leaf `yaml:"spellings"` // as met on labels
	Born      Leaf   `yaml:"born"`
	Died      Leaf   `yaml:"died"`
	ORCID     Leaf   `yaml:"orcid"`
	Email     Leaf   `yaml:"email"`    // for --as PERSON; never published
	Initials  Leaf   `yaml:"initials"` // "yes": shown by initials everywhere
	About     Leaf   `yaml:"about"`
	Line      int32
}

// FamilyNames is one file names/FAMILY.yaml: the names the museum uses.
type FamilyNames struct {
	Family Leaf        `yaml:"family"`
	Names  []NameEntry `yaml:"names"`

	Path string `yaml:"-"`
}

// NameEntry is one name: accepted, or a synonym of another.
type NameEntry struct {
	Name       Leaf      `yaml:"name"`
	Of         Leaf      `yaml:"of"`    // the accepted name; empty: this name is accepted
	Split      []Leaf    `yaml:"split"` // the names among which it was divided
	Published  Leaf      `yaml:"published"`
	Source     Leaf      `yaml:"source"`
	Date       Leaf      `yaml:"date"`
	By         Leaf      `yaml:"by"`
	Why        Leaf      `yaml:"why"`
	Native     Leaf      `yaml:"native"` // native, introduced, cultivated
	Protection Leaf      `yaml:"protection"`
	Treaty     Leaf      `yaml:"treaty"` // the appendix of the treaty on trade in species that lists it
	Common     Leaf      `yaml:"common"`
	Address    Leaf      `yaml:"address"` // page address, when two names would share one
	Sensitive  Sensitive `yaml:"sensitive"`
	Line       int32
}

// Places is places.yaml: standing localities.
type Places struct {
	Places []NamedPlace `yaml:"places"`
}

// NamedPlace is one standing locality.
type NamedPlace struct {
	Name   Leaf  `yaml:"name"`
	Place  Place `yaml:"place"`
	Extent Leaf  `yaml:"extent"` // metres from the centre to the furthest edge

	Sensitive Sensitive `yaml:"sensitive"`
	Line      int32
}

// Public is public.yaml: what the leak test finds and may stand.
type Public struct {
	Reviewed []Reviewed `yaml:"reviewed"`
}

// Reviewed is one hit of the leak test that somebody let stand.
type Reviewed struct {
	File Leaf `yaml:"file"` // of the output
	Text Leaf `yaml:"text"` // words of it
	Why  Leaf `yaml:"why"`
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Line int32
}
