package check

import (
	"blotter/ledger"
	"blotter/ledger/reading"
)

var bareRules = []Rule{
	{Code: "gathering-bare", Severity: ledger.Warning,
		Says: "A sheet without a collector's number has a date and a place.",
		Why:  "Collector, number, day and place are how one gathering is told from another and its duplicates are found. Without a number, a day or a place there is only the plant. The field book or the collector's other sheets may help.",
		One:  gatheringBare},
}

func gatheringBare(d *reading.Reading, say say) {
	r := d.Record
	if !d.Full() || d.Fate != "" || stated(r.CollNo.Text) != "" || stated(r.Collector.Text) == "" ||
		!r.Date.Set() || r.Place == (ledger.Place{}) {
		return // of what is missing field-missing tells
	}
	missing := ""
	switch {
	case !d.Date.Known && reading.AbsenceOf(r.Date.Text) != reading.Present:
		missing = "date"
	case stated(r.Place.Locality.Text) == "" && stated(r.Place.District.Text) == "" && !d.Position.Known:
		missing = "place"
	default:
		return
	}
	say(place{line: int(r.Specimen.Line), field: "coll_no"}, words{"has neither a collector's number nor a " + missing + ", so its duplicates cannot be found",
		lines("Look for the "+missing+" in the field book or on the collector's other sheets.", accept(numberOf(d), "gathering-bare"))})
}
