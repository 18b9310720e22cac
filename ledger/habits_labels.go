package ledger

// Labels are how the museum's specimen labels look and what they must say.
type Labels struct {
	Paper      Leaf           `yaml:"paper"`       // that sheets of labels are printed on: A4, Letter, 210x297
	Language   Leaf           `yaml:"language"`    // of the fixed words
	Heading    []Leaf         `yaml:"heading"`     // lines; empty: the museum's name
	Headings   []LabelHeading `yaml:"headings"`    // of projects that have one of their own
	Name       Leaf           `yaml:"name"`        // collected or current
	Authors    Leaf           `yaml:"authors"`     // names or written
	Sections   []Leaf         `yaml:"sections"`    // what stands on a label, in its order
	Required   []Leaf         `yaml:"required"`    // fields without which new material gets no label
	StrictFrom Leaf           `yaml:"strict_from"` // first year of collecting that counts as new material
	Sizes      []Leaf         `yaml:"sizes"`       // points of the text, tried in this order
	Heights    []Leaf         `yaml:"heights"`     // millimetres of the label, tried in this order
	Duplicates Leaf           `yaml:"duplicates"`  // marked or same
	Barcode    Leaf           `yaml:"barcode"`     // none, datamatrix, qr or code128
}

// LabelHeading is what stands above the labels of one project.
type LabelHeading struct {
	Project Leaf   `yaml:"project"`
	Lines   []Leaf `yaml:"lines"`
	Line    int32
}
