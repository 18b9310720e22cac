package main

import "slices"

// flag is one flag, declared once and shared by every command that takes it:
// the same name means the same thing everywhere (a test holds this).
type flag struct {
	Name  string
	Short string // only q, h and n
	Value string // the placeholder for its value; "" when it takes none
	Many  bool   // may be typed several times
	Bare  string // the value when it ends the line or another flag follows; "": it needs one
	Help  string
}

// Flags that every command takes.
var (
	flagLedger  = &flag{Name: "ledger", Value: "DIR", Help: "the ledger's folder; otherwise the one we stand in, or above"}
	flagQuiet   = &flag{Name: "quiet", Short: "q", Help: "say only what went wrong"}
	flagHelp    = &flag{Name: "help", Short: "h", Help: "explain the command"}
	flagVersion = &flag{Name: "version", Help: "show which blotter this is"}
)

var commonFlags = []*flag{flagLedger, flagQuiet, flagHelp, flagVersion}

// Flags that mean one thing everywhere (interface.md 1.3), and flags that
// fill the field of that name.
var (
	flagAt       = &flag{Name: "at", Value: "REV", Help: "what the ledger had been told by then: a revision, tag, day, or published"}
	flagOn       = &flag{Name: "on", Value: "DATE", Help: "what was so on that day; otherwise today"}
	flagSince    = &flag{Name: "since", Value: "REV", Help: "entries after this revision or day"}
	flagUntil    = &flag{Name: "until", Value: "REV", Help: "entries up to this revision or day; in a line of work, until when"}
	flagFrom     = &flag{Name: "from", Value: "FILE", Help: "where values come from; - is what is typed or piped in"}
	flagTo       = &flag{Name: "to", Value: "PLACE", Help: "where it goes: a file (its ending chooses the format), a folder, -; of a withdrawn sheet, the museum or the other number"}
	flagFormat   = &flag{Name: "format", Value: "F", Help: "form of the output: text, json; of check also sarif, of quality also csv"}
	flagJSON     = &flag{Name: "json", Help: "the same as --format json: one object a line, or one object"}
	flagDryRun   = &flag{Name: "dry-run", Help: "say all, write nothing"}
	flagYes      = &flag{Name: "yes", Help: "answer yes to every question"}
	flagHold     = &flag{Name: "hold", Help: "write the files but do not enter them"}
	flagAs       = &flag{Name: "as", Value: "PERSON", Help: "who records this, from people.yaml; otherwise git's identity"}
	flagWhere    = &flag{Name: "where", Value: "QUERY", Help: "the sheets that match, in place of SHEETS (help find explains QUERY)"}
	flagExcept   = &flag{Name: "except", Value: "SHEETS", Many: true, Help: "but not these sheets"}
	flagStrict   = &flag{Name: "strict", Help: "warnings count as errors; all or nothing"}
	flagBy       = &flag{Name: "by", Value: "PERSON", Help: "who; me is the person this copy belongs to"}
	flagDate     = &flag{Name: "date", Value: "DATE", Help: "when, as on the label, as ISO day, or today"}
	flagWhy      = &flag{Name: "why", Value: "TEXT", Help: "on what grounds"}
	flagCode     = &flag{Name: "code", Value: "CODE", Help: "this code: of a finding for check, of the museum for init"}
	flagNoCache  = &flag{Name: "no-cache", Help: "work from scratch, using nothing saved before"}
	flagIs       = &flag{Name: "is", Value: "FATE", Help: "what became of it: lost, destroyed, used-up, exchanged, transferred, deaccessioned, same-as, mistake"}
	flagKind     = &flag{Name: "kind", Value: "KIND", Help: "kind of note: seen, photographed, material-removed, label-copied, question, note"}
	flagConf     = &flag{Name: "conf", Help: "the person looked and agrees with the name"}
	flagNot      = &flag{Name: "not", Help: "the person looked and it is not that"}
	flagPart     = &flag{Name: "part", Value: "PART", Help: "which part of the sheet, for example: left-hand plant"}
	flagSeen     = &flag{Name: "seen", Value: "WHAT", Help: "what was looked at: sheet, picture, duplicate, dna"}
	flagSlip     = &flag{Name: "slip", Value: "FROM", Help: "where the opinion stands: slip, label, list, letter, publication; of a note, slip or label"}
	flagSource   = &flag{Name: "source", Value: "CITATION", Help: "the publication or checklist it comes from; of a lot, how it came: collected, gift, exchange, purchase, bequest, transfer, found-in-collection, unknown"}
	flagOf       = &flag{Name: "of", Value: "NAME", Help: "of which name or group"}
	flagPub      = &flag{Name: "published", Value: "CITATION", Help: "where the name was published"}
	flagBasis    = &flag{Name: "basis", Value: "BASIS", Help: "how it is known: verified, label, picture, suspected"}
	flagLike     = &flag{Name: "like", Value: "SHEET", Help: "repeat place, date and collector of this sheet"}
	flagMany     = &flag{Name: "many", Help: "one sheet after another, until Ctrl-C at the first question"}
	flagNumber   = &flag{Name: "sheet", Value: "NUMBER", Help: "the number already on the sheet; otherwise the next free one"}
	flagMap      = &flag{Name: "map", Value: "FILE", Help: "which column goes to which field"}
	flagCheck    = &flag{Name: "check", Help: "look through what is there, write nothing"}
	flagPropose  = &flag{Name: "propose", Help: "print a mapping to look through, and read nothing in"}
	flagChanged  = &flag{Name: "changed", Help: "of what changed since: of an import, correct the sheets whose rows did; of print, the papers that would now read otherwise"}
	flagBatch    = &flag{Name: "batch", Value: "N", Help: "at most so many sheets in one entry; 5000 unless said"}
	flagPlaces   = &flag{Name: "positions", Help: "of pictures: where they were taken becomes the position of sheets that have none; ties no picture"}
	flagWhose    = &flag{Name: "collector", Value: "PERSON", Help: "of positions: only the sheets of this collector"}
	flagMetres   = &flag{Name: "uncertainty", Value: "LENGTH", Help: "of positions: how far off they may be; otherwise what the file says"}
	flagStubs    = &flag{Name: "stubs", Help: "of pictures: make a record, a number and a picture only, where there is none"}
	flagCopy     = &flag{Name: "copy", Help: "of pictures: bring them below images/, named after their sheets"}
	flagAddress  = &flag{Name: "address", Value: "URL", Help: "of pictures: where the folder is on the web; the records name them there"}
	flagPhotogr  = &flag{Name: "photographer", Value: "PERSON", Help: "who took the pictures; otherwise whom they name themselves"}
	flagLicence  = &flag{Name: "licence", Value: "TERMS", Help: "under which terms others may use the pictures; otherwise what they say themselves"}
	flagShows    = &flag{Name: "shows", Value: "TEXT", Help: "what the pictures show, for example whole sheet; otherwise what their names say"}
	flagNoCodes  = &flag{Name: "no-barcodes", Help: "of pictures: go by their names alone, which is much quicker"}
	flagName     = &flag{Name: "name", Value: "NAME", Help: "the museum's name, or the plant's"}
	flagExplain  = &flag{Name: "explain", Value: "CODE", Bare: "all", Help: "what a code means and what to do about it; without CODE, all codes"}
	flagSettled  = &flag{Name: "settled", Help: "the warnings that somebody let stand, in place of those that nobody did"}
	flagCommits  = &flag{Name: "commits", Value: "A..B", Help: "judge these entries one by one, as the hooks do"}
	flagPath     = &flag{Name: "path", Help: "only the path of the file"}
	flagCount    = &flag{Name: "count", Help: "only how many"}
	flagFix      = &flag{Name: "fix", Help: "offer each repair in turn"}
	flagPort     = &flag{Name: "port", Value: "N", Help: "port on this computer to answer at; 0 takes a free one"}
	flagBranch   = &flag{Name: "branch", Value: "NAME", Help: "put the site on this branch, for hosts that serve one"}
	flagStaff    = &flag{Name: "staff", Help: "the site for the museum's own staff, in which nothing is withheld"}
	flagOnly     = &flag{Name: "only", Value: "FORM", Help: "html: the pages alone, without Markdown twins and data; for measuring"}
	flagFull     = &flag{Name: "full", Help: "look through every file for withheld words again, those looked through before too"}
	flagNoServe  = &flag{Name: "no-serve", Help: "stop after publishing"}
	flagDrafts   = &flag{Name: "draft", Help: "as a draft: a new sheet is left one; what is printed bears DRAFT across it and may be unfinished"}
	flagPrefix   = &flag{Name: "prefix", Value: "TEXT", Help: "what stands before the digits of a number, for example LK7-"}
	flagDigits   = &flag{Name: "digits", Value: "N", Help: "how many digits a number has at least"}
	flagTimezone = &flag{Name: "timezone", Value: "ZONE", Help: "the museum's time zone, for example Europe/Oslo"}
	flagServer   = &flag{Name: "server", Help: "this is the server end, a bare repository: judge whatever is sent to it"}
	flagNoHooks  = &flag{Name: "no-hooks", Help: "leave out the checks that git runs"}
	flagTests    = &flag{Name: "tests", Value: "LABELS", Many: true, Help: "only the tests with these labels of the standard, parted by commas"}
	flagFor      = &flag{Name: "for", Value: "PARTNER", Help: "for this museum or person alone: exact places and drafts too, marked as not to be published; of a kit, a field book and tags, who goes"}
	flagTerms    = &flag{Name: "terms", Value: "LIST", Help: "headings of a table: darwin-core, its simple terms with values as read, one row a sheet; without it every field by its path, words as written"}
	flagMark     = &flag{Name: "utf8-mark", Help: "begin a csv or tsv with the mark by which some spreadsheet programs know UTF-8"}
	flagStart    = &flag{Name: "start", Value: "N", Help: "of papers cut from a sheet: the first place to be used, counted down the first column, then the next; it uses up a sheet begun"}
	flagSkip     = &flag{Name: "skip", Value: "LIST", Help: "of papers cut from a sheet: places to be left out, on the first page: 3 or 3,5..6"}
	flagCopies   = &flag{Name: "copies", Value: "N", Help: "how many of each, one after another: one for each duplicate"}
	flagPaper    = &flag{Name: "paper", Value: "SIZE", Help: "the paper in the printer: A4, Letter, A3, A5, Legal, or width by height: \"200 x 100 mm\""}
	flagParts    = &flag{Name: "parts", Value: "N", Help: "in so many labels, or a slip so many places high, when one is too small for its words"}
	flagNever    = &flag{Name: "unprinted", Help: "only what was never printed; without SHEETS, of the whole ledger"}
	flagTrial    = &flag{Name: "trial", Help: "to try printer and paper: the printing is not kept"}
	flagWith     = &flag{Name: "with", Value: "ADDRESS", Help: "the other copy: a folder, a file or folder on a stick, an address at another machine"}
	flagNew      = &flag{Name: "new", Help: "make the other copy there, with the whole ledger in it"}
	flagAsk      = &flag{Name: "ask", Help: "ask a copy at another machine too what others have sent"}
	flagParam    = &flag{Name: "param", Value: "NAME=VALUE", Many: true, Help: "a parameter of the tests, for rows that do not bring it as a column"}
)

// enterFlags are taken by every command of the family Enter.
var enterFlags = []*flag{flagDryRun, flagYes, flagHold, flagAs}

// sheetFlags are taken by every command with a list of SHEETS.
var sheetFlags = []*flag{flagWhere, flagExcept}

// askFlags are taken by commands that show something.
var askFlags = []*flag{flagFormat, flagJSON}

func joinFlags(lists ...[]*flag) []*flag {
	var all []*flag
	for _, l := range lists {
		all = append(all, l...)
	}
	return all
}

// takes adds the flags of a kind that the command does not have yet.
func (c *command) takes(flags []*flag) {
	for _, f := range flags {
		if !slices.Contains(c.Flags, f) {
			c.Flags = append(c.Flags, f)
		}
	}
}
