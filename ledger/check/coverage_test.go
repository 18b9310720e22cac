package check_test

import (
	"testing"

	"blotter/ledger/check"
)

// answer is what answers one of the fifty checks that herbaria make of their
// data: after the draft TDWG tests of data quality, Chapman and Wieczorek's
// guide to georeferencing, and common practice.
type answer struct {
	number int
	asks   string
	codes  []string // of findings
	why    string   // where there is no code, or the codes answer in part
}

var fifty = []answer{
	{1, "latitude and longitude in range", []string{"position-range"}, ""},
	{2, "both 0,0; a lone zero", []string{"position-zero", "position-lone-zero"}, ""},
	{3, "one of a pair missing", []string{"position-unread"}, ""},
	{4, "inside the country", []string{"position-country"}, "the land alone: sea zones are not embedded, so the sea off a country's coast is position-sea"},
	{5, "inside the province", []string{"position-province"}, ""},
	{6, "land plant in the sea", []string{"position-sea"}, ""},
	{7, "swapped or wrong-sign coordinates proposed, never applied", []string{"position-turned"}, ""},
	{8, "country centres", []string{"position-centre"}, ""},
	{9, "datum present and known", []string{"position-datum", "datum-unknown"}, ""},
	{10, "uncertainty in range, device floor, precision table", []string{"uncertainty-range", "uncertainty-fine"}, ""},
	{11, "country and province agree", []string{"country-unknown", "country-several", "province-elsewhere", "province-spelling"}, ""},
	{12, "decimals against uncertainty; one position for many localities", []string{"uncertainty-fine", "position-many"}, ""},
	{13, "minutes or seconds of 60 and more; minutes typed as decimals", []string{"position-unread", "position-minutes"}, ""},
	{14, "elevation and depth in range, in order", []string{"elevation-range", "depth-range", "length-order"}, ""},
	{15, "elevation against the terrain", []string{"elevation-country"}, "in part: a terrain model is an outside service; the heights that a country has are embedded"},
	{16, "feet read as metres", []string{"elevation-feet", "elevation-unit"}, ""},
	{17, "locality words", []string{"locality-near", "locality-distance", "locality-unit", "locality-heading"}, ""},
	{18, "positions at the museum or a town's centre; rounded positions", []string{"position-whole", "position-centre"}, "in part: a gazetteer of towns is an outside service"},
	{19, "distance from the named place", []string{"position-named"}, "of places in places.yaml whose extent is stated"},
	{20, "date valid, in range, of this calendar", []string{"date-unread", "date-no-such-day", "date-two-ways", "date-early", "date-future"}, ""},
	{21, "date in the collector's life", []string{"date-lifetime"}, ""},
	{22, "determination before collecting, before 1753, to come", []string{"det-early", "det-before-names", "date-future", "det-lifetime"}, ""},
	{23, "collected, received, mounted, lent in order", []string{"done-early", "done-future", "accession-early", "fate-dates", "work-early", "work-received-late", "work-on-loan"}, "a sheet lent unmounted, for a name, is no finding"},
	{24, "first-of-month and New Year pile-ups", []string{"date-pile-up"}, ""},
	{25, "month and day swapped, by the neighbours", []string{"series-swap", "series-settles"}, ""},
	{26, "flowering out of season", []string{"season-odd"}, ""},
	{27, "collector and number twice with other date, place, name", []string{"collno-twice", "gathering-names"}, ""},
	{28, "numbers against dates", []string{"series-order", "series-year"}, ""},
	{29, "gaps and block sizes", nil, "a small museum has some sheets of a collector's numbers, so gaps are the rule; a finding on each would hide the others"},
	{30, "one number of two collectors of a trip", []string{"collno-shared"}, ""},
	{31, "two places on one day", []string{"collector-two-places"}, ""},
	{32, "far away on the next day", []string{"collector-next-day"}, ""},
	{33, "collector out of his years", []string{"collector-years", "date-lifetime"}, ""},
	{34, "s.n. without date or place; spellings of a collector", []string{"gathering-bare", "collector-spelling", "person-unlisted", "person-twice"}, ""},
	{35, "name listed, classification agrees, parts agree, rank, authors", []string{"name-unread", "name-unlisted", "family-differs", "family-form", "genus-families", "name-no-rank", "names-authors", "name-homonym"}, ""},
	{36, "name younger than its use", []string{"name-later", "names-early"}, ""},
	{37, "synonyms", []string{"synonym-anew", "names-of"}, "the accepted name is looked up, so old sheets need no new determination"},
	{38, "qualifiers, x for ×, slips near a listed name", []string{"name-letter-x", "name-unlisted", "name-genus-short", "name-genus-small", "name-epithet-capital", "name-tautonym", "name-autonym-author"}, "a qualifier belongs into the name here and is lifted out by the reader"},
	{39, "redetermined without reason, long undetermined", []string{"det-why", "det-source", "det-hollow", "undetermined"}, "a collector who names his own plant without a work is the rule and no finding"},
	{40, "duplicates that disagree", []string{"gathering-names", "gathering-origin", "gathering-type", "collno-twice"}, "between museums: when partners' data are exchanged"},
	{41, "types", []string{"word-unusual", "field-missing", "type-basis", "type-untold", "type-doubt", "type-twice", "type-gathering", "work-type-long", "work-type-post"}, ""},
	{42, "cultivated with a native flag; out of its region", []string{"origin-listed", "gathering-origin", "garden-missing"}, "in part: a taxon's region list is an outside service"},
	{43, "number unique, file of its name", []string{"number-twice", "number-used", "number-file", "part-number-twice", "further-twice"}, ""},
	{44, "required fields", []string{"field-missing", "label-lacks"}, ""},
	{45, "licence present and standard", []string{"site-licence", "image-licence"}, ""},
	{46, "basis of record, occurrence status", []string{"word-unusual"}, "both are computed for the export: a record here is a specimen, and it was there"},
	{47, "control characters, Unicode forms, trailing blanks", []string{"text-control", "text-invisible", "text-direction", "text-separator", "text-composed", "text-blanks"}, ""},
	{48, "pictures missing or changed", []string{"image-missing", "image-changed"}, ""},
	{49, "sheet on loan shown as here", []string{"work-on-loan", "work-gone"}, ""},
	{50, "sensitive taxon at full precision", []string{"sensitive-category", "sensitive-review"}, "publish and the hooks stop a leak (place-leak)"},
}

// TestFifty: each of the fifty checks has codes that exist, or a reason.
func TestFifty(t *testing.T) {
	answered := 0
	for i, a := range fifty {
		if a.number != i+1 {
			t.Errorf("%d stands in place %d", a.number, i+1)
		}
		if len(a.codes) == 0 && a.why == "" {
			t.Errorf("nothing answers %d (%s)", a.number, a.asks)
		}
		if len(a.codes) > 0 {
			answered++
		}
		for _, c := range a.codes {
			if !check.Known(c) {
				t.Errorf("%d (%s): no finding has the code %s", a.number, a.asks, c)
			}
		}
	}
	if answered < 49 {
		t.Errorf("%d of 50 are answered", answered)
	}
}
