package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Code is what a code of a finding means.
type Code struct {
	Code     string
	Severity ledger.Severity
	Says     string // what the ledger should be like, one sentence
	Why      string // why it matters and what to do; may be empty
	Settles  bool   // a sic entry may let it stand
	NewOnly  bool   // asked only of what was collected from new_from on
	Work     bool   // why: on the line of a work answers it
}

// Codes are all codes of this package, then those of ledger, each in the
// order of FORMAT.md.
func Codes() []Code {
	var out []Code
	for _, r := range Rules() {
		out = append(out, r.code())
	}
	for _, r := range ledger.Rules() {
		out = append(out, Code{r.Code, r.Severity, r.Meaning, "", r.Severity == ledger.Warning, false, false})
	}
	return out
}

// code is what a rule's code means. What the museum's own files and sic
// entries say wrongly is mended there, so it is never let stand.
func (r *Rule) code() Code {
	return Code{r.Code, r.Severity, r.Says, r.Why, r.Severity == ledger.Warning && (r.One != nil || r.By != nil || r.Join != nil || r.Group != nil) && r.Code != "sic-code" && r.Code != "sic-error", r.NewOnly, r.Work}
}

// CodeOf is what a code means; false when no rule has it.
func CodeOf(code string) (Code, bool) {
	if r := rule(code); r != nil {
		return r.code(), true
	}
	for _, r := range ledger.Rules() {
		if r.Code == code {
			return Code{r.Code, r.Severity, r.Meaning, "", r.Severity == ledger.Warning, false, false}, true
		}
	}
	return Code{}, false
}

// String is the code as `check --explain` tells it.
func (c Code) String() string {
	var b strings.Builder
	b.WriteString(c.Code + " (" + c.Severity.String() + ")\n" + c.Says + "\n")
	if c.Why != "" {
		b.WriteString(c.Why + "\n")
	}
	if c.NewOnly {
		b.WriteString("It is asked only of what was collected from new_from on (checks in blotter.yaml).\n")
	}
	switch {
	case c.Severity == ledger.Error:
		b.WriteString("An entry that brings it in is stopped.\n")
	case c.Settles:
		b.WriteString("It stops nothing. If it is so on the sheet: blotter accept NUMBER " + c.Code + " --why TEXT\n")
	case c.Work:
		b.WriteString("It stops nothing. If it was so, say why on the line: why: TEXT\n")
	default:
		b.WriteString("It stops nothing.\n")
	}
	return b.String()
}

// Known reports whether a code is one of any rule.
func Known(code string) bool {
	_, ok := CodeOf(code)
	return ok
}

var fileRules = []Rule{
	{Code: book.CodeLink, Severity: ledger.Error, Says: "No record and no file of the museum is a symbolic link.",
		Why: "A link may lead out of the ledger; it is never followed, so what it stands for would be missing."},
	{Code: book.CodeStray, Severity: ledger.Warning, Says: "Every file below specimens/ and names/ ends in .yaml.",
		Why: "Other files there are not read: a record with a wrong ending would be missing without a word."},
	{Code: book.CodeName, Severity: ledger.Error, Says: "No file of the ledger has a name that Windows cannot have: con, nul and other devices with any ending, a sign of < > : \" \\ | ? *, a blank or dot at the end.",
		Why: "Somebody's copy of the ledger is on Windows, now or in ten years; with one such file git stops there before the first record."},
}
