package ledger

// Printing is what the museum prints its papers on and with.
type Printing struct {
	Material Leaf `yaml:"material"` // paper and ink, kept with each printing
}
