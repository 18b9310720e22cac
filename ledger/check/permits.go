package check

import (
	"blotter/ledger"
	"blotter/ledger/book"
)

var permitRules = []Rule{
	{Code: "permit-unknown", Severity: ledger.Warning, Asked: hasWorks, Join: breach("permit-unknown"),
		Says: "A permit that a record names is in work/permit/, once the museum keeps any there.",
		Why:  "Without its paper nobody can say what it allowed. Name it by its number or by that of its file."},
	{Code: "permit-day", Severity: ledger.Warning, Asked: hasWorks, Join: breach("permit-day"),
		Says: "A plant was gathered while its permit held.",
		Why:  "A permit that was extended has a line that says so: blotter log permit-... extended --until DATE. What was gathered outside it may have to be told to whoever gave it."},
	{Code: "permit-person", Severity: ledger.Warning, Asked: hasWorks, Join: breach("permit-person"),
		Says: "A permit names the collector, or one of those who were there, when it names anybody.",
		Why:  "A permit on a name is that person's alone. Another spelling belongs into people.yaml."},
	{Code: "permit-taxon", Severity: ledger.Warning, Asked: hasWorks, Join: breach("permit-taxon"),
		Says: "A permit covers the plant, when it names plants.",
		Why:  "A plant may be named anew after it was gathered; then the permit is as good as it was, and the warning may stand."},
	{Code: "permit-place", Severity: ledger.Warning, Asked: hasWorks, Join: breach("permit-place"),
		Says: "A permit covers the place, when it names places.",
		Why:  "The words of the permit are looked for in country, province, district and locality."},
}

func hasWorks(a *Around) bool { return a.Works != nil }

// breach tells of one kind of breach of the permit that a record names.
func breach(code string) func(e *book.Entry, a *Around, say say) {
	return func(e *book.Entry, a *Around, say say) {
		if e.Permit == "" || a.Works == nil {
			return
		}
		for _, b := range a.Works.Breaches(e) {
			if b.Code == code {
				say(place{line: int(e.Lines.Permit), field: "permit"}, words{b.Words, accept(short(e.Number), code)})
			}
		}
	}
}
