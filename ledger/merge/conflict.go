package merge

import (
	"strings"
	"time"

	"blotter/ledger"
)

// Kind is what a conflict is about.
type Kind uint8

const (
	Field     Kind = iota // the words of one field
	Statement             // a group that one person signed, whole
	Entry                 // an entry of a list that one side took out
	File                  // the file as a whole: it cannot be answered, only mended by hand
)

// Hand is who wrote something, and when; the zero Hand is not known.
type Hand struct {
	Name string
	When time.Time
}

// Conflict is one thing that a person must decide.
type Conflict struct {
	Number             string // of the sheet or work: the file's base name
	Path               string // field, for example place.elevation; "" for the whole file
	Kind               Kind
	Base, Ours, Theirs string // the words; of a statement or an entry its fields, as "is: 348 m; by: Tiril Aune"; "" is none, or taken out
	OursBy, TheirsBy   Hand   // left empty: the caller knows the history
	Line               int    // of its first marker in the merged text, from 1
	Message            string // lower case, no words of any value
	Hint               string
}

// Answer is what a person decided of a conflict. The zero Answer decides
// nothing.
type Answer struct {
	Is    Verdict
	Words string // with Words: of the field
}

// Verdict is which reading is right.
type Verdict uint8

const (
	Undecided Verdict = iota
	Ours
	Theirs
	Words // other words, for a Field alone
)

// Decide gives the answer to a conflict.
type Decide func(Conflict) Answer

// undecided is a conflict and what makes, of the merged record with our side
// in it, one with theirs. Those of one list stand from its end on, so that
// any choice of them can be made one after another.
type undecided struct {
	Conflict
	theirs []ledger.Op
}

// opsOf are the edits that a verdict asks for.
func (u undecided) opsOf(a Answer) []ledger.Op {
	switch a.Is {
	case Theirs:
		return u.theirs
	case Words:
		return []ledger.Op{ledger.Set(u.Path, a.Words)}
	}
	return nil
}

// answerable reports whether an answer fits what it answers.
func (u undecided) answerable(a Answer) bool {
	return a.Is == Ours || a.Is == Theirs || a.Is == Words && u.Kind == Field
}

func (m *merger) conflict(c Conflict, theirs ...ledger.Op) {
	c.Number = m.number()
	c.Message = c.Path + " was changed here and in the other copy, in two ways"
	if c.Kind == Entry {
		c.Message = c.Path + " was taken out in one copy and kept or changed in the other"
	}
	c.Hint = "Keep the right one of the two readings, take the other and the lines of the markers out, then: blotter enter"
	m.open = append(m.open, undecided{c, theirs})
}

// brief is an entry in one line.
func brief(e ledger.Entry) string {
	var parts []string
	for _, kv := range e.Fields {
		if kv.Key == "" {
			parts = append(parts, kv.Value)
		} else {
			parts = append(parts, kv.Key+": "+kv.Value)
		}
	}
	return strings.Join(parts, "; ")
}

// Sign writes into the markers of a merged text who wrote the two readings.
func Sign(text []byte, open []Conflict) []byte {
	var ours, theirs []string
	for _, c := range open {
		ours, theirs = signed(ours, c.OursBy), signed(theirs, c.TheirsBy)
	}
	lines := ledger.CutLines(text)
	for i, l := range lines {
		body := strings.TrimRight(l, "\r\n")
		switch {
		case body == markOurs && len(ours) > 0:
			lines[i] = body + ": " + strings.Join(ours, "; ") + l[len(body):]
		case body == markTheirs && len(theirs) > 0:
			lines[i] = body + ": " + strings.Join(theirs, "; ") + l[len(body):]
		}
	}
	return []byte(strings.Join(lines, ""))
}

func signed(all []string, h Hand) []string {
	if h.Name == "" {
		return all
	}
	s := strings.Join(strings.Fields(h.Name), " ")
	if !h.When.IsZero() {
		s += ", " + h.When.Format("2 January 2006")
	}
	for _, had := range all {
		if had == s {
			return all
		}
	}
	return append(all, s)
}
