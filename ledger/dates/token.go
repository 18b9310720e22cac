package dates

// kind is what one token of a date is.
type kind uint8

const (
	number  kind = iota // figures; of a year some may be unknown
	month               // a month word or roman numeral
	season              // a season word
	part                // early, middle, late, a week, a half
	blank               // XX, **, ??: a part left open
	decade              // the s of 1980s
	century             // the word century
	divider             // - – / & and their words: may join two days
	bound               // before, until, after, since
	dayWord             // "day" before a number: the day of the year
	other               // a word that is no part of a date
)

// token is one word, number or mark. The flags say what stands beside it.
type token struct {
	kind   kind
	value  int
	more   int   // of a year some of whose figures are unknown: it is value to value+more
	digits uint8 // of a number, as written

	comma      bool // a comma or semicolon stands before it
	apostrophe bool // of a number: '87
	hyphen     bool // of a number: a plain hyphen ties it to the one before
	point      bool // of a number: a point without space ties it to the one before
	paren      bool // of a number: in round brackets
	roman      bool // of a month: in roman numerals
	word       bool // of a divider: a word or &
	list       bool // of a divider: "and", "or", not "to"
	slash      bool // of a divider: /
	orMonth    uint8
}

// lexed is a date in tokens, with what its words say besides.
type lexed struct {
	tokens      []token
	approximate bool
	uncertain   bool
	between     bool
	not         bool
	time        bool  // a time of day was passed over
	hourNext    bool  // the next number is an hour
	clock       int   // one more than the tokens there were when 10:30 was passed over
	weekday     uint8 // 1 Monday to 7 Sunday; 8: more than one
	style       style
	otherWord   string // first word that is no part of a date
	latinDay    bool   // calends, nones, ides
	orMonth     bool   // a divider that could be a month was met

	room [20]token
}

// style is the calendar that the words name.
type style uint8

const (
	unsaid style = iota
	oldStyle
	newStyle
)

// small reports whether t is a number that can be a day or a month.
func (t token) small() bool { return t.kind == number && t.digits <= 2 && !t.apostrophe && t.more == 0 }

// fullYear reports whether t is a year in four figures.
func (t token) fullYear() bool { return t.kind == number && t.digits == 4 }

// yearLike reports whether t can only be a year.
func (t token) yearLike() bool {
	return t.kind == number && (t.digits == 4 || t.digits == 2 && (t.value > 31 || t.apostrophe))
}

// torn completes a year whose figures stand apart, 1 993; false when it is
// none.
func (t *token) torn(n token) bool {
	if t.kind != number || t.digits != 1 || t.value != 1 || n.kind != number || n.digits != 3 || n.value < 500 || n.hyphen || n.point || n.comma {
		return false
	}
	t.value, t.digits = 1000+n.value, 4
	return true
}

// spansTo makes of the year t the years from t to n: 1860-62, 1856-7 or
// 1860-1864 beside a month and day; false when n is something else. all is
// how many tokens there are.
func (t *token) spansTo(n token, all int) bool {
	if !t.fullYear() || t.more > 0 || n.kind != number || n.apostrophe {
		return false
	}
	more := 0
	switch n.digits {
	case 1:
		more = n.value - t.value%10
	case 2:
		more = n.value - t.value%100
	case 4:
		more = n.value - t.value
	}
	if more <= 0 || more > 99 || all < 5 && (all < 4 || n.value <= 31 || n.digits == 4) {
		return false
	}
	t.more = more
	return true
}

func hasMonth(tokens []token) bool {
	for _, t := range tokens {
		if t.kind == month {
			return true
		}
	}
	return false
}
