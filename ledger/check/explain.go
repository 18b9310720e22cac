package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
)

// Explain says what a code means, why it matters and what to do; false when
// no rule has the code.
func Explain(code string) (string, bool) {
	for _, r := range Rules() {
		if r.Code == code {
			return explain(code, r.Severity, r.Says, r.Why), true
		}
	}
	for _, r := range ledger.Rules() {
		if r.Code == code {
			return explain(code, r.Severity, r.Meaning, ""), true
		}
	}
	return "", false
}

func explain(code string, s ledger.Severity, says, why string) string {
	var b strings.Builder
	b.WriteString(code + " (" + s.String() + ")\n" + says + "\n")
	if why != "" {
		b.WriteString(why + "\n")
	}
	if s == ledger.Error {
		b.WriteString("An entry that brings it in is stopped.\n")
	} else {
		b.WriteString("It stops nothing. If it is so on the sheet: blotter accept NUMBER " + code + " --why TEXT\n")
	}
	return b.String()
}

// Known reports whether a code is one of any rule.
func Known(code string) bool {
	_, ok := Explain(code)
	return ok
}

var fileRules = []Rule{
	{Code: book.CodeLink, Severity: ledger.Error, Says: "No record and no file of the museum is a symbolic link.",
		Why: "A link may lead out of the ledger; it is never followed, so what it stands for would be missing."},
	{Code: book.CodeStray, Severity: ledger.Warning, Says: "Every file below specimens/ and names/ ends in .yaml.",
		Why: "Other files there are not read: a record with a wrong ending would be missing without a word."},
}
