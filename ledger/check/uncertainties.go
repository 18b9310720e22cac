package check

import (
	"math"

	"blotter/ledger"
	"blotter/ledger/geodesy"
	"blotter/ledger/georeference"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

var uncertaintyRules = []Rule{
	{Code: "uncertainty-range", Severity: ledger.Warning,
		Says: "An uncertainty and a GPS accuracy are at least 3 m and no more than half the equator (checks: uncertainty_min, uncertainty_max).",
		Why:  "No hand-held device shows better under the open sky, and nought says nothing. TDWG data quality tests, VALIDATION_COORDINATEUNCERTAINTY_INRANGE, and Chapman & Wieczorek 2020.",
		By:   uncertaintyRange},
	{Code: "uncertainty-fine", Severity: ledger.Warning,
		Says: "An uncertainty is no smaller than what the figures of the position leave open; a GPS accuracy no smaller than a tenth of it.",
		Why:  "Of 60.7, 6.7 nobody knows more than some 12 km. Either figures are missing or the metres are of something else. Error of the figures: Chapman & Wieczorek 2020, uncertainty due to coordinate precision; the tenth: our choice.",
		By:   uncertaintyFine},
	{Code: "position-whole", Severity: ledger.Warning,
		Says: "A position written to seconds or decimals is not whole minutes or whole degrees, unless its uncertainty says so.",
		Why:  "Both falling on whole minutes happens once in 3,600 points: most often they were rounded and noughts put behind.",
		One:  positionWhole},
	{Code: "position-lone-zero", Severity: ledger.Warning,
		Says: "Neither latitude nor longitude is exactly 0.",
		Why:  "On the equator and on the meridian of Greenwich it may be; most often one of the two was not known.",
		One:  positionLoneZero},
	{Code: "datum-unknown", Severity: ledger.Warning,
		Says: "A datum is one that is known here, or the words not recorded.",
		Why:  "A datum that is not known counts as none: the point may be off by some hundred metres.",
		One:  datumUnknown},
}

// stating is a place where a record states metres about its position.
type stating struct {
	leaf   ledger.Leaf
	field  string
	device bool // what a device showed
}

// uncertainties are those about the position that holds.
func uncertainties(d *reading.Reading) []stating {
	var out []stating
	add := func(l ledger.Leaf, field string, device bool) {
		if l.Set() {
			out = append(out, stating{l, field, device})
		}
	}
	if d.Position.FromHand {
		add(d.Position.ByHand.Uncertainty, "read.position.uncertainty", false)
		return out
	}
	add(d.Record.Place.Uncertainty, "place.uncertainty", false)
	add(d.Record.Place.GPSAccuracy, "place.gps_accuracy", true)
	return out
}

// statedUncertainty is the greatest metres that are stated about the position;
// 0: none.
func statedUncertainty(d *reading.Reading) float64 {
	most := 0.0
	for _, u := range uncertainties(d) {
		if x := places.ReadLength(u.leaf.Text); x.Known() {
			most = max(most, x.Max)
		}
	}
	return most
}

func uncertaintyRange(d *reading.Reading, s *Settings, say say) {
	for _, u := range uncertainties(d) {
		x := places.ReadLength(u.leaf.Text)
		if !x.Known() || x.Max >= s.UncertaintyMin && x.Max <= s.UncertaintyMax {
			continue
		}
		n := numberOf(d)
		message, hint := "is more than half the equator", "Look at the label."
		if x.Max < s.UncertaintyMin {
			message = "is less than " + figure(s.UncertaintyMin) + " m, which no hand-held device shows"
			hint = "If nobody stated it, take the line away; with a better device let it stand."
		}
		say(at(u.leaf, u.field), words{message, lines(hint, accept(n, "uncertainty-range"))})
	}
}

func uncertaintyFine(d *reading.Reading, s *Settings, say say) {
	if !d.Position.Known {
		return
	}
	open := d.Position.Read.Precision()
	for _, u := range uncertainties(d) {
		x := places.ReadLength(u.leaf.Text)
		least := open
		if u.device {
			least /= 10
		}
		if !x.Known() || x.Max < s.UncertaintyMin || x.Max >= math.Floor(least) {
			continue
		}
		message := "is finer than the figures of the position bear out"
		if !hidden(d) {
			message += ", which leave " + georeference.Metres(open) + " open"
		}
		n := numberOf(d)
		say(at(u.leaf, u.field), words{message, lines("Look whether figures of the position are missing, or of what the metres are.", accept(n, "uncertainty-fine"))})
	}
}

func positionWhole(d *reading.Reading, say say) {
	p := d.Position.Read
	if !d.Position.Known || p.Lat == 0 && p.Lon == 0 {
		return
	}
	step, what := 1.0, "whole degrees"
	if p.Form == places.DegMin || p.Form == places.DegMinSec {
		step, what = 1.0/60, "whole minutes"
	} else if p.Form != places.Decimal {
		return
	}
	if p.Step >= step*0.99 || !multiple(p.Lat, step) || !multiple(p.Lon, step) {
		return
	}
	open := places.CoordinatePrecision(p.Lat, step)
	if u := statedUncertainty(d); u >= open {
		return
	}
	l, field := positionLeaf(d)
	n := numberOf(d)
	message := "is " + what + " with noughts behind; it looks rounded"
	say(at(l, field), words{message, lines("If it was, say how far off it may be: "+set(n, "place.uncertainty", georeference.Metres(open)), accept(n, "position-whole"))})
}

// multiple reports whether v is a whole number of steps.
func multiple(v, step float64) bool {
	n := v / step
	return math.Abs(n-math.Round(n)) < 1e-7
}

func positionLoneZero(d *reading.Reading, say say) {
	p := d.Position.Read
	if !d.Position.Known || (p.Lat == 0) == (p.Lon == 0) {
		return
	}
	which := "latitude"
	if p.Lon == 0 {
		which = "longitude"
	}
	l, field := positionLeaf(d)
	say(at(l, field), words{"the " + which + " is exactly 0, which is often written when it is not known",
		lines("Look at the label.", accept(numberOf(d), "position-lone-zero"))})
}

func datumUnknown(d *reading.Reading, say say) {
	l := d.Record.Place.Datum
	if stated(l.Text) == "" {
		return
	}
	if _, ok := geodesy.DatumOf(l.Text); ok {
		return
	}
	n := numberOf(d)
	say(at(l, "place.datum"), words{"is no datum that is known here, so the point may be off by some hundred metres",
		lines("If it is one under another name: "+set(n, "place.datum", "WGS84"), accept(n, "datum-unknown"))})
}
