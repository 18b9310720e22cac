package check

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/people"
	"blotter/ledger/reading"
)

var wordsRules = []Rule{
	{Code: "none-words", Severity: ledger.Warning,
		Says: "Where the label has nothing, a record has one of the words for none: s.d., s.n., unknown, not recorded, unsigned; illegible; not yet typed.",
		Why:  "None on the label, not legible and not yet typed are three different things. Other words for them are printed and published as if they stood on the label.",
		One:  noneWords},
	{Code: "collector-number", Severity: ledger.Warning,
		Says: "The collector's number stands in its own field, not behind the collectors.",
		Why:  "Rask 1218 as a collector is another person than Rask: the sheet stands in no series, finds no duplicates, and nobody finds it by its number.",
		One:  collectorNumber},
	{Code: "parts-one", Severity: ledger.Warning,
		Says: "Parts are listed only when a specimen has more than one.",
		Why:  "A list of one part says that another is missing from it.",
		One:  partsOne},
	{Code: "label-lacks", Severity: ledger.Warning, NewOnly: true,
		Says: "The record of a new gathering has what every label needs: country (or position), locality and collector's number.",
		Why:  "Whoever collects today can write them down; in fifty years nobody can. Where there is none, write its word: not recorded, s.n. Older labels lack what they lack (new_from under checks).",
		One:  labelLacks},
	{Code: "garden-missing", Severity: ledger.Warning,
		Says: "A cultivated plant names its garden.",
		Why:  "Without the garden the place reads as if the plant grew there by itself. Its wild source_place makes it worth more.",
		One:  gardenMissing},
}

func noneWords(d *reading.Reading, say say) {
	r := d.Record
	check := func(l ledger.Leaf, field string) {
		want := reading.NearNone(l.Text)
		if want == "" {
			return
		}
		say(at(l, field), words{"reads as words of the label; if it says that there is nothing, write it as the ledger does",
			set(numberOf(d), field, want)})
	}
	check(r.Collector, "collector")
	check(r.CollNo, "coll_no")
	check(r.Date, "date")
	check(r.Place.Country, "place.country")
	check(r.Place.Province, "place.province")
	check(r.Place.District, "place.district")
	check(r.Place.Locality, "place.locality")
	check(r.Place.Position, "place.position")
	check(r.Place.Elevation, "place.elevation")
	check(r.Habitat, "habitat")
	for i := range r.Determinations {
		det := &r.Determinations[i]
		if reading.NearNone(det.By.Text) != "" || reading.NearNone(det.Date.Text) != "" {
			check(det.By, nth("determinations", i, "by"))
			check(det.Date, nth("determinations", i, "date"))
		}
	}
}

func partsOne(d *reading.Reading, say say) {
	if p := d.Record.Parts; len(p) == 1 {
		say(at(p[0].Part, "parts.1.part"), words{"is the only part listed, so another seems to be missing",
			"Add the other part, or take the lines of parts away. " + accept(numberOf(d), "parts-one")})
	}
}

func gardenMissing(d *reading.Reading, say say) {
	if o := d.Record.Origin; d.Full() && o.Text == "cultivated" && !d.Record.Garden.Set() {
		say(at(o, "origin"), words{"nothing says in which garden, so the place reads as if it grew there by itself",
			set(numberOf(d), "garden", "GARDEN")})
	}
}

// numberAmong is the collector's number that stands behind the collectors, and
// their words without it; "" when there is none.
func numberAmong(d *reading.Reading) (team, number string) {
	text := d.Record.Collector.Text
	if !strings.ContainsAny(text, "0123456789") {
		return text, ""
	}
	number = people.ReadTeam(text).Number
	if number == "" || !strings.HasSuffix(text, number) {
		return text, ""
	}
	return strings.TrimRight(strings.TrimSuffix(text, number), " ,;"), number
}

func collectorNumber(d *reading.Reading, say say) {
	team, number := numberAmong(d)
	if number == "" {
		return
	}
	n, no := numberOf(d), d.Record.CollNo
	if reading.AbsenceOf(no.Text) == reading.Present && strings.TrimSpace(no.Text) != number {
		return // Group 1 has its number in its field
	}
	hint := "Each in its field: blotter set " + n + " collector=" + quoted(team) + " coll_no=" + quoted(number) + " --why TEXT"
	say(at(d.Record.Collector, "collector"), words{"ends in the collector's number, so the sheet is not found by it and its collector is another person",
		lines(hint, accept(n, "collector-number"))})
}

func labelLacks(d *reading.Reading, say say) {
	r := d.Record
	if !d.Full() || d.Fate != "" || r.Origin.Text == "cultivated" || r.Place == (ledger.Place{}) || !r.Collector.Set() {
		return // field-missing says so
	}
	var lacks, field string
	hint := []string{}
	for _, f := range []struct {
		l                    ledger.Leaf
		field, called, value string
	}{{r.Place.Country, "place.country", "country", "COUNTRY"}, {r.Place.Locality, "place.locality", "locality", "PLACE"}, {r.CollNo, "coll_no", "collector's number", "NUMBER"}} {
		if f.field == "coll_no" {
			if _, number := numberAmong(d); number != "" {
				continue // collector-number says so
			}
		}
		if !f.l.Set() && (f.called != "country" || !d.Position.Known) {
			if lacks != "" {
				lacks += " and no "
			} else {
				field = f.field
			}
			lacks += f.called
			hint = append(hint, "From the label: "+set(numberOf(d), f.field, f.value))
		}
	}
	if lacks != "" {
		say(place{line: int(r.Specimen.Line), field: field}, words{"has no " + lacks + ", and a label of today needs it",
			lines(append(hint, accept(numberOf(d), "label-lacks"))...)})
	}
}
