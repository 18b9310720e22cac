package public_test

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
)

const policyNames = `family: Orchidaceae
names:
  - {name: Cypripedium calceolus L., sensitive: {why: dug up, category: "2"}}
  - {name: Pseudorchis albida (L.) Á.Löve & D.Löve, sensitive: {why: dug up, category: "1", date: 2016-05-02}}
  - {name: Gymnadenia albida (L.) Rich., of: Pseudorchis albida (L.) Á.Löve & D.Löve}
  - {name: Dactylorhiza maculata (L.) Soó}
  - {name: Orchis maculata L., of: Dactylorhiza maculata (L.) Soó, sensitive: {why: picked, category: "4"}}
  - {name: Dactylorhiza fuchsii (Druce) Soó}
  - {name: Epipogium Borkh., sensitive: {why: trampled, category: "3"}}
  - {name: Listera cordata (L.) R.Br., sensitive: {why: once thought rare, category: "2", date: 2001, released: {why: it is common, by: Tiril Aune, date: 2020-01-01}}}
`

const policyOthers = `family: Cactaceae
names:
  - {name: Cactaceae, sensitive: {why: dug up, category: "3"}}
  - {name: Opuntia humifusa (Raf.) Raf.}
`

const policyPlaces = `places:
  - {name: Trollabotn fen, place: {position: "60.70, 6.65", datum: WGS84, uncertainty: 10 m}, extent: 500 m, sensitive: {why: the reserve asks for it, category: "2"}}
  - {name: Rask's garden, place: {position: "60.60, 6.40", datum: WGS84, uncertainty: 10 m, private: "yes"}, extent: 40 m}
  - {name: Raundal chapel, place: {position: "60.72, 6.66", datum: WGS84}}
`

// policyView is the view of one record in a museum with the lists above.
func policyView(t testing.TB, record, settings string) (*public.View, *ledger.Record) {
	t.Helper()
	files := map[string]string{
		"blotter.yaml":           "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n" + settings,
		"names/Orchidaceae.yaml": policyNames, "names/Cactaceae.yaml": policyOthers, "places.yaml": policyPlaces,
		"specimens/000/00/LK7-0000001.yaml": "specimen: LK7-0000001\nentry: full\ncollector: Rask\n" + record,
	}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range b.Museum.Findings {
		t.Fatalf("the lists are not in order: %v", f)
	}
	r, err := b.Loader(src, nil).Record(context.Background(), b.Find("LK7-0000001"))
	if err != nil {
		t.Fatal(err)
	}
	return public.Of(b), r
}

func det(name string) string { return "  - {name: \"" + name + "\", by: Rask, date: 1999-07-01}\n" }

// TestPolicy: what withholds a record, and how strictly.
func TestPolicy(t *testing.T) {
	dets := func(names ...string) string {
		out := "determinations:\n"
		for _, n := range names {
			out += det(n)
		}
		return out
	}
	const mark = "sensitive: {why: w, category: \"%s\", date: 2010-01-01%s}\n"
	released := func(on string) string { return ", released: {why: seen, by: Rask, date: " + on + "}" }
	for _, c := range []struct {
		name, record string
		class        public.Class
		reason       string
	}{
		{"ordinary", dets("Ranunculus acris L."), public.Open, "nothing is marked"},
		{"own mark", fmt.Sprintf(mark, "3", ""), public.Medium, "the record's own"},
		{"no category", "sensitive: {why: w}\n", public.Extreme, "held as strictly as 1"},
		{"unknown category", "sensitive: {why: w, category: \"7\"}\n", public.Extreme, "held as strictly as 1"},
		{"mark without why", "sensitive: {category: \"4\"}\n", public.Low, "a mark that lacks its reason still protects"},
		{"species", dets("Cypripedium calceolus"), public.High, "without authors"},
		{"infraspecific", dets("Cypripedium calceolus var. x"), public.High, "lies below a marked species"},
		{"qualifier", dets("Cypripedium cf. calceolus"), public.High, "qualifiers aside"},
		{"doubt", dets("Cypripedium calceolus?"), public.High, "doubt aside"},
		{"aff.", dets("Cypripedium aff. calceolus"), public.High, "akin to it"},
		{"once", dets("Cypripedium calceolus", "Ranunculus acris"), public.High, "it bore the name once"},
		{"strictest", dets("Cypripedium calceolus", "Pseudorchis albida"), public.Extreme, "the strictest of several"},
		{"synonym", dets("Gymnadenia albida"), public.Extreme, "a synonym of a marked name"},
		{"below a synonym", dets("Gymnadenia albida subsp. straminea"), public.Extreme, "lies below a synonym of one"},
		{"marked synonym", dets("Dactylorhiza maculata"), public.Low, "the mark stands at its synonym"},
		{"genus of a species", dets("Cypripedium sp."), public.High, "may be the marked one"},
		{"genus of a synonym", dets("Gymnadenia"), public.Extreme, "may be the marked one under its other name"},
		{"genus of a marked synonym", dets("Orchis sp."), public.Low, "may be the one whose synonym is marked"},
		{"other species of the genus", dets("Dactylorhiza fuchsii"), public.Open, "another species"},
		{"section", dets("Cypripedium sect. Cypripedium"), public.High, "goes no further than the genus"},
		{"marked genus", dets("Epipogium aphyllum Sw."), public.Medium, "the genus above it is marked"},
		{"marked genus alone", dets("Epipogium"), public.Medium, "the genus itself"},
		{"marked family", dets("Opuntia humifusa"), public.Medium, "the family above it is marked"},
		{"marked family, unlisted species", dets("Opuntia ficus-indica"), public.Medium, "its genus stands in the marked family"},
		{"marked family alone", dets("Cactaceae indet."), public.Medium, "the family itself"},
		{"family as written", "family: Cactaceae\n" + dets("Mammillaria elongata"), public.Medium, "names/ does not know the genus; the record names the family"},
		{"family of a marked species", dets("Orchidaceae"), public.Open, "a family name does not say the genus"},
		{"hybrid parent", dets("Cypripedium calceolus × Cypripedium macranthos"), public.High, "one parent is marked"},
		{"hybrid genus", dets("Pseudorchis albida × Gymnadenia conopsea"), public.Extreme, "one parent is marked"},
		{"unlisted hybrid", dets("Cypripedium × ventricosum"), public.High, "any species of its genus may be a parent"},
		{"A or B", dets("Ranunculus acris or Cypripedium calceolus"), public.High, "it may be the second"},
		{"looked and not", "determinations:\n  - {name: Cypripedium calceolus, kind: not, by: Rask, date: s.d.}\n", public.Open, "it is said not to be that"},
		{"mistake", "determinations:\n  - {name: Cypripedium calceolus, by: Rask, date: s.d., mistake: wrong sheet}\n", public.Open, "typed on the wrong sheet"},
		{"cover", "cover_name: Cypripedium calceolus\n", public.High, "on the cover"},
		{"filed", dets("Ranunculus acris") + "filed_under: {name: Cypripedium calceolus, by: Rask, date: s.d., why: w}\n", public.High, "where it is filed"},
		{"type", dets("Ranunculus acris") + "types:\n  - {status: isotype, of: Cypripedium calceolus, by: Rask, date: s.d.}\n", public.High, "of which it is a type"},
		{"unreadable", dets("?? [Cypripedium] ???"), public.High, "words that are no name and hold the genus"},
		{"released name", dets("Listera cordata"), public.Open, "the name was released"},
		{"released", fmt.Sprintf(mark, "2", released("2020-01-01")), public.Open, "released with reason, person and date"},
		{"released by nobody", "sensitive: {why: w, category: \"2\", date: 2010-01-01, released: {why: seen, date: 2020-01-01}}\n", public.High, "a release needs all three"},
		{"released without a day", fmt.Sprintf(mark, "2", released("s.d.")), public.High, "its date cannot be read"},
		{"marked again", "sensitive: {why: w, category: \"2\", date: 2021-01-01, released: {why: seen, by: Rask, date: 2020-01-01}}\n", public.High, "a later mark ends the release"},
		{"marked in its year", "sensitive: {why: w, category: \"2\", date: \"2020\", released: {why: seen, by: Rask, date: 2020-06-01}}\n", public.High, "the mark may be the later"},
		{"released of its name", dets("Pseudorchis albida") + "sensitive: {released: {why: wrongly named, by: Rask, date: 2020-01-01}}\n", public.Open, "a release ends older marks of its names"},
		{"name marked after", dets("Pseudorchis albida") + "sensitive: {released: {why: wrongly named, by: Rask, date: 2010-01-01}}\n", public.Extreme, "names/ was marked in 2016"},
		{"named after", "sensitive: {released: {why: w, by: Rask, date: 2020-01-01}}\n" + dets("Ranunculus acris") + "  - {name: Cypripedium calceolus, by: Rask, date: 2024-01-01}\n", public.High, "the marked name came after the release"},
		{"at a place by name", "place: {locality: \"S of Trollabotn Fen, in moss\"}\n", public.High, "the locality names it"},
		{"at a place by district", "place: {district: Trollabotn fen}\n", public.High, "the district names it"},
		{"part of its name", "place: {locality: S of Trollabotn}\n", public.Open, "another place that begins alike"},
		{"at a place by position", "place: {position: \"60.7030, 6.6500\", datum: WGS84, uncertainty: 20 m}\n", public.High, "330 m from its middle"},
		{"near a place", "place: {position: \"60.7050, 6.6500\", datum: WGS84, uncertainty: 100 m}\n", public.High, "560 m, and the error reaches it"},
		{"beside a place", "place: {position: \"60.7200, 6.6500\", datum: WGS84, uncertainty: 100 m}\n", public.Open, "2 km away"},
		{"far, with a wide error", "place: {position: \"60.7200, 6.6500\", datum: WGS84, uncertainty: 10 km}\n", public.Open, "a position that wide does not tell the place"},
		{"private place", "place: {locality: \"Rask's garden, by the wall\"}\n", public.Medium, "a private garden of places.yaml"},
		{"private record", "place: {locality: my kitchen, private: \"yes\"}\n", public.Medium, "the record says so"},
		{"private, released", "place: {locality: my kitchen, private: \"yes\"}\nsensitive: {released: {why: w, by: Rask, date: 2020-01-01}}\n", public.Medium, "a release is about the plant"},
		{"open place", "place: {locality: by Raundal chapel}\n", public.Open, "a place that is not marked"},
	} {
		v, r := policyView(t, c.record, "")
		_, w := v.Record(r)
		got := public.Open
		if w != nil {
			got = w.Class
		}
		if got != c.class {
			t.Errorf("%s: category %q, want %q: %s", c.name, got.Category(), c.class.Category(), c.reason)
		}
		if e := v.Class("LK7-0000001"); e != c.class {
			t.Errorf("%s: the Book says category %q, want %q: %s", c.name, e.Category(), c.class.Category(), c.reason)
		}
	}
}

// TestStricterMuseum: blotter.yaml may withhold more, never less.
func TestStricterMuseum(t *testing.T) {
	const record = "coll_no: \"7\"\nsensitive: {why: w, category: \"%s\"}\n"
	for _, c := range []struct {
		category, settings string
		class              public.Class
		collector, number  bool
		reason             string
	}{
		{"4", "", public.Low, true, true, "as it is"},
		{"4", "sensitive: {categories: [{category: \"4\", as: \"2\"}]}\n", public.High, true, false, "stricter"},
		{"3", "sensitive: {categories: [{category: \"4\", as: \"2\"}]}\n", public.Medium, true, true, "another category"},
		{"2", "sensitive: {categories: [{category: \"2\", as: \"3\"}]}\n", public.High, true, false, "less strict counts for nothing"},
		{"4", "sensitive: {withhold: [collector]}\n", public.Low, false, true, "a field besides"},
	} {
		v, r := policyView(t, fmt.Sprintf(record, c.category), c.settings)
		shown, w := v.Record(r)
		if w.Class != c.class || shown.Collector.Set() != c.collector || shown.CollNo.Set() != c.number {
			t.Errorf("category %s with %q: class %d, collector %q, number %q: %s", c.category, c.settings, w.Class, shown.Collector.Text, shown.CollNo.Text, c.reason)
		}
	}
}

// TestReleaseFreesEveryVersion: what was marked before the release is free in
// former versions as well; one without a present is judged by its own words.
func TestReleaseFreesEveryVersion(t *testing.T) {
	marked := "place: {locality: by the wall}\nsensitive: {why: w, category: \"1\", date: 2010-01-01"
	v, now := policyView(t, marked+", released: {why: seen, by: Rask, date: 2020-01-01}}\n", "")
	old := *now
	old.Sensitive.Released = ledger.Release{}
	if _, w := v.Record(&old); w != nil {
		t.Errorf("the former version is withheld: %+v", w)
	}
	old.Path = "specimens/000/00/LK7-0000009.yaml"
	if _, w := v.Record(&old); w == nil {
		t.Error("a version of another number, not released, is shown")
	}
	v, now = policyView(t, marked+"}\n", "")
	free := *now
	free.Sensitive = ledger.Sensitive{Released: ledger.Release{Why: ledger.Leaf{Text: "w"}, By: ledger.Leaf{Text: "b"}, Date: ledger.Leaf{Text: "2030-01-01"}}}
	if _, w := v.Record(&free); w == nil || w.Class != public.Extreme {
		t.Errorf("a former version that was released frees a record that is not: %+v", w)
	}
}

// TestPublished: withheld words are replaced by their sentence.
func TestPublished(t *testing.T) {
	v, r := policyView(t, `with: [Aune, Bannister]
coll_no: "7"
date: 1.vii.1999
place: {country: Norway, district: Voss, locality: by the wall, position: "60.7030, 6.6500", datum: WGS84, uncertainty: 20 m, elevation: 300 m}
permit: Voss 7
parts:
  - {part: a, where: drawer 12}
determinations:
  - {name: Ranunculus acris, by: Rask, date: 1.vii.1999, from: label}
  - {name: Ranunculus acris, by: Aune, date: 2010}
duplicates:
  - {sent: FM, number: "1"}
  - {sent: GM, date: 2001}
writings:
  - {on_sheet: label, text: "by the wall, 1.vii"}
  - {text: 300 m}
images:
  - {file: images/a.jpg}
  - {file: images/b.jpg, public: images/b-masked.jpg}
sensitive: {why: dug up., category: "2", review: "2031"}
import: {Donor: "Mrs Hansen, tel. 55"}
`, "")
	p, w := v.Published(r)
	var got []string
	for _, kv := range ledger.Flatten(p) {
		got = append(got, kv.Key+"="+kv.Value)
	}
	want := `specimen=LK7-0000001 entry=full parts.1.part=a collector=Rask with.1=S coll_no=S date=S
place.country=Norway place.district=S place.locality=S place.position=S place.elevation=S
determinations.1.name=Ranunculus acris determinations.1.by=Rask determinations.1.date=S determinations.1.from=label
determinations.2.name=Ranunculus acris determinations.2.by=Aune determinations.2.date=2010
duplicates.1.sent=S images.1.file=images/b-masked.jpg images.1.public=images/b-masked.jpg writings.1.text=S
read.date.is=1999 read.date.by=unsigned read.date.date=s.d. read.date.from=day and month are withheld
read.position.is=60.75, 6.65 read.position.uncertainty=6225 m read.position.by=unsigned read.position.date=s.d. read.position.from=` + w.Generalized() + `
sensitive.why=dug up. sensitive.category=2 sensitive.review=2031`
	squeeze := func(s string) string { return strings.Join(strings.Fields(s), " ") }
	text := strings.ReplaceAll(squeeze(strings.Join(got, " ")), "withheld: dug up", "S")
	if text != squeeze(want) {
		t.Errorf("got  %s\nwant %s", text, squeeze(want))
	}
	if s := w.Sentence("date"); s != "withheld: dug up" {
		t.Errorf("sentence %q", s)
	}
	if s := w.WithheldInfo(); s != "exact place, day and collector's number withheld: dug up; category 2 of 4; to be looked at again in 2031; a picture is held" {
		t.Errorf("informationWithheld %q", s)
	}
	if s := w.Generalized(); !strings.Contains(s, "0.1 degree") {
		t.Errorf("dataGeneralizations %q", s)
	}
	if p2, _ := ledger.Decode("specimens/000/00/LK7-0000001.yaml", ledger.Encode(p)); len(ledger.Flatten(p2)) != len(got) {
		t.Error("it does not come back from its file")
	}
}

// TestPictureNames: a picture that may be shown is held all the same when the
// name of its file tells what is withheld.
func TestPictureNames(t *testing.T) {
	cases := []struct {
		file, reason string
		shown        bool
	}{
		{"images/LK7-0000001.jpg", "number", true},
		{"images/LK7-0000001-flower.jpg", "what it shows", true},
		{"images/Ranunculus-acris-rask-2.jpg", "name and collector are shown", true},
		{"images/LK7-0000001-Trollabotn.jpg", "a word of the place", false},
		{"images/trollabotn_03.jpg", "underlined", false},
		{"images/voss/LK7-0000001.jpg", "a folder named by the district", false},
		{"images/LK7-0000001-1384m.jpg", "the elevation with its unit", false},
		{"images/LK7-0000001_70312.png", "decimals of the position", false},
		{"images/IMG_19990701_1200.jpg", "the day", false},
		{"images/1999-07-01.jpg", "the day in parts", false},
		{"images/Rask 4711.jpg", "the collector's number", false},
		{"images/north side.jpg", "words of any place", true},
	}
	for _, c := range cases {
		v, r := policyView(t, `coll_no: "4711"
date: 1.vii.1999
place: {country: Norway, district: Voss, locality: N side of Trollabotn lake, position: "60.70312, 6.65004", datum: WGS84, uncertainty: 20 m, elevation: 1384 m}
determinations:
  - {name: Ranunculus acris, by: Rask, date: 1.vii.1999, from: label}
images:
  - {file: "`+c.file+`", safe: "yes"}
sensitive: {why: dug up, category: "2", review: "2031"}
`, "")
		out, w := v.Record(r)
		if shown := len(out.Images) == 1; shown != c.shown || shown == (w.Pictures == 1) {
			t.Errorf("%s: shown %v, want %v (%s)", c.file, shown, c.shown, c.reason)
		}
	}
}

// TestPeopleInPublic: no birth dates of those who may be living.
func TestPeopleInPublic(t *testing.T) {
	for _, c := range []struct{ born, died, want, reason string }{
		{"1961", "", "", "living"},
		{"1961-03-02", "2020", "1961-03-02", "dead"},
		{"1961", "s.d.", "1961", "dead, nobody knows when"},
		{"1871", "", "1871", "nobody is that old"},
		{"1900", "", "", "may be living"},
		{"about Easter", "", "", "cannot be read"},
	} {
		files := map[string]string{"blotter.yaml": "format: \"1\"\nname: M\ncode: LK7\nblocks:\n  - {for: Rask, from: \"1\", to: \"2\"}\n",
			"people.yaml": fmt.Sprintf("people:\n  - {name: Rask, born: %q, died: %q, email: a@b.example}\n", c.born, c.died)}
		b, err := book.Load(context.Background(), ledgertest.MapSource(files), book.Options{})
		if err != nil {
			t.Fatal(err)
		}
		m := public.Of(b).Book.Museum
		if p := m.People.All[0]; p.Born.Text != c.want || p.Email.Set() || len(m.Blocks) > 0 {
			t.Errorf("born %q, died %q: shown %q, want %q: %s", c.born, c.died, p.Born.Text, c.want, c.reason)
		}
		if s := public.ForStaff(b).Book; s.Museum.People.All[0].Born.Text != c.born || !s.Staff() {
			t.Error("the staff do not see all")
		}
	}
}

// TestAccession: one that is more than a number may name a donor.
func TestAccession(t *testing.T) {
	for words, shown := range map[string]bool{"2025-014": true, "1893.12": true, "A 77": true, "LK7/2001/3b": true, "gift of Mrs Hansen, Voss": false, "2025-014 Hansen": false, "Hansen": false} {
		v, r := policyView(t, "accession: "+words+"\n", "")
		if p, _ := v.Record(r); p.Accession.Set() != shown {
			t.Errorf("%q shown %t, want %t", words, p.Accession.Set(), shown)
		}
	}
}

// TestAuthorByMail: an address of mail is shown nowhere, not as a name either.
func TestAuthorByMail(t *testing.T) {
	v, _, _ := view(t)
	for words, want := range map[string]string{"Signe Rask": "Signe Rask", "signe@lauvkroken.example": "Signe Rask", "someone@else.example": "unsigned", "Ove Bannister": "O. B."} {
		if got := v.Person(words); got != want {
			t.Errorf("%q is shown as %q, want %q", words, got, want)
		}
	}
}
