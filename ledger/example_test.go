package ledger_test

import (
	"fmt"

	"blotter/ledger"
)

func ExampleDecode() {
	r, findings := ledger.Decode("specimens/000/04/LK7-0000482.yaml", []byte(`specimen: LK7-0000482
entry: draft
date: 14.vii.2025
place:
  country: NO
`))
	fmt.Println(r.Date, r.Place.Country.Line)
	for _, f := range findings {
		fmt.Println(f)
		fmt.Println(f.Hint)
	}
	// Output:
	// 14.vii.2025 5
	// specimens/000/04/LK7-0000482.yaml:5:12: error: some readers of YAML take this for "false", not for words [value-unquoted]
	// Put it in quotes: country: "NO"   (blotter tidy does it for all)
}

func ExampleEdit() {
	out, err := ledger.Edit([]byte(`specimen: LK7-0000482
determinations:
  - name: Ranunculus acris L.   # as on the label
    by: Signe Rask
    date: 2025-07-14
`), ledger.Append("determinations",
		ledger.KV{Key: "name", Value: "Ranunculus repens L."},
		ledger.KV{Key: "by", Value: "M. Ostrander"},
		ledger.KV{Key: "date", Value: "2.xi.2026"}))
	fmt.Print(string(out), err)
	// Output:
	// specimen: LK7-0000482
	// determinations:
	//   - name: Ranunculus acris L.   # as on the label
	//     by: Signe Rask
	//     date: 2025-07-14
	//   - name: Ranunculus repens L.
	//     by: M. Ostrander
	//     date: 2.xi.2026
	// <nil>
}

func ExampleNumber_Path() {
	fmt.Println(ledger.Number("LK7-0000482").Path())
	// Output: specimens/000/04/LK7-0000482.yaml
}
