package ledger

// printingFields are the habits of printing.
var printingFields = []Field{
	{Path: "habits.printing", Kind: Group, Meaning: "Printing."},
	{Path: "habits.printing.material", Example: "cotton paper 100 g/m2, laser", Meaning: "Paper and ink that labels and slips are printed on and with. Each printing keeps these words, so that it is known later which labels fade or turn brown."},
}
