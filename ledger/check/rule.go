// Package check holds the rules of a ledger: about one record as read, about
// a record and the museum's files, about records that share a key, about the
// museum's files themselves. Each code stands in FORMAT.md. Structural rules
// are ledger's own (ledger.Rules). No rule sees the whole Book, so that after
// a change only what it touches is judged again.
//
// Errors are what harms the ledger; whatever may truly stand on a label is at
// most a warning.
package check

import (
	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/georeference"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

// Version is raised whenever the rules about one record (One) give another
// answer for the same reading, or a Grouping other keys; what a cache kept is
// then judged anew.
const Version = 23

// Rule is one thing that is looked for. One of One, By, Join, Group, Odd,
// Files, Due and Work is set.
type Rule struct {
	Code     string
	Severity ledger.Severity
	Says     string // what the ledger should be like, one sentence; the row in FORMAT.md
	Why      string // why it matters and what to do, for `check --explain`

	// NewOnly rules hold for what was collected from Settings.NewFrom on; of a
	// record without a date nothing is said.
	NewOnly bool
	// Asked says whether what a Join or Group rule needs is there; when it is
	// not, nobody can say whether a warning still arises. nil: always.
	Asked func(a *Around) bool

	One    func(d *reading.Reading, say say)                             // about one record alone
	By     func(d *reading.Reading, s *Settings, say say)                // the same, with a threshold
	Join   func(e *book.Entry, a *Around, say say)                       // about one record and what is around it
	Of     *Grouping                                                     // of Group: which records are judged together
	Group  func(g *group, say sayOf)                                     // about records that share a key
	Counts *Tallying                                                     // of Odd: what is counted
	Odd    odd                                                           // about a record and the sums it counts for
	Files  func(m *book.Museum, say func(place, words))                  // about the museum's own files
	Due    func(m *book.Museum, today dates.Day, say func(place, words)) // the same, on a day; not asked without one
	Work   bool                                                          // about the files of work/: a law of ledger/work, answered by why: on the line
}

// Grouping puts records together that have a key in common. Rules that look at
// the same records share one, so that its keys are kept once.
type Grouping struct {
	Name  string                                      // begins the keys in the index; no two share it
	Keys  func(keys []string, e *book.Entry) []string // adds those of a record, each once
	Alone func(e *book.Entry) bool                    // whether a record that shares its key with no other is judged too; nil: none is
}

// group is the records that have one key of a Grouping.
type group struct {
	key    string        // as Keys gave it
	same   []*book.Entry // in order of path
	around *Around

	verdicts []verdict // see series
}

// Around is what a record is judged against besides its own words.
type Around struct {
	Museum   *book.Museum
	Settings Settings
	Today    dates.Day                            // 0: dates to come are not looked for
	Works    *work.Works                          // the files of work/; nil: records are not compared with them
	Former   func(n ledger.Number) *ledger.Record // the last record of a number that was taken away before the present one came; nil: none
	Has      func(path string) bool               // whether the ledger has a picture's file; nil: pictures are not looked for
	Sum      func(path string) string             // the checksum of a picture's file, sha256:HEX, "" when it is not there; nil: not asked

	identities map[string]identity            // of collectors, by their words
	teams      map[string][]string            // by words: who each person in them is
	places     func() *georeference.Gazetteer // those of places.yaml that have a position
}

// words are what a finding says.
type words struct {
	message string // lower case, no full stop; never a withheld value
	hint    string // what to type
}

// place is where in a file a finding stands.
type place struct {
	path  string // empty for a record's own
	line  int
	col   int
	field string
}

// at is the place of a value that stands in the file.
func at(l ledger.Leaf, field string) place {
	return place{line: int(l.Line), col: int(l.Col), field: field}
}

// say reports a finding of the record at hand.
type say func(p place, w words)

// sayOf reports a finding of one of a group of records, and the others that it
// does not agree with: a sic entry of one of them settles it as well.
type sayOf func(e *book.Entry, p place, w words, others ...*book.Entry)

// finding puts a rule's words together.
func (r *Rule) finding(path string, p place, w words) ledger.Finding {
	if p.path != "" {
		path = p.path
	}
	return ledger.Finding{
		Path: path, Line: p.line, Col: p.col, Field: p.field, Severity: r.Severity,
		Code: r.Code, Message: w.message, Hint: w.hint,
	}
}
