package page

// English is the table of fixed words in English.
var English = &Language{
	Code: "en",

	NoneOnLabel:   "none on the label",
	NotLegible:    "not legible",
	NotYetTyped:   "not yet typed",
	WithheldColon: "withheld: ",
	NotRead:       "could not be read",

	SkipLink: "Skip to the page", NavLabel: "The catalogue", TrailLabel: "Where this page belongs", JumpLabel: "On this page",
	Families: "Families", Collectors: "Collectors", Places: "Places", Years: "Years", AtoZ: "A to Z", WhatChanged: "What changed",
	Search: "Search", SearchButton: "Search",
	HowToRead: "How to read these pages", Data: "Data", Feed: "Feed of names given anew", AsMarkdown: "This page as Markdown",
	AsJSON: "This sheet as JSON", FootShown: "Shown as of {1}, revision {2}.", FootLabel: "About this page",
	SearchLabel: "Search the catalogue", SearchHint: "A name, a collector and number, a place, or field:value, for example: ranunculus voss, or collector:rask year:1931.",
	SearchNoScript: "Searching needs JavaScript; these lists do not:", SearchNoHits: "Nothing found. The nearest names:",
	SearchHits: "found", FiguresWord: "The figures", OnSheet: "On the sheet: {1}", InHand: "In the hand of {1}",
	FullSize: "full size", ImageOf: "Photograph of specimen {1}",

	SpecimenTitle: "{1}: {2}", NotYetNamed: "Not yet named", NotYetNamedFamily: "Not yet named ({1})",
	NamedSoBy: "Named so by {1}, {2}", NamedSo: "Named so by {1}", QualifierLine: "{1}: {2}",
	NamesGiven: "Names given to it", NobodyNamed: "Nobody has named this sheet yet.", TheLabel: "The label", ThePlace: "The place",
	SameGathering: "The same gathering", Corrections: "Corrections", Cite: "To cite this sheet",
	JumpLabelBlock: "label", JumpPlace: "place", JumpGathering: "same gathering", JumpCorrections: "corrections", JumpCite: "cite",
	OnTheLabel: "on the label", Named: "named", NamedAnew: "named anew", Agrees: "agrees", NamedNot: "not this",
	RenamedBar: "renamed, the plant was not looked at", Stands: "stands", Earlier: "earlier", EnteredByMistake: "entered by mistake: {1}",
	Unsigned: "Unsigned", NoDay: "day not on the slip", EnteredBy: "Entered by {1}, {2}, revision {3}.", EnteredNot: "Not yet entered.",
	Before: "{1} before that:", SeenAs: "Looked at: {1}.", PartWord: "For: {1}.", SourceWord: "From: {1}.", AtPlace: ", {1}",
	ReadAs: "read as {1}", CouldNotReadName: "could not be read as a name", ReadBy: "read by {1} as {2}",
	Withdrawn: "withdrawn", WithdrawnNotice: "{1}.", CautionWord: "Caution.", CautionOwn: "Your museum's own rules first.",
	CautionTreated: "Collected before {1}: sheets of that time were often treated against insects and may carry mercury or arsenic. Gloves, fresh air, no food near, hands washed afterwards; testing is for people who are licensed for it.",
	TypeOf:         "{1} of {2}", TypePossible: "Possible type of {1}", TypeSaid: "Said to be {1} of {2}; not verified",
	WithheldWord:   "Place withheld.",
	WithheldNotice: "{1}", WithheldNothing: "Shown: no place, date, number or picture.", WithheldReview: "to be looked at again in {1}", WithheldCategory: "category {1} of 4",
	DisputedNotice: "Two opinions stand; filed under {1} by the curator", CoverName: "Name on the cover: {1}",
	NoPosition: "The label gives no position.", MapSmallRing: "The error is smaller than this ring.", ChangedWithheld: "changed; withheld",
	Revision: "revision {1}", OldLabel: "The old label, to the letter",
	CorrDay: "Day", CorrField: "Field", CorrBefore: "Before", CorrAfter: "After", CorrReason: "Reason", CorrBy: "By", CorrCaption: "What was corrected, newest first",
	NothingBefore: "nothing", NoReason: "not given",
	Duplicates: "Duplicates", SentTo: "sent to {1}", OnHand: "on hand: {1}", FurtherSheets: "Further sheets here from the same plant",
	SharesSheet: "Mounted on the same board", PartsTaken: "Taken from it", SeenBy: "Looked at by",
	LicenceLine: "Licence: {1}.", DataLine: "The same as data: {1}, {2}.",

	SoNamedNow: "So named now", SoNamedOnce: "So named once", BearsNow: "{1} bear this name now", BearsOnce: "{1} more bore it once", BearsNone: "No sheet bears this name now",
	NowName: "now {1}", WasName: "was {1}", PlaceWithheld: "place withheld", TypeWord: "type", DateNotKnown: "date not known",
	ByYear: "Sheets by year", ByMonth: "Sheets by month", ByFamily: "Sheets by family", ByDecade: "Sheets by decade",
	Sheets1: "sheet", SheetsN: "sheets", SheetsWord: "sheets", Year: "year", Month: "month", Decade: "decade", Family: "family",
	Genera: "Genera", NamesWord: "Names", NamedNoFurther: "Named no further", StatusAccepted: "Accepted in our list", StatusSynonym: "In our list a synonym of {1}",
	StatusNotListed: "Not in our list", NamedByThem: "Named by them", CollectedHere: "Collected here", PartsOf: "Parts of it", CollectorsHere: "Collectors here",
	NumberSeries: "Their numbers", SpellingsMet: "Met on labels as", Journeys: "Journeys", NowAt: "Now at {1}.", NowAtTitle: "Moved: {1}",
	FrontEmpty: "No sheet is entered yet.", LastChanges: "The last changes", WaysIn: "Ways in", CiteAll: "To cite the whole", AllSheets: "All sheets",
	MoreFamilies: "{1} more families", NotFoundTitle: "No such page", NotFoundText: "Nothing stands at this address. A sheet can be found by its number, a name or a collector.",
	KindNew: "New", KindNamed: "Named anew", KindAgreed: "Agreed", KindCorrected: "Corrected", KindWithdrawn: "Withdrawn", KindAnnotated: "Noted",

	Months:    [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"},
	MonthsAbb: [12]string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
	And:       "and",
	Kinds: map[string]string{
		"lost": "lost", "destroyed": "destroyed", "used-up": "used up", "exchanged": "exchanged", "transferred": "transferred",
		"deaccessioned": "deaccessioned", "same-as": "the same as another number", "mistake": "entered by mistake", "found": "found again",
		"sheet": "the sheet", "picture": "a picture", "duplicate": "a duplicate", "dna": "DNA",
		"slip": "a slip", "label": "the label", "list": "a list", "letter": "a letter", "publication": "a publication",
	},
	FieldName: map[string]string{
		"collector": "Collector", "date": "Date", "locality": "Locality", "place": "Place", "position": "Position", "elevation": "Elevation",
		"habitat": "Habitat", "substrate": "Growing on", "host": "Host", "depth": "Depth", "associates": "With it grew", "description": "The plant",
		"phenology": "Stage", "abundance": "Abundance", "population": "Plants seen", "taken": "Plants taken", "origin": "Origin", "garden": "Garden",
		"source_place": "Wild source", "permit": "Permit", "project": "Project", "fieldbook": "Field book", "further_numbers": "Further numbers",
		"former_herbarium": "Former herbarium", "exsiccata": "Printed set", "accession": "Accession", "kept_as": "Kept as", "parts": "Parts",
		"remarks": "Remarks", "cover_name": "Name on the cover", "family": "Family",
	},
}

// Languages are the tables there are, by code.
var Languages = map[string]*Language{"en": English}

// LanguageOf is the table of a code; English when there is none.
func LanguageOf(code string) *Language {
	if l, ok := Languages[code]; ok {
		return l
	}
	return English
}
