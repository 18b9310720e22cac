package ledger

// mountingFields are the habits of mounting.
var mountingFields = []Field{
	{Path: "habits.mounting", Kind: Group, Meaning: "Mounting."},
	{Path: "habits.mounting.set_minutes", Unit: "minutes", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "In how many minutes the glue sets."},
	{Path: "habits.mounting.weight_hours", Unit: "hours", Example: "24", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many hours a glued sheet stays under weight."},
	{Path: "habits.mounting.cover", Example: "waxed paper", Meaning: "What lies between a glued sheet and the weight."},
}
