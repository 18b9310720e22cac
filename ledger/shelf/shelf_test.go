package shelf

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/ledgertest"
)

// museum has a name of names/ that is a synonym, and two families.
const namesRanunculaceae = "family: Ranunculaceae\nnames:\n" +
	"  - {name: Ranunculus acris L.}\n  - {name: Ranunculus repens L.}\n  - {name: Ficaria verna Huds.}\n  - {name: Ranunculus ficaria L., of: Ficaria verna Huds.}\n  - {name: Caltha palustris L.}\n"

// load makes a book of records: number, name, country, what else.
func load(t testing.TB, filing string, records ...[4]string) (*book.Book, *Order) {
	t.Helper()
	files := map[string]string{
		"blotter.yaml":             "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering: {prefix: LK7-, digits: \"7\"}\n" + indented(filing),
		"names/Ranunculaceae.yaml": namesRanunculaceae,
		"names/Poaceae.yaml":       "family: Poaceae\nnames:\n  - {name: Poa pratensis L.}\n  - {name: Poa annua L.}\n",
		"names/Woodsiaceae.yaml":   "family: Woodsiaceae\nnames:\n  - {name: Woodsia ilvensis (L.) R.Br.}\n",
	}
	for _, r := range records {
		text := "specimen: " + r[0] + "\nentry: full\ncollector: Signe Rask\n"
		if r[2] != "" {
			text += "place: {" + r[2] + "}\n"
		}
		text += r[3]
		if r[1] != "" {
			text += "determinations:\n  - {name: " + r[1] + ", by: Signe Rask, date: 2025-07-14}\n"
		}
		files[ledger.Number(r[0]).Path()] = text
	}
	b, err := book.Load(context.Background(), ledgertest.MapSource(files), book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if len(b.Museum.Findings) > 0 {
		t.Fatal(b.Museum.Findings)
	}
	return b, NewOrder(ledger.WithStandard(&b.Museum.Museum).Filing, b.Museum)
}

func indented(filing string) string {
	if filing == "" {
		return ""
	}
	return "habits:\n  filing:\n    " + strings.ReplaceAll(strings.TrimSpace(filing), "\n", "\n    ") + "\n"
}

func walk(s *Shelves) (all []string) {
	for i := range s.Len() {
		e, _ := s.At(i)
		all = append(all, strings.TrimPrefix(string(e.Number), "LK7-"))
	}
	return all
}

var sheets = [][4]string{
	{"LK7-1", "Ranunculus repens", "country: Norway, province: Vestland", "coll_no: \"10\"\n"},
	{"LK7-2", "Ranunculus acris", "country: Sweden", ""},
	{"LK7-3", "Ranunculus acris", "country: Norway, province: Vestland", "coll_no: \"9\"\n"},
	{"LK7-4", "Poa pratensis", "country: Norge, province: Oslo", ""},
	{"LK7-5", "Woodsia ilvensis", "country: Norway, province: Vestland", ""},
	{"LK7-6", "Ranunculus", "country: Norway, province: Vestland", ""},
	{"LK7-7", "Ranunculaceae", "country: Norway", ""},
	{"LK7-8", "", "country: Norway", ""},
	{"LK7-9", "Ranunculus ficaria", "country: Norway, province: Vestland", ""},
	{"LK7-10", "Ranunculus acris", "country: Norway, province: Vestland", "origin: cultivated\n"},
	{"LK7-11", "Ranunculus acris", "country: Chile", "types:\n  - {status: isotype, of: Ranunculus acris L., by: M. Ostrander, date: 2026-11-02}\n"},
	{"LK7-12", "Ranunculus repens", "country: Norway, province: Vestland", "kept_as: box\n"},
	{"LK7-13", "Ranunculus repens", "country: Norway, province: Vestland", "coll_no: \"9\"\n"},
	{"LK7-14", "Ranunculus acris subsp. pumilus", "country: Norway, province: Vestland", ""},
	{"LK7-15", "Quercus robur", "country: Norway", ""},
}

// TestSchemes: four published filing systems are settings, as trade.md section
// 7 tells of them; which sheet lies where follows from their words.
func TestSchemes(t *testing.T) {
	regions := "regions:\n  - {region: home, colour: yellow, places: [Vestland]}\n  - {region: country, colour: pink, places: [Norway]}\n" +
		"  - {region: America, colour: green, places: [Chile]}\n  - {region: Old World, colour: brown}\n  - {region: cultivated, colour: white}\n"
	cases := []struct {
		name, filing, want, reason string
	}{
		{"Arizona", "order: [family, genus, species, region]\nfamilies: sequence\n" + regions + "apart: [box]\ntypes: apart\n" +
			"sequence: [{family: Woodsiaceae, number: \"4\"}, {family: Poaceae, number: \"20\"}, {family: Ranunculaceae, number: \"91\"}]\n",
			"11 5 4 9 3 2 10 14 1 13 6 7 15 8 12",
			"by family number, genera then species alphabetical, region colours within species (yellow home, pink country, green the Americas, brown Old World, white cultivated), types and fruits separate: Univ. Arizona Herbarium, organisation page"},
		{"New York", "order: [family, genus, region, species]\nfamilies: sequence\n" + regions + "types: among\n" +
			"sequence: [{family: Woodsiaceae}, {family: Ranunculaceae}, {family: Poaceae}]\n",
			"5 9 3 14 1 12 13 6 11 2 10 7 4 15 8",
			"family number, genus alphabetical, region, then species: NYBG filing instructions"},
		{"Fort Worth", "order: [family, genus, region, species]\nfamilies: alphabet\n" + regions + "types: folder\n",
			"4 9 3 14 1 12 13 6 11 2 10 7 5 15 8",
			"family alphabetical, genus, region and species: Fort Worth Botanic Garden/BRIT, preservation and storage"},
		{"Rancho Santa Ana", "order: [group, family, genus, region, species]\nfamilies: alphabet\ngroups: [ferns, monocots, dicots]\n" + regions +
			"sequence: [{family: Ranunculaceae, group: dicots}, {family: Poaceae, group: monocots}, {family: Woodsiaceae, group: ferns}]\ntypes: among\n",
			"5 4 9 3 14 1 12 13 6 11 2 10 7 15 8",
			"families alphabetical within major group, region colours, species alphabetical inside region: Boyd, Taxacom, December 1995"},
		{"standard", "", "11 4 9 3 2 14 13 1 12 6 10 7 5 15 8", "what a museum has that says nothing: no regions, 9 before 10 of one collector, s.n. behind"},
	}
	for _, c := range cases {
		b, o := load(t, c.filing, sheets...)
		if got := strings.Join(walk(Fill(b, o, nil)), " "); got != c.want {
			t.Errorf("%s: got\n%s, want\n%s (%s)", c.name, got, c.want, c.reason)
		}
	}
}

// many is n sheets of a few names.
func many(n int) (records [][4]string) {
	names := []string{"Poa annua", "Poa pratensis", "Ranunculus acris", "Ranunculus repens", "Caltha palustris"}
	for i := range n {
		records = append(records, [4]string{fmt.Sprintf("LK7-%07d", i+1), names[i%len(names)], "country: Norway", ""})
	}
	return records
}

// TestFolders: 6 sheets a folder (Florida Museum, cost of services), folders
// counted in the genus, a folder never parted between cabinets.
func TestFolders(t *testing.T) {
	b, o := load(t, "per_cabinet: 20", many(65)...) // 13 of each name: 3 folders each
	s := Fill(b, o, nil)
	if len(s.Covers) != 5 || s.Covers[1].Folders != 3 || s.Covers[1].First != 4 {
		t.Fatalf("covers %+v", s.Covers)
	}
	e := b.Find("LK7-0000002") // the first sheet of Poa pratensis
	p, ok := s.Of(e)
	if got := p.Words(); !ok || got != "cabinet 1, Poaceae, Poa pratensis, folder 4" {
		t.Errorf("place %q", got)
	}
	// Poa annua 6+6+1, pratensis 6 = 19 in the first; the next 6 would make 25
	var sheets []int
	for _, bay := range s.Bays {
		sheets = append(sheets, bay.Sheets)
	}
	if want := []int{19, 20, 19, 7}; !slices.Equal(sheets, want) {
		t.Errorf("cabinets hold %v, want %v", sheets, want)
	}
	if s.Bays[1].First.Name != "Poa pratensis" || s.Bays[3].Last.Name != "Ranunculus repens" {
		t.Errorf("from %q to %q", s.Bays[1].First.Name, s.Bays[3].Last.Name)
	}
}

// TestCabinets: a cabinet begins where its first says, and one without a first
// takes what the one before cannot.
func TestCabinets(t *testing.T) {
	b, o := load(t, "cabinets:\n  - {cabinet: T, first: types}\n  - {cabinet: A, first: Caltha, holds: \"10\"}\n  - {cabinet: B}\n  - {cabinet: C, first: Ranunculus acris}\n  - {cabinet: D, first: Ranunculus repens}",
		append(many(65), [4]string{"LK7-0000099", "Poa annua", "", "types:\n  - {status: isotype, of: Poa annua L., by: M. Ostrander, date: 2026-11-02}\n"})...)
	s := Fill(b, o, nil)
	var got []string
	for _, bay := range s.Bays {
		got = append(got, fmt.Sprint(bay.Name, bay.Sheets))
	}
	// region stands between genus and species, and is one here: acris begins at its genus
	if want := "T27 A6 B7 C0 D26"; strings.Join(got, " ") != want {
		t.Errorf("cabinets %v, want %s", got, want)
	}
}

// TestMoves: a name that is a synonym now moves the sheets determined so; what
// is withdrawn has no place; what is new moves nothing.
func TestMoves(t *testing.T) {
	before := [][4]string{{"LK7-1", "Ranunculus acris", "", ""}, {"LK7-2", "Poa annua", "", ""}, {"LK7-3", "Caltha palustris", "", ""}, {"LK7-4", "Poa pratensis", "", ""}}
	after := [][4]string{{"LK7-1", "Ranunculus ficaria", "", ""}, {"LK7-2", "Poa annua", "", "fate:\n  - {is: lost, by: Tiril Aune, date: 2026-01-02, why: not found}\n"}, before[2], before[3], {"LK7-5", "Poa annua", "", ""}}
	b1, o1 := load(t, "", before...)
	b2, o2 := load(t, "", after...)
	s1, s2 := Fill(b1, o1, nil), Fill(b2, o2, nil)
	moves := Moves(s1, s2, b2)
	if len(moves) != 2 || moves[0].Now.Number != "LK7-2" || !moves[0].Out || moves[1].From.Cover.Name != "Ranunculus acris" || moves[1].To.Cover.Name != "Ficaria verna" {
		t.Errorf("moves %+v", moves)
	}
	need := Needed(s1, s2)
	if len(need) != 1 || need[0].Cover.Name != "Ficaria verna" || len(NewGenera(s1, need)) != 1 {
		t.Errorf("needed %+v", need)
	}
}

// TestFillHolds: whatever the settings, every specimen has one place, keys do
// not fall, no folder holds too many, cabinets hold what they are said to.
func TestFillHolds(t *testing.T) {
	for _, filing := range []string{"", "order: [collector]", "order: [species, region]", "per_folder: 1\nper_cabinet: 3", "undetermined: first\nhybrids: last"} {
		b, o := load(t, filing, append(many(40), sheets...)...)
		s := Fill(b, o, nil)
		inFolder, inBay := map[string]int{}, map[string]int{}
		last := ""
		for i := range s.Len() {
			e, p := s.At(i)
			key, _ := o.key(e, nil)
			if string(key) < last {
				t.Errorf("%q: %s lies before its turn", filing, e.Number)
			}
			last = string(key)
			if q, ok := s.Of(e); !ok || q != p {
				t.Errorf("%q: %s is not where it is", filing, e.Number)
			}
			inFolder[fmt.Sprint(p.Cover.start, " ", p.Folder)]++
			inBay[p.Bay.Name]++
		}
		if s.Len() != b.Len() {
			t.Errorf("%q: %d of %d", filing, s.Len(), b.Len())
		}
		for f, n := range inFolder {
			if n > s.PerFolder {
				t.Errorf("%q: %d sheets in folder %s", filing, n, f)
			}
		}
		for _, bay := range s.Bays {
			if bay.Sheets > max(bay.Holds, s.PerFolder) || bay.Sheets != inBay[bay.Name] {
				t.Errorf("%q: %d, %d sheets in cabinet %s of %d", filing, bay.Sheets, inBay[bay.Name], bay.Name, bay.Holds)
			}
		}
	}
}

// BenchmarkFill: 20,000 sheets of 5 names.
func BenchmarkFill(b *testing.B) {
	bk, o := load(b, "regions:\n  - {region: country, places: [Norway]}\n  - {region: rest}", many(20_000)...)
	b.ResetTimer()
	for range b.N {
		if s := Fill(bk, o, nil); s.Len() != bk.Len() {
			b.Fatal(s.Len())
		}
	}
}
