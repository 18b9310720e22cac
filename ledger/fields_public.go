package ledger

var publicFields = []Field{
	{Path: "reviewed", Kind: Entries, Meaning: "Hits of the leak test that somebody looked at and let stand."},
	{Path: "reviewed.file", Need: Required, Example: "about/meadows.html", Meaning: "The file of the site as the leak test names it; of an export \"export:\" and its kind, of the mirror \"mirror:\" and the path; a member of an archive stands behind \"!\"."},
	{Path: "reviewed.text", Need: Required, Example: "the old mill by the falls", Withheld: true, Meaning: "The words of that file that may stand there, with those of the hit among them."},
	{Path: "reviewed.why", Need: Required, Example: "another mill, 30 km away", Meaning: meaningWhyLet},
	{Path: "reviewed.by", Need: Required, Example: "Tiril Aune", Meaning: meaningBy},
	{Path: "reviewed.date", Need: Required, Example: "2026-11-05", Meaning: meaningDay},
}
