package work

// Law is one thing that the files of work/ should be like, besides the form of
// each. Breaking one is a warning: what has happened can always be recorded.
// The words of why: on the line answer it.
type Law struct{ Code, Says, Why string }

// Laws are all of them, in the order of FORMAT.md.
func Laws() []Law { return laws }

const (
	codeUntreated  = "work-untreated"
	codeReturned   = "work-returned"
	codeNotDry     = "work-not-dry"
	codeOnLoan     = "work-on-loan"
	codeSentTwice  = "work-sent-twice"
	codeTwoPlaces  = "work-two-places"
	codeMissing    = "work-missing"
	codeGone       = "work-gone"
	codeOrder      = "work-order"
	codeEarly      = "work-early"
	codePressed    = "work-pressed-late"
	codeReceived   = "work-received-late"
	codeTypePost   = "work-type-post"
	codeTypeLong   = "work-type-long"
	codeFewer      = "work-fewer-back"
	codeLotCount   = "work-lot-count"
	codeTwoLots    = "work-two-lots"
	codeCount      = "work-count"
	codeUnknown    = "work-sheet-unknown"
	codeUnread     = "work-unread"
	codeNoWork     = "work-unknown"
	codeBackwards  = "work-backwards"
	codeNoDate     = "work-date"
	codeToCome     = "work-to-come"
	codeEarlyEnd   = "work-ends-early"
	codeStrayWorks = "work-stray"
)

var laws = []Law{
	{codeUntreated, "Sheets are treated against insects before they are filed.",
		"One untreated sheet infests a cabinet. If it was treated and nobody wrote it down, open the freezer run with its dates; what was here before the ledger counts as treated."},
	{codeReturned, "Sheets that come back from a loan, and sheets borrowed, are treated before they are filed.",
		"They stood in another house, and came in a box that stood in others."},
	{codeNotDry, "Plants are dry before they are mounted.",
		"What is glued damp moulds under its straps, and spoils its neighbours under the weights."},
	{codeOnLoan, "A sheet on loan is not recorded as here: filed, taken, treated, seen.",
		"Either it came back and the line returned is missing, or another sheet was meant."},
	{codeSentTwice, "A sheet is sent once, and sent again only after it came back.",
		"Of two partners one does not have it; when it is asked back, the wrong one is written to."},
	{codeTwoPlaces, "A sheet is in one work's hands at a time.",
		"What is in the freezer by one file and in the press by another is looked for in the wrong place. The line that let it go is missing, or the wrong sheet was named."},
	{codeMissing, "A sheet that is missing is found before anything else happens to it.",
		"The line found says when the search ended, and keeps it off the list of missing sheets."},
	{codeGone, "Nothing happens to a sheet that is gone: given, spoiled, discarded, withdrawn.",
		"If it came back, blotter found or a line of the shelf says so; else another sheet was meant."},
	{codeOrder, "Events follow each other as the table of states has them.",
		"A line is missing, or its date or its sheets are mistyped. What is done otherwise on purpose has why: on its line."},
	{codeEarly, "Nothing happens to a plant before it was collected.",
		"One of the two dates is wrong."},
	{codePressed, "A plant is pressed within a day of collecting, or within three when it was kept cold.",
		"Untreated plants spoil after two or three days, so a later date is asked about (habits.pressing). Kept in a fridge: method: fridge on the line."},
	{codeReceived, "A sheet is received before it is mounted and lent.",
		"Collected, received, mounted, lent: where these dates run otherwise one of them is wrong."},
	{codeTypePost, "A type travels registered, by courier or by hand.",
		"The line sent names the way by method:, or the number of the consignment by number:. What the whole world of names hangs on does not go by ordinary post."},
	{codeTypeLong, "A type is back within the time that the museum lends types for.",
		"Three months where the museum says nothing (habits.loans.type_months). An extension with why: answers it."},
	{codeFewer, "A loan is closed when as much came back as was sent.",
		"What is not counted on the day is never missed again. Missing sheets: a line lost, then close."},
	{codeLotCount, "A lot counts as many as the sheets accessioned from it, the discards and the duplicates distributed.",
		"A difference is a sheet without a number or a number without a sheet; the box is still at hand to look into."},
	{codeTwoLots, "A sheet was accessioned in one lot.",
		"Title and conditions come with the lot; of two, one is a slip."},
	{codeCount, "A count beside sheets says how many sheets the line names.",
		"The count was made with the sheets in hand, the span was typed: look which is right."},
	{codeUnknown, "A specimen that a line names has a record, and a span names at least one that has.",
		"A slip in a number moves another sheet than the one in hand. Numbers given in advance: blotter new makes the record."},
	{codeUnread, "Numbers of gatherings and counts can be read, and a span has at most a thousand gatherings.",
		"What cannot be read stands for itself and is joined to no record."},
	{codeNoWork, "A work that another names is there.",
		"The number is mistyped, or the file was never entered."},
	{codeBackwards, "The lines of a work stand oldest first.",
		"A line that stands below a later one is counted by its date all the same; the date may be a slip."},
	{codeNoDate, "The date of a line can be read and has an end.",
		"A line without a day counts nowhere: not in the place of a sheet, not in what is due, not in the year's figures. A permit without one never lapses."},
	{codeToCome, "A line says what has happened, so its day is not still to come.",
		"A year is easily mistyped; until that day the line counts nowhere, and nobody is told what is due."},
	{codeEarlyEnd, "A batch ends after it began.",
		"The line that ends it is about what it holds then, which is nothing: the sheets would stay in it for ever."},
	{codeStrayWorks, "Every .yaml file below work/ lies in the folder of its kind.",
		"Elsewhere it is not read, and its sheets are where no line says."},
	{"permit-most", "No more is taken under a permit than it allows.",
		"The plants taken are summed from the records that name it, the sheets of one gathering once; a record that says nothing counts one."},
	{"permit-report", "A report that a permit asks for is sent by its day.",
		"Who misses one may get no permit again. Once it is sent: blotter log permit-... reported"},
	{"permit-consent", "Access to genetic resources of a country has the reference of its consent, or says why none is needed.",
		"The Nagoya protocol is in force since 12 October 2014 (from memory); habits.collecting.access_from has the day. Whether a country asks for consent is for its authority to say."},
}
