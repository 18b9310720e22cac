package ledger

import "slices"

// treatmentFields are the habits of treating against insects, and of traps.
var treatmentFields = slices.Concat([]Field{
	{Path: "habits.treatment", Kind: Group, Meaning: "Treatment against insects, by cold."},
	{Path: "habits.treatment.needed", Example: "no", Enum: []string{"yes", "no"}, Meaning: "Whether what comes into the house, or comes back, is treated before it is filed. A museum that treats only what it finds infested says no: then filing untreated sheets is no finding, and nobody is reminded."},
	{Path: "habits.treatment.profile", Example: "standard", Meaning: "The profile of a run whose heading names none."},
	{Path: "habits.treatment.profiles", Kind: Entries, Meaning: "Profiles. What one does not say is as the group has it."},
	{Path: "habits.treatment.profiles.name", Need: Required, Example: "standard", Meaning: "Its name, as in the heading of a freezer run."},
	{Path: "habits.treatment.profiles.set_point", Unit: "°C", Example: "-30", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The core is to be at or below this temperature."},
	{Path: "habits.treatment.profiles.hours", Unit: "h", Example: "72", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "For so many hours without a break, each cycle."},
	{Path: "habits.treatment.profiles.cycles", Example: "1", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "How many cycles; without it 1."},
}, coldFields("habits.treatment.profiles."), coldFields("habits.treatment."), []Field{
	{Path: "habits.treatment.out_days", Unit: "days", Example: "1", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "A sheet that was outside its cabinet for so many days is treated again before it is put back; 0: never."},
	{Path: "habits.treatment.within", Unit: "days", Example: "7", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "Within how many days what came back is to be treated."},
	{Path: "habits.traps", Kind: Group, Meaning: "Insect traps."},
	{Path: "habits.traps.every", Example: "1 month", Meaning: "How often traps are read whose heading does not say."},
	{Path: "habits.traps.return", Unit: "days", Example: "28", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "After how many days a place where insects were found is looked at again, when the line does not say."},
	{Path: "habits.traps.alarm", Kind: Texts, Example: "Anthrenus", Meaning: "Insects of which one live one is enough: the cabinets in reach are inspected."},
	{Path: "habits.traps.deviations", Example: "2", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "So many standard deviations above the mean of its earlier readings a trap's catch is too many."},
	{Path: "habits.traps.readings", Example: "3", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "With fewer earlier readings than this, 2 at least, no mean is reckoned."},
	{Path: "habits.traps.reach", Example: "1", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "How many cabinets on either side are in reach of insects found in one."},
	{Path: "habits.traps.load", Unit: "sheets", Example: "200", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many sheets go into the freezer at once."},
})

// coldFields are the figures that a profile may have for itself.
func coldFields(at string) []Field {
	row := func(key, unit, example, meaning string) Field {
		return Field{Path: at + key, Unit: unit, Example: example, Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: meaning}
	}
	return []Field{
		row("between", "h", "24", "Hours warm between two cycles."),
		row("warm", "°C", "15", "From which temperature it counts as warm between two cycles."),
		row("lead", "h", "0", "Hours planned until the core is cold."),
		row("closed", "h", "24", "Hours in the closed bag after the last cycle."),
		row("max_gap", "minutes", "60", "How far apart two readings of a logger may lie; what lies further apart is a gap."),
		row("excursion", "minutes", "0", "A warm excursion so short, and no higher than rise, does not end a run."),
		row("rise", "°C", "0", "How far above the set point such an excursion may go."),
	}
}
