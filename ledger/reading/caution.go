package reading

import (
	"strings"

	"blotter/ledger"
)

// Caution is one danger that a sheet may hold.
type Caution struct {
	Words   string // as written; "treated" when assumed
	Assumed bool   // nobody wrote it: the sheet is, or may be, older than the museum's year of treatment
	Perhaps bool   // of Assumed: its date leaves open how old it is
}

// Treated reports whether the caution is about poison on the sheet (mercury,
// arsenic): from memory, common on sheets of before about 1980.
func (c Caution) Treated() bool { return strings.HasPrefix(strings.ToLower(c.Words), "treated") }

// cautionsOf are the written cautions, and treatment assumed for a sheet that
// says nothing of it and was, or may have been, gathered before the museum's
// year: a label without a date is as often an old one.
func cautionsOf(r *ledger.Record, gathered Date, c Conventions) []Caution {
	var out []Caution
	said := false
	for _, l := range r.Cautions {
		if l.Set() {
			out = append(out, Caution{Words: l.Text})
			said = said || out[len(out)-1].Treated()
		}
	}
	if said || c.TreatedBefore == 0 {
		return out
	}
	switch {
	case gathered.Known && gathered.Last.Year() < c.TreatedBefore:
		return append(out, Caution{Words: "treated", Assumed: true})
	case gathered.Known && gathered.First.Year() < c.TreatedBefore, !gathered.Known && gathered.Absence != Untyped:
		return append(out, Caution{Words: "treated", Assumed: true, Perhaps: true})
	}
	return out
}
