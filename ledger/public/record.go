package public

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// shown is what may be seen of a withheld record. Anything else is not.
var shown = map[string]bool{
	"specimen": true, "entry": true, "kept_as": true, "parts.part": true, "parts.number": true, "parts.fate": true,
	"cover_name": true, "family": true, "collector": true, "with": true,
	"place.country": true, "place.province": true,
	"description": true, "phenology": true, "abundance": true, "origin": true, "cautions": true,
	"determinations.name": true, "determinations.kind": true, "determinations.by": true, "determinations.at": true,
	"determinations.date": true, "determinations.from": true, "determinations.seen": true, "determinations.part": true,
	"determinations.source": true, "determinations.why": true, "determinations.mistake": true,
	"filed_under.name": true, "filed_under.by": true, "filed_under.date": true, "filed_under.why": true,
	"types.status": true, "types.of": true, "types.published": true, "types.basis": true, "types.by": true,
	"types.date": true, "types.part": true, "types.mistake": true,
	"annotations.kind": true, "annotations.by": true, "annotations.date": true,
	"images.file": true, "images.shows": true, "images.photographer": true, "images.licence": true, "images.public": true, "images.safe": true,
	"checked.by": true, "checked.date": true,
	"sensitive.why": true, "sensitive.category": true, "sensitive.review": true, "sensitive.by": true, "sensitive.date": true,
	"fate.is": true, "fate.by": true, "fate.date": true,
}

// Hides reports whether the field at a dotted path is withheld when the
// record is. A picture that is not marked safe, and a determination's date
// that is that of the gathering, are withheld besides.
func Hides(path string) bool { return !shown[withoutNumbers(path)] }

func withoutNumbers(path string) string {
	parts := strings.Split(path, ".")
	parts = slices.DeleteFunc(parts, func(p string) bool { return strings.Trim(p, "0123456789") == "" })
	return strings.Join(parts, ".")
}

// rewrite is r with questions left out, persons by initials, numbers of
// withheld records left out of its links and, when w is not nil, only what
// may be seen; w then gets the fields that it does not show.
func (v *View) rewrite(r *ledger.Record, w *Withheld) *ledger.Record {
	c := *r
	c.Annotations = slices.DeleteFunc(slices.Clone(r.Annotations), func(a ledger.Annotation) bool { return a.Kind.Text == "question" })
	c.SameGathering = v.linked(r.SameGathering)
	c.SharesSheet = v.linked(r.SharesSheet)
	if w == nil && v.initials.none() {
		return &c
	}
	if w != nil {
		if images := slices.DeleteFunc(slices.Clone(r.Images), func(i ledger.Image) bool { return i.Safe.Text != "yes" }); len(images) < len(r.Images) {
			w.Fields = append(w.Fields, "images")
			c.Images = images
		}
		c.Determinations = slices.Clone(r.Determinations)
		for i := range c.Determinations {
			if d := &c.Determinations[i]; ofGathering(d, r) {
				d.Date = ledger.Leaf{}
				w.Fields = append(w.Fields, nth("determinations", i)+".date")
			}
		}
	}
	var kept []ledger.KV
	for _, kv := range ledger.Flatten(&c) {
		if w != nil && Hides(kv.Key) {
			w.Fields = append(w.Fields, kv.Key)
			continue
		}
		kv.Value = v.initials.field(kv.Key, kv.Value)
		kept = append(kept, kv)
	}
	out, err := ledger.Unflatten(kept)
	if err != nil { // the fields came out of a record, so they make one
		out = &ledger.Record{Specimen: r.Specimen, Entry: r.Entry}
	}
	out.Path = r.Path
	return out
}

// ofGathering reports whether a determination's date tells that of the
// gathering.
func ofGathering(d *ledger.Determination, r *ledger.Record) bool {
	if !d.Date.Set() {
		return false
	}
	if d.From.Text == "label" || d.Date.Text == r.Date.Text {
		return true
	}
	a, b := dates.Read(d.Date.Text, dates.Ask), dates.Read(r.Date.Text, dates.Ask)
	hand := dates.Read(r.Read.Date.Is.Text, dates.Ask)
	return a.Known() && (a.Overlaps(b) || a.Overlaps(hand))
}

// linked is a list of numbers without those of withheld records.
func (v *View) linked(list []ledger.Leaf) []ledger.Leaf {
	if len(list) == 0 || len(v.withheld)+len(v.held) == 0 {
		return list
	}
	return slices.DeleteFunc(slices.Clone(list), func(l ledger.Leaf) bool { return v.Hidden(ledger.Number(l.Text)) })
}
