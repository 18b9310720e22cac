package find

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/mids"
	"blotter/ledger/work"
)

// Sheet is what a query is asked of.
type Sheet struct {
	Number    ledger.Number
	Stage     ledger.Stage
	Name      string   // the name that stands, "" for none
	As        string   // the name of the determination, when names/ has it under another; else ""
	Family    string   //
	Former    []string // names given that do not stand
	By        []string // who gave any of the names
	People    []string // collector and companions
	Place     []string // country, province, district, locality
	First     dates.Day
	Last      dates.Day
	Dated     bool // First and Last hold
	Type      bool // a type of some name, suspected ones too
	Suspected bool // a type that nobody has verified
	Withheld  bool // place or record is not public
	Withdrawn bool // it has a fate
	Divided   bool // named before its name was divided among others
	Unprinted bool // a label or slip waits to be printed; asked for only when the query Needs it
	Reprint   bool // a paper of it would read otherwise now; likewise

	// Where is the place where the sheet is; called only when the query asks for
	// it (see NeedsWhere). nil: no word for a place is true.
	Where func() work.Place
	// Heights are the lowest and the highest metres above the sea that its
	// elevation can mean; called only for elevation:.
	Heights func() (low, high float64, known bool, err error)
	// MIDS is what it gives of MIDS; called only when the query asks for it.
	MIDS func() mids.Set
	// Fields are all values of the record with their paths; called only when
	// the query needs them (see NeedsFields).
	Fields func() ([]Value, error)
}

// Value is one value of a record; entries of a list are numbered from 1 in
// the path: determinations.2.by.
type Value struct{ Path, Text string }

// NeedsFields reports whether Match may call Fields.
func (q Query) NeedsFields() bool {
	for _, t := range q.terms {
		if t.field == "" || t.element == 0 && (t.field == "has" || t.field == "lacks") || !isShort(t.field) {
			return true
		}
	}
	return false
}

// NeedsWhere reports whether the query asks where sheets are, as the works say.
func (q Query) NeedsWhere() bool {
	return slices.ContainsFunc(q.terms, func(t term) bool { return t.field == "is" && isPlace(t.text) })
}

// Needs reports whether the query asks for a word of is:.
func (q Query) Needs(state string) bool {
	return slices.ContainsFunc(q.terms, func(t term) bool { return t.field == "is" && t.text == state })
}

// Match reports whether the sheet fulfils every term. The error is the one of
// Fields.
func (q Query) Match(s *Sheet) (bool, error) {
	for i := range q.terms {
		t := &q.terms[i]
		ok, err := t.holds(s)
		if err != nil {
			return false, err
		}
		if ok == t.not {
			return false, nil
		}
	}
	return true, nil
}

func (t *term) holds(s *Sheet) (bool, error) {
	switch t.field {
	case "number":
		return t.isNumber(s.Number), nil
	case "name":
		return hasWords(s.Name, t.words) || hasWords(s.As, t.words), nil
	case "genus":
		return hasWords(firstWord(s.Name), t.words), nil
	case "family":
		return hasWords(s.Family, t.words), nil
	case "was":
		return t.inAny(s.Former) || s.As != "" && hasWords(s.As, t.words), nil
	case "by":
		return t.inAny(s.By), nil
	case "collector":
		return t.inAny(s.People), nil
	case "place":
		return t.inAny(s.Place), nil
	case "year", "date":
		return s.Dated && s.First <= t.last && s.Last >= t.first, nil
	case "elevation":
		low, high, known, err := s.Heights()
		return known && low <= t.hi && high >= t.lo, err
	case "mids":
		level := float64(s.MIDS().Level())
		return t.lo <= level && level <= t.hi, nil
	case "is":
		return t.isState(s), nil
	}
	if t.element > 0 {
		return s.MIDS().Has(t.element-1) == (t.field == "has"), nil
	}
	return t.holdsFields(s)
}

func (t *term) isNumber(n ledger.Number) bool {
	if strings.EqualFold(string(n), t.text) {
		return true
	}
	v, ok := n.Serial()
	w, okTyped := ledger.Number(t.text).Serial()
	return ok && okTyped && v == w && strings.Trim(t.text, "0123456789") == ""
}

// firstWord is the genus of a name; a hybrid sign before it does not count.
func firstWord(name string) string {
	for _, w := range strings.Fields(name) {
		if w != "×" && w != "x" {
			return strings.TrimPrefix(w, "×")
		}
	}
	return ""
}

func (t *term) inAny(texts []string) bool {
	for _, text := range texts {
		if hasWords(text, t.words) {
			return true
		}
	}
	return false
}

func (t *term) isState(s *Sheet) bool {
	switch t.text {
	case "type":
		return s.Type
	case "suspected":
		return s.Suspected
	case "withheld":
		return s.Withheld
	case "divided":
		return s.Divided
	case "withdrawn":
		return s.Withdrawn
	case Unprinted:
		return s.Unprinted
	case Reprint:
		return s.Reprint
	}
	if isPlace(t.text) {
		return s.Where != nil && s.Where() == work.Place(t.text)
	}
	return string(s.Stage) == t.text
}

// holdsFields judges a term that needs the record's own words.
func (t *term) holdsFields(s *Sheet) (bool, error) {
	if t.field == "" && (hasWords(string(s.Number), t.words) || hasWords(s.Family, t.words) || s.As != "" && hasWords(s.Name, t.words)) {
		return true, nil
	}
	values, err := s.Fields()
	if err != nil {
		return false, err
	}
	switch t.field {
	case "has":
		return hasField(values, t.text), nil
	case "lacks":
		return !hasField(values, t.text), nil
	}
	for _, v := range values {
		if (t.field == "" || under(v.Path, t.field)) && hasWords(v.Text, t.words) {
			return true, nil
		}
	}
	return false, nil
}

func hasField(values []Value, path string) bool {
	for _, v := range values {
		if v.Text != "" && under(v.Path, path) {
			return true
		}
	}
	return false
}

// under reports whether path is field, or lies in it; the numbers of list
// entries count for nothing.
func under(path, field string) bool {
	for {
		key, rest, more := strings.Cut(path, ".")
		if key != "" && strings.Trim(key, "0123456789") == "" {
			path = rest
			if !more {
				return field == ""
			}
			continue
		}
		want, restWant, moreWant := strings.Cut(field, ".")
		if key != want {
			return false
		}
		if !moreWant {
			return true
		}
		if !more {
			return false
		}
		path, field = rest, restWant
	}
}
