package ledger

// Mounting is how the museum mounts sheets.
type Mounting struct {
	SetMinutes  Leaf `yaml:"set_minutes"`  // until the glue has set
	WeightHours Leaf `yaml:"weight_hours"` // how long a glued sheet stays under weight
	Cover       Leaf `yaml:"cover"`        // what lies between sheet and weight
}
