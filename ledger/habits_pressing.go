package ledger

// Pressing is how soon plants are pressed.
type Pressing struct {
	Days     Leaf `yaml:"days"`      // after collecting, in a closed bag
	ColdDays Leaf `yaml:"cold_days"` // kept in a fridge
}
