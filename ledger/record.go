package ledger

// Stage is how far a record has come (its field entry).
type Stage string

const (
	Stub  Stage = "stub"  // number, cover name, picture
	Draft Stage = "draft" // being typed
	Full  Stage = "full"  // ready to publish
)

// Record is one specimen as written: every word of its file, nothing read
// into it. Fields appear here, in fields.go, in the schema and in FORMAT.md
// in the same order; a test holds them together. The yaml tag is the key in
// the file.
type Record struct {
	Specimen       Leaf            `yaml:"specimen"`
	Entry          Leaf            `yaml:"entry"`
	KeptAs         Leaf            `yaml:"kept_as"`
	Parts          []Part          `yaml:"parts"`
	CoverName      Leaf            `yaml:"cover_name"`
	Family         Leaf            `yaml:"family"`
	Accession      Leaf            `yaml:"accession"`
	Collector      Leaf            `yaml:"collector"`
	With           []Leaf          `yaml:"with"`
	CollNo         Leaf            `yaml:"coll_no"`
	Date           Leaf            `yaml:"date"`
	Place          Place           `yaml:"place"`
	Habitat        Leaf            `yaml:"habitat"`
	Substrate      Leaf            `yaml:"substrate"`
	Host           Leaf            `yaml:"host"`
	Depth          Leaf            `yaml:"depth"`
	Associates     []Leaf          `yaml:"associates"`
	Description    Leaf            `yaml:"description"`
	Phenology      []Leaf          `yaml:"phenology"`
	Abundance      Leaf            `yaml:"abundance"`
	Population     Leaf            `yaml:"population"`
	Taken          Leaf            `yaml:"taken"`
	Origin         Leaf            `yaml:"origin"`
	Garden         Leaf            `yaml:"garden"`
	SourcePlace    Leaf            `yaml:"source_place"`
	Cautions       []Leaf          `yaml:"cautions"`
	Permit         Leaf            `yaml:"permit"`
	Project        Leaf            `yaml:"project"`
	Fieldbook      Fieldbook       `yaml:"fieldbook"`
	FurtherNumbers []Leaf          `yaml:"further_numbers"`
	FormerHerb     Leaf            `yaml:"former_herbarium"`
	Exsiccata      Exsiccata       `yaml:"exsiccata"`
	Determinations []Determination `yaml:"determinations"`
	FiledUnder     Filing          `yaml:"filed_under"`
	Types          []TypeEntry     `yaml:"types"`
	Annotations    []Annotation    `yaml:"annotations"`
	Duplicates     []Duplicate     `yaml:"duplicates"`
	SameGathering  []Leaf          `yaml:"same_gathering"`
	SharesSheet    []Leaf          `yaml:"shares_sheet"`
	Images         []Image         `yaml:"images"`
	Writings       []Writing       `yaml:"writings"`
	Remarks        Leaf            `yaml:"remarks"`
	Read           Readings        `yaml:"read"`
	Sic            []Settled       `yaml:"sic"`
	Checked        Signed          `yaml:"checked"`
	Sensitive      Sensitive       `yaml:"sensitive"`
	Fate           []Fate          `yaml:"fate"`
	Import         []Pair          `yaml:"import"`

	// Path is the file, relative to the ledger; not a field.
	Path string `yaml:"-"`
}

// Part is one physical part of a specimen that has more than one.
type Part struct {
	Part   Leaf `yaml:"part"`
	Number Leaf `yaml:"number"`
	Where  Leaf `yaml:"where"`
	Fate   Leaf `yaml:"fate"`
	Line   int32
}

// Place is where the plant grew, as the label writes it.
type Place struct {
	Country     Leaf `yaml:"country"`
	Province    Leaf `yaml:"province"`
	District    Leaf `yaml:"district"`
	Locality    Leaf `yaml:"locality"`
	Position    Leaf `yaml:"position"`
	Datum       Leaf `yaml:"datum"`
	GPSAccuracy Leaf `yaml:"gps_accuracy"`
	Uncertainty Leaf `yaml:"uncertainty"`
	PositionBy  Leaf `yaml:"position_by"`
	Elevation   Leaf `yaml:"elevation"`
	ElevationBy Leaf `yaml:"elevation_by"`
	Private     Leaf `yaml:"private"` // "yes": a private garden or house
}

// Fieldbook is where the gathering stands in the collector's field book.
type Fieldbook struct {
	Volume Leaf `yaml:"volume"`
	Page   Leaf `yaml:"page"`
}

// Exsiccata is the printed set that a sheet was issued in.
type Exsiccata struct {
	Series   Leaf `yaml:"series"`
	Fascicle Leaf `yaml:"fascicle"`
	Number   Leaf `yaml:"number"`
}

// Determination is one opinion on what the plant is. The list is append-only.
type Determination struct {
	Name    Leaf `yaml:"name"`
	Kind    Leaf `yaml:"kind"` // det, conf, not, name-change; empty reads as det
	By      Leaf `yaml:"by"`
	At      Leaf `yaml:"at"`
	Date    Leaf `yaml:"date"`
	From    Leaf `yaml:"from"` // slip, label, list, letter, publication
	Seen    Leaf `yaml:"seen"` // sheet, picture, duplicate, dna
	Part    Leaf `yaml:"part"`
	Source  Leaf `yaml:"source"`
	Why     Leaf `yaml:"why"`
	Mistake Leaf `yaml:"mistake"`
	Line    int32
}

// Filing is the curator's line on where a disputed sheet is filed.
type Filing struct {
	Name Leaf `yaml:"name"`
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Why  Leaf `yaml:"why"`
	Line int32
}

// TypeEntry is one statement of type status; it belongs to a name, not to a
// determination. The list is append-only.
type TypeEntry struct {
	Status    Leaf `yaml:"status"`
	Of        Leaf `yaml:"of"`
	Published Leaf `yaml:"published"`
	Basis     Leaf `yaml:"basis"` // verified, label, picture, suspected
	By        Leaf `yaml:"by"`
	Date      Leaf `yaml:"date"`
	Part      Leaf `yaml:"part"`
	Mistake   Leaf `yaml:"mistake"`
	Line      int32
}

// Annotation is something done or noted without a name. Append-only.
type Annotation struct {
	Kind Leaf `yaml:"kind"` // seen, photographed, material-removed, label-copied, question, note
	What Leaf `yaml:"what"`
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	From Leaf `yaml:"from"` // slip or label: it stands on the sheet already
	Line int32
}

// Duplicate is another preparation of the same gathering.
type Duplicate struct {
	Made   Leaf `yaml:"made"`
	OnHand Leaf `yaml:"on_hand"`
	Sent   Leaf `yaml:"sent"` // where
	Date   Leaf `yaml:"date"`
	Number Leaf `yaml:"number"` // their number
	Line   int32
}

// Image is one picture of the specimen.
type Image struct {
	File         Leaf `yaml:"file"`
	Shows        Leaf `yaml:"shows"`
	Photographer Leaf `yaml:"photographer"`
	Date         Leaf `yaml:"date"`
	Licence      Leaf `yaml:"licence"`
	Checksum     Leaf `yaml:"checksum"` // sha256:HEX
	Public       Leaf `yaml:"public"`   // file or address of the copy that may be shown
	Safe         Leaf `yaml:"safe"`     // "yes": shows no label, may be published though the place is withheld
	Line         int32
}

// Writing is one label, tag, stamp or pencil note to the letter.
type Writing struct {
	OnSheet Leaf `yaml:"on_sheet"`
	Text    Leaf `yaml:"text"`
	Hand    Leaf `yaml:"hand"`
	Line    int32
}

// Readings are a person's readings beside the words; they never replace them.
type Readings struct {
	Date      ReadValue `yaml:"date"`
	Country   ReadValue `yaml:"country"`
	Person    ReadValue `yaml:"person"`
	Position  ReadValue `yaml:"position"`
	Elevation ReadValue `yaml:"elevation"`
}

// ReadValue is one reading by a person, with its author and grounds.
type ReadValue struct {
	Is          Leaf `yaml:"is"`
	Uncertainty Leaf `yaml:"uncertainty"`
	By          Leaf `yaml:"by"`
	Date        Leaf `yaml:"date"`
	From        Leaf `yaml:"from"`
	Why         Leaf `yaml:"why"`
	Line        int32
}

// Settled is a finding that somebody looked at and let stand.
type Settled struct {
	Code Leaf `yaml:"code"`
	Why  Leaf `yaml:"why"`
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Line int32
}

// Signed is who did something and when.
type Signed struct {
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Line int32
}

// Sensitive marks what may not become public.
type Sensitive struct {
	Why      Leaf    `yaml:"why"`
	Category Leaf    `yaml:"category"` // 1 to 4
	Review   Leaf    `yaml:"review"`   // year or date when it is looked at again
	By       Leaf    `yaml:"by"`
	Date     Leaf    `yaml:"date"`
	Released Release `yaml:"released"`
	Line     int32
}

// Release ends a mark of sensitivity; it has all three or is none.
type Release struct {
	Why  Leaf `yaml:"why"`
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Line int32
}

// Fate is one withdrawal of the specimen, or its being found again; the last
// one holds. Append-only.
type Fate struct {
	Is   Leaf `yaml:"is"` // lost, destroyed, used-up, exchanged, transferred, deaccessioned, same-as, mistake, found
	To   Leaf `yaml:"to"` // where it went, or the other number
	By   Leaf `yaml:"by"`
	Date Leaf `yaml:"date"`
	Why  Leaf `yaml:"why"`
	Line int32
}

// Pair is one column of an import that has no field of its own.
type Pair struct {
	Key   string
	Value Leaf
}
