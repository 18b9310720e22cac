package ledger

var pressingFields = []Field{
	{Path: "habits.pressing", Kind: Group, Meaning: "Pressing."},
	{Path: "habits.pressing.days", Unit: "days", Example: "1", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many days after collecting plants are pressed at the latest; 0: nobody is asked."},
	{Path: "habits.pressing.cold_days", Unit: "days", Example: "3", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "The same, of plants kept in a fridge (method: fridge)."},
}
