package check

import (
	"blotter/ledger"
	"blotter/ledger/work"
)

// workRules are the laws of ledger/work about the order of what happens to
// sheets.
var workRules = func() []Rule {
	var out []Rule
	for _, l := range work.Laws() {
		out = append(out, Rule{Code: l.Code, Severity: ledger.Warning, Says: l.Says, Why: l.Why, Work: true})
	}
	return out
}()

// works judges the files of work/; those at paths alone when only is not nil.
func (j *judging) works(w *work.Works, only map[string]bool) {
	if w == nil {
		return
	}
	for _, fs := range [][]ledger.Finding{w.Findings, w.CheckOn(j.around.Today)} {
		for _, f := range fs {
			if only == nil || only[f.Path] {
				j.open = append(j.open, f)
			}
		}
	}
}
