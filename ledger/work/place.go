package work

// Place is the kind of place where a sheet is.
type Place string

const (
	Coming   Place = "coming"    // gathered or promised, not yet in any work's hands
	InPress  Place = "press"     // in the press or the drier
	InTray   Place = "tray"      // in the house, on the way to the cabinet
	Freezer  Place = "freezer"   // under treatment
	InBag    Place = "bag"       // out of the freezer, still in its closed bag
	Weights  Place = "weights"   // glued, under weight
	Cabinet  Place = "cabinet"   // where it belongs
	OutCard  Place = "out"       // taken out by somebody; an out-card stands in its place
	Display  Place = "display"   // on display
	Packed   Place = "packed"    // packed for sending
	OnLoan   Place = "loan"      // with a partner
	Returned Place = "returned"  // back from a loan, not yet treated
	Missing  Place = "missing"   // not found at the last look
	Stray    Place = "misplaced" // found where it does not belong
	Gone     Place = "gone"      // given, exchanged, spoiled, withdrawn
)

// places are all places in the order of a sheet's way, with their words.
var places = []struct {
	is          Place
	words, says string
}{
	{Coming, "coming", "gathered or promised, not yet in the house"},
	{InPress, "in the press", "in the press or the drier"},
	{InTray, "in the tray", "in the house, on the way to the cabinet"},
	{Freezer, "in the freezer", "under treatment, in the freezer or otherwise"},
	{InBag, "in its closed bag", "out of the freezer, the bag not yet opened"},
	{Weights, "under weights", "glued, the glue not yet dry"},
	{Cabinet, "in the cabinet", "where it belongs"},
	{OutCard, "taken out", "taken out by somebody; an out-card stands in its place"},
	{Display, "on display", "on display"},
	{Packed, "packed for sending", "packed, not yet sent"},
	{OnLoan, "on loan", "with a partner, who gives it back"},
	{Returned, "back from loan, not yet treated", "back from a partner, not yet treated against insects"},
	{Missing, "missing", "not found at the last look"},
	{Stray, "misplaced", "found where it does not belong"},
	{Gone, "gone", "given, exchanged, spoiled, discarded or withdrawn"},
}

// Places are all places in the order of a sheet's way through the house.
func Places() []Place {
	out := make([]Place, len(places))
	for i, p := range places {
		out[i] = p.is
	}
	return out
}

// Words is the place in one phrase, the same everywhere: on loan.
func (p Place) Words() string {
	for _, x := range places {
		if x.is == p {
			return x.words
		}
	}
	return string(p)
}
