package page

// AbsenceKind is one of the five ways in which a value can be absent. Nothing
// is ever left blank.
type AbsenceKind uint8

const (
	Present      AbsenceKind = iota // the zero value: not absent
	NoneOnLabel                     // s.d., s.n.: the label has none
	NotLegible                      // there are words, nobody can read them
	NotYetTyped                     // nobody has typed it
	WithheldWord                    // withheld, with its reason
	NotRead                         // the words stand, the program could not read them
)

// Absence is what stands in the place of a value that is absent.
type Absence struct {
	Kind   AbsenceKind
	Reason Said // only for WithheldWord
}

// Phrase is the absence in the words of language l.
func (a Absence) Phrase(l *Language) string {
	switch a.Kind {
	case NoneOnLabel:
		return l.NoneOnLabel
	case NotLegible:
		return l.NotLegible
	case NotYetTyped:
		return l.NotYetTyped
	case WithheldWord:
		return l.WithheldColon + string(a.Reason)
	case NotRead:
		return l.NotRead
	}
	return ""
}
