package label

import (
	"strings"
	"testing"

	"blotter/ledger/dates"
)

// long is the sketch with a locality of n sentences.
func long(n int) string {
	return strings.Replace(sketch, "1.2 km NE of the church", "1.2 km NE of the church"+strings.Repeat(", then 300 m W over the bridge to the scree", n), 1)
}

// without takes a line out of a record.
func without(record, key string) string {
	var keep []string
	for _, l := range strings.Split(record, "\n") {
		if !strings.HasPrefix(strings.TrimSpace(l), key+":") {
			keep = append(keep, l)
		}
	}
	return strings.Join(keep, "\n")
}

// TestRefused: what is not printed, by which code and with which words.
func TestRefused(t *testing.T) {
	for _, c := range []struct {
		name, record, code, why, try string
	}{
		{"too long for every height", long(60), CodeTooLong, "locality, 2,6", "--parts 2"},
		{"a word wider than the line", strings.Replace(sketch, "the church", strings.Repeat("church", 20), 1), CodeWordWide, "locality has a word, churchchurch", "blotter edit LK7-0000482"},
		{"a letter that the typeface lacks", strings.Replace(sketch, "the church", "the church 漢", 1), CodeLetter, `no letter "漢" (U+6F22), in locality`, "blotter edit"},
		{"new material without a habitat", without(sketch, "habitat"), CodeFact, "habitat is missing", `habitat="not recorded"`},
		{"a position without a datum", without(sketch, "datum"), CodeFact, "datum is missing", "place.datum=WORDS"},
		{"new material without a number", without(sketch, "coll_no"), CodeFact, "coll no is missing", "coll_no=s.n."},
		{"a date that can be read in two ways", strings.Replace(sketch, "date: 14.vii.2025\nplace", "date: 3/4/2025\nplace", 1), CodeUnsettled, "3/4/2025, can be read as 2025-03-04 or 2025-04-03", "date-read="},
	} {
		in := input(t, c.record, "")
		made, refused := Labels([]*Input{in}, Options{})
		if len(made) != 0 || len(refused) != 1 {
			t.Errorf("%s: made %d, refused %v", c.name, len(made), refused)
			continue
		}
		r := refused[0]
		if r.Of != "LK7-0000482" || r.Code != c.code || !strings.Contains(r.Why, c.why) || !strings.Contains(r.Try, c.try) {
			t.Errorf("%s: %+v", c.name, r)
		}
	}
}

// TestLenient: words for none count as said, old material needs nothing, a
// draft is printed all the same.
func TestLenient(t *testing.T) {
	old := strings.NewReplacer("14.vii.2025", "14.vii.1931").Replace(without(without(sketch, "habitat"), "datum"))
	for name, record := range map[string]string{
		"words for none":              strings.Replace(strings.Replace(sketch, "habitat: Hay meadow on moraine", "habitat: not recorded", 1), `"1207"`, "s.n.", 1),
		"old material":                old,
		"old, with an open date":      strings.Replace(old, "date: 14.vii.1931\nplace", "date: 3/4/1931\nplace", 1),
		"no position, so no datum":    without(without(sketch, "position"), "datum"),
		"perhaps of the last century": strings.Replace(sketch, "date: 14.vii.2025\nplace", "date: 14.vii.25\nplace", 1),
	} {
		if _, refused := Labels([]*Input{input(t, record, "")}, Options{}); len(refused) > 0 {
			t.Errorf("%s: %+v", name, refused)
		}
	}
	in := input(t, without(sketch, "habitat"), "")
	in.Draft = true
	if _, refused := Labels([]*Input{in}, Options{}); len(refused) > 0 {
		t.Errorf("a draft: %+v", refused)
	}
	strict := input(t, without(old, "habitat"), "habits:\n  labels:\n    strict_from: 1900\n")
	if _, refused := Labels([]*Input{strict}, Options{}); len(refused) == 0 {
		t.Error("a museum that is strict from 1900 on was not")
	}
}

// TestWithheldIsNotTold: a refusal never repeats the words of a withheld place.
func TestWithheldIsNotTold(t *testing.T) {
	in := input(t, strings.Replace(sketch, "the church", strings.Repeat("church", 20), 1), "")
	in.Withheld = true
	_, refused := Labels([]*Input{in}, Options{})
	if len(refused) != 1 || strings.Contains(refused[0].Why+refused[0].Try, "church") {
		t.Errorf("%+v", refused)
	}
}

// TestOneSizeForAGathering: labels of one collector and number are set alike.
func TestOneSizeForAGathering(t *testing.T) {
	short, tall := input(t, sketch, ""), input(t, long(20), "")
	other := input(t, strings.Replace(sketch, `"1207"`, `"1208"`, 1), "")
	made, refused := Labels([]*Input{short, other, tall}, Options{})
	if len(refused) > 0 {
		t.Fatal(refused)
	}
	if made[0].Height != made[2].Height || made[0].Size != made[2].Size || made[0].Height == 68 {
		t.Errorf("one gathering: %g on %g, %g on %g", made[0].Size, made[0].Height, made[2].Size, made[2].Height)
	}
	if made[1].Height != 68 {
		t.Errorf("another gathering: %g", made[1].Height)
	}
}

// TestParts: a label in parts loses nothing, and each part can be told from
// its head and foot.
func TestParts(t *testing.T) {
	in := input(t, long(60), "")
	made, refused := Labels([]*Input{in}, Options{Parts: 3})
	if len(refused) > 0 || len(made[0].Blocks) != 2 {
		t.Fatalf("%+v %d", refused, len(made[0].Blocks))
	}
	s := newSetting(in)
	textHas(t, in, joinParts(made[0]), expected(in, s.shownName(), s.name.given))
	for i, b := range made[0].Blocks {
		sound(t, "part", b)
		text := strings.Join(Lines(b), "\n")
		for _, w := range []string{"LAUVKROKEN MUSEUM", "Ranunculus acris", "label " + itoa(i+1) + " of 2", "Signe Rask 1207", "LK7-0000482"} {
			if !strings.Contains(text, w) {
				t.Errorf("part %d lacks %q:\n%s", i+1, w, text)
			}
		}
	}
	whole, _ := Labels([]*Input{input(t, sketch, "")}, Options{Parts: 3})
	if len(whole[0].Blocks) != 1 {
		t.Error("a label that fits was divided")
	}
}

// named is the name line of a label.
func nameLine(t *testing.T, in *Input) string {
	t.Helper()
	for _, p := range one(t, in).Blocks[0].Parts {
		if p.Name == "name" {
			return p.Text
		}
	}
	return ""
}

// TestWhichName: the name of collection, the current one, that of a day.
func TestWhichName(t *testing.T) {
	record := sketch + `  - {name: Ranunculus acris L. subsp. acris, by: M. Ostrander, date: 2026-11-02}
  - {name: Ranunculus propinquus C.A.Mey., kind: name-change, by: Tiril Aune, date: 2027-01-05, from: publication}
`
	for _, c := range []struct {
		settings string
		on       dates.Day
		want     string
	}{
		{"", 0, "Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve"},
		{"habits:\n  labels:\n    name: current\n", 0, "Ranunculus propinquus C.A.Mey."},
		{"", dates.DayOf(2026, 12, 1), "Ranunculus acris L. subsp. acris"},
		{"", dates.DayOf(2025, 7, 13), "indet."},
	} {
		in := input(t, record, c.settings)
		in.Family, in.On = "", c.on
		if got := nameLine(t, in); got != c.want {
			t.Errorf("%q on %v: %q, want %q", c.settings, c.on, got, c.want)
		}
	}
	in := input(t, record, "habits:\n  labels:\n    name: current\n")
	lines := strings.Join(Lines(one(t, in).Blocks[0]), "\n")
	if want := "det. M. Ostrander, 2026-11-02, as Ranunculus acris L. subsp. acris"; !strings.Contains(lines, want) {
		t.Errorf("after a change of name:\n%s\nwant %q", lines, want)
	}
	known := input(t, strings.Replace(sketch, " (Wahlenb.) Á.Löve & D.Löve", "", 1), "")
	known.Known = func(string) (string, string) { return "(Wahlenb.) Á.Löve & D.Löve", "" }
	if got := nameLine(t, known); !strings.HasSuffix(got, "D.Löve") {
		t.Errorf("authors of names/: %q", got)
	}
	known.Habits.Labels.Authors.Text = "written"
	if got := nameLine(t, known); got != "Ranunculus acris subsp. pumilus" {
		t.Errorf("as written: %q", got)
	}
}

// TestTranscript: an old sheet's label says whose transcript it is; new
// material whose name came from the label does not.
func TestTranscript(t *testing.T) {
	in := input(t, strings.ReplaceAll(sketch, "14.vii.2025", "14.vii.1931"), "")
	in.Typist, in.Typed = "Tiril Aune", 2026
	if l := Lines(one(t, in).Blocks[0]); l[1] != "Transcript of the label of 1931, typed by Tiril Aune, 2026" {
		t.Errorf("%q", l[:3])
	}
	if in := input(t, sketch, ""); in.HasOwnLabel() {
		t.Error("new material was taken for old")
	}
	if in := input(t, sketch+"writings:\n  - {on_sheet: field label, text: \"R. acris\"}\n", ""); !in.HasOwnLabel() {
		t.Error("a label among the writings was not seen")
	}
}

// TestCautionAlwaysStands: whatever the sections are.
func TestCautionAlwaysStands(t *testing.T) {
	in := input(t, sketch, "habits:\n  labels:\n    sections: [place]\n")
	if l := strings.Join(Lines(one(t, in).Blocks[0]), "\n"); !strings.Contains(l, "CAUTION: fresh sap irritates skin.") {
		t.Error(l)
	}
}
