package ledger

// SlipAnnotations are the kinds of annotation that can have a slip; none is a
// word for no kind. Questions are for the staff and never go onto a sheet.
var SlipAnnotations = []string{"material-removed", "photographed", "seen", "label-copied", "note", "none"}

// slipFields are the habits of slips and of exsiccatae.
var slipFields = []Field{
	{Path: "habits.slips", Kind: Group, Meaning: "Determination slips and type labels."},
	{Path: "habits.slips.dates", Example: "roman", Enum: []string{"roman", "written"}, Meaning: "How a day that the record has in figures, 2026-11-02, stands on a slip: with its month in Roman figures, 2.xi.2026, or as written. Every other date stands as written."},
	{Path: "habits.slips.name_changes", Example: "printed", Enum: []string{"printed", "none"}, Meaning: "Whether a determination of the kind name-change, for which nobody looked at the plant, gets a slip that says so."},
	{Path: "habits.slips.annotations", Kind: Texts, Example: "material-removed", Enum: SlipAnnotations, Meaning: "The kinds of annotation that get a slip; none: no kind."},
	{Path: "habits.exsiccatae", Kind: Entries, Meaning: "The series of exsiccatae that the museum issues."},
	{Path: "habits.exsiccatae.series", Need: Required, Example: "Plantae Vossenses exsiccatae", Meaning: "The title, as the records have it in exsiccata.series."},
	{Path: "habits.exsiccatae.heading", Kind: Texts, Example: "PLANTAE VOSSENSES EXSICCATAE", Meaning: "What stands at the head of the label, a line an entry. None: the title in capitals."},
	{Path: "habits.exsiccatae.editor", Example: "M. Ostrander", Meaning: "Who edits the series."},
	{Path: "habits.exsiccatae.imprint", Example: "Voss, Lauvkroken Museum, 2026", Meaning: "Place, publisher and year."},
}
