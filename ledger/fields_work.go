package ledger

import (
	"slices"
	"sync"
)

// workEvents is every event that a line of work/ may have.
var workEvents = sync.OnceValue(func() []string {
	var all []string
	for _, k := range workKinds {
		for _, e := range k.Events {
			if !slices.Contains(all, e) {
				all = append(all, e)
			}
		}
	}
	return append(all, EventClosed, EventNoted, EventRenumbered, EventSwapped)
})

var workFields = []Field{
	{Path: "work", Need: Required, Example: "freezer-2026-003", Shape: `^[a-z]+-[0-9]{4}-[0-9]{3,}$`, ShapeWords: "kind, year and running number, such as loan-2026-004", Meaning: "The number of the work: its kind, the year, a running number. It is the name of the file, and is never used twice."},
	{Path: "title", Example: "Spring plants of the Raundal meadows", Meaning: "A few words by which people know it."},
	{Path: "partner", Example: "FJ3 Fjellheim Museum", Meaning: "The other herbarium, institution or person: its registered code, its name, or both."},
	{Path: "their_number", Example: "L-2026/17", Meaning: "The number that the partner gave it."},
	{Path: "person", Example: "M. Ostrander", Meaning: "Whom it is for, or who answers for it."},
	{Path: "purpose", Example: "revision of Ranunculus sect. Ranunculus", Meaning: "What it is for."},
	{Path: "place", Example: "freezer 1, cellar", Meaning: "Where it stands: room, cabinet, machine."},
	{Path: "plants", Example: "thin herb", Open: true, Enum: []string{"thin herb", "woody", "fern", "conifer", "succulent", "aquatic", "bulb", "large fruit", "mixed"}, Meaning: "What kind of plants, for the drying time."},
	{Path: "method", Example: "unheated", Meaning: "How it is done. Of a press: unheated, warm air or alcohol."},
	{Path: "weather", Example: "humid", Meaning: "The weather while it dries, in words: dry, ordinary, humid, and what else matters."},
	{Path: "profile", Example: "standard", Meaning: "The profile of the museum's settings that a freezer or treatment run follows."},
	{Path: "source", Example: "gift", Open: true, Enum: []string{"collected", "gift", "exchange", "purchase", "bequest", "transfer", "found-in-collection", "unknown"}, Meaning: "How a lot came to the museum."},
	{Path: "standing", Example: "teaching", Enum: []string{"herbarium", "teaching", "student"}, Meaning: "Teaching and student material stays out of figures and exports until a line takes it in. Without it herbarium."},
	{Path: "material", Example: "leaf, at most 1 cm2 a sheet", Meaning: "What is taken, used or printed."},
	{Path: "period", Example: "12 months", Meaning: "For how long, from the day of sending; without it as the museum's settings have it."},
	{Path: "every", Example: "1 month", Meaning: "How often it is read."},
	{Path: "percent", Example: "5", Meaning: "The share of the sheets, in hundredths, that a round draws."},
	{Path: "seed", Example: "inventory-2026-001", Meaning: "What the draw was made with, so that it can be made again."},
	{Path: "permit", Kind: Group, Meaning: "What the permit's paper says."},
	{Path: "permit.number", Example: "2026/318", Meaning: "Its number."},
	{Path: "permit.issuer", Example: "County Governor of Vestland", Meaning: "Who gave it."},
	{Path: "permit.for", Example: "collecting", Open: true, Enum: []string{"landowner", "reserve", "protected-species", "collecting", "export", "import", "treaty", "plant-health", "access"}, Meaning: "What it is for: the landowner's leave, a reserve, protected species, export, import, a treaty on trade in species, plant health, access to genetic resources."},
	{Path: "permit.from", Example: "2026-05-01", Meaning: "The first day on which it holds."},
	{Path: "permit.to", Example: "2026-09-30", Meaning: "The last day on which it holds."},
	{Path: "permit.taxa", Kind: Texts, Example: "Ranunculaceae", Meaning: "Names that it covers, each with all below it; none: all."},
	{Path: "permit.places", Kind: Texts, Example: "Vestland", Withheld: true, Meaning: "Places that it covers, in the words of the records; none: all."},
	{Path: "permit.persons", Kind: Texts, Example: "Signe Rask", Meaning: "Persons whom it names; none: any of the museum."},
	{Path: "permit.most", Example: "40", Meaning: "How many specimens at most."},
	{Path: "permit.report", Example: "2026-12-31", Meaning: "The day by which a report is due."},
	{Path: "permit.country", Example: "Norway", Meaning: "The country of access."},
	{Path: "permit.accessed", Example: "2026-06-01", Meaning: "The day of access to genetic resources."},
	{Path: "permit.consent", Example: "PIC 2026-11", Meaning: "The reference of the prior informed consent, or why none is needed."},
	{Path: "permit.terms", Example: "MAT 2026-11", Meaning: "The reference of the mutually agreed terms."},
	{Path: "permit.certificate", Example: "ABSCH-IRCC-NO-000000-1", Meaning: "The identifier of the internationally recognised certificate of compliance."},
	{Path: "permit.uses", Kind: Texts, Example: "taxonomic research", Meaning: "Uses that it permits; none: not said."},
	{Path: "permit.third_party", Example: "no", Enum: []string{"yes", "no"}, Meaning: "Whether material may be passed on to others."},
	{Path: "permits", Kind: Texts, Example: "permit-2026-002", Meaning: "The permits under which it is done, by number of work or of the paper."},
	{Path: "conditions", Kind: Texts, Example: "no sampling", Meaning: "Conditions that bind it, one an entry."},
	{Path: "cautions", Kind: Texts, Example: "toxic", Meaning: "Dangers for whoever handles it: toxic, spiny, treated, fumigated."},
	{Path: "note", Example: "first load of the season", Meaning: "What else is to be said."},
	{Path: "lines", Kind: Entries, AppendOnly: true, Meaning: "What happened, a line an event, oldest first."},
	{Path: "lines.date", Need: Required, Example: "2026-11-03 09:40", Meaning: "The day, with the time of day where it matters; a month or a year alone counts from its last day."},
	{Path: "lines.event", Need: Required, Example: "sent", Open: true, Enum: workEvents(), Meaning: "What happened."},
	{Path: "lines.sheets", Kind: Texts, Example: "LK7-0001180..LK7-0001201", Meaning: "To which specimens: numbers and spans. When a line names nothing it is about all that the work holds."},
	{Path: "lines.gatherings", Kind: Texts, Example: "Signe Rask 1311..1320", Meaning: "To which gatherings that have no specimen number yet: collector and number. Once records have them, the line is about those specimens."},
	{Path: "lines.others", Kind: Texts, Example: "FJ3 20112", Meaning: "To which sheets of others, by their numbers."},
	{Path: "lines.count", Example: "120 folds", Meaning: "How many of what: folds, sheets, specimens, gatherings, packets, boxes."},
	{Path: "lines.how", Example: "counted", Enum: []string{"counted", "estimated"}, Meaning: "Whether they were counted or estimated; without it counted."},
	{Path: "lines.what", Example: "Carex, box 3", Meaning: "What the bundle is."},
	{Path: "lines.by", Need: Recommended, Example: "Tiril Aune", Meaning: "Who did it."},
	{Path: "lines.to", Example: "cabinet 4, folder 12", Meaning: "Where to, or to whom."},
	{Path: "lines.until", Example: "2027-11-03", Meaning: "Until when; when it is to be looked at again."},
	{Path: "lines.number", Example: "invoice 31", Meaning: "The number of the paper that goes with it."},
	{Path: "lines.paper", Example: "labels", Enum: PaperWords, Meaning: "What was printed for the sheets that the line names; numbers: strips of numbers that no sheet had then."},
	{Path: "lines.revision", Example: "3f2a91c", Meaning: "From which revision of the ledger it was printed; what changed since then is not on the paper."},
	{Path: "lines.result", Example: "dry", Open: true, Enum: []string{"dry", "not-dry", "passed", "failed", "times-only", "clear", "intact"}, Meaning: "What came of it."},
	{Path: "lines.grade", Example: "2", Enum: []string{"1", "2", "3", "4"}, Meaning: "Condition: 1 good; 2 fair, stable; 3 poor, at risk; 4 not to be lent or handled (common practice, no source)."},
	{Path: "lines.damage", Kind: Texts, Example: "detached part", Meaning: "What is wrong with it, a word an entry."},
	{Path: "lines.method", Example: "wheat starch paste", Meaning: "How it was done."},
	{Path: "lines.material", Example: "one leaf, 0.8 cm2", Meaning: "What was taken or used."},
	{Path: "lines.weight", Unit: "g", Example: "412 g", Meaning: "The weight of what is drying."},
	{Path: "lines.trap", Example: "T4", Meaning: "Which trap."},
	{Path: "lines.insect", Example: "Anthrenus", Meaning: "Which insect."},
	{Path: "lines.stage", Example: "larva", Open: true, Enum: []string{"egg", "larva", "pupa", "adult", "frass", "mould"}, Meaning: "In which stage."},
	{Path: "lines.alive", Example: "yes", Enum: []string{"yes", "no"}, Meaning: "Whether it lives."},
	{Path: "lines.temperature", Unit: "°C", Example: "-30 °C", Meaning: "The temperature."},
	{Path: "lines.humidity", Unit: "%", Example: "48 %", Meaning: "The relative humidity."},
	{Path: "lines.hours", Unit: "h", Example: "3.5", Meaning: "How many hours of work it took."},
	{Path: "lines.file", Example: "freezer-2026-003.csv", Meaning: "A file beside this one: a logger's table, a scanned paper."},
	{Path: "lines.note", Example: "one strap loose", Meaning: "What else is to be said."},
	{Path: "lines.why", Example: "freezer broken, licensed firm treated them", Meaning: "Why it was done out of the usual order; it answers the warning."},
	{Path: "lines.mistake", Example: "wrong loan", Meaning: "Entered by mistake, and why; it is kept, shown and does not count."},
}

// PaperWords are the papers that go with a specimen, as a printing keeps them;
// numbers are strips that were printed ahead, before a sheet had them.
var PaperWords = []string{"labels", "slips", "types", "exsiccata", "packets", "strips", "numbers"}
