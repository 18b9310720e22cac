package public

import (
	"cmp"
	"strconv"
	"strings"

	"blotter/ledger"
)

// Withheld says why something is not shown, and what is shown instead.
type Withheld struct {
	Class    Class
	Cell     *Cell    // where it grew as far as everybody may know; nil for Extreme, and when there is no position
	Why      string   // as written; "" when nobody wrote why
	Category string   // as written, "1" to "4"; "" when there is none, which is held as strictly as 1
	Review   string   // when it is looked at again, as written
	Name     string   // the name that is marked; "" when it is the record or its place
	Private  bool     // a private garden or house
	Pictures int      // how many pictures are held back
	Fields   []string // dotted paths of what the record says and is not shown, in field order

	filled *ledger.Record
}

// Filled is the record with a sentence in the place of all words that are
// withheld: what Published gives.
func (w *Withheld) Filled() *ledger.Record { return w.filled }

// Reason is the phrase after "withheld: ".
func (w *Withheld) Reason() string {
	why := strings.TrimRight(strings.TrimSpace(w.Why), ".")
	if w.Private {
		return cmp.Or(why, "a private garden or house")
	}
	return cmp.Or(why, "the plant is at risk")
}

// Sentence is what stands in the place of the words of a field.
func (w *Withheld) Sentence(field string) string { return "withheld: " + w.Reason() }

// WithheldInfo says what is not shown and why, for exports (Darwin Core
// informationWithheld).
func (w *Withheld) WithheldInfo() string {
	words := "exact place"
	if !w.Class.Dated() {
		words = "exact place, day and collector's number"
	}
	if w.Class == Extreme {
		words = "place below the province, date and collector's number"
	}
	out := words + " withheld: " + w.Reason()
	if c := w.Class.Category(); c != "" && !w.Private {
		out += "; category " + c + " of 4"
	}
	if w.Review != "" {
		out += "; to be looked at again in " + w.Review
	}
	switch {
	case w.Pictures == 1:
		out += "; a picture is held"
	case w.Pictures > 1:
		out += "; " + strconv.Itoa(w.Pictures) + " pictures are held"
	}
	return out
}

// Generalized is what was made coarser and how (Darwin Core
// dataGeneralizations); "" when no position is shown.
func (w *Withheld) Generalized() string {
	if w.Cell == nil {
		return ""
	}
	return "position generalized to the centre of a square of the decimal grid of " + map[Class]string{Low: "0.001", Medium: "0.01", High: "0.1"}[w.Class] +
		" degree; the uncertainty covers the whole square and that of the position itself"
}
