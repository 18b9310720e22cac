package people_test

import (
	"fmt"

	"blotter/ledger/people"
)

func ExampleRead() {
	for _, p := range people.Read("J. Ratcliff & S. L. O'Kane, Jr.") {
		fmt.Printf("%s / %s / %s\n", p, p.SortKey(), p.Slug())
	}
	// Output:
	// J. Ratcliff / ratcliff, j. / j-ratcliff
	// S. L. O'Kane, Jr. / o'kane, s. l. jr. / s-l-okane-jr
}

func ExampleIndex_Find() {
	x := people.NewIndex([]people.Entry{
		{Name: "Signe Rask", Spellings: []string{"S.R."}},
		{Name: "Ove Bannister"},
	})
	for _, text := range []string{"S. R.", "Bannister, O.", "Ola Bannister"} {
		m := x.Find(text)
		fmt.Println(text, m.Found(), m.Entry)
	}
	// Output:
	// S. R. true 0
	// Bannister, O. true 1
	// Ola Bannister false -1
}
