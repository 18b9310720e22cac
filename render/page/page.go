package page

// Site is what every page of one site shows.
type Site struct {
	Title    Words // the museum's own title of its catalogue
	Museum   Words
	Language *Language
	Base     string // https address that the site will stand at, with a final /; "" when not known
	About    []Link // the museum's own pages
	Staff    bool   // not for the public: nothing is withheld
}

// Page is one page of the catalogue, from its trail to its foot.
type Page struct {
	Address   Address
	Title     string // for the browser's tab and the feed: plain
	Trail     []Link // from the largest to the smallest that holds this page
	Number    Words  // a specimen's number, small above the heading
	Heading   []Part
	Withdrawn bool   // the heading says so
	Standing  []Part // one line under the heading
	Jumps     []Link // to the blocks of this page; the Markdown twin leaves them out
	Notices   []Notice
	Pictures  []Picture
	Lead      []Block // blocks without a heading, before the first section
	Sections  []Section
	Shown     []Part  // revision and day that the page shows, for its foot
	JSON      Address // the same as data; "" for none
	LD        []byte  // schema.org data as JSON; nil for none
	Gone      bool    // a page that was renamed: not in the sitemap
	Letters   bool    // an index whose sections are single letters
	Twinless  bool    // has no Markdown twin
}

// Section is one block of a page with its heading.
type Section struct {
	ID      string
	Heading Said
	Blocks  []Block
}

// NoticeKind orders and marks the notices at the top of a page.
type NoticeKind uint8

const (
	CautionNotice NoticeKind = iota
	WithdrawnNotice
	TypeNotice
	DisputedNotice
	WithheldNotice
	NotNamedNotice
	PlainNotice
)

// Notice is a line or two that must be read before the rest. Notices stand in
// the order of their kinds.
type Notice struct {
	Kind NoticeKind
	Word Said // the word that says what kind it is, such as "Caution."
	Text []Part
}

// Picture is one photograph of a specimen.
type Picture struct {
	File   Address // copy inside the site; "" when there is none
	Words  Words   // address or file name, shown when there is no copy
	Shows  Words
	Alt    string
	Credit []Part
}
