package work

import (
	"slices"
)

// LendingRule is one case in which sheets are not to be lent, given away or
// sampled. The rules are the trade's, their figures the museum's (habits in
// blotter.yaml); whoever has a reason may go past any of them, and the reason
// is kept on the line.
type LendingRule struct {
	Code   string
	For    []string // kinds of work
	Says   string   // a row of FORMAT.md
	Source string
}

var (
	sendingKinds = []string{"loan", "gift", "exchange"}
	allLending   = []string{"loan", "gift", "exchange", "sampling"}
)

// LendingRules are all of them, in the order in which they are told.
func LendingRules() []LendingRule { return lendingRules }

var lendingRules = []LendingRule{
	{"type", allLending, "Types, suspected ones among them, neither travel by routine nor are sampled.", "Smithsonian and Duke sampling rules; Carnegie for loans"},
	{"unique", allLending, "The only sheet of its taxon here, of whose gathering there is no other here, stays.", "common practice, no source"},
	{"keep", sendingKinds, "As many sheets of a species stay in the house as habits.loans.keep says.", "Carnegie, after Forman & Bridson 1989"},
	{"protected", allLending, "Plants with a legal protection in names/ are asked about first.", "Smithsonian sampling rules for sampling; for loans common practice, no source"},
	{"sensitive", []string{"sampling"}, "Nothing is taken from sheets of plants whose places are withheld.", "common practice, no source"},
	{"few", []string{"sampling"}, "Nothing is taken when fewer gatherings of the taxon are here than habits.sampling.few says.", "Smithsonian: 5; Duke: 3"},
	{"old", []string{"sampling"}, "Nothing is taken from sheets gathered before habits.sampling.before, or perhaps before it.", "Smithsonian: 1900"},
	{"again", []string{"sampling"}, "The same kind of material is not taken twice from one sheet.", "Duke"},
	{"area", []string{"sampling"}, "No more leaf is taken from a sheet than habits.sampling.most_mm2 says.", "Smithsonian: 1 cm2"},
	{"third-party", allLending, "What a permit does not let pass to others stays.", "the permit"},
	{"uses", allLending, "What a permit allows for some uses is not given for others.", "the permit"},
	{"treaty", sendingKinds, "A plant in an appendix of the treaty on trade in species crosses a border between institutions registered with it, or under a permit.", "CITES Art. VII(6), Res. Conf. 11.15 (Rev. CoP12)"},
	{"grade", allLending, "A sheet of grade 4 is not handled.", "common practice, no source"},
	{"held", allLending, "A sheet that is held because of insects or mould stays where it is.", "common practice, no source"},
	{"place", allLending, "A sheet that is not in its place (on loan, missing, in the freezer, under weight) cannot go.", "common practice, no source"},
	{"untreated", sendingKinds, "A sheet that came back from a loan is treated before it goes to another partner.", "UC/JEPS pest rules"},
	{"withdrawn", allLending, "A withdrawn specimen cannot go.", "common practice, no source"},
}

// Judged reports whether an event of a kind is one that sends or samples:
// before it is written down the rules are asked.
func Judged(kind, verb string) bool {
	switch kind {
	case "loan", "gift", "exchange":
		return verb == "packed" || verb == "sent"
	case "sampling":
		return verb == "approved" || verb == "sampled"
	}
	return false
}

func holdsFor(code, kind string) bool {
	i := slices.IndexFunc(lendingRules, func(r LendingRule) bool { return r.Code == code })
	return slices.Contains(lendingRules[i].For, kind)
}
