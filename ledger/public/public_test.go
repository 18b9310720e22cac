package public_test

import (
	"context"
	"html"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
	"blotter/ledger/public"
)

const hiddenRecord = `specimen: LK7-0000733
entry: full
collector: Signe Rask
with: [Ove Bannister]
coll_no: "1207"
date: 14.vii.2025
place:
  country: Norway
  province: Vestland
  district: Voss
  locality: above the track at "Trollabotn" farm
  position: 60°42'12"N 6°39'05"E
  elevation: 348 m
habitat: Unfertilised hay meadow
determinations:
  - name: Dactylorhiza majalis
    by: Signe Rask
    date: 2025-07-14
    from: label
  - name: Dactylorhiza majalis subsp. majalis
    by: M. Ostrander
    date: 2026-11-02
annotations:
  - {kind: question, what: is it still there, by: Tiril Aune, date: 2026-01-01}
images:
  - {file: images/a.jpg, shows: whole sheet}
  - {file: images/b.jpg, shows: flower, safe: "yes"}
writings:
  - {text: "Orchis at Trollabotn farm, 14/7"}
same_gathering: [LK7-0000734]
read:
  position: {is: "60.70341, 6.65123", by: Tiril Aune, date: 2026-01-01}
`

func view(t testing.TB) (*public.View, *book.Book, *book.Loader) {
	t.Helper()
	files := map[string]string{
		"blotter.yaml":                      "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\n",
		"people.yaml":                       "people:\n  - name: Signe Rask\n    email: signe@lauvkroken.example\n  - name: Ove Bannister\n    spellings: [O. Bannister]\n    initials: \"yes\"\n    orcid: 0000-0002-1825-0097\n",
		"names/Orchidaceae.yaml":            "family: Orchidaceae\nnames:\n  - name: Dactylorhiza majalis\n    sensitive: {why: at risk from collecting, category: \"2\", review: \"2031\"}\n  - {name: Orchis latifolia, of: Dactylorhiza majalis, by: O. Bannister, source: list of Ove Bannister}\n",
		"places.yaml":                       "places:\n  - {name: Trollabotn, place: {country: Norway}}\n  - {name: Raundal chapel, place: {country: Norway}}\n",
		"specimens/000/07/LK7-0000733.yaml": hiddenRecord,
		"specimens/000/07/LK7-0000734.yaml": "specimen: LK7-0000734\nentry: full\ncollector: O. Bannister\ndate: s.d.\nplace: {country: Norway, district: Voss}\nsame_gathering: [LK7-0000733]\ndeterminations:\n  - {name: Ranunculus acris, by: Ove Bannister, date: s.d.}\n",
		"specimens/000/07/LK7-0000735.yaml": "specimen: LK7-0000735\nentry: full\ncollector: Rask\ndate: 1.i.1999\nplace: {country: Norway, locality: somewhere secret}\ndeterminations:\n  - {name: Orchis latifolia, by: Rask, date: s.d.}\n",
		"specimens/000/07/LK7-0000737.yaml": "specimen: LK7-0000737\nentry: full\ncollector: Rask\ndate: 1.i.1999\nplace: {country: Norway, position: \"60.81234, 6.51234\", datum: ED50}\nsensitive: {why: nest of an eagle, category: \"1\"}\n",
		"specimens/000/07/LK7-0000736.yaml": "specimen: LK7-0000736\nentry: full\ncollector: Rask\ndate: 1.i.1999\nplace: {country: Norway, locality: a marked place}\nsensitive: {why: nest of an eagle, category: \"1\"}\n",
	}
	src := ledgertest.MapSource(files)
	b, err := book.Load(context.Background(), src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	return public.Of(b), b, b.Loader(src, nil)
}

func TestRecordWithheld(t *testing.T) {
	v, b, load := view(t)
	full, err := load.Record(context.Background(), b.Find("LK7-0000733"))
	if err != nil {
		t.Fatal(err)
	}
	r, w := v.Record(full)
	if w == nil || w.Reason() != "at risk from collecting" || w.Category != "2" || w.Review != "2031" {
		t.Fatalf("withheld: %+v", w)
	}
	var got []string
	for _, kv := range ledger.Flatten(r) {
		got = append(got, kv.Key+"="+kv.Value)
		if to := public.ShownTo(ledger.RecordKind, kv.Key); to != public.Everyone && !strings.HasPrefix(kv.Key, "read.") {
			t.Errorf("%s is hidden and is there", kv.Key)
		}
	}
	all := strings.Join(got, "\n")
	for _, secret := range []string{"Trollabotn", "60°", "60.703", "Voss", "14.vii", "2025-07-14", "1207", "a.jpg", "348", "meadow", "question", "734", "Bannister"} {
		if strings.Contains(all, secret) {
			t.Errorf("%q is shown in:\n%s", secret, all)
		}
	}
	for _, open := range []string{"place.province=Vestland", "read.position.is=60.75, 6.65", "read.date.is=2025", "determinations.2.date=2026-11-02", "images.1.file=images/b.jpg", "collector=Signe Rask"} {
		if !slices.Contains(got, open) {
			t.Errorf("%q is not shown in:\n%s", open, all)
		}
	}
	for _, f := range []string{"place.locality", "date", "coll_no", "images", "determinations.1.date"} {
		if !slices.Contains(w.Fields, f) {
			t.Errorf("%s is not named as withheld: %v", f, w.Fields)
		}
	}
	if full.Place.Locality.Text == "" || len(full.Images) != 2 {
		t.Error("the full record was changed")
	}
}

func TestWhatIsWithheld(t *testing.T) {
	v, _, load := view(t)
	for _, c := range []struct {
		number ledger.Number
		hidden bool
		reason string
	}{
		{"LK7-0000733", true, "its name stands in names/ as sensitive"},
		{"LK7-0000734", false, "an ordinary plant"},
		{"LK7-0000735", true, "a synonym of a sensitive name"},
		{"LK7-0000736", true, "marked in the record, not named"},
	} {
		if got := v.Hidden(c.number); got != c.hidden {
			t.Errorf("%s hidden %t, want %t: %s", c.number, got, c.hidden, c.reason)
		}
		e := v.Book.Find(c.number)
		if c.hidden && (e.Locality+e.Date+e.CollNo+e.District != "" || !e.Flags.Has(book.Sensitive)) {
			t.Errorf("%s: %+v", c.number, e)
		}
	}
	e := v.Book.Find("LK7-0000734")
	if e.Collector != "O. B." || e.By != "O. B." || e.District != "Voss" {
		t.Errorf("entry %+v", e)
	}
	r, err := load.Record(context.Background(), e)
	if err != nil {
		t.Fatal(err)
	}
	if p, w := v.Record(r); w != nil || len(p.SameGathering) != 0 || p.Collector.Text != "O. B." || p.Place.District.Text != "Voss" {
		t.Errorf("record %+v, withheld %v", p, w)
	}
	old := &ledger.Record{Path: "specimens/000/07/LK7-0000736.yaml", Place: ledger.Place{Locality: ledger.Leaf{Text: "a marked place"}}}
	if p, w := v.Record(old); w == nil || p.Place.Locality.Set() {
		t.Error("an older version without the mark is shown")
	}
	for _, p := range v.Book.Museum.People.All {
		if p.Email.Set() || p.Initials.Set() && (p.ORCID.Set() || p.Name.Text != "O. B.") {
			t.Errorf("person %+v", p)
		}
	}
}

func TestPlacesOfWithheldRecords(t *testing.T) {
	v, b, _ := view(t)
	if p := v.Book.Museum.Places; len(p) != 1 || p[0].Name.Text != "Raundal chapel" {
		t.Errorf("places %+v", p)
	}
	if len(b.Museum.Places) != 2 {
		t.Error("the full Book was changed")
	}
}

func TestSecrets(t *testing.T) {
	v, _, load := view(t)
	s, err := v.Secrets(context.Background(), load)
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name, text string
		leaks      int
		reason     string
	}{
		{"prose", "We walked above the track at “Trollabotn” farm.\n", 1, "other quotes, another sentence around it"},
		{"html", "<p>" + html.EscapeString(`above the track at "Trollabotn" farm`) + "</p>", 1, "escaped for HTML"},
		{"json", `{"locality":"above the track at \u0022Trollabotn\u0022 farm"}`, 1, "escaped for JSON"},
		{"position", "60°42′12″N 6°39′05″E", 1, "other signs for minutes and seconds"},
		{"decimals", `{"lat":60.70333,"lon":6.65139}`, 1, "computed from the words; the longitude alone is too short to be looked for"},
		{"decimals of a reading", "60.703 6.651", 1, "both readings round to it"},
		{"brought to WGS84", `{"lat":60.81188,"lon":6.51079}`, 1, "what a page would show of a position on ED50; both round to it"},
		{"number", "Signe Rask 1207", 1, "collector and number together"},
		{"person", "Found by Ove Bannister.", 1, "asked for initials"},
		{"mail", "signe@lauvkroken.example", 1, "addresses of mail are never public"},
		{"public words", "Voss, Vestland, Norway; Signe Rask", 0, "they are shown elsewhere"},
		{"part of a word", "somewhere secretive", 0, "whole words only"},
		{"short", "Trollabotn", 0, "not the whole locality"},
	} {
		got := s.Find([]byte(c.text))
		if len(got) != c.leaks {
			t.Errorf("%s: %v, want %d: %s", c.name, got, c.leaks, c.reason)
		}
	}
	if l := s.Find([]byte("one\ntwo\nabove the track\nat Trollabotn farm\n")); len(l) != 1 || l[0].Line != 4 || l[0].Number != "LK7-0000733" || l[0].Field != "place.locality" {
		t.Errorf("leak %+v", l)
	}
}

// TestNamesByInitials: who entered a synonym is shown on the sheets that it
// renames, so by initials if that person asked for it.
func TestNamesByInitials(t *testing.T) {
	v, full, _ := view(t)
	n := v.Book.Museum.Names.Find("Orchis latifolia")
	if n.Given.By.Text != "O. B." || n.Given.Source.Text != "list of O. B." {
		t.Errorf("by %q, source %q", n.Given.By.Text, n.Given.Source.Text)
	}
	if n.Of == nil || n.Of.Key() != "Dactylorhiza majalis" {
		t.Errorf("synonym of %v", n.Of)
	}
	if got := full.Museum.Names.Find("Orchis latifolia").Given.By.Text; got != "O. Bannister" {
		t.Errorf("the full Book has %q now", got)
	}
}
