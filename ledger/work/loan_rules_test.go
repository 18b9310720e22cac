package work

import (
	"context"
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
)

// partnersOfTest are the museum, one in its country and one abroad.
const (
	partnersOfTest = `partners:
  - {code: LK7, name: Lauvkroken Museum, country: Norway}
  - {code: FJ3, name: Fjellheim Museum, country: Norway}
  - {code: ST4, name: Strandby Herbarium, country: Denmark}
`
	ranunculus = "collector: Signe Rask\ncoll_no: \"%d\"\ndate: 2025-06-01\ndeterminations:\n  - {name: Ranunculus acris L., by: Signe Rask, date: 2025-06-01}\n"
)

// common are ten sheets of one species, each a gathering of its own.
func common() []record {
	var out []record
	for i := range 10 {
		out = append(out, record{fmt.Sprintf("LK7-%07d", 101+i), fmt.Sprintf(ranunculus, 1+i)})
	}
	return out
}

func one(number, name, more string) record {
	return record{number, "collector: Ove Bannister\ncoll_no: \"9\"\ndate: 2024-07-01\n" + more + "determinations:\n  - {name: " + name + ", by: Ove Bannister, date: 2024-07-01}\n"}
}

// TestBars provokes every rule and, beside it, the nearest case that it lets
// pass.
func TestBars(t *testing.T) {
	loan := "partner: FJ3 Fjellheim Museum\npurpose: taxonomic revision\n"
	abroad := "partner: ST4 Strandby Herbarium\npurpose: taxonomic revision\n"
	sampling := "partner: FJ3\npurpose: DNA of Ranunculus\nmaterial: leaf, 0.8 cm2\n"
	permit := "permit:\n  number: 2026/318\n  uses: [taxonomic research]\n"
	cases := []struct {
		kind, heading, lines, more, verb, sheet string
		records                                 []record
		want, reason                            string
	}{
		{"loan", loan, "", "", "sent", "LK7-0000101", common(), "", "one of ten may go"},
		{"loan", loan, "", "", "sent", "LK7-0000201", []record{one("LK7-0000201", "Salix glauca L.", "types:\n  - {status: isotype, of: Salix glauca L., basis: verified}\n"), one("LK7-0000202", "Salix glauca L.", "")}, "type", "a type"},
		{"loan", loan, "", "", "sent", "LK7-0000201", []record{one("LK7-0000201", "Salix glauca L.", "types:\n  - {status: isotype, of: Salix glauca L., basis: suspected}\n"), one("LK7-0000202", "Salix glauca L.", "")}, "type", "suspected protects as a type does"},
		{"loan", loan, "", "", "sent", "LK7-0000201", []record{one("LK7-0000201", "Salix glauca L.", "")}, "unique", "the only one"},
		{"loan", loan, "", "", "sent", "LK7-0000201 LK7-0000202", []record{one("LK7-0000201", "Salix glauca L.", ""), one("LK7-0000202", "Salix glauca L.", "")}, "keep keep", "none would stay"},
		{"gift", loan, "", "", "sent", "LK7-0000201", []record{one("LK7-0000201", "Salix glauca L.", "fate:\n  - {is: lost, by: x, date: 2026-01-01, why: y}\n")}, "withdrawn", "it is no longer here"},
		{"loan", loan, "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus acris L., protection: protected since 2001}\n"}), "protected", "by law"},
		{"loan", loan, "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus, protection: protected since 2001}\n"}), "protected", "the whole genus"},
		{"loan", loan, "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus acris L., protection: none}\n"}), "", "none is none"},
		{"loan", loan, "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculaceae, treaty: II}\n  - {name: Ranunculus acris L.}\n"}), "", "the treaty is about borders"},
		{"exchange", abroad, "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculaceae, treaty: II}\n  - {name: Ranunculus acris L.}\n"}), "treaty", "over a border, the family listed"},
		{"loan", "partner: Nowhere\n", "", "", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus acris L., treaty: I}\n"}), "treaty", "nobody knows where it goes"},
		{"loan", abroad + "permits: [permit-2026-001]\n", "", "permit:\n  number: X1\n  for: treaty\n  from: 2026-01-01\n  to: 2026-12-31\n", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus acris L., treaty: I}\n"}), "", "under a permit that holds"},
		{"loan", abroad + "permits: [permit-2026-001]\n", "", "permit:\n  number: X1\n  for: treaty\n  from: 2025-01-01\n  to: 2025-12-31\n", "sent", "LK7-0000101", append(common(), record{"names", "  - {name: Ranunculus acris L., treaty: I}\n"}), "treaty", "the permit has ended"},
		{"sampling", sampling, "", "", "approved", "LK7-0000101", common(), "", "one of ten, leaf, 80 mm2, 2025"},
		{"sampling", sampling, "", "", "approved", "LK7-0000101", common()[:4], "few", "four gatherings, and the form says five"},
		{"sampling", sampling, "", "", "approved", "LK7-0000101", common()[:5], "", "five are enough"},
		{"sampling", sampling, "", "", "approved", "LK7-0000301", append(common(), record{"LK7-0000301", "collector: K. Moldstad\ndate: 1899\ndeterminations:\n  - {name: Ranunculus acris L., by: x, date: s.d.}\n"}), "old", "of 1899"},
		{"sampling", sampling, "", "", "approved", "LK7-0000301", append(common(), record{"LK7-0000301", "collector: K. Moldstad\ndate: 1900\ndeterminations:\n  - {name: Ranunculus acris L., by: x, date: s.d.}\n"}), "", "of 1900"},
		{"sampling", sampling, "", "", "approved", "LK7-0000301", append(common(), record{"LK7-0000301", "collector: K. Moldstad\ndate: s.d.\ndeterminations:\n  - {name: Ranunculus acris L., by: x, date: s.d.}\n"}), "old", "it may be old"},
		{"sampling", strings.Replace(sampling, "0.8 cm2", "12 x 10 mm", 1), "", "", "approved", "LK7-0000101", common(), "area", "120 mm2 are more than 1 cm2"},
		{"sampling", strings.Replace(sampling, "0.8 cm2", "1 cm²", 1), "", "", "approved", "LK7-0000101", common(), "", "1 cm2 is not more than 1 cm2"},
		{"sampling", sampling, "", "", "sampled", "LK7-0000101", append(common()[1:], record{"LK7-0000101", strings.Replace(fmt.Sprintf(ranunculus, 1), "determinations", "annotations:\n  - {kind: material-removed, what: one leaf, by: x, date: 2025-08-01}\ndeterminations", 1)}), "again", "leaf was taken before"},
		{"sampling", strings.Replace(sampling, "leaf, 0.8 cm2", "pollen of one flower", 1), "", "", "sampled", "LK7-0000101", append(common()[1:], record{"LK7-0000101", strings.Replace(fmt.Sprintf(ranunculus, 1), "determinations", "annotations:\n  - {kind: material-removed, what: one leaf, by: x, date: 2025-08-01}\ndeterminations", 1)}), "", "pollen is another kind"},
		{"sampling", sampling, "", "", "approved", "LK7-0000101", append(common()[1:], record{"LK7-0000101", strings.Replace(fmt.Sprintf(ranunculus, 1), "determinations", "sensitive: {why: at risk, category: \"2\"}\ndeterminations", 1)}), "sensitive", "at risk from collecting"},
		{"loan", loan, "", permit, "sent", "LK7-0000101", append(common()[1:], record{"LK7-0000101", "permit: 2026/318\n" + fmt.Sprintf(ranunculus, 1)}), "", "taxonomic revision is taxonomic research"},
		{"sampling", sampling, "", permit, "approved", "LK7-0000101", append(common()[1:], record{"LK7-0000101", "permit: 2026/318\n" + fmt.Sprintf(ranunculus, 1)}), "uses", "DNA is not taxonomic research"},
		{"loan", loan, "", permit + "  third_party: \"no\"\n", "sent", "LK7-0000101", append(common()[1:], record{"LK7-0000101", "permit: County Governor 2026/318\n" + fmt.Sprintf(ranunculus, 1)}), "third-party", "it may not pass to others"},
		{"loan", loan, "", permit + "  third_party: \"no\"\n", "sent", "LK7-0000101", append(common()[1:], record{"LK7-0000101", "permit: 2026/3189\n" + fmt.Sprintf(ranunculus, 1)}), "", "another permit"},
		{"loan", loan, "  - {date: 2026-01-02, event: returned, sheets: [LK7-0000101], grade: \"4\"}\n", "", "sent", "LK7-0000101", common(), "grade", "grade 4 is not handled"},
		{"loan", loan, "  - {date: 2026-01-02, event: packed, sheets: [LK7-0000201], why: the director agreed}\n", "", "sent", "LK7-0000201", []record{one("LK7-0000201", "Salix glauca L.", "")}, "", "the reason was given when it was packed"},
	}
	for _, c := range cases {
		n := c.kind + "-2026-001"
		works := map[string]string{n: c.heading + "lines:\n  - {date: 2026-01-01, event: requested}\n" + c.lines}
		if c.more != "" {
			works["permit-2026-001"] = c.more
		}
		w, src := worksAnd(t, partnersOfTest, works, c.records...)
		var list []ledger.Number
		for _, s := range strings.Fields(c.sheet) {
			list = append(list, ledger.Number(s))
		}
		bars, err := w.Bars(context.Background(), w.book.Loader(src, nil), Sending{File: w.Find(ledger.WorkNumber(n)), Verb: c.verb, On: day(t, "2026-02-01"), Sheets: list})
		var got []string
		for _, b := range bars {
			got = append(got, b.Rule)
		}
		if err != nil || strings.Join(got, " ") != c.want {
			t.Errorf("%s %s (%s): %v %v, want %q", c.kind, c.verb, c.reason, bars, err, c.want)
		}
	}
}

// TestEveryRuleHasItsWords: each has a sentence, a source and a case above.
func TestEveryRuleHasItsWords(t *testing.T) {
	for _, r := range LendingRules() {
		if r.Says == "" || r.Source == "" || len(r.For) == 0 || !strings.HasSuffix(r.Says, ".") {
			t.Errorf("%s: %+v", r.Code, r)
		}
	}
}

// TestAreas: figures worked out by hand.
func TestAreas(t *testing.T) {
	for words, want := range map[string]float64{"leaf, 0.8 cm2": 80, "1 cm²": 100, "50 mm2": 50, "5 x 4 mm": 20, "1,5 cm2": 150, "0.5 × 2 cm": 100, "one leaf": -1, "": -1} {
		got, ok := ReadArea(words)
		if !ok {
			got = -1
		}
		if got != want {
			t.Errorf("%q: %g mm2, want %g", words, got, want)
		}
	}
}

// TestPartners: a partner is known by its code, its name or both.
func TestPartners(t *testing.T) {
	w := worksOf(t, partnersOfTest, nil)
	for words, want := range map[string]string{
		"FJ3": "FJ3", "FJ3 Fjellheim Museum": "FJ3", "Fjellheim Museum": "FJ3", "fjellheim museum": "FJ3", "Fjellheim Museum (FJ3)": "FJ3", "FJ3, Fjellheim": "FJ3",
		"XY9 Elsewhere": "XY9", "Else Where": "else where", "": "",
	} {
		if got := w.PartnerKey(words); got != want {
			t.Errorf("%q: %q, want %q", words, got, want)
		}
	}
}

// FuzzReaders: no words make the readers of lending fall over, and a period
// read is a period after which a day lies.
func FuzzReaders(f *testing.F) {
	for _, s := range []string{"12 months", "one year", "0.8 cm2", "5 x 4 mm", "FJ3 Fjellheim Museum", "LK7-0000480..LK7-0000489", "480..489", "9999 y", "\xff", "a (B)"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		if p, ok := ReadPeriod(s); ok && p.After(20000) <= 20000 {
			t.Errorf("%q is a period of nothing", s)
		}
		ReadArea(s)
		code, name := ReadPartner(s)
		if strings.ContainsAny(code, " \n") || len(name) > len(s) {
			t.Errorf("%q: code %q, name %q", s, code, name)
		}
		first, last, _ := strings.Cut(s, "..")
		if got := figuresOf(first, last); len(got) == 0 || got[0] != first {
			t.Errorf("%q: %q", s, got)
		}
		hasWord(s, first)
		sameMaterial(s, last)
	})
}
