package check

import (
	"fmt"
	"math"

	"blotter/ledger"
	"blotter/ledger/places"
	"blotter/ledger/reading"
)

var lengthRules = []Rule{
	{Code: "elevation-unit", Severity: ledger.Warning,
		Says: "An elevation has its unit.",
		Why:  "1150 may be metres or feet, and old maps of one country have both. Without a unit it is taken as metres.",
		One:  elevationUnit},
	{Code: "elevation-unread", Severity: ledger.Warning,
		Says: "An elevation can be read as a height, for example 348 m or 1200 ft.",
		Why:  "An elevation that the program cannot read is kept and printed as it is, and is exported as words only.",
		One:  elevationUnread},
	{Code: "length-unread", Severity: ledger.Warning,
		Says: "A depth, an uncertainty and a GPS accuracy can be read as a length with its unit.",
		Why:  "An uncertainty that cannot be read makes a point look exact.",
		One:  lengthUnread},
}

func elevationUnit(d *reading.Reading, say say) {
	e := d.Elevation
	if e.FromHand || !e.Written.Known() || e.Written.Unit != places.NoUnit || e.Written.Max == 0 {
		return
	}
	if lowest, highest, _, known := heights(d); known && e.Read.OnlyAsFeet(lowest-belowLowest, highest+aboveHighest) {
		return // elevation-feet says so
	}
	n, l := numberOf(d), d.Record.Place.Elevation
	message := "has no unit; it is taken as metres until someone settles it"
	hint := "Write what the label has, for example: elevation: 348 m"
	if !hidden(d) {
		message = fmt.Sprintf("has no unit; it is taken as metres, and as feet it would be %.0f m", e.Written.Mid()*0.3048)
		hint = lines("If the label has the unit: "+set(n, "place.elevation", l.Text+" m"),
			"If feet are meant: blotter set "+n+" elevation-read="+quoted(l.Text+" ft")+" --why TEXT")
	}
	say(at(l, "place.elevation"), words{message, lines(hint, accept(n, "elevation-unit"))})
}

func elevationUnread(d *reading.Reading, say say) {
	e := d.Elevation
	if e.Absence != reading.Unread || !d.Record.Place.Elevation.Set() {
		return
	}
	n := numberOf(d)
	say(at(d.Record.Place.Elevation, "place.elevation"), words{"cannot be read as a height",
		lines("If it can be settled: blotter set "+n+" elevation-read=\"FIGURE m\" --why TEXT", accept(n, "elevation-unread"))})
}

func lengthUnread(d *reading.Reading, say say) {
	r := d.Record
	for _, f := range []struct {
		l     ledger.Leaf
		field string
	}{
		{r.Depth, "depth"}, {r.Place.GPSAccuracy, "place.gps_accuracy"}, {r.Place.Uncertainty, "place.uncertainty"},
		{r.Read.Position.Uncertainty, "read.position.uncertainty"},
	} {
		if !f.l.Set() || reading.AbsenceOf(f.l.Text) != reading.Present {
			continue
		}
		x := places.ReadLength(f.l.Text)
		if f.field == "depth" {
			x = places.ReadDepth(f.l.Text)
		}
		switch {
		case !x.Known() && x.None == places.Stated:
			say(at(f.l, f.field), words{"cannot be read as a length", "Write for example: 8 m. " + accept(numberOf(d), "length-unread")})
		case x.Known() && x.Unit == places.NoUnit && math.Abs(x.Max) > 0:
			say(at(f.l, f.field), words{"has no unit; it is taken as metres",
				lines(set(numberOf(d), f.field, f.l.Text+" m"), accept(numberOf(d), "length-unread"))})
		}
	}
}
