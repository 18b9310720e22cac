package people

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func TestReadTeam(t *testing.T) {
	for _, c := range []struct {
		why, text, people string
		others            bool
		none              None
		number            string
	}{
		{"one", "Signe Rask", "Signe Rask", false, Stated, ""},
		{"a suffix behind a comma", "J. Ratcliff & S. L. O'Kane, Jr.", "J. Ratcliff|S. L. O'Kane, Jr.", false, Stated, ""},
		{"semicolons, family name first", "Rask, S.; Bannister, O.", "S. Rask|O. Bannister", false, Stated, ""},
		{"commas, family name first", "Harkness, W.J.K., Dickinson, J.C., & Marshall, N.", "W.J.K. Harkness|J.C. Dickinson|N. Marshall", false, Stated, ""},
		{"commas, family name last", "S. Rask, O. Bannister", "S. Rask|O. Bannister", false, Stated, ""},
		{"with", "Signe Rask with Ove Bannister", "Signe Rask|Ove Bannister", false, Stated, ""},
		{"Norwegian", "Signe Rask og Ove Bannister", "Signe Rask|Ove Bannister", false, Stated, ""},
		{"and others", "Signe Rask et al.", "Signe Rask", true, Stated, ""},
		{"and others", "Strid & al.", "Strid", true, Stated, ""},
		{"shared family name", "J. & A. Bornmüller", "J. Bornmüller|A. Bornmüller", false, Stated, ""},
		{"particle", "Leo Anton Karl de Ball", "Leo Anton Karl de Ball", false, Stated, ""},
		{"particle behind", "Humboldt, A. von", "A. von Humboldt", false, Stated, ""},
		{"not others", "J. M. André", "J. M. André", false, Stated, ""},
		{"others", "Signe Rask og andre", "Signe Rask", true, Stated, ""},
		{"second family name as an initial", "A. L. Reina G.; T. R. van Devender", "A. L. Reina G.|T. R. van Devender", false, Stated, ""},
		{"title", "Dr. Signe Rask", "Signe Rask", false, Stated, ""},
		{"role", "leg. Signe Rask", "Signe Rask", false, Stated, ""},
		{"initials close", "J.R.Smith", "J.R. Smith", false, Stated, ""},
		{"with the number", "Signe Rask 1207", "Signe Rask", false, Stated, "1207"},
		{"with a date", "Signe Rask 14.vii.1987", "Signe Rask", false, Stated, ""},
		{"a year is no number", "Jeffery M. Saarela 2005", "Jeffery M. Saarela", false, Stated, ""},
		{"initials alone", "S. R.", "S. R.", false, Stated, ""},
		{"signed with initials", "AD & CF", "AD|CF", false, Stated, ""},
		{"a code is no person", "ASU-BES08", "", false, Stated, ""},
		{"a thousands mark", "Signe Rask 8,123", "Signe Rask", false, Stated, "8123"},
		{"two numbers are none", "Signe Rask 12, 345", "Signe Rask", false, Stated, "12"},
		{"no number", "Signe Rask & O. Bannister s.n.", "Signe Rask|O. Bannister", false, Stated, NoNumber},
		{"no number, and a date", "S. Rask s. n., 12 May 1934", "S. Rask", false, Stated, NoNumber},
		{"the word for number is dropped", "Rask No. 1207", "Rask", false, Stated, "1207"},
		{"a number with letters", "S. Rask 1207a", "S. Rask", false, Stated, "1207a"},
		{"a number with a prefix", "S. Rask SR-1207", "S. Rask", false, Stated, "SR-1207"},
		{"a number and a date", "S. Rask 1207, 14 July 1987", "S. Rask", false, Stated, "1207"},
		{"a number within", "S. Rask 1207 & O. Bannister", "S. Rask|O. Bannister", false, Stated, "1207"},
		{"a number first", "No. 1207, S. Rask", "S. Rask", false, Stated, "1207"},
		{"three others are no number", "S. Rask + 3 others", "S. Rask", true, Stated, ""},
		{"initials without points", "JB Smith & K Jones", "JB Smith|K Jones", false, Stated, ""},
		{"family name first, no comma", "Smith J., Jones A., Brown K.", "J. Smith|A. Jones|K. Brown", false, Stated, ""},
		{"initials that look like Jr.", "Smith, J.R. & Jones, M.D.", "J.R. Smith|M.D. Jones", false, Stated, ""},
		{"suffix behind the family name", "Smith, Jr., John", "John Smith, Jr.", false, Stated, ""},
		{"suffix behind the given name", "Smith, John, Jr.", "John Smith, Jr.", false, Stated, ""},
		{"pairs of full names", "Smith, John, Jones, Mary", "John Smith|Mary Jones", false, Stated, ""},
		{"family names alone", "Chaboo, Bennett, Shin, Smith", "Chaboo|Bennett|Shin|Smith", false, Stated, ""},
		{"nicknames share a family name", "Dick and Gwen Robinson", "Dick Robinson|Gwen Robinson", false, Stated, ""},
		{"initial and given name behind the family name", "Stone, R. Doug; de Nevers, Greg", "R. Doug Stone|Greg de Nevers", false, Stated, ""},
		{"family names beside a full name", "Elinor Lehto; Keil, Pinkava", "Elinor Lehto|Keil|Pinkava", false, Stated, ""},
		{"a family name and a full name", "Keil; Lehto, Elinor Lehto", "Keil|Lehto|Elinor Lehto", false, Stated, ""},
		{"both orders in one team", "Kennedy, Helen;Teresa Salvato", "Helen Kennedy|Teresa Salvato", false, Stated, ""},
		{"capitals with a particle", "T. R. VAN DEVENDER", "T. R. VAN DEVENDER", false, Stated, ""},
		{"family name of two words", "García Márquez, G. & López Ruiz, A.", "G. García Márquez|A. López Ruiz", false, Stated, ""},
		{"saint", "St. John, H.", "H. St. John", false, Stated, ""},
		{"saint", "H. St. John", "H. St. John", false, Stated, ""},
		{"particle with a capital", "Van der Berg, J.", "J. Van der Berg", false, Stated, ""},
		{"particles behind", "Berg J. van der", "J. van der Berg", false, Stated, ""},
		{"titles share a family name", "Mr & Mrs Smith", "Smith|Smith", false, Stated, ""},
		{"given names share a family name", "Ellen and Mark Smith", "Ellen Smith|Mark Smith", false, Stated, ""},
		{"German others", "J. Smith u. a.", "J. Smith", true, Stated, ""},
		{"Norwegian others", "J. Smith m. fl.", "J. Smith", true, Stated, ""},
		{"Spanish others", "J. Smith y otros", "J. Smith", true, Stated, ""},
		{"a nickname is left aside", `John "Jack" Smith`, "John Smith", false, Stated, ""},
		{"companions in brackets", "J. Smith (with K. Jones)", "J. Smith|K. Jones", false, Stated, ""},
		{"an address is left aside", "J. Smith <j.smith@example.org>", "J. Smith", false, Stated, ""},
		{"an expedition", "Sino-British Expedition", "", false, Stated, ""},
		{"an expedition called after a person", "A.C. Twomey Expedition", "A.C. Twomey", false, Stated, ""},
		{"a museum", "Museum of Natural History", "", false, Stated, ""},
		{"a person of that name", "A. Garden", "A. Garden", false, Stated, ""},
		{"nomen nescio", "N.N.", "", false, NotRecorded, ""},
		{"sine collectore", "s.c.", "", false, NotRecorded, ""},
		{"initials", "S.C.", "S.C.", false, Stated, ""},
		{"none in each part", "unknown; no data", "", false, NotRecorded, ""},
		{"none", "unknown", "", false, NotRecorded, ""},
		{"none", "anonymous", "", false, NotRecorded, ""},
		{"none", "s.coll.", "", false, NotRecorded, ""},
		{"unreadable", "[illegible]", "", false, Illegible, ""},
		{"unreadable", "[...]", "", false, Illegible, ""},
		{"not typed", "", "", false, NotTyped, ""},
	} {
		team := ReadTeam(c.text)
		var got []string
		for _, p := range team.People {
			got = append(got, p.String())
		}
		if strings.Join(got, "|") != c.people || team.Others != c.others || team.None != c.none || team.Number != c.number {
			t.Errorf("%s (%s): %q %v %d %q, want %q %v %d %q", c.text, c.why, got, team.Others, team.None, team.Number, c.people, c.others, c.none, c.number)
		}
	}
}

func TestPersonForms(t *testing.T) {
	for _, c := range []struct{ text, initials, sort, slug, key string }{
		{"Signe Rask", "S. Rask", "rask, signe", "signe-rask", "signe rask"},
		{"Jean-Pierre Martin", "J.-P. Martin", "martin, jean-pierre", "jean-pierre-martin", "jean pierre martin"},
		{"S. L. O'Kane, Jr.", "S. L. O'Kane, Jr.", "o'kane, s. l. jr.", "s-l-okane-jr", "s l o kane jr"},
		{"Åse Bjørnstad", "Å. Bjørnstad", "bjornstad, ase", "ase-bjornstad", "ase bjornstad"},
		{"Leo Anton Karl de Ball", "L. A. K. de Ball", "ball, leo anton karl de", "leo-anton-karl-de-ball", "leo anton karl de ball"},
		{"Strid", "Strid", "strid", "strid", "strid"},
		{"MG.C Fernandes", "M. G. C. Fernandes", "fernandes, mg.c", "mg-c-fernandes", "mg c fernandes"},
	} {
		p := Read(c.text)
		if len(p) != 1 {
			t.Errorf("%s: %q", c.text, p)
			continue
		}
		got := [...]string{p[0].Initials(), p[0].SortKey(), p[0].Slug(), p[0].Key()}
		if want := [...]string{c.initials, c.sort, c.slug, c.key}; got != want {
			t.Errorf("%s: %q, want %q", c.text, got, want)
		}
	}
}

func TestIndex(t *testing.T) {
	x := NewIndex([]Entry{
		{Name: "Signe Rask", Spellings: []string{"S. R.", "Frk. Rask"}},
		{Name: "Ove Bannister"},
		{Name: "Sverre Rask"},
		{Name: "Tiril Aune", Spellings: []string{"T. Aune & Co."}},
		{Name: "Karl Aune"},
		{Name: "Kari Aune"},
	})
	for _, c := range []struct {
		why, text string
		entry     int
		how       How
	}{
		{"the name", "Signe Rask", 0, ByName},
		{"case and accents", "SIGNE RÁSK", 0, ByName},
		{"turned round", "Rask, Signe", 0, ByName},
		{"a spelling", "S.R.", 0, BySpelling},
		{"a spelling with a title", "Frk. Rask", 0, BySpelling},
		{"a spelling that looks like a team", "T. Aune & Co.", 3, BySpelling},
		{"initials of one only", "O. Bannister", 1, ByInitials},
		{"initials of two", "S. Rask", -1, Several},
		{"initials of two", "K. Aune", -1, Several},
		{"another given name is another person", "Ola Bannister", -1, NoMatch},
		{"a family name is nobody in particular", "Bannister", -1, NoMatch},
		{"nobody", "M. Ostrander", -1, NoMatch},
		{"a team is not one person", "Signe Rask & Ove Bannister", -1, NoMatch},
	} {
		m := x.Find(c.text)
		if m.Entry != c.entry || m.How != c.how || m.Found() != (c.entry >= 0) {
			t.Errorf("%s (%s): entry %d how %d, want %d %d", c.text, c.why, m.Entry, m.How, c.entry, c.how)
		}
	}
	all := x.FindAll("Signe Rask with O. Bannister and M. Ostrander")
	if len(all) != 3 || all[0].Entry != 0 || all[1].Entry != 1 || all[2].Entry != -1 {
		t.Errorf("team: %+v", all)
	}
}

// An iD beside a name is that person's; one whose check character is wrong is
// told and left aside.
func TestORCIDBesideName(t *testing.T) {
	team := ReadTeam("Signe Rask (0000-0002-1825-0097) & O. Bannister https://orcid.org/0000-0002-9079-593X; T. Aune")
	var got []string
	for _, p := range team.People {
		got = append(got, p.String()+" "+p.ORCID)
	}
	if s := strings.Join(got, "|"); s != "Signe Rask 0000-0002-1825-0097|O. Bannister 0000-0002-9079-593X|T. Aune " || len(team.Warnings) != 0 {
		t.Errorf("%s %v", s, team.Warnings)
	}
	team = ReadTeam("Signe Rask 0000-0002-1825-0098")
	if len(team.People) != 1 || team.People[0].ORCID != "" || team.Number != "" || len(team.Warnings) != 1 || team.Warnings[0].Code != "orcid-check" {
		t.Errorf("%+v", team)
	}
}

// What a team says of bodies.
func TestBodies(t *testing.T) {
	for text, want := range map[string]string{
		"Sino-British Expedition":           "Sino-British Expedition",
		"S. Rask; Museum of Nature":         "Museum of Nature",
		"Flora of Iran Project & S. Rask":   "Flora of Iran Project",
		"US Forest Service":                 "US Forest Service",
		"Flora Smith":                       "",
		"Signe Rask, Botanical Survey team": "Botanical Survey team",
	} {
		if got := strings.Join(ReadTeam(text).Bodies, "|"); got != want {
			t.Errorf("%s: %q, want %q", text, got, want)
		}
	}
}

// ORCID's own example numbers, and one that a published list of terms gives
// though its check fails (Darwin Core, recordedByID).
func TestORCID(t *testing.T) {
	for text, want := range map[string]string{
		"0000-0002-1825-0097":                   "0000-0002-1825-0097",
		"https://orcid.org/0000-0003-1415-9269": "0000-0003-1415-9269",
		"0000-0002-9079-593X":                   "0000-0002-9079-593X",
		"0000-0002-9079-593x":                   "0000-0002-9079-593X",
		"0000-0002-1825-0098":                   "",
		"0000000218250097":                      "",
		"0000-0002-1825-009":                    "",
		"":                                      "",
	} {
		if got, ok := ORCID(text); got != want || ok != (want != "") {
			t.Errorf("%q: %q %v, want %q", text, got, ok, want)
		}
	}
}

var slugShape = regexp.MustCompile(`^([a-z0-9]+(-[a-z0-9]+)*)?$`)

func FuzzReadTeam(f *testing.F) {
	for _, s := range []string{"Signe Rask", "J. Ratcliff & S. L. O'Kane, Jr.", "Rask, S.; Bannister, O.", "J. H., A. M. and A. W. Skevington", "Mr. & Mrs. R.E. Moreau",
		"C.J. Bird 20/Aug./1980", "Humboldt,F.W.H.A. von", "-- Luke & -. Robertson", "P. Meira-Jr", "Unknown [J. S. Erskine?]", "Rask No. 1207, 14 vii 1987", "S. Rask s.n.", "St. John, H. <a@b> (0000-0002-1825-0097)", `John "Jack" Smith III`, "Sino-British Expedition"} {
		f.Add(s)
	}
	x := NewIndex([]Entry{{Name: "Signe Rask", Spellings: []string{"S. R."}}})
	f.Fuzz(func(t *testing.T, text string) {
		team := ReadTeam(text)
		if len(team.People) > 0 && team.None != Stated {
			t.Errorf("%q: somebody, and nobody", text)
		}
		for _, p := range team.People {
			if p.Family == "" || p.Text == "" {
				t.Errorf("%q: %+v", text, p)
			}
			if !slugShape.MatchString(p.Slug()) {
				t.Errorf("%q: slug %q", text, p.Slug())
			}
			if strings.ContainsFunc(p.String(), func(r rune) bool { return r >= firstID && r < 0xf8ff }) && !strings.ContainsFunc(text, func(r rune) bool { return r >= firstID && r < 0xf8ff }) {
				t.Errorf("%q: a sign of the reader's own is left in %q", text, p)
			}
			_, _, _ = p.Initials(), p.SortKey(), p.Key()
		}
		x.FindAll(text)
		x.Find(text)
	})
}

// A team written out is read back into its persons.
func TestReadsWhatIsWritten(t *testing.T) {
	families := []string{"Rask", "Bannister", "Aune", "Ostrander", "Bjørnstad", "Martin-Dahl", "O'Kane"}
	given := []string{"Signe", "Ove", "Åse", "Jean-Pierre", "S.", "O. K."}
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 4).Draw(t, "n")
		var plain, turned []string
		for range n {
			f, g := rapid.SampledFrom(families).Draw(t, "family"), rapid.SampledFrom(given).Draw(t, "given")
			plain = append(plain, g+" "+f)
			turned = append(turned, f+", "+g)
		}
		for _, text := range []string{strings.Join(plain, " & "), strings.Join(plain, "; "), strings.Join(plain, ", "), strings.Join(plain, " with "),
			strings.Join(plain, " | "), strings.Join(turned, "; "), strings.Join(turned, " & ")} {
			got := Read(text)
			if len(got) != n {
				t.Fatalf("%s: %q", text, got)
			}
			for i, p := range got {
				if p.String() != plain[i] {
					t.Fatalf("%s: %q, want %q", text, p, plain[i])
				}
			}
			for _, no := range []string{"1207", "12", "1207a", "97-12", NoNumber} {
				team := ReadTeam(text + " " + no)
				if len(team.People) != n || team.Number != no || team.People[n-1].String() != plain[n-1] {
					t.Fatalf("%s %s: %q %q", text, no, team.People, team.Number)
				}
			}
		}
	})
}

func BenchmarkReadTeam(b *testing.B) {
	texts := []string{"Signe Rask", "J. Ratcliff & S. L. O'Kane, Jr.", "Rask, S.; Bannister, O."}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		ReadTeam(texts[i%len(texts)])
	}
}
