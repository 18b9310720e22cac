package ledger

import "slices"

var museumFields = append([]Field{
	{Path: "format", Need: Required, Example: "1", Meaning: "The version of the format. A version that the program does not know is refused."},
	{Path: "name", Need: Required, DwC: "ownerInstitutionCode", Example: "Lauvkroken Museum", Meaning: "The name of the museum."},
	{Path: "code", Need: Required, DwC: "institutionCode", Example: "LK7", Shape: `^[A-Za-z0-9][A-Za-z0-9._-]*$`, ShapeWords: "letters, digits, dot, hyphen and underline", Meaning: "The short code of the herbarium."},
	{Path: "numbering", Kind: Group, Need: Recommended, Meaning: "How new specimen numbers are made."},
	{Path: "numbering.prefix", Need: Recommended, Example: "LK7-", Meaning: "What stands before the figures."},
	{Path: "numbering.digits", Need: Recommended, Example: "7", Shape: `^[1-9]$`, ShapeWords: "one figure from 1 to 9", Meaning: "How many figures at least, filled with zeros."},
	{Path: "timezone", Example: "Europe/Oslo", Meaning: "The time zone of the museum as in the IANA list; without it UTC."},
	{Path: "site", Kind: Group, Meaning: "What the published catalogue says of itself."},
	{Path: "site.title", Need: Recommended, Example: "Herbarium of Lauvkroken Museum", Meaning: "Its title."},
	{Path: "site.address", Example: "https://herbarium.lauvkroken.example", Shape: `^https://`, ShapeWords: "an address that begins with https://", Meaning: "The web address it will stand at, for feed, sitemap and citations."},
	{Path: "site.language", Example: "en", Shape: `^[A-Za-z]{2,3}(-[A-Za-z0-9]{2,8})*$`, ShapeWords: "a language tag such as en or nn-NO", Meaning: "The language of its pages; without it en."},
	{Path: "site.licence", DwC: "license", Example: "CC BY 4.0", Meaning: "The terms under which others may use it."},
	{Path: "site.contact", Example: "herbarium@lauvkroken.example", Meaning: "Where readers may write."},
	{Path: "dataset", Kind: Group, Meaning: "What archives for aggregators say of themselves, and the site's page on data."},
	{Path: "dataset.title", DwC: "datasetName", Example: "Herbarium of Lauvkroken Museum", Meaning: "The title of the data set; without it that of the site."},
	{Path: "dataset.description", Example: "Pressed plants of the valleys around Voss, collected since 1880.", Meaning: "What it holds, in some sentences; without it one is made from the ledger."},
	{Path: "dataset.creators", Kind: Texts, Example: "Tiril Aune", Meaning: "Who made it, a person or a body an entry, in the order of a citation; without it the museum."},
	{Path: "dataset.contact", Example: "herbarium@lauvkroken.example", Meaning: "The address of mail or of the page where questions are answered; without it site.contact. It becomes public."},
	{Path: "dataset.id", DwC: "datasetID", Example: "https://doi.org/10.5072/lauvkroken", Meaning: "The identifier that a registry gave to the data set; without it a UUID made of the museum's code."},
	{Path: "dataset.institution_id", DwC: "institutionID", Example: "https://ror.org/00example", Meaning: "The identifier of the museum in a registry of institutions."},
	{Path: "dataset.collection_code", DwC: "collectionCode", Example: "herbarium", Meaning: "The collection's own code, when the museum has several collections."},
	{Path: "dataset.methods", Example: "Sheets are typed from the label and read against it by a second person.", Meaning: "How the records are made."},
	{Path: "place_levels", Kind: Texts, Example: "fylke", Meaning: "The museum's own words for country, province and district, in that order."},
	{Path: "dates", Kind: Group, Meaning: "How ambiguous dates of old material are read."},
	{Path: "dates.order", Example: "day-month", Enum: []string{"day-month", "month-day"}, Meaning: "The order of figures in 3/4/34 by the habit of this collection; without it every such date is asked about."},
	{Path: "dates.two_digit_years", Example: "1900", Shape: shapeYear, ShapeWords: "a year of four figures", Meaning: "The first of the hundred years in which years of two figures lie on the labels of this collection (1850: from 1850 to 1949); only the date of collecting is read by it. Without it every such date is asked about."},
	{Path: "severity", Kind: Entries, Meaning: "Codes that this museum raises from warning to error. An error is never lowered."},
	{Path: "severity.code", Need: Required, Example: "date-two-ways", Meaning: "The code."},
	{Path: "severity.is", Need: Required, Example: "error", Enum: []string{"error"}, Meaning: "What it becomes."},
	{Path: "blocks", Kind: Entries, Meaning: "Runs of numbers that are kept for one person or machine."},
	{Path: "blocks.for", Need: Required, Example: "Ove Bannister", Meaning: "For whom: a person, by a name or spelling of people.yaml, or a computer, by its git config blotter.machine."},
	{Path: "blocks.from", Need: Required, Example: "2000", Shape: `^[0-9]{1,15}$`, ShapeWords: "figures only", Meaning: "The first number of the run, without prefix."},
	{Path: "blocks.to", Need: Required, Example: "2999", Shape: `^[0-9]{1,15}$`, ShapeWords: "figures only", Meaning: "The last number of the run."},
	{Path: "shared_computer", Example: "yes", Enum: []string{"yes", "no"}, Meaning: "\"yes\" when several people type at one computer: whoever types says so each day (blotter iam PERSON)."},
	{Path: "partners", Kind: Entries, Meaning: "Herbaria, institutions and persons that sheets go to and come from. The one with the museum's own code is the museum itself: its address stands on letters, and whether a loan crosses a border is seen by its country."},
	{Path: "partners.code", Need: Required, Example: "FJ3", Shape: `^[A-Z][A-Z0-9-]*$`, ShapeWords: "capitals and figures", Meaning: "Its registered code."},
	{Path: "partners.name", Need: Required, Example: "Fjellheim Museum", Meaning: "Its name, as it is written on letters."},
	{Path: "partners.address", Kind: Texts, Example: "Box 14", Meaning: "Its address, a line an entry."},
	{Path: "partners.country", Need: Recommended, Example: "Norway", Meaning: "The country in which it is."},
	{Path: "partners.treaty", Example: "NO 014", Meaning: "Its code in the register of scientific institutions under the treaty on trade in species, which stands on the label of what is sent."},
	{Path: "qualifiers", Kind: Entries, Meaning: "What words such as cf. and aff. mean in this museum."},
	{Path: "qualifiers.word", Need: Required, Example: "cf.", Meaning: "The word."},
	{Path: "qualifiers.means", Need: Required, Example: "probably this, not certain", Meaning: "What it means here."},
	{Path: "treated_before", Example: "1985", Shape: `^[0-9]{4}$`, ShapeWords: "a year of four figures", Meaning: "Sheets older than this year are assumed to be treated with poison until tested."},
	{Path: "sensitive", Kind: Group, Meaning: "Where this museum withholds more of sensitive records than the format asks. Nothing here makes it less."},
	{Path: "sensitive.categories", Kind: Entries, Meaning: "Categories that are held as strictly as another."},
	{Path: "sensitive.categories.category", Need: Required, Example: "4", Enum: []string{"2", "3", "4"}, Meaning: "The category that records, names and places have."},
	{Path: "sensitive.categories.as", Need: Required, Example: "3", Enum: []string{"1", "2", "3"}, Meaning: "The one as which they are shown; one that is not stricter counts for nothing."},
	{Path: "sensitive.withhold", Kind: Texts, Example: "collector", Meaning: "Fields of a record that are withheld besides, of every sensitive record."},
}, slices.Concat(checkFields, habitFields, dryingFields, treatmentFields, lendingFields, reportingFields, filingFields, mountingFields, pressingFields, labelFields, slipFields, folderFields, printingFields)...)

var peopleFields = []Field{
	{Path: "people", Kind: Entries, Meaning: "Collectors, determiners and staff."},
	{Path: "people.name", Need: Required, Example: "Signe Rask", Meaning: "The name as the catalogue writes it."},
	{Path: "people.spellings", Kind: Texts, Example: "S. Rask", Meaning: "Other spellings met on labels and slips."},
	{Path: "people.born", Example: "1961", Meaning: "Year or date of birth."},
	{Path: "people.died", Example: "2031", Meaning: "Year or date of death."},
	{Path: "people.orcid", DwC: "recordedByID", Example: "0000-0002-1825-0097", Shape: `^[0-9]{4}-[0-9]{4}-[0-9]{4}-[0-9]{3}[0-9X]$`, ShapeWords: "four groups of four figures with hyphens", Meaning: "The person's ORCID iD."},
	{Path: "people.email", Example: "signe@lauvkroken.example", Meaning: "For entering in the person's name; never published."},
	{Path: "people.initials", Example: "yes", Enum: []string{"yes"}, Meaning: "\"yes\" when the person is shown by initials everywhere."},
	{Path: "people.about", Example: "Taught at Voss school; collected along the railway.", Meaning: "A sentence or two for the person's page."},
}

var namesFields = append([]Field{
	{Path: "family", Need: Required, DwC: "family", Example: "Ranunculaceae", Meaning: "The family; it is the name of the file."},
	{Path: "names", Kind: Entries, Meaning: "The names that the museum uses in this family."},
	{Path: "names.name", Need: Required, DwC: "scientificName", Example: "Ranunculus acris L.", Meaning: "The name with its authors."},
	{Path: "names.of", DwC: "acceptedNameUsage", Example: "Ranunculus acris L.", Meaning: "The accepted name that this one is a synonym of. Without it this name is accepted."},
	{Path: "names.split", Kind: Texts, Example: "Ranunculus acris L.", Meaning: "The names among which this one was divided, perhaps itself among them. Sheets that were named so before the day of the entry need eyes: nobody but a person who looks can say which they are."},
	{Path: "names.published", DwC: "namePublishedIn", Example: "Flora Vossensis: 31 (1907)", Meaning: "Where and in which year this name was published."},
	{Path: "names.source", Need: Recommended, DwC: "nameAccordingTo", Example: "regional flora, 2nd ed.", Meaning: "The work that is followed."},
	{Path: "names.date", Example: "2026-01-09", Meaning: "Since when the museum follows it."},
	{Path: "names.by", Example: "Tiril Aune", Meaning: "Who decided so."},
	{Path: "names.why", Example: "the genus is not monophyletic without it", Meaning: "On what grounds."},
	{Path: "names.native", DwC: "establishmentMeans", Example: "native", Enum: []string{"native", "introduced", "cultivated"}, Meaning: "Whether it is native in the museum's region."},
	{Path: "names.protection", Example: "protected since 2001", Meaning: "Its legal protection, in words."},
	{Path: "names.treaty", Example: "II", Meaning: "The appendix of the treaty on trade in species in which the name, or a group that it belongs to, is listed."},
	{Path: "names.common", DwC: "vernacularName", Example: "engsoleie", Meaning: "Its common name."},
	{Path: "names.address", Example: "ranunculus-acris", Shape: `^[a-z0-9]+(-[a-z0-9]+)*$`, ShapeWords: "small letters, figures and hyphens", Meaning: "The address of its page, only when two names would share one."},
}, under("names", recordFields, "sensitive")...)

var placesFields = append(append(append([]Field{
	{Path: "places", Kind: Entries, Meaning: "Standing localities."},
	{Path: "places.name", Need: Required, Example: "Raundal chapel meadow", Withheld: true, Meaning: "What the museum calls the place."},
}, under("places", recordFields, "place")...),
	Field{Path: "places.extent", Unit: "m", Example: "150 m", Meaning: "From the centre to the furthest edge. Of a sensitive place nothing within it is public, and without an extent nothing within 1 km."},
), under("places", recordFields, "sensitive")...)

// under copies the rows of one group below another field; none of them is
// asked for there.
func under(parent string, fs []Field, group string) []Field {
	var out []Field
	for _, f := range fs {
		if f.Path != group && (len(f.Path) <= len(group) || f.Path[:len(group)+1] != group+".") {
			continue
		}
		if f.Need == WhenFull {
			f.Need = Recommended
		}
		f.Path = parent + "." + f.Path
		out = append(out, f)
	}
	return out
}
