package ledger

// Slips are the museum's habits of determination slips and type labels.
type Slips struct {
	Dates       Leaf   `yaml:"dates"`        // roman or written
	NameChanges Leaf   `yaml:"name_changes"` // printed or none
	Annotations []Leaf `yaml:"annotations"`  // kinds that get a slip
}

// IssuedSeries is a series of exsiccatae that the museum issues: what its
// labels say beside the record.
type IssuedSeries struct {
	Series  Leaf   `yaml:"series"`  // as the records have it
	Heading []Leaf `yaml:"heading"` // lines; none: the title in capitals
	Editor  Leaf   `yaml:"editor"`
	Imprint Leaf   `yaml:"imprint"` // place, publisher, year
	Line    int32
}
