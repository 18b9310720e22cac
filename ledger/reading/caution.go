package reading

import (
	"strings"

	"blotter/ledger"
)

// Caution is one danger that a sheet may hold.
type Caution struct {
	Words   string // as written; "treated" when assumed
	Assumed bool   // nobody wrote it: the sheet is older than the museum's year of treatment
}

// Treated reports whether the caution is about poison on the sheet (mercury,
// arsenic): from memory, common on sheets of before about 1980.
func (c Caution) Treated() bool { return strings.HasPrefix(strings.ToLower(c.Words), "treated") }

// cautionsOf are the written cautions, and treatment assumed for a sheet that
// was certainly gathered before the museum's year and says nothing of it.
func cautionsOf(r *ledger.Record, gathered Date, c Conventions) []Caution {
	var out []Caution
	said := false
	for _, l := range r.Cautions {
		if l.Set() {
			out = append(out, Caution{Words: l.Text})
			said = said || out[len(out)-1].Treated()
		}
	}
	if !said && c.TreatedBefore != 0 && gathered.Known && gathered.Last.Year() < c.TreatedBefore {
		out = append(out, Caution{Words: "treated", Assumed: true})
	}
	return out
}
