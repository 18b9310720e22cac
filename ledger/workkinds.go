package ledger

// WorkKind is one kind of batch or movement: what its heading may say besides
// work, title, person and note, and what may happen to it.
type WorkKind struct {
	Name    string
	Meaning string
	Heading []string // fields of the heading
	Opens   string   // the event of the line that `open` and `add` write
	Closes  string   // the event of the line that `close` writes
	Events  []string // every event of the kind, in the order of its life; any kind may have EventClosed and EventNoted
}

// Events that any kind may have.
const (
	EventClosed = "closed" // after it the work needs no hand
	EventNoted  = "noted"  // nothing happened; something is to be said

	EventRenumbered = "renumbered" // up to this line, the sheet that it names is the one that bears the number `to` now
	EventSwapped    = "swapped"    // up to this line, each of the two sheets that it names is the other
)

// WorkKinds are the kinds of work, in the order of a sheet's way through the
// house.
func WorkKinds() []WorkKind { return workKinds }

// WorkKindOf finds a kind by its name.
func WorkKindOf(name string) (WorkKind, bool) {
	for _, k := range workKinds {
		if k.Name == name {
			return k, true
		}
	}
	return WorkKind{}, false
}

var workKinds = []WorkKind{
	{"permit", "Leave to collect, to export or import, to use: one paper a file.", []string{"permit", "conditions"}, "applied", "closed",
		[]string{"applied", "refused", "granted", "extended", "reported", "lapsed"}},
	{"press", "A load of the plant press.", []string{"place", "plants", "method", "weather", "cautions"}, "pressed", "dried",
		[]string{"pressed", "papers", "weighed", "tested", "dried", "spoiled"}},
	{"drying", "Drying outside the press: a warm-air drier, a screen, silica gel, plants kept in alcohol.", []string{"place", "plants", "method", "weather", "cautions"}, "drying", "dried",
		[]string{"drying", "papers", "turned", "weighed", "tested", "dried", "spoiled"}},
	{"accession", "A lot taken into the museum.", []string{"partner", "their_number", "source", "standing", "permits", "conditions", "cautions"}, "received", "closed",
		[]string{"received", "counted", "accessioned", "taken-in", "discarded", "distributed", "pictured", "filed"}},
	{"freezer", "A freezing run against insects.", []string{"place", "profile", "cautions"}, "in", "out",
		[]string{"in", "out", "unpacked", "filed"}},
	{"treatment", "Another treatment against insects or mould, by licensed practice.", []string{"place", "profile", "method", "cautions"}, "in", "out",
		[]string{"in", "out", "unpacked", "filed"}},
	{"mounting", "A mounting session.", []string{"place", "method", "cautions"}, "glued", "lifted",
		[]string{"glued", "lifted", "mounted", "labelled", "pictured", "filed"}},
	{"loan", "Sheets lent to another herbarium.", []string{"partner", "their_number", "purpose", "period", "conditions", "permits", "cautions"}, "requested", "closed",
		[]string{"requested", "refused", "approved", "selected", "packed", "sent", "acknowledged", "extended", "recalled", "returned", "lost", "filed"}},
	{"borrowing", "Sheets borrowed from another herbarium.", []string{"partner", "their_number", "purpose", "period", "conditions", "permits", "cautions"}, "requested", "closed",
		[]string{"requested", "refused", "received", "acknowledged", "extended", "recalled", "in", "out", "sent-back", "lost"}},
	{"gift", "Sheets or duplicates given away.", []string{"partner", "their_number", "purpose", "conditions", "permits", "cautions"}, "requested", "closed",
		[]string{"requested", "refused", "approved", "selected", "packed", "sent", "acknowledged"}},
	{"exchange", "Duplicates sent and received one for one.", []string{"partner", "their_number", "purpose", "conditions", "permits", "cautions"}, "selected", "closed",
		[]string{"requested", "refused", "approved", "selected", "packed", "sent", "acknowledged", "received"}},
	{"sampling", "Material removed from sheets for study.", []string{"partner", "their_number", "purpose", "material", "method", "conditions", "permits"}, "requested", "closed",
		[]string{"requested", "refused", "approved", "sampled", "reported"}},
	{"condition", "A survey of the state of sheets, or of the reading of records.", []string{"place", "method", "percent", "seed"}, "drawn", "closed",
		[]string{"drawn", "surveyed"}},
	{"conservation", "Repair and cleaning.", []string{"method", "material", "cautions"}, "treated", "closed",
		[]string{"treated", "checked", "filed"}},
	{"traps", "Insect traps of one place, read from time to time.", []string{"place", "every"}, "set", "removed",
		[]string{"set", "read", "replaced", "removed"}},
	{"climate", "Readings of temperature and humidity at one place.", []string{"place", "every"}, "measured", "closed",
		[]string{"measured"}},
	{"incident", "Insects or mould found, water, fire, theft: what was done about it.", []string{"place", "cautions"}, "found-pest", "closed",
		[]string{"found-pest", "held", "inspected", "cleared"}},
	{"inventory", "A round through the cabinets.", []string{"place", "percent", "seed"}, "drawn", "closed",
		[]string{"drawn", "seen", "missing", "misplaced", "found", "filed"}},
	{"shelf", "Movements within the house: filed, taken out, on display, put back; what was here before the ledger.", []string{"place"}, "filed", "closed",
		[]string{"here", "missing", "misplaced", "found", "pictured", "filed", "taken", "displayed", "back"}},
	{"printing", "Labels and slips that were printed.", []string{"material"}, "printed", "closed",
		[]string{"printed"}},
}
