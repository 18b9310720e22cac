package names_test

import (
	"fmt"

	"blotter/ledger/names"
)

func ExampleRead() {
	n, _ := names.Read("Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve")
	fmt.Println(n.Canonical())
	fmt.Println(n.Rank, n.Genus, n.Species, n.Ranks[0].Epithet)
	fmt.Println(n.Authors)
	fmt.Println(n.Qualifiers[0].Word, n.Qualifiers[0].Governs)
	fmt.Println(n.Slug())
	// Output:
	// Ranunculus acris subsp. pumilus
	// subspecies Ranunculus acris pumilus
	// (Wahlenb.) Á.Löve & D.Löve
	// cf. subsp. pumilus
	// ranunculus-acris-subsp-pumilus
}

func ExampleRead_refused() {
	_, err := names.Read("Abbott's moray eel")
	fmt.Println(err)
	// Output:
	// read name "Abbott's moray eel": cannot read "Abbott's" as a genus or a name of higher rank
}

func ExampleName_Pieces() {
	n, _ := names.Read("Mentha x piperita L.")
	for _, p := range n.Pieces() {
		switch p.Kind {
		case names.Italic:
			fmt.Print("*", p.Text, "*")
		default:
			fmt.Print(p.Text)
		}
	}
	fmt.Println()
	// Output:
	// *Mentha* ×*piperita* L.
}

func ExampleSame() {
	a, _ := names.Read("Lobelia spicata Lam. var. spicata")
	b, _ := names.Read("Lobelia spicata var. spicata")
	c, _ := names.Read("Lobelia spicata")
	fmt.Println(names.Same(a, b), names.Same(a, c))
	// Output:
	// true false
}
