package label

import (
	"slices"
	"strings"
	"testing"

	"blotter/render/paper"
)

// slipSketch is the record of interface.md section 3, with the label's own
// name before the slip.
const slipSketch = `specimen: LK7-0000482
entry: draft
determinations:
  - {name: Ranunculus acris L., by: Signe Rask, date: 2025-07-14, from: label}
  - name: Ranunculus acris cf. subsp. pumilus
    kind: det
    by: M. Ostrander
    date: 2026-11-02
    seen: sheet
    why: Beak and receptacle hairs, against the regional flora
`

// pumilus has the authors of the sketch in names/.
func pumilus(in *Input) *Input {
	in.Known = func(words string) (string, string) {
		if strings.HasSuffix(words, "subsp. pumilus") {
			return "(Wahlenb.) Á.Löve & D.Löve", "Ranunculaceae"
		}
		return "", ""
	}
	return in
}

// slipsOf sets the slips of a record that refuses none.
func slipsOf(t testing.TB, in *Input, o SlipOptions) []*paper.Block {
	t.Helper()
	blocks, refused := Slips(in, o)
	for _, r := range refused {
		t.Fatalf("%s: %s [%s] %s", r.Of, r.Why, r.Code, r.Try)
	}
	for _, b := range blocks {
		slipSound(t, b)
	}
	return blocks
}

// slipSound holds a slip to its law: no part meets another or leaves the text
// area.
func slipSound(t testing.TB, b *paper.Block) {
	t.Helper()
	const slack = 0.03
	for i, p := range b.Parts {
		if p.Box.X < sideIn-slack || p.Box.Right() > Width-sideIn+slack || p.Box.Y < slipIn-slack || p.Box.Bottom() > b.H-slipIn+slack {
			t.Errorf("%s: %s %.2f leaves the text area", b.Of, p.Name, p.Box)
		}
		for _, q := range b.Parts[:i] {
			if p.Box.X < q.Box.Right()-slack && q.Box.X < p.Box.Right()-slack && p.Box.Y < q.Box.Bottom()-slack && q.Box.Y < p.Box.Bottom()-slack && !sideBySide(p, q) {
				t.Errorf("%s: %s %.2f meets %s %.2f", b.Of, p.Name, p.Box, q.Name, q.Box)
			}
		}
	}
}

// sideBySide reports whether two parts are columns of the foot, which has
// lines at both sides that never meet.
func sideBySide(p, q paper.Part) bool {
	return p.Box.Right() <= q.Box.X || q.Box.Right() <= p.Box.X
}

// linesOf are the words of a slip as they stand, line by line, words of one
// line apart by three blanks.
func linesOf(b *paper.Block) []string {
	type line struct {
		y     float64
		texts []paper.Text
	}
	var all []line
	for _, it := range b.Items {
		t, ok := it.(paper.Text)
		if !ok {
			continue
		}
		k := slices.IndexFunc(all, func(l line) bool { return l.y-t.Y < 1 && t.Y-l.y < 1 })
		if k < 0 {
			all = append(all, line{y: t.Y})
			k = len(all) - 1
		}
		all[k].texts = append(all[k].texts, t)
	}
	slices.SortFunc(all, func(a, b line) int { return int(a.y*100) - int(b.y*100) })
	var out []string
	for _, l := range all {
		slices.SortFunc(l.texts, func(a, b paper.Text) int { return int(a.X*100) - int(b.X*100) })
		var words []string
		for _, t := range l.texts {
			words = append(words, textOf(t.Runs))
		}
		out = append(out, strings.Join(words, "   "))
	}
	return out
}

// TestSlipSketch holds the slip to the lines of interface.md section 3.
func TestSlipSketch(t *testing.T) {
	blocks := slipsOf(t, pumilus(input(t, slipSketch, "")), SlipOptions{})
	if len(blocks) != 1 || blocks[0].W != 105 || blocks[0].H != 27 || blocks[0].Of != "LK7-0000482" {
		t.Fatalf("%d slips", len(blocks))
	}
	want := []string{
		"Ranunculus acris cf. subsp. pumilus (Wahlenb.) Á.Löve & D.Löve",
		"Beak and receptacle hairs, against the regional flora.",
		"det. M. Ostrander, 2.xi.2026   LK7-0000482, Lauvkroken Museum",
	}
	if got := linesOf(blocks[0]); !slices.Equal(got, want) {
		t.Errorf("%q", got)
	}
	for _, it := range blocks[0].Items {
		if x, ok := it.(paper.Text); ok && x.Runs[0].Text[:2] == "Ra" {
			for _, r := range x.Runs {
				if strings.Contains(r.Text, "cf.") && (r.Face != paper.Roman || r.Size != 10) || strings.Contains(r.Text, "acris") && (r.Face != paper.Italic || r.Size != 11.5) {
					t.Errorf("%q is set in face %d of %g points", r.Text, r.Face, r.Size)
				}
			}
		}
	}
}

// TestSlipWords tells what each kind of entry becomes.
func TestSlipWords(t *testing.T) {
	for _, c := range []struct {
		name, reason, entries, settings string
		want                            []string // lines of the slips, one an entry of the list
		heights                         []float64
	}{
		{"conf", "agrees with the name above it: one line, half a place", "determinations:\n  - {name: Poa annua L., by: A. Holm, date: 1931}\n  - {name: Poa annua, kind: conf, by: S. Bannister, date: 3.v.1962}\n", "",
			[]string{"Poa annua L.", "det. A. Holm, 1931   LK7-0000482, Lauvkroken Museum", "conf. S. Bannister, 3.v.1962   LK7-0000482, Lauvkroken Museum"}, []float64{27, 13.5}},
		{"conf of an older name", "one line would be taken for the name above it", "determinations:\n  - {name: Poa annua L., by: A. Holm, date: 1931}\n  - {name: Poa supina, by: B, date: 1940}\n  - {name: Poa annua, kind: conf, by: S. Bannister, date: 1962}\n", "",
			[]string{"Poa annua L.", "det. A. Holm, 1931   LK7-0000482, Lauvkroken Museum", "Poa supina", "det. B, 1940   LK7-0000482, Lauvkroken Museum", "Poa annua", "conf. S. Bannister, 1962   LK7-0000482, Lauvkroken Museum"}, []float64{27, 27, 27}},
		{"not", "nobody is made to have named it", "determinations:\n  - {name: Salix lapponum L., kind: not, by: M. Ostrander, date: 2018-06-01, seen: picture}\n", "",
			[]string{"not Salix lapponum L.", "From a picture.", "M. Ostrander, 1.vi.2018   LK7-0000482, Lauvkroken Museum"}, []float64{27}},
		{"from slip and label", "they lie on the sheet already", "determinations:\n  - {name: Poa, by: A, date: 1931, from: slip}\n  - {name: Poa, by: A, date: 1932, from: label}\n  - {name: Poa, by: A, date: 1933, mistake: typed twice}\n  - {name: Aira, by: A, date: 1934, from: letter}\n", "",
			[]string{"Aira", "det. A, 1934   LK7-0000482, Lauvkroken Museum"}, []float64{27}},
		{"part and source", "they belong to the opinion", "determinations:\n  - {name: Poa, by: Þ. Ægisdóttir, at: Fjellheim Museum, date: s.d., part: left-hand plant, why: glumes, source: \"Fl. Voss., p. 7\"}\n", "",
			[]string{"Poa", "left-hand plant; glumes. Fl. Voss., p. 7.", "det. Þ. Ægisdóttir, Fjellheim Museum, s.d.   LK7-0000482", "Lauvkroken Museum"}, nil},
		{"unsigned", "words for none stand as written", "determinations:\n  - {name: \"Salix lapponum?\", by: unsigned, date: s.d.}\n", "",
			[]string{"Salix lapponum?", "det. unsigned, s.d.   LK7-0000482, Lauvkroken Museum"}, []float64{27}},
		{"name-change", "says that nobody looked", "determinations:\n  - {name: Polygonum viviparum L., by: A, date: 1931, from: label}\n  - {name: Bistorta vivipara (L.) Delarbre, kind: name-change, by: B, date: 2026-01-09, source: \"regional flora, 2nd ed.\"}\n", "",
			[]string{"Bistorta vivipara (L.) Delarbre", "Name changed; the plant was not looked at. Determined as", "Polygonum viviparum L.; regional flora, 2nd ed.", "B, 9.i.2026   LK7-0000482, Lauvkroken Museum"}, nil},
		{"name-change left out", "the setting", "determinations:\n  - {name: Bistorta vivipara, kind: name-change, by: B, date: 2026-01-09}\n", "habits: {slips: {name_changes: none}}\n", nil, nil},
		{"material", "no name, what was taken", "annotations:\n  - {kind: material-removed, what: one leaf for DNA, by: Tiril Aune, date: 2026-03-02}\n  - {kind: question, what: why so tall, by: A, date: 2026}\n  - {kind: seen, by: A, date: 1931, from: slip}\n", "",
			[]string{"Material removed: one leaf for DNA", "Tiril Aune, 2.iii.2026   LK7-0000482, Lauvkroken Museum"}, []float64{27}},
		{"annotations left out", "the setting", "annotations:\n  - {kind: seen, by: A, date: 2026}\n", "habits: {slips: {annotations: [none]}}\n", nil, nil},
		{"written", "the setting; words in Norwegian", "annotations:\n  - {kind: seen, by: A, date: 2026-03-02}\n", "habits: {slips: {dates: written}, labels: {language: nb}}\n",
			[]string{"Sett", "A, 2026-03-02   LK7-0000482, Lauvkroken Museum"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			var got []string
			for i, b := range slipsOf(t, input(t, "specimen: LK7-0000482\nentry: draft\n"+c.entries, c.settings), SlipOptions{}) {
				got = append(got, linesOf(b)...)
				if c.heights != nil && b.H != c.heights[i] {
					t.Errorf("slip %d is %g mm high", i+1, b.H)
				}
			}
			if !slices.Equal(got, c.want) {
				t.Errorf("%s: %q", c.reason, got)
			}
		})
	}
}

// TestUnprinted: what was printed is known by its words, not by its place.
func TestUnprinted(t *testing.T) {
	in := input(t, slipSketch+"  - {name: Ranunculus acris L., by: B, date: 2027}\n", "")
	was := input(t, slipSketch, "").Record
	got := slipsOf(t, in, SlipOptions{Printed: was})
	if len(got) != 1 || !strings.Contains(linesOf(got[0])[1], "B, 2027") {
		t.Errorf("%d slips", len(got))
	}
	// An older one is found and inserted before what was printed.
	older := strings.Replace(slipSketch, "determinations:\n", "determinations:\n  - {name: Ranunculus L., by: C, date: 1930}\n", 1)
	got = slipsOf(t, input(t, older, ""), SlipOptions{Printed: was})
	if len(got) != 1 || !strings.Contains(linesOf(got[0])[1], "C, 1930") {
		t.Errorf("%d slips of an inserted opinion", len(got))
	}
	// A slip of the pen that was set right: the printed slip is wrong.
	right := strings.Replace(slipSketch, "M. Ostrander", "N. Ostrander", 1)
	if got = slipsOf(t, input(t, right, ""), SlipOptions{Printed: was}); len(got) != 1 {
		t.Errorf("%d slips of a corrected opinion", len(got))
	}
	if got = slipsOf(t, input(t, slipSketch, ""), SlipOptions{Printed: was}); len(got) != 0 {
		t.Errorf("%d slips where nothing is new", len(got))
	}
}

// TestSlipRefusals: nothing is cut; what to type is said, and does it.
func TestSlipRefusals(t *testing.T) {
	entry := func(name, why string) string {
		return "specimen: LK7-0000482\nentry: draft\ndeterminations:\n  - {name: " + name + ", by: A. Holm, date: 1931, why: \"" + why + "\"}\n"
	}
	for _, c := range []struct {
		name, record, code, why string
		parts                   int // with so many it is set
	}{
		{"long grounds", entry("Poa", strings.Repeat("stomata measured; ", 17)+"end"), CodeSlipTooLong, "determinations.1.why, 309 letters, does not fit a slip of 27 mm with the rest", 2},
		{"long name and grounds of three lines", entry("Ranunculus acris subsp. borealis (Regel) Nyman var. glabratus (Lange) Hyl. f. villosissimus (Neuman) Samuelsson", strings.Repeat("stomata measured; ", 9)+"end"), CodeSlipTooLong, "determinations.1.why, 165 letters, does not fit", 2},
		{"wide word", entry("Poa", strings.Repeat("x", 200)), CodeSlipWordWide, "determinations.1.why has words", 0},
		{"no letter", entry("Poa", "seen at ☿"), CodeSlipLetter, `the typeface has no letter "☿" (U+263F), in determinations.1.why`, 0},
	} {
		in := input(t, c.record, "")
		blocks, refused := Slips(in, SlipOptions{})
		if len(blocks) != 0 || len(refused) != 1 || refused[0].Code != c.code || !strings.HasPrefix(refused[0].Why, c.why) {
			t.Errorf("%s: %d slips, %+v", c.name, len(blocks), refused)
		}
		if c.parts == 0 {
			continue
		}
		if !strings.Contains(refused[0].Try, "--parts 2") {
			t.Errorf("%s: %s", c.name, refused[0].Try)
		}
		if got := slipsOf(t, in, SlipOptions{Parts: c.parts}); len(got) != 1 || got[0].H != 54 {
			t.Errorf("%s: %d slips", c.name, len(got))
		}
	}
}

// TestLongHistory: every opinion of many has its slip, in their order.
func TestLongHistory(t *testing.T) {
	var b strings.Builder
	b.WriteString("specimen: LK7-0000482\nentry: draft\ndeterminations:\n")
	for i := range 60 {
		b.WriteString("  - {name: Hieracium sp. " + itoa(i+1) + ", by: A. Holm, date: " + itoa(1900+i) + "}\n")
	}
	blocks := slipsOf(t, input(t, b.String(), ""), SlipOptions{})
	if len(blocks) != 60 {
		t.Fatalf("%d slips", len(blocks))
	}
	for i, s := range blocks {
		if got := linesOf(s); got[0] != "Hieracium sp. "+itoa(i+1) || !strings.Contains(got[1], itoa(1900+i)) {
			t.Errorf("%d: %q", i, got)
		}
	}
}

func TestRomanDate(t *testing.T) {
	for words, want := range map[string]string{"2026-11-02": "2.xi.2026", "1931-01-31": "31.i.1931", "2026-11": "2026-11", "2.xi.2026": "2.xi.2026", "s.d.": "s.d.", "2026-02-30": "2026-02-30", "3/4/1934": "3/4/1934", "": ""} {
		if got := RomanDate(words); got != want {
			t.Errorf("%s: %s, want %s", words, got, want)
		}
	}
}

func TestRenamedSlip(t *testing.T) {
	in := input(t, "specimen: LK7-0000090\nentry: draft\n", "")
	b, r := RenamedSlip(in, Renamed{Now: "Bistorta vivipara (L.) Delarbre", Was: "Polygonum viviparum L.", Source: "regional flora, 2nd ed.", By: "Tiril Aune", Date: "2026-01-09"}, SlipOptions{})
	if r != nil {
		t.Fatal(r)
	}
	want := "Bistorta vivipara (L.) Delarbre|Name changed; the plant was not looked at. Determined as|Polygonum viviparum L.; regional flora, 2nd ed.|Tiril Aune, 9.i.2026   LK7-0000090, Lauvkroken Museum"
	if got := strings.Join(linesOf(b), "|"); got != want {
		t.Errorf("%s", got)
	}
}

// TestRenamedSlipUnsigned: who answers for a change of name that names/ gives
// without a person or a day.
func TestRenamedSlipUnsigned(t *testing.T) {
	const now, was = "Bistorta vivipara (L.) Delarbre", "Polygonum viviparum L."
	head := now + "|Name changed; the plant was not looked at. Determined as|" + was
	for _, c := range []struct{ name, source, by, date, want string }{
		{"nothing", "", "", "", head + "|no source on record   LK7-0000090, Lauvkroken Museum"},
		{"only a source", "regional flora, 2nd ed.", "", "", head + "|regional flora, 2nd ed.   LK7-0000090, Lauvkroken Museum"},
		{"a day and a source", "regional flora, 2nd ed.", "", "2026-01-09", head + "; regional flora, 2nd ed.|9.i.2026   LK7-0000090, Lauvkroken Museum"},
		{"nobody, in words", "", "unknown", "", head + "|no source on record   LK7-0000090, Lauvkroken Museum"},
	} {
		in := input(t, "specimen: LK7-0000090\nentry: draft\n", "")
		b, r := RenamedSlip(in, Renamed{Now: now, Was: was, Source: c.source, By: c.by, Date: c.date}, SlipOptions{})
		if r != nil {
			t.Fatal(r)
		}
		if got := strings.Join(linesOf(b), "|"); got != c.want {
			t.Errorf("%s:\n%s, want\n%s", c.name, got, c.want)
		}
	}
}
