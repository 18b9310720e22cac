package ledger

import "slices"

const (
	shapeDays  = `^[0-9]{1,4}$`
	shapeShare = `^0(\.[0-9]{1,6})?$`
)

// dryingFields are the habits of the press.
var dryingFields = slices.Concat([]Field{
	{Path: "habits.drying", Kind: Group, Meaning: "The press."},
}, daysOf("unheated", "How plants dry without heat, a kind an entry, in days from the day of pressing, which is day 0.", "4", "2", "2", "4", "6", "8"),
	daysOf("warm_air", "The same in a warm-air drier.", "2", "2", "1", "3", "3", "6"), []Field{
		{Path: "habits.drying.weather", Kind: Entries, Meaning: "By what the days are stretched in some weather."},
		{Path: "habits.drying.weather.weather", Need: Required, Example: "humid", Enum: []string{"dry", "ordinary", "humid"}, Meaning: "The weather."},
		{Path: "habits.drying.weather.unheated", Example: "1.5", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The factor without heat."},
		{Path: "habits.drying.weather.warm_air", Example: "1.2", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The factor in warm air."},
		{Path: "habits.drying.plants", Kind: Entries, Meaning: "What is said of a kind of plant."},
		{Path: "habits.drying.plants.plants", Need: Required, Example: "woody", Meaning: "The kind, as in the heading of a press."},
		{Path: "habits.drying.plants.prepare", Kind: Texts, Example: "split thick twigs lengthwise", Meaning: "What is done to it before it is pressed."},
		{Path: "habits.drying.plants.by_hand", Kind: Texts, Example: "the thickest part does not give under a thumbnail", Meaning: "What is felt for before it is called dry, beside what holds for all."},
		{Path: "habits.drying.plants.cautions", Kind: Texts, Example: "thorns: pad them so that they do not pierce papers or hands", Meaning: "Dangers."},
		{Path: "habits.drying.by_hand", Kind: Texts, Example: "brittle: a leaf snaps and does not bend", Meaning: "What is felt for before any plant is called dry."},
		{Path: "habits.drying.heat", Kind: Texts, Example: "a heated press is never left alone: your own fire rules come first", Meaning: "Cautions of warm air."},
		{Path: "habits.drying.alcohol", Kind: Group, Meaning: "Plants kept in alcohol until they can be dried."},
		{Path: "habits.drying.alcohol.turn", Kind: Texts, Unit: "days", Example: "1", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "On which days the bag is turned."},
		{Path: "habits.drying.alcohol.keeps", Unit: "days", Example: "90", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "How long a closed bag keeps."},
		{Path: "habits.drying.alcohol.litre_from", Unit: "mm", Example: "150", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "The lowest stack that a litre serves."},
		{Path: "habits.drying.alcohol.litre_to", Unit: "mm", Example: "200", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "The highest stack that a litre serves."},
		{Path: "habits.drying.alcohol.cautions", Kind: Texts, Example: "write alcohol-treated on the record: colours and DNA suffer", Meaning: "Cautions."},
		{Path: "habits.drying.wait", Kind: Group, Meaning: "How long plants keep between the field and the press."},
		{Path: "habits.drying.wait.bag", Unit: "days", Example: "1", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "In a closed bag."},
		{Path: "habits.drying.wait.fridge", Unit: "days", Example: "3", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "In a fridge."},
		{Path: "habits.drying.weighed", Kind: Group, Meaning: "The curve that is fitted to weighings."},
		{Path: "habits.drying.weighed.within", Example: "0.02", Shape: shapeShare, ShapeWords: "a share between 0 and 1", Meaning: "A load is ready when its mass is within this share above the plateau."},
		{Path: "habits.drying.weighed.confidence", Example: "0.95", Shape: shapeShare, ShapeWords: "a share between 0 and 1", Meaning: "How sure the interval of the ready day is to be."},
		{Path: "habits.drying.weighed.rise", Example: "0.02", Shape: shapeShare, ShapeWords: "a share between 0 and 1", Meaning: "A mass that rises by more than this share supports no curve."},
		{Path: "habits.drying.weighed.plateau_error", Example: "0.1", Shape: shapeShare, ShapeWords: "a share between 0 and 1", Meaning: "How large a share of the plateau its error may be."},
		{Path: "habits.drying.weighed.balance", Unit: "g", Example: "0", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The smallest step of the balance; 0 when it is not known."},
		{Path: "habits.drying.stack", Kind: Group, Meaning: "What the things of a stack measure, each."},
		measured("frame", "12", "A frame of the press."), measured("board", "5", "A press board."), measured("corrugate", "4", "A corrugate."),
		measured("blotter", "1", "A blotter."), measured("fold", "0.3", "A folded paper without its plant."), measured("plant", "5", "A plant of middling thickness."),
		{Path: "habits.drying.trip", Kind: Group, Meaning: "What a trip takes along."},
		{Path: "habits.drying.trip.straps", Example: "2", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "Straps for a press."},
		{Path: "habits.drying.trip.blotters", Example: "2", Shape: shapeDays, ShapeWords: "a whole figure", Meaning: "Sets of blotters: 2 when one dries while the other is in use."},
		{Path: "habits.drying.trip.spare", Example: "0.1", Shape: shapeShare, ShapeWords: "a share between 0 and 1", Meaning: "The share that is taken along besides."},
	})

// daysOf are the rows of the days of one method, with those of a thin herb as
// examples.
func daysOf(method, meaning string, daily, then, test, earliest, from, to string) []Field {
	at := "habits.drying." + method
	day := func(key, example, meaning string) Field {
		return Field{Path: at + "." + key, Unit: "days", Example: example, Shape: shapeDays, ShapeWords: "a whole figure", Meaning: meaning}
	}
	return []Field{
		{Path: at, Kind: Entries, Meaning: meaning},
		{Path: at + ".plants", Need: Required, Example: "thin herb", Meaning: "The kind of plant, as in the heading of a press."},
		day("daily", daily, "Papers are changed, or looked at, every day up to this one."),
		day("then", then, "Then every so many days; 0: never again."),
		day("test", test, "The first day to test by hand. It is no day of being dry."),
		day("earliest", earliest, "The first day on which such a plant may be dry."),
		day("from", from, "It is usually dry from this day ..."),
		day("to", to, "... to this one."),
	}
}

func measured(key, example, meaning string) Field {
	return Field{Path: "habits.drying.stack." + key, Unit: "mm", Example: example, Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: meaning}
}
