package ledger

// Sampling is when the museum lets material be taken from sheets.
type Sampling struct {
	Few    Leaf `yaml:"few"`      // gatherings of a taxon: with fewer none is sampled
	Before Leaf `yaml:"before"`   // year: no older sheet is sampled
	MostMM Leaf `yaml:"most_mm2"` // area of leaf from one sheet, in square millimetres
}

// Collecting is what the museum asks of those who gather for it.
type Collecting struct {
	OneIn      Leaf   `yaml:"one_in"`      // plants seen for each that is taken
	AccessFrom Leaf   `yaml:"access_from"` // day from which access to genetic resources needs consent
	Report     []Leaf `yaml:"report"`      // days before a permit ends or its report is due
}
