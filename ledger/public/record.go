package public

import (
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/reading"
)

// Record is what everybody may see of one version of a record, which may be
// any version in its history: it is withheld when the present record is, or
// when that version itself is marked, grew in a marked place or has a marked
// name. Withheld is nil when all of it may be seen. What is shown instead of
// the position and the day stands under read. r stays as it is.
func (v *View) Record(r *ledger.Record) (*ledger.Record, *Withheld) {
	if v.staff {
		return r, nil
	}
	w := v.Why(r)
	if w == nil {
		return v.open(r), nil
	}
	return v.hold(r, w), w
}

// Published is Record as a file that may be public: words that are withheld
// are replaced by their sentence, so that none is blank.
func (v *View) Published(r *ledger.Record) (*ledger.Record, *Withheld) {
	out, w := v.Record(r)
	if w != nil {
		out = w.filled
	}
	return out, w
}

// open is a record that is not withheld, without what is the staff's.
func (v *View) open(r *ledger.Record) *ledger.Record {
	c := *r
	v.staffless(&c)
	if v.initials.none() {
		return &c
	}
	kvs := ledger.Flatten(&c)
	for i := range kvs {
		kvs[i].Value = v.initials.field(kvs[i].Key, kvs[i].Value)
	}
	return made(kvs, r)
}

// staffless takes out of c what no record has in public; a test holds it to
// the decisions.
func (v *View) staffless(c *ledger.Record) {
	c.Permit, c.Sic, c.Import = ledger.Leaf{}, nil, nil
	if tellsDonor(c.Accession.Text) {
		c.Accession = ledger.Leaf{}
	}
	if slices.ContainsFunc(c.Parts, func(p ledger.Part) bool { return p.Where.Set() }) {
		c.Parts = slices.Clone(c.Parts)
		for i := range c.Parts {
			c.Parts[i].Where = ledger.Leaf{}
		}
	}
	if slices.ContainsFunc(c.Annotations, isQuestion) {
		c.Annotations = slices.DeleteFunc(slices.Clone(c.Annotations), isQuestion)
	}
	c.Images = inside(c.Images)
	c.SameGathering = v.linked(c.SameGathering)
	c.SharesSheet = v.linked(c.SharesSheet)
}

func isQuestion(a ledger.Annotation) bool { return a.Kind.Text == "question" }

var plainAccession = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\pL{0,6}[-./ ]?[0-9][-0-9./ ]*\pL?$`) })

// tellsDonor reports whether an accession is more than a number: words beside
// it may name who gave or sold the plants, or where they live.
func tellsDonor(accession string) bool {
	return accession != "" && !plainAccession().MatchString(accession)
}

// linked is a list of numbers without those of withheld records.
func (v *View) linked(list []ledger.Leaf) []ledger.Leaf {
	if len(list) == 0 || len(v.withheld)+len(v.held) == 0 {
		return list
	}
	return slices.DeleteFunc(slices.Clone(list), func(l ledger.Leaf) bool { return v.Hidden(ledger.Number(l.Text)) })
}

// made is the record that kvs make, which came out of r.
func made(kvs []ledger.KV, r *ledger.Record) *ledger.Record {
	out, err := ledger.Unflatten(kvs)
	if err != nil { // the fields came out of a record, so they make one
		out = &ledger.Record{Specimen: r.Specimen, Entry: r.Entry}
	}
	out.Path = r.Path
	return out
}

// hold is a withheld record without what w withholds; w gets the fields that
// it does not show, the square, and the record with sentences.
func (v *View) hold(r *ledger.Record, w *Withheld) *ledger.Record {
	date, pos := reading.PositionOf(r, v.full.Museum.Conventions)
	if pos.Known {
		w.Cell = CellOf(pos.Lat, pos.Lon, pos.Radius(), w.Class)
	}
	c := *r
	v.staffless(&c)
	c.Images = inside(v.images(r.Images, w, v.telltaleOf(r, date, w.Class)))
	early := v.early(r, date, w.Class)
	var kept []ledger.KV
	f := &filling{w: w, entries: map[string]string{}, lists: map[string]int{}}
	for _, kv := range ledger.Flatten(&c) {
		if v.hides(kv.Key, w.Class) || early(kv) {
			w.Fields = append(w.Fields, kv.Key)
			f.hidden(kv.Key)
			continue
		}
		kv.Value = v.initials.field(kv.Key, kv.Value)
		kept = append(kept, kv)
		f.kept(kv)
	}
	instead := w.instead(date)
	w.filled = made(append(f.out, instead...), r)
	return made(append(kept, instead...), r)
}

// images are the pictures that may be shown of a withheld record: those that
// show no label, and copies on which the label is masked, unless the name of
// the file tells what is withheld. w counts the others.
func (v *View) images(all []ledger.Image, w *Withheld, t telltale) []ledger.Image {
	var out []ledger.Image
	for _, im := range all {
		switch {
		case im.Safe.Text == "yes":
		case im.Public.Set() && !slices.ContainsFunc(all, func(o ledger.Image) bool { return o.Safe.Text != "yes" && o.File.Text == im.Public.Text }):
			im.File = im.Public
		default:
			if w.Pictures++; w.Pictures == 1 {
				w.Fields = append(w.Fields, "images")
			}
			continue
		}
		if t.in(im.File.Text) || t.in(im.Public.Text) {
			if w.Pictures++; w.Pictures == 1 {
				w.Fields = append(w.Fields, "images")
			}
			continue
		}
		out = append(out, im)
	}
	return out
}

// aboutThen is how many days after the gathering a date still tells it: what
// is noted on a sheet in its first year (common practice, no source).
const aboutThen = 400

// early reports of a field whether it is a day that tells that of gathering:
// the label's, or one soon after it.
func (v *View) early(r *ledger.Record, gathered reading.Date, c Class) func(ledger.KV) bool {
	if c.Dated() {
		return func(ledger.KV) bool { return false }
	}
	label := map[string]bool{}
	for i := range r.Determinations {
		label[nth("determinations", i)+".date"] = r.Determinations[i].From.Text == "label"
	}
	order := v.full.Museum.Conventions.Order
	return func(kv ledger.KV) bool {
		if !strings.HasSuffix(kv.Key, ".date") || reading.AbsenceOf(kv.Value) != reading.Present {
			return false
		}
		if label[kv.Key] || kv.Value == r.Date.Text {
			return true
		}
		if !gathered.Known { // words that cannot be read may name any day
			return reading.AbsenceOf(r.Date.Text) == reading.Present
		}
		d := dates.Read(kv.Value, order)
		return !d.Known() || d.OpenStart || int(d.First)-int(gathered.Last) < aboutThen
	}
}

// instead is what stands under read for what is withheld: the centre of the
// square, and of the class High the year.
func (w *Withheld) instead(date reading.Date) []ledger.KV {
	var out []ledger.KV
	add := func(what, is, uncertainty, from string) {
		for _, kv := range []ledger.KV{{Key: "is", Value: is}, {Key: "uncertainty", Value: uncertainty}, {Key: "by", Value: "unsigned"}, {Key: "date", Value: "s.d."}, {Key: "from", Value: from}} {
			if kv.Value != "" {
				out = append(out, ledger.KV{Key: "read." + what + "." + kv.Key, Value: kv.Value})
			}
		}
	}
	if y, ok := w.year(date); ok {
		add("date", strconv.Itoa(y), "", "day and month are withheld")
	}
	if w.Cell != nil {
		add("position", w.Cell.Point(), strconv.Itoa(int(w.Cell.Metres))+" m", w.Generalized())
	}
	return out
}

// year is the year that may be shown in the place of a day.
func (w *Withheld) year(date reading.Date) (int, bool) {
	if w.Class != High || !date.Known || date.First.Year() != date.Last.Year() {
		return 0, false
	}
	return date.First.Year(), true
}
