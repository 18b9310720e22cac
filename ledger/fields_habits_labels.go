package ledger

// Shapes of measures on paper.
const (
	shapePoints = `^[0-9]{1,2}(\.[0-9]{1,2})?$`
	shapeMM     = `^[0-9]{1,3}(\.[0-9])?$`
)

// LabelSections are the sections that a label may have, in the usual order.
var LabelSections = []string{"name", "determination", "place", "position", "origin", "habitat", "plant", "abundance", "remarks", "former_herbarium", "exsiccata", "further_numbers", "fieldbook", "caution", "permit", "project"}

// LabelFields are the fields that a label can be made to need.
var LabelFields = []string{"family", "collector", "coll_no", "date", "place.country", "place.province", "place.district", "place.locality", "place.position", "place.datum", "place.gps_accuracy", "place.elevation", "place.elevation_by",
	"habitat", "description", "phenology", "abundance", "origin", "permit", "project", "determinations"}

// labelFields are the habits of labels.
var labelFields = []Field{
	{Path: "habits.labels", Kind: Group, Meaning: "Specimen labels."},
	{Path: "habits.labels.paper", Example: "A4", Meaning: "The paper that labels and slips are printed on: A4, Letter, or its width and height in millimetres, 210x297."},
	{Path: "habits.labels.language", Example: "en", Enum: []string{"en", "nb", "sv", "de", "fr", "es", "la"}, Meaning: "The language of the fixed words on paper. The words of the record stay as they are."},
	{Path: "habits.labels.heading", Kind: Texts, Example: "LAUVKROKEN MUSEUM", Meaning: "What stands at the head of a label, a line an entry. None: the museum's name in capitals."},
	{Path: "habits.labels.headings", Kind: Entries, Meaning: "Headings of projects and expeditions that have one of their own."},
	{Path: "habits.labels.headings.project", Need: Required, Example: "Meadows of Raundalen", Meaning: "The project, as the records have it."},
	{Path: "habits.labels.headings.lines", Kind: Texts, Need: Required, Example: "FLORA OF RAUNDALEN", Meaning: "What stands at the head, a line an entry."},
	{Path: "habits.labels.name", Example: "collected", Enum: []string{"collected", "current"}, Meaning: "Which name stands on a label: as determined at collection, or the one that stands now. Either can be asked for a day by --on."},
	{Path: "habits.labels.authors", Example: "names", Enum: []string{"names", "written"}, Meaning: "Whether a name that was written without authors gets those that names/ has for it, or stands as written. A transcript never gets any."},
	{Path: "habits.labels.sections", Kind: Texts, Example: "place", Enum: LabelSections, Meaning: "What stands on a label and in which order; what is not named is left out. Heading, family, collector, number, date and the museum's number have their places and are always there; so has a caution."},
	{Path: "habits.labels.required", Kind: Texts, Example: "habitat", Enum: LabelFields, Meaning: "What new material must say before it gets a label; words for none (s.n., s.d., not recorded) count as said. A datum and an accuracy are asked for only where there is a position, the way of measuring only where there is an elevation."},
	{Path: "habits.labels.strict_from", Example: "2000", Shape: `^[0-9]{4}$`, ShapeWords: "a year of four figures", Meaning: "From which year of collecting on material counts as new."},
	{Path: "habits.labels.sizes", Kind: Texts, Unit: "points", Example: "9.5", Shape: shapePoints, ShapeWords: "points of the letters, 9.5", Meaning: "The sizes of the text, tried in this order until it fits."},
	{Path: "habits.labels.heights", Kind: Texts, Unit: "mm", Example: "68", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The heights of the label, tried in this order. They tile a sheet when they are one, one and a half and two times the first."},
	{Path: "habits.labels.duplicates", Example: "marked", Enum: []string{"marked", "same"}, Meaning: "Whether copies after the first say that they are of a duplicate (Duplicate of LK7-0000482), so that no second sheet seems to bear the number; or are all the same."},
	{Path: "habits.labels.barcode", Example: "datamatrix", Enum: []string{"none", "datamatrix", "qr", "code128"}, Meaning: "Whether the label bears the museum's number as a barcode too, at its lower right, and which: Data Matrix, QR or Code 128. A copy that says of what it is a duplicate and the label of an exsiccata bear none."},
}
