package ledger

// Rule is one thing that Decode looks for.
type Rule struct {
	Code       string
	Severity   Severity // Error: a must of FORMAT.md; Warning: a should
	Structural bool     // the JSON Schema finds it as well
	Meaning    string   // one sentence for people
}

// Rules lists every code that Decode and its kin give, in the order of
// FORMAT.md. The rules of ledger/check are listed there.
func Rules() []Rule { return decodeRules }

var decodeRules = []Rule{
	{"file-large", Error, false, "A file is at most 1 MiB large."},
	{"file-empty", Error, false, "A file holds at least one field."},
	{"file-faults", Error, false, "Of one file a hundred findings are listed; this one says that there are more."},
	{"text-encoding", Error, false, "A file is UTF-8."},
	{"text-bom", Warning, false, "A file begins with its first word, not with a byte order mark."},
	{"text-control", Error, false, "No control characters stand in a file."},
	{"text-direction", Error, false, "No characters stand in a file that turn the direction of the text: they make it read otherwise than it is."},
	{"text-invisible", Warning, false, "No characters of no width stand in a file: a search would miss the words."},
	{"text-separator", Error, false, "Lines end at LF, CRLF or CR, not at U+0085, U+2028 or U+2029, which only some readers take for a line's end."},
	{"text-composed", Warning, false, "A letter with its mark is one character (Unicode normalization form C), not a letter and a mark that is set over it: a search would find only one of the two."},
	{"text-blanks", Warning, false, "A value in quotes has no blanks at its beginning or end."},
	{"text-tab", Error, false, "Lines are indented with blanks, not tabs."},
	{"yaml-quote", Error, false, "A quotation mark that opens a value is closed, and nothing follows it."},
	{"yaml-colon", Error, false, "A value that holds a colon and a blank, or ends with a colon, is quoted."},
	{"yaml-sign", Error, false, "A value that begins with one of [ ] { } ? | > - % @ ` or a comma is quoted."},
	{"yaml-syntax", Error, false, "A file is YAML."},
	{"yaml-anchor", Error, false, "No anchors and aliases (& and *) stand in a file."},
	{"yaml-tag", Error, false, "No YAML tags (!) stand in a file."},
	{"yaml-documents", Error, false, "A file is one YAML document without directives."},
	{"merge-left", Error, false, "No markers of a merge (<<<<<<<, >>>>>>>) stand at the beginning of a line."},
	{"yaml-deep", Error, false, "Lists and groups are nested at most eight deep."},
	{"value-cut", Error, false, "Words after a blank and # are lost to every reader of YAML; a comment after a value stands two blanks from it, with a blank after #."},
	{"value-unquoted", Error, false, "A value that some reader of YAML takes for something other than words is quoted; a full ISO day (2025-07-14) and a whole number (60) need not be."},
	{"field-unknown", Error, true, "Every field has a name of this page."},
	{"field-twice", Error, false, "A field stands once in its group."},
	{"field-kind", Error, true, "A field has words, a list or a group, as its table says."},
	{"field-missing", Error, true, "A required field has words; so has, in a full record, each field needed when full."},
	{"value-unlisted", Error, true, "A field with a closed list of words has one of them."},
	{"value-shape", Error, true, "A field with a shape has that shape."},
	{"word-unusual", Warning, false, "A field with a list of usual words has one of them, unless the sheet says otherwise."},
	{"number-shape", Error, true, "A number has letters, digits, dot, hyphen and underline, begins with a letter or digit, does not end with a dot, and is no device name of Windows."},
	{"number-file", Error, false, "A record's number is the name of its file."},
	{"number-folder", Warning, false, "A record lies in the folder of its number."},
	{"family-file", Warning, false, "The family of a file in names/ is the name of the file."},
	{"work-file", Error, false, "A work's number is its kind, a year and a running number; it is the name of the file, and the file lies in the folder of its kind."},
	{"work-event", Warning, false, "An event is one that its kind of work has."},
	{"work-heading", Warning, false, "The heading of a work has the fields of its kind."},
	{"format-version", Error, true, "The format version is one that the program knows."},
}

// severityOf is the severity of one of our own codes.
func severityOf(code string) Severity {
	for i := range decodeRules {
		if decodeRules[i].Code == code {
			return decodeRules[i].Severity
		}
	}
	panic("ledger: no rule " + code)
}
