package ledger

// Words that several fields of a mapping share.
const (
	meaningOrder   = "The order of dates in figures"
	meaningCentury = "The first two figures of years written with two: 20 makes 21 mean 2021."
	meaningNoCell  = "Cells of this column that mean that nothing was recorded."
)

var dateOrders = []string{"day-month", "month-day"}

var mappingFields = []Field{
	{Path: "separator", Example: ";", Enum: []string{",", ";", "|", "tab"}, Meaning: "What stands between cells; without it whatever parts the headings."},
	{Path: "quotes", Example: "no", Enum: []string{"yes", "no"}, Meaning: "\"no\" when quote marks are part of the text."},
	{Path: "encoding", Example: "macintosh", Enum: []string{"utf-8", "utf-16", "windows-1252", "windows-1250", "windows-1251", "windows-1257", "iso-8859-1", "iso-8859-2", "iso-8859-15", "macintosh", "cp437", "cp850", "cp865", "mixed"},
		Meaning: "How letters are stored; without it UTF-8, UTF-16 or Windows-1252, as the bytes look. mixed: UTF-8, but cells that are not are read as Windows-1252."},
	{Path: "sheet", Example: "Register", Meaning: "Which sheet of a workbook; without it the first."},
	{Path: "head_line", Example: "3", Shape: `^[1-9][0-9]{0,5}$`, ShapeWords: "a line number", Meaning: "The line of the headings, when titles stand above them; they are left out. Without it the first line that is not blank or, where that has no heading that is known, the first of the next 20 in which at least two and half of the cells are."},
	{Path: "list", Example: "Moldstad's register", Meaning: "What all versions of the table are called; without it the file's name. A row of a later version is found by the list and its key."},
	{Path: "number", Example: "Sheet no.", Meaning: "The column that holds the number on the sheet; without it each row gets the next free one."},
	{Path: "key", Kind: Texts, Example: "Running no.", Meaning: "The columns by which a row is known in a later version of the table; with a number column that is the key. Without either a later version cannot be compared row by row."},
	{Path: "nothing", Kind: Texts, Example: "NA", Meaning: "Cells of any column that mean that nothing was recorded. They are counted and left out."},
	{Path: "columns", Kind: Entries, Meaning: "Columns that feed one field. A field that has words already takes no more: the second column is kept under import."},
	{Path: "columns.column", Need: Required, Example: "Latitude", Meaning: "The heading."},
	{Path: "columns.field", Need: Required, Example: "place.position", Meaning: "The field of the record, with its path; entries of lists count from 1: duplicates.1.sent."},
	{Path: "columns.and", Kind: Texts, Example: "Longitude", Meaning: "Further columns, written after the first."},
	{Path: "columns.join", Example: ".", Meaning: "What stands between them; without it a comma and a blank. The word blank is a blank."},
	{Path: "columns.split", Example: "|", Meaning: "What parts the entries of a list. Of collectors the first is the collector, the others were there (with)."},
	{Path: "columns.unit", Example: "ft", Meaning: "The unit that the heading names, written after the figures."},
	{Path: "columns.order", Example: "month-day", Enum: dateOrders, Meaning: meaningOrder + ", for the reading beside the words."},
	{Path: "columns.century", Example: "19", Shape: `^[0-9]{2}$`, ShapeWords: "two figures", Meaning: meaningCentury},
	{Path: "columns.nothing", Kind: Texts, Example: "99", Meaning: meaningNoCell},
	{Path: "columns.absent", Example: "s.n.", Meaning: "Words for none, written when the cell says nothing."},
	{Path: "columns.read", Example: "yes", Enum: []string{"yes"}, Meaning: "\"yes\": where another column gave the field its words, this one is a reading of them (read.date, read.position and so on), signed by whoever imports."},
	{Path: "opinions", Kind: Entries, Meaning: "Columns that become determinations, oldest first."},
	{Path: "opinions.names", Need: Required, Example: "Earlier names", Meaning: "The column of the name, or of several in order."},
	{Path: "opinions.and", Kind: Texts, Example: "Authors", Meaning: "Further columns of the name, after a blank: epithet, rank, authors. A column headed as a rank (Subsp., Var., Forma) gets that rank before its cells, and so does infraspecificEpithet from a column of ranks before it."},
	{Path: "opinions.split", Example: ",", Meaning: "What parts several names in one cell. A part that is only ! agrees with the name before it."},
	{Path: "opinions.newest", Example: "first", Enum: []string{"first", "last"}, Meaning: "Where the newest of several names stands; without it last."},
	{Path: "opinions.nothing", Kind: Texts, Example: "indet", Meaning: meaningNoCell},
	{Path: "opinions.kind", Example: "det", Enum: []string{"det", "conf", "not", "name-change"}, Meaning: "Which kind of opinion; without it det."},
	{Path: "opinions.by", Example: "M. Ostrander", Meaning: "The person; without any, unsigned."},
	{Path: "opinions.by_column", Example: "Determiner", Meaning: "The column of the person. Parted like the names it has one for each; otherwise the person is that of the newest."},
	{Path: "opinions.date", Example: "2021", Meaning: "The date; without any, s.d."},
	{Path: "opinions.date_column", Example: "Det. date", Meaning: "The column of the date, parted or not as that of the person."},
	{Path: "opinions.from", Example: "list", Enum: []string{"slip", "label", "list", "letter", "publication"}, Meaning: "Where the names stand."},
	{Path: "opinions.why_column", Example: "Det. notes", Meaning: "The column of the grounds of the newest name."},
	{Path: "opinions.mark_column", Example: "Reviewed", Meaning: "A column that holds a reviewer's mark, then the date: ! 11/24/20."},
	{Path: "opinions.marks", Kind: Entries, Meaning: "What the marks mean."},
	{Path: "opinions.marks.sign", Need: Required, Example: "!", Meaning: "The mark."},
	{Path: "opinions.marks.kind", Need: Required, Example: "conf", Enum: []string{"det", "conf", "not"}, Meaning: "The kind of opinion it stands for."},
	{Path: "opinions.order", Example: "month-day", Enum: dateOrders, Meaning: meaningOrder + "; the date is then written as ISO, and the cell is kept under import."},
	{Path: "opinions.century", Example: "20", Shape: `^[0-9]{2}$`, ShapeWords: "two figures", Meaning: meaningCentury},
	{Path: "fixed", Kind: Entries, Meaning: "Values that every record of the import has."},
	{Path: "fixed.field", Need: Required, Example: "place.country", Meaning: "The field."},
	{Path: "fixed.value", Need: Required, Example: "Norway", Meaning: "The words."},
	{Path: "ignore", Kind: Texts, Example: "Row", Meaning: "Columns that say nothing of the specimen; they are named in the rehearsal and left out."},
}
