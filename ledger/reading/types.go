package reading

import (
	"strings"

	"blotter/ledger"
)

// Type is one statement of type status as read.
type Type struct {
	Given     *ledger.TypeEntry
	Status    string // in lower case, for example isotype
	Known     bool   // Status is one of TypeStatuses
	Of        Name   // the name it belongs to
	Suspected bool   // nobody has verified it and it may not be one at all; protected all the same
	Mistake   bool
	Denied    bool // it says that this is not a type
	Ended     bool // a later entry says that this is not a type of the name
}

// Holds reports whether the statement still says that this is a type.
func (t Type) Holds() bool { return !t.Mistake && !t.Denied && !t.Ended }

// notAType is the status that takes back earlier statements about a name.
const notAType = "not a type"

// TypeStatuses are the words for type status: those of the International
// Code of Nomenclature (Shenzhen, 2018), Articles 9 and 40 Note, and the
// informal words that stand on sheets (topotype, type; from memory).
var TypeStatuses = []string{
	"holotype", "isotype", "lectotype", "isolectotype", "neotype", "isoneotype", "epitype", "isoepitype",
	"syntype", "isosyntype", "paratype", "original material", "topotype", "type",
}

func isTypeStatus(s string) bool {
	for _, t := range TypeStatuses {
		if s == t {
			return true
		}
	}
	return false
}

func (x *Reader) types(r *ledger.Record) []Type {
	if len(r.Types) == 0 {
		return nil
	}
	out := make([]Type, len(r.Types))
	for i := range r.Types {
		t := &r.Types[i]
		status := strings.ToLower(strings.Join(strings.Fields(t.Status.Text), " "))
		out[i] = Type{
			Given: t, Status: status, Known: isTypeStatus(status), Of: x.name(t.Of.Text),
			Suspected: t.Basis.Text == "suspected", Mistake: t.Mistake.Set(), Denied: status == notAType,
		}
		if out[i].Denied && !out[i].Mistake {
			for k := range out[:i] {
				out[k].Ended = out[k].Ended || sameName(out[k].Of, out[i].Of)
			}
		}
	}
	return out
}

// sameName reports whether two statements are about one name.
func sameName(a, b Name) bool {
	return a.Readable && b.Readable && a.Key() == b.Key() || a.Words == b.Words
}

// String is the statement as shown: "isotype of NAME", "possible type of
// NAME" when suspected.
func (t Type) String() string {
	s := t.Status
	if s == "" {
		s = "type"
	}
	if t.Suspected {
		s = "possible " + s
	}
	if t.Of.Words != "" {
		s += " of " + t.Of.Words
	}
	return s
}

// Doubted gives the plain status when the words hold a doubt: isotype of
// "possible isotype" and "isotype?".
func (t Type) Doubted() (status string, doubted bool) {
	s := strings.TrimSpace(strings.TrimRight(t.Status, "? "))
	doubted = s != t.Status
	for _, w := range []string{"possible ", "probable ", "presumed ", "putative ", "suspected ", "?"} {
		if rest, ok := strings.CutPrefix(s, w); ok {
			s, doubted = strings.TrimSpace(rest), true
		}
	}
	return s, doubted
}
