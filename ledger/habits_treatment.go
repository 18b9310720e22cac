package ledger

// Treatment is how the museum treats against insects.
type Treatment struct {
	Needed    Leaf               `yaml:"needed"`    // "no": what is filed need not have been treated
	Profile   Leaf               `yaml:"profile"`   // the profile of a run that names none
	Profiles  []TreatmentProfile `yaml:"profiles"`  // each by its name
	Between   Leaf               `yaml:"between"`   // hours warm between two cycles
	Warm      Leaf               `yaml:"warm"`      // °C from which it counts as warm
	Lead      Leaf               `yaml:"lead"`      // hours until the core is cold
	Closed    Leaf               `yaml:"closed"`    // hours in the closed bag
	MaxGap    Leaf               `yaml:"max_gap"`   // minutes
	Excursion Leaf               `yaml:"excursion"` // minutes
	Rise      Leaf               `yaml:"rise"`      // °C
	OutDays   Leaf               `yaml:"out_days"`  // days outside the cabinet after which a sheet is treated again
	Within    Leaf               `yaml:"within"`    // days within which what came back is to be treated
}

// IsNeeded reports whether sheets are treated before they are filed.
func (t Treatment) IsNeeded() bool { return t.Needed.Text != "no" }

// TreatmentProfile is one profile; what it does not say is the museum's.
type TreatmentProfile struct {
	Name      Leaf `yaml:"name"`
	SetPoint  Leaf `yaml:"set_point"`
	Hours     Leaf `yaml:"hours"`
	Cycles    Leaf `yaml:"cycles"`
	Between   Leaf `yaml:"between"`
	Warm      Leaf `yaml:"warm"`
	Lead      Leaf `yaml:"lead"`
	Closed    Leaf `yaml:"closed"`
	MaxGap    Leaf `yaml:"max_gap"`
	Excursion Leaf `yaml:"excursion"`
	Rise      Leaf `yaml:"rise"`
	Line      int32
}

// Traps is how insect traps are read, and what is done about what they hold.
type Traps struct {
	Every      Leaf   `yaml:"every"`      // a period
	Return     Leaf   `yaml:"return"`     // days until a place where insects were found is looked at again
	Alarm      []Leaf `yaml:"alarm"`      // insects of which a single live one is too many
	Deviations Leaf   `yaml:"deviations"` // standard deviations above its own mean from which a trap's catch is too many
	Readings   Leaf   `yaml:"readings"`   // earlier readings of a trap without which no mean is reckoned
	Reach      Leaf   `yaml:"reach"`      // cabinets on either side that are looked at with one where insects were found
	Load       Leaf   `yaml:"load"`       // sheets that go into the freezer at once
}
