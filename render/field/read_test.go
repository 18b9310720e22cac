package field

import (
	"errors"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
	_ "blotter/ledger/ledgertest/seed"
)

// reader knows the fields of a record by their whole path, and three by their
// last part.
func reader() Reader {
	return Reader{
		Levels: []string{"", "landsdel", "herred"},
		Other: func(name string) (string, error) {
			switch name {
			case "country", "locality", "position":
				name = "place." + name
			case "number":
				name = "coll_no"
			case "sheet":
				name = "specimen"
			}
			if f, ok := ledger.FieldAt(ledger.RecordKind, name); ok && f.Kind != ledger.Group {
				return name, nil
			}
			return "", errors.New("nobody asks " + name)
		},
		None: func(path string) string { return "none of " + path },
	}
}

func TestRead(t *testing.T) {
	for _, c := range []struct {
		why, text string
		want      []map[string]string
	}{
		{"what is in common, then each plant; its own answer goes before", "form: field\ncollector: A\ndate: 1.v.2026\n---\nnumber: 1\n---\nnumber: 2\ndate: 2.v.2026\n",
			[]map[string]string{{"collector": "A", "date": "2.v.2026", "coll_no": "2"}}},
		{"a gathering that only common answers fill is left out; with scent it is made", "collector: A\n---\nnumber: 1\nscent:\n---\nnumber: 2\nscent: sweet\n",
			[]map[string]string{{"collector": "A", "coll_no": "2", "description": "Scent: sweet"}}},
		{"a byte order mark, CRLF and CR", "\ufeffform: field\r\nnumber: 7\r\nhabitat: bog\rscent: faint\r\n",
			[]map[string]string{{"coll_no": "7", "habitat": "bog", "description": "Scent: faint"}}},
		{"letters of a field form stay, quotes, colons and signs too", "form: field\nlocality: \"Camp #4\": E\nhabitat: - wet\n",
			[]map[string]string{{"place.locality": `"Camp #4": E`, "habitat": "- wet"}}},
		{"in another file quotes around a value are the writer's", "---\nlocality: \"Camp: 4\"\n", []map[string]string{{"place.locality": "Camp: 4"}}},
		{"an answer goes on below it", "form: field\nlocality: at the bridge,\n   2 km E: below\n\tthe road\nhabitat:\n  bog\n",
			[]map[string]string{{"place.locality": "at the bridge, 2 km E: below the road", "habitat": "bog"}}},
		{"a question may be indented, and in any case", "form: field\n  Plants  Seen : 60\n", []map[string]string{{"population": "60"}}},
		{"groups of fields", "form: field\nplace:\n  country: Norway\n  locality: Voss\nhabitat: bog\n", []map[string]string{{"place.country": "Norway", "place.locality": "Voss", "habitat": "bog"}}},
		{"description leads, the rest follows in the order of the form", "form: field\nnectar: much\ndescription: Herb.\ncolours: white\nheight: 2 m\n",
			[]map[string]string{{"description": "Herb. Height: 2 m; colours: white; nectar: much"}}},
		{"a hyphen is the word for none; of what joins, the form's", "form: field\nscent: -\npermit: -\nremarks: -\nphotos: 12\n",
			[]map[string]string{{"description": "Scent: none", "permit": "none of permit", "remarks": "none of remarks; photos: 12"}}},
		{"s.d. stays", "form: field\ndate: s.d.\n", []map[string]string{{"date": "s.d."}}},
		{"ticks in any language; others to the letter", "form: field\nfenologi: Blomst, bud, x\norigin: VILL\ncautions: spines, giftig saft\nhøyde fra: Kart\nabundance: spredt\n",
			[]map[string]string{{"phenology": "flower, bud, x", "origin": "wild", "cautions": "spiny, toxic", "place.elevation_by": "map", "abundance": "occasional"}}},
		{"the museum's own words for the levels of a place", "form: field\nlandsdel: Vestland\nherred: Voss\n", []map[string]string{{"place.province": "Vestland", "place.district": "Voss"}}},
		{"the next form takes nothing from the one before", "form: field\nproject: P\n---\nscent: a\nform: field\n---\nscent: b\n",
			[]map[string]string{{"project": "P", "description": "Scent: a"}, {"description": "Scent: b"}}},
		{"any field of a record", "form: field\nhost: Betula\nlatex: white\n", []map[string]string{{"host": "Betula", "description": "Latex: white"}}},
		{"an empty answer may be given below", "form: field\nhabitat:\nhabitat: bog\n", []map[string]string{{"habitat": "bog"}}},
		{"comments and hyphens of any length", "# a\nform: field\n  # b\n-----\nhabitat: bog # c\n", []map[string]string{{"habitat": "bog # c"}}},
	} {
		form, faults := reader().Read([]byte(c.text))
		var got []map[string]string
		for _, g := range form.Gatherings {
			got = append(got, g.Values)
		}
		if len(faults) > 0 || !cmp.Equal(got, c.want) {
			t.Errorf("%s: %v %s", c.why, faults, cmp.Diff(c.want, got))
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct {
		why, text string
		want      []Fault
	}{
		{"unknown questions, all of them, with line and column", "form: field\ncolurs: red\n---\n  habitat: bog\nodour:\n", []Fault{{2, 1, "nobody asks colurs"}, {5, 1, "nobody asks odour"}}},
		{"within a group the column is that of the name", "place:\n    contry: Norway\n---\nnumber: 1\n", []Fault{{2, 5, "nobody asks place.contry"}}},
		{"answered twice", "form: field\nscent: a\nduft: b\n", []Fault{{3, 1, "duft is answered twice, in line 2 too"}}},
		{"no question", "form: field\nhabitat: bog\nand wet\n", []Fault{{3, 1, `"and wet" is no QUESTION: ANSWER; a line that goes on with an answer begins with a blank`}}},
		{"UTF-16", "\xff\xfef\x00", []Fault{{1, 1, "the file is UTF-16; save it as UTF-8"}}},
		{"Latin-1", "form: field\nlocality: M\xf8lster\n", []Fault{{2, 12, "the byte F8 is not UTF-8; save the file as UTF-8, then look at every letter with an accent"}}},
		{"a control character", "form: field\nhabitat: b\x07g\n", []Fault{{2, 11, "an invisible control character (U+0007) stands here; take it out"}}},
		{"nothing", "# only\n", []Fault{{2, 1, "it has no plant; each begins after a line ---"}}},
		{"another form", "form: loan\n---\nhabitat: bog\n", []Fault{{1, 1, `form: "loan" is no form; form: field is the one that can be typed in`}}},
	} {
		_, faults := reader().Read([]byte(c.text))
		if !cmp.Equal(faults, c.want) {
			t.Errorf("%s: %s", c.why, cmp.Diff(c.want, faults))
		}
	}
}

func TestUnanswered(t *testing.T) {
	form, faults := reader().Read(sheet("nb", 3).Text())
	if len(faults) > 0 || len(form.Gatherings) > 0 || !slices.Equal(form.Unanswered, []string{"1311", "1312", "1313"}) || !form.Field {
		t.Errorf("a blank form: %+v %v", form, faults)
	}
	form, _ = reader().Read([]byte("collector: A\n---\nnumber: 4\n"))
	if len(form.Gatherings) != 1 || form.Field || form.Gatherings[0].Line != 3 {
		t.Errorf("a file without a question of the form: %+v", form)
	}
}

// TestWordsOfForm: every word has its translation, and no word means two
// questions.
func TestWordsOfForm(t *testing.T) {
	all := []string{saysDrying, saysDryingIt, saysTaken, saysSafety, saysPencil, saysBack, saysNone, saysPress, saysFold, saysOf, saysHead, saysNoneIs, saysTyped, saysCommon, saysTick}
	for _, q := range questions {
		all = append(all, q.Key)
		for _, x := range q.Ticks {
			all = append(all, x.Says)
		}
	}
	for _, w := range all {
		if inNorwegian[w] == "" {
			t.Errorf("no Norwegian for %q", w)
		}
	}
	for w := range inNorwegian {
		if !slices.Contains(all, w) {
			t.Errorf("nothing says %q", w)
		}
	}
	means := map[string]string{}
	for _, l := range languages {
		for _, q := range questions {
			w := folded(l.Say(q.Key))
			if strings.ContainsAny(w, ":#") || means[w] != "" && means[w] != q.Key {
				t.Errorf("%q asks %s and %s", w, means[w], q.Key)
			}
			means[w] = q.Key
			if f, ok := ledger.FieldAt(ledger.RecordKind, q.Path); !ok || f.Kind == ledger.Group {
				t.Errorf("%s fills %s, which is no field", q.Key, q.Path)
			}
		}
	}
	if LanguageOf("nn-NO").Code != "nb" || LanguageOf("en-GB").Code != "en" || LanguageOf("xx").Code != "en" {
		t.Error("languages by code")
	}
}

// hostile are words that YAML or a careless reader would bend.
var hostile = rapid.OneOf(rapid.SampledFrom([]string{"NO", "~", "0123", "12:30", "- a", "# b", "a #4", "'x'", `"y"`, "[illegible]", "{a: b}", "k: v", "null", "1.10", "60°42′N", "%", "@", "`", "a: b: c", "× ♂", "-2", "---x", "? y", "! z", "& *", "|", ">"}),
	rapid.StringMatching(`[A-Za-z0-9"'#:;,.!?\-\[\]{}&*|>%@~\\/ øåæé°′]{1,30}`))

// answerable trims a drawn answer as a line of text is trimmed; "" and "-" are
// no words.
func answerable(s string) string {
	if s = strings.Join(strings.Fields(s), " "); s == "-" {
		return ""
	}
	return s
}

// fillIn types answers behind the questions of a blank form.
func fillIn(blank string, answers []map[string]string, say func(string) string) string {
	at := -1
	var b strings.Builder
	for line := range strings.Lines(blank) {
		line = strings.TrimSuffix(line, "\n")
		if line == "---" {
			at++
		}
		if key, _, ok := strings.Cut(line, ":"); ok && at >= 0 && line[0] != '#' {
			for q, v := range answers[at] {
				if say(q) == key && v != "" {
					line = key + ": " + v
				}
			}
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}

// TestFilledForm: the blank form, filled in with any words in any language and
// with any line ends, gives those words for those fields and no others.
func TestFilledForm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := sheet(rapid.SampledFrom([]string{"en", "nb"}).Draw(t, "language"), 2)
		answers := []map[string]string{{}, {}}
		for i := range answers {
			for _, q := range questions {
				if !q.Once && q.Key != "number" && len(q.Ticks) == 0 && rapid.Bool().Draw(t, "answered") {
					answers[i][q.Key] = answerable(hostile.Draw(t, q.Key))
				}
			}
			answers[i]["habitat"] = "h" + answerable(hostile.Draw(t, "habitat"))
		}
		text := fillIn(string(s.Text()), answers, s.Language.Say)
		end := rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "end")
		text = rapid.SampledFrom([]string{"", "\ufeff"}).Draw(t, "mark") + strings.ReplaceAll(text, "\n", end)
		form, faults := reader().Read([]byte(text))
		if len(faults) > 0 || len(form.Gatherings) != 2 {
			t.Fatalf("%v %d", faults, len(form.Gatherings))
		}
		for i, g := range form.Gatherings {
			left := maps.Clone(g.Values)
			for _, q := range questions {
				want := answers[i][q.Key]
				if want == "" {
					continue
				}
				if q.Join {
					if !strings.Contains(g.Values[q.Path], want) {
						t.Fatalf("%s: %q is not in %q", q.Key, want, g.Values[q.Path])
					}
				} else if g.Values[q.Path] != want {
					t.Fatalf("%s: %q, want %q", q.Key, g.Values[q.Path], want)
				}
				delete(left, q.Path)
			}
			if left["collector"] != "Signe Rask" || left["coll_no"] != s.Numbers[i] || len(left) != 2 {
				t.Fatalf("more than was answered: %v", left)
			}
		}
	})
}

// FuzzForm: no text makes it panic; faults lie in the file, and what was read
// once reads the same with other line ends.
func FuzzForm(f *testing.F) {
	f.Add([]byte("collector: A\n---\nnumber: 1\nscent: sweet\n  and faint\n"))
	f.Add([]byte("\ufeffform: field\r\nplace:\r\n  country: Norway\r\n---\r\nnumber: 2\r\nfarger: \"gul\"\r\n"))
	f.Add([]byte("form: field\nscent: -\n---\n---\nform: field\n:\n x: y\n"))
	f.Add(sheet("nb", 1).Text())
	f.Fuzz(func(t *testing.T, src []byte) {
		form, faults := reader().Read(src)
		lines := 1 + strings.Count(strings.ReplaceAll(strings.ReplaceAll(string(src), "\r\n", "\n"), "\r", "\n"), "\n")
		for _, x := range faults {
			if x.Line < 1 || x.Line > lines || x.Col < 1 || x.Why == "" {
				t.Fatalf("fault %+v in %d lines", x, lines)
			}
		}
		if len(faults) > 0 {
			return
		}
		again, faults := reader().Read([]byte(strings.ReplaceAll(strings.ReplaceAll(string(src), "\r\n", "\n"), "\n", "\r\n")))
		if len(faults) > 0 || !cmp.Equal(form, again) {
			t.Fatalf("with CRLF otherwise: %v %s", faults, cmp.Diff(form, again))
		}
		for _, g := range form.Gatherings {
			if g.Line < 1 || g.Line > lines {
				t.Fatalf("gathering in line %d of %d", g.Line, lines)
			}
			for path, v := range g.Values {
				if v == "" || strings.ContainsAny(v, "\r\n") {
					t.Fatalf("%s: %q", path, v)
				}
			}
		}
	})
}

// BenchmarkRead reads a form of 100 gatherings, every question answered.
func BenchmarkRead(b *testing.B) {
	s := sheet("en", 100)
	text := []byte(strings.ReplaceAll(string(s.Text()), ":\n", ": petals yellow, paler beneath\n"))
	values := strings.Count(string(text), ": petals")
	b.ResetTimer()
	for range b.N {
		if form, faults := reader().Read(text); len(faults) > 0 || len(form.Gatherings) != 100 {
			b.Fatal(faults)
		}
	}
	b.ReportMetric(float64(values*b.N)/b.Elapsed().Seconds(), "values/s")
}
