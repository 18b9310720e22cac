package book

import (
	"strings"

	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

const (
	opinionMistake = opinion.Mistake
	opinionNot     = opinion.Not
)

func flagsOf(d *reading.Reading) Flags {
	r := d.Record
	var f Flags
	set := func(g Flags, on bool) {
		if on {
			f |= g
		}
	}
	set(Sensitive, MarkedSensitive(r.Sensitive))
	set(Private, r.Place.Private.Text == "yes")
	set(Imaged, len(r.Images) > 0)
	set(Cultivated, r.Origin.Text == "cultivated" || r.Origin.Text == "planted")
	set(Wild, r.Origin.Text == "wild")
	set(Told, r.Place.Uncertainty.Set() || r.Place.GPSAccuracy.Set() || r.Read.Position.Uncertainty.Set())
	set(KeptSaid, reading.AbsenceOf(r.KeptAs.Text) == reading.Present)
	set(PositionSaid, reading.AbsenceOf(r.Place.Position.Text) == reading.Present)
	set(Disputed, d.Chain.Disputed)
	set(Filed, d.Chain.Filed)
	set(Mixed, len(r.Parts) > 1)
	for _, t := range d.Types {
		set(Typed, t.Holds())
	}
	for _, a := range r.Annotations {
		set(Questioned, a.Kind.Text == "question")
	}
	for _, c := range d.Cautions {
		set(Treated, c.Treated())
		set(Cautioned, !c.Treated())
	}
	for _, p := range r.Phenology {
		w := strings.ToLower(p.Text)
		set(Flower, strings.HasPrefix(w, "flower"))
		set(Fruit, strings.HasPrefix(w, "fruit") || strings.HasPrefix(w, "seed"))
	}
	named := 0
	for i := range d.Opinions {
		set(Mixed, d.Opinions[i].Given.Part.Set())
		if d.Opinions[i].Kind == opinion.Det && d.Opinions[i].State != opinion.Mistake {
			named++
		}
	}
	set(Redet, named > 1)
	return f
}
