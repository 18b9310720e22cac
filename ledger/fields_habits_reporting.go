package ledger

// reportingFields are the habits of the yearly report and the band of the
// climate.
var reportingFields = []Field{
	{Path: "habits.reporting", Kind: Group, Meaning: "The museum's rates of work, for the hours that wait."},
	{Path: "habits.reporting.mount_per_hour", Unit: "sheets", Example: "4", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "How many sheets a person mounts in an hour."},
	{Path: "habits.reporting.entry_minutes", Unit: "minutes", Example: "10", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "How long a person types at one label."},
	{Path: "habits.climate", Kind: Group, Meaning: "The band within which the climate of the collection is to stay."},
	{Path: "habits.climate.temperature_min", Unit: "°C", Example: "18", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The lowest temperature."},
	{Path: "habits.climate.temperature_max", Unit: "°C", Example: "22", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The highest temperature."},
	{Path: "habits.climate.humidity_min", Unit: "%", Example: "45", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The lowest relative humidity."},
	{Path: "habits.climate.humidity_max", Unit: "%", Example: "55", Shape: shapeFigure, ShapeWords: "a figure without its unit", Meaning: "The highest relative humidity."},
	{Path: "habits.climate.every", Example: "1 week", Meaning: "How often it is read where the heading of the readings does not say."},
}
