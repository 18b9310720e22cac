package ledger

// Covers are the labels of genus and species folders.
type Covers struct {
	Width  Leaf `yaml:"width"`  // millimetres
	Height Leaf `yaml:"height"` // the same
}

// Packets are the folded packets for fragments, mosses and seeds, and the
// labels that go onto them.
type Packets struct {
	Width       Leaf `yaml:"width"`        // millimetres of a packet when it is folded
	Height      Leaf `yaml:"height"`       // the same
	LabelHeight Leaf `yaml:"label_height"` // of a packet label; it is as wide as a specimen label
}

// Strips are the barcodes that are glued on sheets.
type Strips struct {
	Code   Leaf `yaml:"code"`   // datamatrix, qr or code128
	Width  Leaf `yaml:"width"`  // millimetres of a strip
	Height Leaf `yaml:"height"` // the same
	Module Leaf `yaml:"module"` // millimetres of one square or of the narrowest bar, at most
}
