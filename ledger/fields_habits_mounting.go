package ledger

// mountingFields are the habits of mounting.
var mountingFields = []Field{
	{Path: "habits.mounting", Kind: Group, Meaning: "Mounting."},
	{Path: "habits.mounting.set_minutes", Unit: "minutes", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "In how many minutes the glue sets."},
	{Path: "habits.mounting.weight_hours", Unit: "hours", Example: "24", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many hours a glued sheet stays under weight."},
	{Path: "habits.mounting.cover", Example: "waxed paper", Meaning: "What lies between a glued sheet and the weight."},
	{Path: "habits.mounting.sheet_width", Unit: "mm", Example: "292", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The width of the mounting sheet."},
	{Path: "habits.mounting.sheet_height", Unit: "mm", Example: "419", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The height of the mounting sheet."},
	{Path: "habits.mounting.margin", Unit: "mm", Example: "5", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "How far from the edges of the sheet everything stays that is glued on it."},
	{Path: "habits.mounting.gap", Unit: "mm", Example: "2", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "How much paper stays free between two that are glued on."},
	{Path: "habits.mounting.strip", Example: "upper right", Enum: []string{"upper right", "upper left", "none"}, Meaning: "Where the strip with the barcode goes; none: the sheets get none."},
}
