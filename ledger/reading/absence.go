package reading

import "strings"

// Absence says why there is nothing to read.
type Absence uint8

const (
	Present   Absence = iota // there are words
	None                     // the label has none: s.d., s.n., unknown
	Illegible                // the label has words that nobody can read
	Untyped                  // nobody has typed them yet
	Unread                   // there are words, and they could not be read
)

// String is the one phrase for each absence; "" for Present.
func (a Absence) String() string {
	return [...]string{"", "none on the label", "not legible", "not yet typed", "could not be read"}[a]
}

// wordsForNone are the words that a record may have instead of a value
// (FORMAT.md, "Words for none"); AbsenceOf knows with which letters they begin.
var wordsForNone = map[string]Absence{
	"s.d.":            None,
	"s.n.":            None,
	"s.l.":            None,
	"unknown":         None,
	"not recorded":    None,
	"unsigned":        None,
	"illegible":       Illegible,
	"[illegible]":     Illegible,
	"not yet typed":   Untyped,
	"[not yet typed]": Untyped,
}

// AbsenceOf reads words for none; an empty text is Untyped, any other words
// are Present. Case counts for nothing.
func AbsenceOf(text string) Absence {
	t := strings.TrimSpace(text)
	if t == "" {
		return Untyped
	}
	if len(t) > len("[not yet typed]") || strings.IndexByte("suniSUNI[", t[0]) < 0 {
		return Present
	}
	return wordsForNone[strings.ToLower(t)]
}

// nearNone are ways of writing nothing that are not among the words for none;
// read as words they would stand for a value.
var nearNone = map[string]string{
	"sd": "s.d.", "s.d": "s.d.", "s. d.": "s.d.", "s d": "s.d.", "n.d.": "s.d.", "n. d.": "s.d.", "nd": "s.d.",
	"no date": "s.d.", "sine dato": "s.d.", "without date": "s.d.", "undated": "s.d.",
	"sn": "s.n.", "s.n": "s.n.", "s. n.": "s.n.", "s n": "s.n.", "no number": "s.n.", "sine numero": "s.n.",
	"n/a": "not recorded", "na": "not recorded", "n.a.": "not recorded", "none": "not recorded", "nil": "not recorded",
	"-": "not recorded", "--": "not recorded", "?": "not yet typed", "??": "not yet typed", "???": "not yet typed",
	"unkown": "unknown", "unknow": "unknown", "not known": "unknown", "anon": "unknown", "anon.": "unknown", "anonymous": "unknown",
	"unreadable": "illegible", "not legible": "illegible", "not readable": "illegible", "illegibile": "illegible", "ilegible": "illegible",
	"[unreadable]": "[illegible]", "[...]": "[illegible]", "todo": "not yet typed", "tbd": "not yet typed", "not typed": "not yet typed",
}

// NearNone gives the word for none that text was perhaps meant to be; "" when
// it is one already or is something else.
func NearNone(text string) string {
	if text == "" || len(text) > 40 {
		return ""
	}
	t := strings.TrimSpace(text)
	if len(t) > nearNoneLongest {
		return ""
	}
	return nearNone[strings.ToLower(t)]
}

// nearNoneLongest is the length of the longest of nearNone.
const nearNoneLongest = len("without date")
