package ledger

// Drying is how long plants dry in this museum, and what the press is made of.
type Drying struct {
	Unheated   []DryingDays    `yaml:"unheated"`
	WarmAir    []DryingDays    `yaml:"warm_air"`
	Weather    []DryingWeather `yaml:"weather"`
	Plants     []DryingPlants  `yaml:"plants"`
	ByHand     []Leaf          `yaml:"by_hand"` // of every kind
	HeatCare   []Leaf          `yaml:"heat"`    // cautions of warm air
	AlcoholFor DryingAlcohol   `yaml:"alcohol"` // plants kept in alcohol
	Wait       DryingWait      `yaml:"wait"`    // between the field and the press
	Weighed    DryingWeighed   `yaml:"weighed"` // the curve of the weighings
	Stack      DryingStack     `yaml:"stack"`   // what the press is made of
	Trip       DryingTrip      `yaml:"trip"`    // what is taken along
}

// DryingDays is how one kind of plant dries by one method, in days counted from
// the day of pressing, day 0.
type DryingDays struct {
	Plants   Leaf `yaml:"plants"`
	Daily    Leaf `yaml:"daily"`    // papers every day up to this day
	Then     Leaf `yaml:"then"`     // then every so many days
	Test     Leaf `yaml:"test"`     // first test by hand
	Earliest Leaf `yaml:"earliest"` // may be dry
	From     Leaf `yaml:"from"`     // usually dry
	To       Leaf `yaml:"to"`
	Line     int32
}

// DryingWeather stretches the days in some weather.
type DryingWeather struct {
	Weather  Leaf `yaml:"weather"`
	Unheated Leaf `yaml:"unheated"`
	WarmAir  Leaf `yaml:"warm_air"`
	Line     int32
}

// DryingPlants is what is said of one kind of plant.
type DryingPlants struct {
	Plants   Leaf   `yaml:"plants"`
	Prepare  []Leaf `yaml:"prepare"`
	ByHand   []Leaf `yaml:"by_hand"`
	Cautions []Leaf `yaml:"cautions"`
	Line     int32
}

// DryingAlcohol is how plants are kept in alcohol until they can be dried.
type DryingAlcohol struct {
	Turn      []Leaf `yaml:"turn"`       // days on which the bag is turned
	Keeps     Leaf   `yaml:"keeps"`      // days
	LitreFrom Leaf   `yaml:"litre_from"` // mm of stack that a litre serves
	LitreTo   Leaf   `yaml:"litre_to"`
	Cautions  []Leaf `yaml:"cautions"`
}

// DryingWait is for how many days plants keep before they are pressed.
type DryingWait struct {
	Bag    Leaf `yaml:"bag"`
	Fridge Leaf `yaml:"fridge"`
}

// DryingWeighed are the figures of the drying curve.
type DryingWeighed struct {
	Within       Leaf `yaml:"within"`        // share above the plateau at which a load is ready
	Confidence   Leaf `yaml:"confidence"`    // of the intervals
	Rise         Leaf `yaml:"rise"`          // share by which the mass may rise
	PlateauError Leaf `yaml:"plateau_error"` // share of the plateau that its error may be
	Balance      Leaf `yaml:"balance"`       // smallest step of the balance, g
}

// DryingStack is what the things of a stack measure, in mm each.
type DryingStack struct {
	Frame     Leaf `yaml:"frame"`
	Board     Leaf `yaml:"board"`
	Corrugate Leaf `yaml:"corrugate"`
	Blotter   Leaf `yaml:"blotter"`
	Fold      Leaf `yaml:"fold"`
	Plant     Leaf `yaml:"plant"`
}

// DryingTrip is what a trip takes along.
type DryingTrip struct {
	Straps   Leaf `yaml:"straps"`   // for a press
	Blotters Leaf `yaml:"blotters"` // sets
	Spare    Leaf `yaml:"spare"`    // share besides
}
