package document

import (
	"bytes"
	"os"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
	"blotter/render/page"
	"blotter/render/paper"
)

// wordsOf are all letters of all pages but the feet, without spaces: a word
// may be broken.
func wordsOf(p *paper.Paper) string {
	var b strings.Builder
	for _, pg := range p.Pages {
		for _, it := range pg.Items {
			if t, ok := it.(paper.Text); ok && t.Y < pg.Size.H-footRoom {
				for _, r := range t.Runs {
					b.WriteString(r.Text)
				}
			}
		}
	}
	return without(b.String())
}

func without(s string) string { return strings.ReplaceAll(s, " ", "") }

// geometry holds that nothing stands outside the margins and no two lines of
// words meet.
func geometry(t interface{ Fatalf(string, ...any) }, p *paper.Paper) {
	for n, pg := range p.Pages {
		margin := min(20, pg.Size.W*0.095)
		var boxes []paper.Box
		for _, it := range pg.Items {
			b := it.Box()
			if b.X < margin-0.2 || b.Right() > pg.Size.W-margin+0.2 || b.Y < headRoom-0.2 || b.Bottom() > pg.Size.H-9 {
				t.Fatalf("page %d of %gx%g: %+v stands outside the margins", n+1, pg.Size.W, pg.Size.H, it)
			}
			if tx, ok := it.(paper.Text); ok {
				for _, o := range boxes {
					if b.X < o.Right()-0.01 && o.X < b.Right()-0.01 && b.Y < o.Bottom()-0.01 && o.Y < b.Bottom()-0.01 {
						t.Fatalf("page %d: %q meets another line", n+1, tx.Runs[0].Text)
					}
				}
				boxes = append(boxes, b)
			}
		}
	}
}

var anyWords = rapid.OneOf(
	rapid.StringMatching(`[a-zA-Zåäöéß×°0-9 .,;:/()-]{0,60}`),
	rapid.StringMatching(`[a-z/]{30,150}`),
	rapid.StringMatching(`([a-z]{1,9} ){20,90}`),
	rapid.StringMatching(`[0-9]{1,6}`),
	rapid.Just(""),
	rapid.Just("Salix\t<b>\n\u202e x"),
)

func anyDocument(t *rapid.T) *Document {
	d := &Document{Title: anyWords.Draw(t, "title"), Letters: rapid.Bool().Draw(t, "letters"), Wide: rapid.Bool().Draw(t, "wide")}
	words := func() string { return anyWords.Draw(t, "words") }
	list := func() []string { return rapid.SliceOfN(anyWords, 0, 6).Draw(t, "list") }
	rows := func(n int) (rows [][]string) {
		for range rapid.IntRange(0, 40).Draw(t, "rows") {
			rows = append(rows, rapid.SliceOfN(anyWords, 0, n).Draw(t, "row"))
		}
		return rows
	}
	for range rapid.IntRange(0, 8).Draw(t, "blocks") {
		switch Kind(rapid.IntRange(0, int(Tick)).Draw(t, "kind")) {
		case Heading:
			d.Heading(words())
		case Paragraph:
			d.Say(words())
		case Lines:
			d.Lines(list()...)
		case Items:
			d.Items(list()...)
		case Caution:
			d.Caution(words())
		case Table:
			heads := rapid.SliceOfN(anyWords, 1, 9).Draw(t, "heads")
			if rapid.Bool().Draw(t, "grid") {
				d.Grid(heads, rows(len(heads)), Grid{Blank: rapid.IntRange(0, 30).Draw(t, "blank"), ToFoot: rapid.Bool().Draw(t, "to foot")})
			} else {
				d.Table(heads, rows(len(heads)))
			}
		case Page:
			d.Page()
		case Chart:
			d.Chart(words(), "x.svg", nil, []page.Bar{{Label: words(), N: 3}, {Label: words(), N: 4000}})
		case Fill:
			d.Fill(Field{Label: words(), Value: words(), After: words()}, Field{Label: words(), Wide: 3}, Field{Value: words()})
		case Tick:
			d.Tick(words(), Boxes(list())...)
		}
	}
	return d
}

var sizes = []paper.Size{{Name: "A4", W: 210, H: 297}, {Name: "Letter", W: 215.9, H: 279.4}, {Name: "A6", W: 105, H: 148}, {W: 90, H: 90}, {Name: "A3", W: 297, H: 420}}

// TestAnyDocument sets documents of long words, many rows and huge cells.
func TestAnyDocument(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := anyDocument(t)
		size := rapid.SampledFrom(sizes).Draw(t, "size")
		p, err := d.Paper(Options{Size: size, Revision: "revision 8c1d0fe"})
		if err != nil {
			if !strings.Contains(err.Error(), "columns does not fit") || size.W > 105 {
				t.Fatal(err)
			}
			return
		}
		geometry(t, p)
	})
}

func longTable(rows int) *Document {
	d := &Document{Title: "Move list"}
	d.Say("What is carried from one cover to another.")
	var all [][]string
	for i := range rows {
		all = append(all, []string{"LK7-" + strings.Repeat("0", 3) + string(rune('A'+i%26)) + string(rune('a'+i/26)), "Ranunculus acris subsp. pumilus", "12", strings.Repeat("a long note ", i%9)})
	}
	d.Table([]string{"sheet", "name", "folder", "note"}, all)
	d.Names("name")
	return d
}

// TestRowsAndHeads holds that each row stands once and the heads on every
// page, and that no row is parted.
func TestRowsAndHeads(t *testing.T) {
	d := longTable(300)
	p, err := d.Paper(Options{Size: sizes[0]})
	if err != nil {
		t.Fatal(err)
	}
	if len(p.Pages) < 5 {
		t.Fatalf("300 rows on %d pages", len(p.Pages))
	}
	all := map[string]int{}
	for n, pg := range p.Pages {
		here := map[string]int{}
		for _, it := range pg.Items {
			if tx, ok := it.(paper.Text); ok {
				all[paper.TextOf([]paper.Line{{Runs: tx.Runs}})]++
				here[paper.TextOf([]paper.Line{{Runs: tx.Runs}})]++
			}
		}
		if here["sheet"] != 1 || here["folder"] != 1 {
			t.Errorf("page %d has the heads %d times", n+1, here["sheet"])
		}
	}
	for _, row := range d.Blocks[1].Rows {
		if all[row[0]] != 1 {
			t.Errorf("row %s stands %d times", row[0], all[row[0]])
		}
	}
	geometry(t, p)
}

// TestWordsKept holds that the pages have the words of the document, in order.
func TestWordsKept(t *testing.T) {
	d := sample()
	p, err := d.Paper(Options{Size: sizes[1], Day: time.Date(2026, 11, 3, 0, 0, 0, 0, time.UTC), Revision: "revision 8c1d0fe"})
	if err != nil {
		t.Fatal(err)
	}
	want := "Packing list of loan-2026-004 To: FJ3 Fjellheim Museum From: LK7 Three sheets <in all> & no more; the count on this list is what is in the box. " +
		"CAUTION: One sheet was treated with mercury, as far as is known. Gloves; your own rules come first. –each sheet in its own fold –some turned | level " +
		`sheet name LK7-0000482 Ranunculus acris L. LK7-0000517 Salix "x" | *y* Receipt`
	if got := wordsOf(p); got != without(want) {
		t.Errorf("got\n%s\nwant\n%s", got, without(want))
	}
	geometry(t, p)
	a, err := p.PDF()
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := p.PDF(); !bytes.Equal(a, b) {
		t.Error("the same pages give other bytes")
	}
	if to := os.Getenv("FORMS_LOOK"); to != "" {
		_ = os.WriteFile(to, a, 0o644)
	}
}

// TestKeptTogether holds what a reader needs on one page.
func TestKeptTogether(t *testing.T) {
	for fill := range 60 {
		d := &Document{}
		for range fill {
			d.Lines("a line")
		}
		d.Heading("What can hurt")
		d.Caution("gloves")
		d.Table([]string{"sheet"}, [][]string{{"one"}, {"two"}, {"three"}})
		p, err := d.Paper(Options{Size: sizes[0]})
		if err != nil {
			t.Fatal(err)
		}
		for n, pg := range p.Pages {
			has := map[string]bool{}
			for _, it := range pg.Items {
				if tx, ok := it.(paper.Text); ok && tx.Y < pg.Size.H-footRoom {
					has[strings.TrimSpace(paper.TextOf([]paper.Line{{Runs: tx.Runs}}))] = true
				}
			}
			if has["What can hurt"] && !(has["sheet"] && has["two"]) {
				t.Errorf("%d lines: page %d has the heading without the first rows: %v", fill, n+1, has)
			}
		}
		geometry(t, p)
	}
}

// TestRefused holds what cannot be printed to an error that names it.
func TestRefused(t *testing.T) {
	d := &Document{Title: "x"}
	d.Say("the sign ☿ of mercury, and 標本")
	if _, err := d.Paper(Options{Size: sizes[0]}); err == nil || !strings.Contains(err.Error(), "U+6A19") && !strings.Contains(err.Error(), "U+263F") {
		t.Errorf("a letter that the typeface lacks: %v", err)
	}
	if _, err := d.Paper(Options{Size: paper.Size{W: 40, H: 60}}); err == nil {
		t.Error("paper of 40 x 60 mm was taken")
	}
}
