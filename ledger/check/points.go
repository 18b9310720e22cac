package check

import (
	"fmt"
	"hash/fnv"
	"math"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/geodesy"
	"blotter/ledger/georeference"
)

var pointRules = []Rule{
	{Code: "position-many", Severity: ledger.Warning,
		Says:   "One position to the metre does not stand for more than ten localities (checks: same_positions).",
		Why:    "It is the middle of a village, a county or a country, or was copied down a column. Ten: our choice, no source.",
		Counts: &byPoint,
		Odd:    positionMany},
	{Code: "position-minutes", Severity: ledger.Warning,
		Says:   "Decimals of a collector's positions are decimals, and not minutes typed behind the degrees.",
		Why:    "60°42' typed as 60.42 lies 31 km off. Where all of very many positions with two decimals end below .60, they are minutes. At least twelve positions over three degrees of latitude and longitude: our choice, no source.",
		Counts: &byDecimals,
		Odd:    positionMinutes},

	{Code: "position-named", Severity: ledger.Warning,
		Says: "A position lies where the words of its locality lead, as far as places.yaml knows the place they name and how large it is.",
		Why:  "Distance, direction or position is misread, or it is another place of the name. Both radii are taken off, by the point-radius method (Chapman & Wieczorek 2020).",
		Join: positionNamed},
}

// byPoint counts the localities to one point.
var byPoint = Tallying{Name: "point", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	locality := stated(e.Locality)
	if !e.Positioned || locality == "" {
		return to
	}
	key := strconv.FormatInt(int64(math.Round(e.Lat*1e5)), 36) + "," + strconv.FormatInt(int64(math.Round(e.Lon*1e5)), 36)
	return append(to, book.Tally{Key: key, Bin: shortened(strings.ToLower(strings.TrimSpace(locality)))})
}}

// shortened is a few signs that stand for a text, so that sums do not keep it.
func shortened(s string) string {
	h := fnv.New32a()
	_, _ = h.Write([]byte(s))
	return strconv.FormatUint(uint64(h.Sum32()), 36)
}

func positionMany(_ string, c book.Counts, a *Around) func(*book.Entry, say) {
	if float64(len(c)) <= a.Settings.SamePositions {
		return nil
	}
	return func(e *book.Entry, say say) {
		sayPoint(e, say, "position-many", fmt.Sprintf("stands for %d different localities; it may be the middle of something", len(c)),
			"If it is, say how far off it may be: "+set(short(e.Number), "place.uncertainty", "5 km"))
	}
}

// sayPoint reports a finding of a position.
func sayPoint(e *book.Entry, say say, code, message, hint string) {
	say(place{line: int(e.Lines.Position), field: "place.position"}, words{message, lines(hint, accept(short(e.Number), code))})
}

// byDecimals counts a collector's positions of exactly two decimals by their
// degrees; a bin begins with o when one of the two ends in .60 or more.
var byDecimals = Tallying{Name: "decimals", Of: func(to []book.Tally, e *book.Entry) []book.Tally {
	if !led(e) || !e.Positioned {
		return to
	}
	lat, ok1 := hundredths(e.Lat)
	lon, ok2 := hundredths(e.Lon)
	if !ok1 || !ok2 {
		return to
	}
	if lat%100 >= 60 || lon%100 >= 60 {
		return append(to, book.Tally{Key: e.Who, Bin: "o"})
	}
	return append(to, book.Tally{Key: e.Who, Bin: strconv.Itoa(lat/100) + " " + strconv.Itoa(lon/100)})
}}

// hundredths is the size of an angle in hundredths of a degree; false when it
// is not a whole number of them, or of degrees.
func hundredths(v float64) (int, bool) {
	h := math.Abs(v) * 100
	n := math.Round(h)
	return int(n), math.Abs(h-n) < 1e-7 && int(n)%10 != 0
}

// What shows that decimals are minutes: so many positions, over so many
// degrees. By chance 12 positions end below .60 once in 200,000 times.
const leastMinutes, leastDegrees = 12, 3

func positionMinutes(_ string, c book.Counts, _ *Around) func(*book.Entry, say) {
	if c["o"] > 0 {
		return nil
	}
	all, lats, lons := 0, map[string]bool{}, map[string]bool{}
	for bin, n := range c {
		lat, lon, _ := strings.Cut(bin, " ")
		lats[lat], lons[lon] = true, true
		all += n
	}
	if all < leastMinutes || len(lats) < leastDegrees || len(lons) < leastDegrees {
		return nil
	}
	return func(e *book.Entry, say say) {
		if _, ok := hundredths(e.Lat); !ok {
			return
		}
		sayPoint(e, say, "position-minutes", fmt.Sprintf("all of this collector's %d positions with two decimals end below .60, as minutes do", all),
			"If the label has minutes, write them: 60.42 is 60°42'. Look at all of them together.")
	}
}

func positionNamed(e *book.Entry, a *Around, say say) {
	locality := stated(e.Locality)
	if !e.Positioned || locality == "" || len(a.Museum.Places) == 0 {
		return
	}
	to := a.places().Reckon(locality, georeference.Within{Country: e.Country, Province: e.Province, District: e.District})
	if !to.Known || slices.ContainsFunc(to.Unsaid, func(p georeference.Part) bool { return p.Name == georeference.Extent }) {
		return
	}
	far := geodesy.Distance(e.Lat, e.Lon, to.Lat, to.Lon) - to.Metres - e.Uncertainty
	if far <= 0 {
		return
	}
	message := "lies elsewhere than the words of the locality lead"
	if !secret(e, a) {
		message = "lies " + howFar(far) + " farther from where the locality leads (" + to.From + ", ± " + georeference.Metres(to.Metres) + ") than both radii allow"
	}
	sayPoint(e, say, "position-named", message, "Look at the label, and at the place in places.yaml: it may be another of the name.")
}
