package ledger

// Reporting is at what rate the museum works, for the hours that wait.
type Reporting struct {
	MountPerHour Leaf `yaml:"mount_per_hour"` // sheets mounted in an hour
	EntryMinutes Leaf `yaml:"entry_minutes"`  // minutes to type one label
}

// Climate is the band within which the climate of the collection is to stay.
type Climate struct {
	TemperatureMin Leaf `yaml:"temperature_min"` // °C
	TemperatureMax Leaf `yaml:"temperature_max"`
	HumidityMin    Leaf `yaml:"humidity_min"` // per cent, relative
	HumidityMax    Leaf `yaml:"humidity_max"`
	Every          Leaf `yaml:"every"` // how often it is read by hand, a period
}
