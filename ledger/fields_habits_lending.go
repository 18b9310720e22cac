package ledger

// lendingFields are the habits of sampling and of collecting.
var lendingFields = []Field{
	{Path: "habits.sampling", Kind: Group, Meaning: "Taking material from sheets."},
	{Path: "habits.sampling.few", Unit: "gatherings", Example: "5", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "With fewer gatherings of a taxon here than this none is sampled."},
	{Path: "habits.sampling.before", Example: "1900", Shape: shapeYear, ShapeWords: "a year of four figures", Meaning: "No sheet gathered before this year is sampled."},
	{Path: "habits.sampling.most_mm2", Unit: "mm2", Example: "100", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How much leaf may be taken from one sheet, in square millimetres."},
	{Path: "habits.collecting", Kind: Group, Meaning: "Gathering in the field."},
	{Path: "habits.collecting.one_in", Example: "20", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "Of how many plants seen one may be taken; with fewer none. 0: not asked."},
	{Path: "habits.collecting.access_from", Example: "2014-10-12", Shape: `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`, ShapeWords: "an ISO day", Meaning: "From this day on access to genetic resources of a country asks for its consent."},
	{Path: "habits.collecting.report", Kind: Texts, Unit: "days", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many days before a permit ends or its report is due it is spoken of."},
}
