package printed

import (
	"context"
	"fmt"
	"reflect"
	"testing"

	"pgregory.net/rapid"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	_ "blotter/ledger/ledgertest/seed"
	"blotter/ledger/work"
)

func load(t testing.TB, files map[string]string) *work.Works {
	t.Helper()
	files["blotter.yaml"] = "format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nnumbering:\n  prefix: LK7-\n  digits: 7\n"
	ctx, src := context.Background(), ledgertest.MapSource(files)
	b, err := book.Load(ctx, src, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	w, err := work.Load(ctx, src, b)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func sheet(files map[string]string, n int, more string) {
	no := ledger.Number(fmt.Sprintf("LK7-%07d", n))
	files[no.Path()] = "specimen: " + string(no) + "\nentry: full\n" + more
}

func works(files map[string]string, n ledger.WorkNumber, lines string) {
	files[n.Path()] = "work: " + string(n) + "\nlines:\n" + lines
}

// TestPrintings: which paper was printed for which sheet, from which revision.
func TestPrintings(t *testing.T) {
	files := map[string]string{}
	for n := 1; n <= 5; n++ {
		sheet(files, n, "")
	}
	works(files, "printing-2026-001", "  - {date: 2026-11-03, event: printed, sheets: [LK7-0000001..LK7-0000004], by: Tiril Aune, paper: labels, revision: 3f2a91c}\n")
	works(files, "printing-2026-002", "  - {date: 2026-11-04, event: printed, sheets: [LK7-0000002], paper: labels, revision: 8c1d0fe}\n"+
		"  - {date: 2026-11-04, event: printed, sheets: [LK7-0000003], paper: slips, revision: 8c1d0fe}\n"+
		"  - {date: 2026-11-05, event: printed, sheets: [LK7-0000003], paper: labels, revision: 8c1d0fe, mistake: the printer jammed}\n")
	works(files, "printing-2025-001", "  - {date: 2025-01-05, event: printed, sheets: [LK7-0000005]}\n")
	w := load(t, files)
	for _, c := range []struct {
		n      int
		paper  string
		want   string
		reason string
	}{
		{1, "labels", "3f2a91c", "within a span"},
		{2, "labels", "8c1d0fe", "the last of two"},
		{3, "labels", "3f2a91c", "a printing marked as a mistake does not count"},
		{3, "slips", "8c1d0fe", "each paper by itself"},
		{1, "slips", "none", "another paper"},
		{5, "labels", "", "a line that does not say what was printed tells of labels"},
		{6, "labels", "none", "a sheet that is not there"},
	} {
		got := "none"
		if p, ok := Last(w, ledger.Number(fmt.Sprintf("LK7-%07d", c.n)), c.paper); ok {
			got = p.Revision
		}
		if got != c.want {
			t.Errorf("%s of sheet %d (%s): %q, want %q", c.paper, c.n, c.reason, got, c.want)
		}
	}
	var got []string
	for _, b := range Batches(w, "labels") {
		for _, s := range b.Sheets {
			got = append(got, b.Revision+" "+string(s.Number)+" "+string(s.Work))
		}
	}
	want := []string{" LK7-0000005 printing-2025-001", "3f2a91c LK7-0000001 printing-2026-001", "3f2a91c LK7-0000003 printing-2026-001",
		"3f2a91c LK7-0000004 printing-2026-001", "8c1d0fe LK7-0000002 printing-2026-002"}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("batches\n%q, want\n%q", got, want)
	}
}

// TestWaiting: new material waits for its label until it is printed or
// somebody says that it has one.
func TestWaiting(t *testing.T) {
	files := map[string]string{}
	sheet(files, 1, "date: 2025-07-14\n")
	sheet(files, 2, "date: 1934-07-14\n")
	sheet(files, 3, "date: 1987\n")
	sheet(files, 4, "date: 2025-07-14\n")
	sheet(files, 5, "date: 2025-07-14\n")
	sheet(files, 6, "date: 2025-07-14\nfate:\n  - {is: lost, date: 2026-01-01, why: not found}\n")
	files["specimens/000/00/LK7-0000007.yaml"] = "specimen: LK7-0000007\nentry: draft\ndate: 2025-07-14\n"
	sheet(files, 8, "")
	sheet(files, 9, "date: 2025-07-14\n")
	works(files, "accession-2026-001", "  - {date: 2026-01-02, event: received, sheets: [LK7-0000003]}\n")
	works(files, "mounting-2026-001", "  - {date: 2026-01-02, event: labelled, sheets: [LK7-0000004]}\n")
	works(files, "printing-2026-001", "  - {date: 2026-01-02, event: printed, sheets: [LK7-0000005], paper: labels}\n")
	works(files, "shelf-2026-001", "  - {date: 2026-01-02, event: here, sheets: [LK7-0000009]}\n")
	w := load(t, files)
	for _, c := range []struct {
		n      int
		want   bool
		reason string
	}{
		{1, true, "new material"}, {2, false, "gathered long ago: it has its label"}, {3, true, "old, but it came into the house"},
		{4, false, "labelled when it was mounted"}, {5, false, "printed"}, {6, false, "lost"}, {7, false, "a draft"},
		{8, false, "nobody knows when it was gathered"}, {9, false, "here before the ledger"},
	} {
		e := w.Book().Find(ledger.Number(fmt.Sprintf("LK7-%07d", c.n)))
		if e == nil {
			t.Fatalf("no sheet %d", c.n)
		}
		if got := MayWait(w, e, dates.DayOf(2000, 1, 1)); got != c.want {
			t.Errorf("sheet %d (%s): %v", c.n, c.reason, got)
		}
	}
	for _, c := range []struct {
		text string
		want bool
	}{
		{"writings:\n  - {on_sheet: printed label, text: Herb. X}\n", true},
		{"writings:\n  - {on_sheet: pencil, text: Voss}\n", false},
		{"determinations:\n  - {name: Ranunculus acris L., from: label}\n", false},
		{"exsiccata: {series: Plantae, number: \"12\"}\n", true},
		{"former_herbarium: FJ3\n", true},
	} {
		r, _ := ledger.Decode("specimens/000/00/LK7-0000001.yaml", []byte("specimen: LK7-0000001\n"+c.text))
		if HasLabel(r) != c.want {
			t.Errorf("has a label: %v for %s", !c.want, c.text)
		}
	}
}

// TestDiffer: what of the papers of a sheet would now read otherwise.
func TestDiffer(t *testing.T) {
	a := Words{{"name", "Ranunculus acris L."}, {"place", "Voss. 384 m."}}
	b := Words{{"name", "Ranunculus acris L."}, {"place", "Voss. 348 m."}}
	c := Words{{"name", "Ranunculus repens L."}}
	d := Words{{"name", "Ranunculus acris L."}, {"place", "Voss. 384 m."}, {"caution", "irritates skin"}}
	for _, x := range []struct {
		was, is []Words
		want    []Difference
		reason  string
	}{
		{[]Words{a}, []Words{a}, nil, "the same"},
		{[]Words{a}, []Words{b}, []Difference{{"place", "Voss. 384 m.", "Voss. 348 m."}}, "one part"},
		{[]Words{a}, []Words{d}, []Difference{{"caution", "", "irritates skin"}}, "a part more"},
		{[]Words{d}, []Words{a}, []Difference{{"caution", "irritates skin", ""}}, "a part less"},
		{[]Words{a}, []Words{a, c}, nil, "a slip more was never printed"},
		{[]Words{a, c}, []Words{c, a}, nil, "another order is no other paper"},
		{[]Words{a, c}, []Words{c, b}, []Difference{{"place", "Voss. 384 m.", "Voss. 348 m."}}, "the one that is gone against the one that came"},
		{[]Words{c}, nil, []Difference{{"name", "Ranunculus repens L.", ""}}, "no paper any more"},
		{nil, []Words{c}, nil, "none was printed"},
	} {
		if got := Differ(x.was, x.is); !reflect.DeepEqual(got, x.want) {
			t.Errorf("%s: %v, want %v", x.reason, got, x.want)
		}
	}
}

// TestDifferRapid: papers do not differ from themselves in any order, and where
// there is a difference each of its sides stands in the papers.
func TestDifferRapid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		words := rapid.Custom(func(t *rapid.T) Words {
			return Words{{"name", rapid.SampledFrom([]string{"a", "b", "c"}).Draw(t, "name")}, {"place", rapid.SampledFrom([]string{"x", "y"}).Draw(t, "place")}}
		})
		was, is := rapid.SliceOfN(words, 0, 4).Draw(t, "was"), rapid.SliceOfN(words, 0, 4).Draw(t, "is")
		if got := Differ(was, rapid.Permutation(append(is, was...)).Draw(t, "order")); len(got) != 0 {
			t.Fatalf("%v differs from itself: %v", was, got)
		}
		stands := func(all []Words, part, text string) bool {
			for _, w := range all {
				if w.text(part) == text {
					return true
				}
			}
			return text == ""
		}
		for _, d := range Differ(was, is) {
			if d.Was == d.Is || !stands(was, d.Part, d.Was) || !stands(is, d.Part, d.Is) {
				t.Fatalf("%v, %v: %v", was, is, d)
			}
		}
	})
}

// TestBore: the number on a paper is the one of the day on which it was
// printed, whatever number the plant got since.
func TestBore(t *testing.T) {
	files := map[string]string{}
	for n := 1; n <= 5; n++ {
		sheet(files, n, "")
	}
	works(files, "printing-2026-001", "  - {date: 2026-11-03, event: printed, sheets: [LK7-0000001..LK7-0000003], paper: labels, revision: 3f2a91c}\n"+
		"  - {date: 2026-11-04, event: swapped, sheets: [LK7-0000001, LK7-0000002]}\n"+
		"  - {date: 2026-11-05, event: renumbered, sheets: [LK7-0000001], to: LK7-0000004}\n"+
		"  - {date: 2026-11-06, event: printed, sheets: [LK7-0000002], paper: labels, revision: 3f2a91c}\n"+
		"  - {date: 2026-11-07, event: renumbered, sheets: [LK7-0000004], to: LK7-0000005}\n")
	got := map[ledger.Number]ledger.Number{}
	for _, b := range Batches(load(t, files), Labels) {
		for _, s := range b.Sheets {
			got[s.Number] = s.Bore
		}
	}
	want := map[ledger.Number]ledger.Number{
		"LK7-0000002": "LK7-0000002", // printed anew after the exchange
		"LK7-0000003": "LK7-0000003", // never moved
		"LK7-0000005": "LK7-0000002", // exchanged with 1, then 4, then 5
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("numbers on the labels: %v, want %v", got, want)
	}
}

// BenchmarkBatches: 10,000 printed sheets of 100 revisions.
func BenchmarkBatches(b *testing.B) {
	files := map[string]string{}
	for n := range 10_000 {
		sheet(files, n, "")
	}
	for i := range 100 {
		works(files, ledger.WorkNumber(fmt.Sprintf("printing-2026-%03d", i+1)),
			fmt.Sprintf("  - {date: 2026-01-02, event: printed, sheets: [LK7-%07d..LK7-%07d], paper: labels, revision: %07d}\n", i*100, i*100+99, i))
	}
	w := load(b, files)
	for b.Loop() {
		if len(Batches(w, "labels")) != 100 {
			b.Fatal("not all")
		}
	}
}
