package check

import (
	"blotter/ledger"
	"blotter/ledger/reading"
)

var typeRules = []Rule{
	{Code: "type-basis", Severity: ledger.Warning,
		Says: "A type statement that is verified names the publication of the name it typifies.",
		Why:  "A type is verified against the first description: collector, number, date and herbarium cited there. Without the citation the statement reads \"said to be\".",
		One:  typeBasis},
	{Code: "type-untold", Severity: ledger.Warning,
		Says: "A type statement says how it is known: verified, label, picture or suspected.",
		Why:  "Suspected protects the sheet as a type does and reads \"possible type\" in public; verified says that somebody compared it with the first description.",
		One:  typeUntold},
	{Code: "type-doubt", Severity: ledger.Warning,
		Says: "Doubt about a type stands in its basis (suspected), not in its status.",
		Why:  "A status such as \"type?\" or \"possible isotype\" is no word of the Code's, and the sheet would not be found among the types.",
		One:  typeDoubt},
}

func typeBasis(d *reading.Reading, say say) {
	for i := range d.Types {
		t := &d.Types[i]
		if !t.Mistake && t.Given.Basis.Text == "verified" && !t.Given.Published.Set() {
			say(at(t.Given.Basis, nth("types", i, "basis")), words{"is called verified, and no publication says against what",
				set(numberOf(d), nth("types", i, "published"), "CITATION")})
		}
	}
}

func typeUntold(d *reading.Reading, say say) {
	for i := range d.Types {
		t := &d.Types[i]
		if !t.Mistake && !t.Given.Basis.Set() && t.Status != "" && t.Status != "not a type" {
			say(at(t.Given.Status, nth("types", i, "status")), words{"nothing says how it is known that this is a type",
				set(numberOf(d), nth("types", i, "basis"), "label")})
		}
	}
}

func typeDoubt(d *reading.Reading, say say) {
	for i := range d.Types {
		t := &d.Types[i]
		if word, doubted := t.Doubted(); doubted && !t.Mistake && !t.Suspected {
			say(at(t.Given.Status, nth("types", i, "status")), words{"doubt stands in the status, where the sheet is not found among the types",
				lines(set(numberOf(d), nth("types", i, "status"), word), set(numberOf(d), nth("types", i, "basis"), "suspected"))})
		}
	}
}
