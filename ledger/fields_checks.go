package ledger

// Checks are the thresholds of ledger/check as blotter.yaml writes them, a
// bare figure each. ledger/check.Settings has the same fields by the same
// names as values, each with its default and the source of it; a test there
// holds the two and the table below together.
type Checks struct {
	NewFrom           Leaf `yaml:"new_from"`
	CountryBuffer     Leaf `yaml:"country_buffer"`
	CentreRadius      Leaf `yaml:"centre_radius"`
	SamePositions     Leaf `yaml:"same_positions"`
	ElevationMin      Leaf `yaml:"elevation_min"`
	ElevationMax      Leaf `yaml:"elevation_max"`
	DepthMax          Leaf `yaml:"depth_max"`
	UncertaintyMin    Leaf `yaml:"uncertainty_min"`
	UncertaintyMax    Leaf `yaml:"uncertainty_max"`
	GatheredFrom      Leaf `yaml:"gathered_from"`
	DeterminedFrom    Leaf `yaml:"determined_from"`
	NamesFrom         Leaf `yaml:"names_from"`
	FirstAge          Leaf `yaml:"first_age"`
	Speed             Leaf `yaml:"speed"`
	SpeedEarly        Leaf `yaml:"speed_early"`
	SpeedFrom         Leaf `yaml:"speed_from"`
	TravelHours       Leaf `yaml:"travel_hours"`
	NeighbourDays     Leaf `yaml:"neighbour_days"`
	NumberOrder       Leaf `yaml:"number_order"`
	PileUp            Leaf `yaml:"pile_up"`
	SeasonSheets      Leaf `yaml:"season_sheets"`
	SeasonMonths      Leaf `yaml:"season_months"`
	IdleYears         Leaf `yaml:"idle_years"`
	SpellingDistance  Leaf `yaml:"spelling_distance"`
	SynonymYears      Leaf `yaml:"synonym_years"`
	UndeterminedYears Leaf `yaml:"undetermined_years"`
}

const (
	shapeFigure = `^-?[0-9]{1,9}(\.[0-9]{1,6})?$`
	shapeYear   = `^[0-9]{4}$`
	shapeISODay = `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`
)

// threshold is the row of a figure; the example is its default.
func threshold(key, unit, standard, meaning string) Field {
	return Field{Path: "checks." + key, Unit: unit, Example: standard, Shape: shapeFigure, ShapeWords: "a figure without its unit",
		Meaning: meaning + " Without it " + standard + "."}
}

// firstDay is the row of a day; the example is its default.
func firstDay(key, standard, meaning string) Field {
	return Field{Path: "checks." + key, Example: standard, Shape: shapeISODay, ShapeWords: "a day such as " + standard, Meaning: meaning + " Without it " + standard + "."}
}

var checkFields = []Field{
	{Path: "checks", Kind: Group, Meaning: "What the checks take as possible here; each has a default of its own, which the example shows."},
	{Path: "checks.new_from", Example: "2001", Shape: shapeYear, ShapeWords: "a year of four figures",
		Meaning: "Rules for new material hold for what was collected from this year on. Without it 2001."},
	threshold("country_buffer", "m", "3000", "How far a position may lie outside the stated country or province."),
	threshold("centre_radius", "m", "5000", "A position so near the centre of a country is thought to stand for the whole of it."),
	threshold("same_positions", "", "10", "At most so many differently worded localities share one position."),
	threshold("elevation_min", "m", "-430", "The lowest elevation there is."),
	threshold("elevation_max", "m", "8850", "The highest elevation there is."),
	threshold("depth_max", "m", "11000", "The greatest depth there is."),
	threshold("uncertainty_min", "m", "3", "No position is known better than this."),
	threshold("uncertainty_max", "m", "20037509", "No position is known worse than this."),
	firstDay("gathered_from", "1582-11-15", "The first day of which gatherings are believed."),
	firstDay("determined_from", "1753-01-01", "The first day of which determinations are believed."),
	firstDay("names_from", "1753-05-01", "The first day of which names are valid."),
	threshold("first_age", "years", "10", "The age at which a person collects first."),
	threshold("speed", "km/h", "80", "How fast a collector travels."),
	threshold("speed_early", "km/h", "20", "How fast a collector travelled before speed_from."),
	{Path: "checks.speed_from", Example: "1900", Shape: shapeYear, ShapeWords: "a year of four figures",
		Meaning: "The year from which on speed holds. Without it 1900."},
	threshold("travel_hours", "h", "8", "How many hours of a day with two places a collector may have travelled."),
	threshold("neighbour_days", "km", "1000", "How far apart a collector's places of neighbouring days may lie, as the crow flies."),
	threshold("number_order", "days", "1", "By how many days a collector's numbers may run against the dates."),
	threshold("pile_up", "times", "3", "How many times more often than expected a day of the year may stand on labels."),
	threshold("season_sheets", "sheets", "20", "From how many flowering sheets on a kind has a season that others are held against."),
	threshold("season_months", "months", "3", "How far from the season of its kind a flowering plant is asked about."),
	threshold("idle_years", "years", "20", "So many years without a sheet part a collector's time from another's of the name."),
	threshold("spelling_distance", "letters", "2", "By how many letters two spellings of one name may differ."),
	threshold("synonym_years", "years", "5", "After how many years a sheet filed under a synonym is asked about."),
	threshold("undetermined_years", "years", "10", "After how many years a sheet without a determination is asked about."),
}
