package check

import (
	"fmt"
	"math"
	"strings"

	"blotter/ledger"
	"blotter/ledger/land"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

// No model of the terrain is embedded, so an elevation is held against its
// country alone, not against the height of the land where its point lies.
var elevationRules = []Rule{
	{Code: "elevation-range", Severity: ledger.Warning,
		Says: "An elevation lies between 430 m below the sea and 8,850 m above it (checks: elevation_min, elevation_max).",
		Why:  "There is no land outside; feet were taken for metres, or a figure is mistyped.",
		By:   elevationRange},
	{Code: "elevation-feet", Severity: ledger.Warning,
		Says: "An elevation in metres is one that its country has, and not one that it has only in feet.",
		Why:  "Feet typed as metres make hills into mountains. Highest and lowest points: The World Factbook; a hundred metres above and ten below are allowed, our choice.",
		By:   elevationFeet},
	{Code: "elevation-country", Severity: ledger.Warning,
		Says: "An elevation is one that its country has.",
		Why:  "A figure is mistyped, or the country is wrong. Highest and lowest points: The World Factbook; a hundred metres above and ten below are allowed, our choice.",
		By:   elevationCountry},
	{Code: "depth-range", Severity: ledger.Warning,
		Says: "A depth lies between 0 and 11,000 m (checks: depth_max).",
		Why:  "No sea is deeper, and above the water a plant has an elevation. TDWG data quality tests, VALIDATION_MINDEPTH_INRANGE.",
		By:   depthRange},
	{Code: "length-order", Severity: ledger.Warning,
		Says: "Of two figures of an elevation or depth the smaller stands first.",
		Why:  "The other way round one of them is often mistyped. TDWG data quality tests, VALIDATION_MINELEVATION_LESSTHAN_MAXELEVATION.",
		One:  func(d *reading.Reading, say say) { lengthWarning(d, say, "length-order", "length-order") }},
	{Code: "length-doubt", Severity: ledger.Warning,
		Says: "An elevation, depth or uncertainty can be taken in one way only.",
		Why:  "A point may part thousands or decimals, two figures or two units may not agree, a row of nines is what forms write for nothing. The reading says what was taken.",
		One: func(d *reading.Reading, say say) {
			lengthWarning(d, say, "length-doubt", "length-sentinel", "length-thousands", "length-two", "length-two-units", "length-old-unit")
		}},
}

// elevationLeaf is where the elevation that holds stands.
func elevationLeaf(d *reading.Reading) (ledger.Leaf, string) {
	if d.Elevation.FromHand {
		return d.Elevation.ByHand.Is, "read.elevation.is"
	}
	return d.Record.Place.Elevation, "place.elevation"
}

// high reports whether no land is as high, or as low.
func high(d *reading.Reading, s *Settings) bool {
	e := d.Elevation
	return e.Known && (e.Read.Min < s.ElevationMin || e.Read.Max > s.ElevationMax)
}

func elevationRange(d *reading.Reading, s *Settings, say say) {
	if !high(d, s) {
		return
	}
	message := "is a height that no land has"
	if d.Elevation.Read.OnlyAsFeet(s.ElevationMin, s.ElevationMax) {
		message += "; as feet it would be possible"
	}
	l, field := elevationLeaf(d)
	say(at(l, field), words{message, "Look at the label. " + accept(numberOf(d), "elevation-range")})
}

// The metres that an elevation may lie above the highest and below the lowest
// point of its country: points are measured anew, tides fall. Our choice.
const aboveHighest, belowLowest = 100, 10

// heights are the ends of the land of the countries that a record names, and
// which country that is; not known when it names none or one that has none.
func heights(d *reading.Reading) (lowest, highest float64, name string, known bool) {
	lowest, highest = math.Inf(1), math.Inf(-1)
	codes := countriesOf(d)
	for _, c := range codes {
		low, top, ok := land.Heights(c)
		if !ok {
			return 0, 0, "", false
		}
		lowest, highest, known = min(lowest, low), max(highest, top), true
	}
	if len(codes) == 1 {
		return lowest, highest, called(codes[0]), known
	}
	return lowest, highest, d.Country.Words, known
}

func elevationFeet(d *reading.Reading, s *Settings, say say) {
	lowest, highest, name, known := heights(d)
	e := d.Elevation
	if !known || !e.Known || high(d, s) || !e.Read.OnlyAsFeet(lowest-belowLowest, highest+aboveHighest) {
		return
	}
	l, field := elevationLeaf(d)
	n := numberOf(d)
	message := "is higher than any land in " + name + "; as feet it would fit"
	hint := "If the label has feet, write it as it has it: elevation: FIGURE ft"
	if !hidden(d) {
		hint = lines("If the label has feet: "+set(n, "place.elevation", plainFeet(e.Read)),
			"or, if it has metres by mistake: blotter set "+n+" elevation-read="+quoted(fmt.Sprintf("%.0f m", e.Read.AsFeet().Mid()))+" --why TEXT")
	}
	say(at(l, field), words{message, lines(hint, accept(n, "elevation-feet"))})
}

// plainFeet is a length in metres or without a unit, its figures as feet.
func plainFeet(l places.Length) string {
	if l.Min == l.Max {
		return fmt.Sprintf("%.0f ft", l.Max)
	}
	return fmt.Sprintf("%.0f-%.0f ft", l.Min, l.Max)
}

func elevationCountry(d *reading.Reading, s *Settings, say say) {
	lowest, highest, name, known := heights(d)
	e := d.Elevation
	if !known || !e.Known || high(d, s) || e.Read.OnlyAsFeet(lowest-belowLowest, highest+aboveHighest) {
		return
	}
	var message string
	switch {
	case e.Read.Above(highest + aboveHighest):
		message = fmt.Sprintf("is higher than any land in %s, whose highest point is %.0f m", name, highest)
	case e.Read.Below(lowest - belowLowest):
		message = fmt.Sprintf("is lower than any land in %s, whose lowest point is %.0f m", name, lowest)
	default:
		return
	}
	l, field := elevationLeaf(d)
	n := numberOf(d)
	say(at(l, field), words{message, lines("Look at the label, and whether the country is right. A depth below water is a depth.",
		"If it was misread: blotter set "+n+" elevation-read=\"FIGURE m\" --why TEXT", accept(n, "elevation-country"))})
}

func depthRange(d *reading.Reading, s *Settings, say say) {
	l := d.Record.Depth
	if !l.Set() {
		return
	}
	if x := places.ReadDepth(l.Text); x.Known() && (x.Min < 0 || x.Max > s.DepthMax) {
		say(at(l, "depth"), words{"is a depth that no sea has", lines("Look at the label: is the unit right?", accept(numberOf(d), "depth-range"))})
	}
}

// lengthWarning passes on under code what the reader of lengths says under
// one of from.
func lengthWarning(d *reading.Reading, say say, code string, from ...string) {
	p := &d.Record.Place
	tell := func(x places.Length, l ledger.Leaf, field string) {
		for _, w := range x.Warnings {
			for _, f := range from {
				if w.Code != f {
					continue
				}
				message := w.Message
				if hidden(d) {
					message = "can be taken in more than one way"
				}
				say(at(l, field), words{message, lines("Look at the label.", accept(numberOf(d), code))})
			}
		}
	}
	e := d.Elevation
	switch {
	case e.FromHand:
		tell(e.Read, e.ByHand.Is, "read.elevation.is")
	case p.Elevation.Set():
		tell(e.Written, p.Elevation, "place.elevation")
	}
	if l := d.Record.Depth; l.Set() {
		tell(places.ReadDepth(l.Text), l, "depth")
	}
	for _, u := range uncertainties(d) {
		if !plainLength(u.leaf.Text) {
			tell(places.ReadLength(u.leaf.Text), u.leaf, u.field)
		}
	}
}

// plainLength reports whether words are a short figure with m or km behind,
// as most are: nothing about them is in doubt, and they are read often enough.
func plainLength(s string) bool {
	figure, unit, ok := strings.Cut(s, " ")
	return ok && (unit == "m" || unit == "km") && len(figure) < 4 && strings.Trim(figure, "012345678") == "" && figure != ""
}
