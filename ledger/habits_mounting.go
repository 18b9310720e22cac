package ledger

// Mounting is how the museum mounts sheets.
type Mounting struct {
	SetMinutes  Leaf `yaml:"set_minutes"`  // until the glue has set
	WeightHours Leaf `yaml:"weight_hours"` // how long a glued sheet stays under weight
	Cover       Leaf `yaml:"cover"`        // what lies between sheet and weight
	SheetWidth  Leaf `yaml:"sheet_width"`  // millimetres, of the mounting sheet
	SheetHeight Leaf `yaml:"sheet_height"` // the same
	Margin      Leaf `yaml:"margin"`       // millimetres from the edges to what is glued on
	Gap         Leaf `yaml:"gap"`          // millimetres between two papers
	Strip       Leaf `yaml:"strip"`        // where the barcode goes: upper right, upper left or none
}
