package label

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
	"blotter/render/paper"
)

// TestCover: what stands on the label of a folder.
func TestCover(t *testing.T) {
	for _, c := range []struct {
		f      Folder
		lang   string
		w, h   float64
		words  string
		reason string
	}{
		{Folder{Genus: true, Family: "Ranunculaceae", Number: "91", Name: "Ranunculus", Cabinet: "4"}, "en", 105, 40,
			"Ranunculaceae 91|cabinet 4|Ranunculus|Lauvkroken Museum", "a genus cover has no folder"},
		{Folder{Family: "Ranunculaceae", Name: "Ranunculus acris subsp. pumilus", Region: "Vestland", Colour: "green", Cabinet: "4", Folder: 12, Sheets: 6}, "en", 105, 40,
			"Ranunculaceae|cabinet 4|Ranunculus acris subsp. pumilus|Vestland (green)|Lauvkroken Museum|folder 12, 6 sheets", "a region with its colour in words"},
		{Folder{Family: "Poaceae", Name: "Poa", Level: GenusOnly, Folder: 1, Sheets: 1}, "en", 105, 27,
			"Poaceae|Poa|not named to the species|Lauvkroken Museum|folder 1, 1 sheet", "as low as a slip; named to the genus"},
		{Folder{Folder: 1}, "nb", 105, 40, "ikke bestemt|Lauvkroken Museum|mappe 1", "not named, in Norwegian"},
		{Folder{Series: "types", Family: "Poaceae", Name: "Poa alpina", Types: true, Folder: 2}, "en", 60, 40,
			"types: Poaceae|Poa alpina|types|Lauvkroken Museum|folder 2", "a narrow label"},
		{Folder{Name: "Aus bus", Planted: true, Region: "Voss", Colour: "white", Folder: 1}, "de", 105, 40,
			"Familie unbekannt|Aus bus|kultiviert (white)|Lauvkroken Museum|Mappe 1", "cultivated, whatever the region"},
	} {
		b, no := Cover(c.f, "Lauvkroken Museum", c.w, c.h, LanguageOf(c.lang))
		if no != nil {
			t.Errorf("%s: %v", c.reason, no)
			continue
		}
		var words []string
		for _, it := range b.Items {
			if x, ok := it.(paper.Text); ok {
				words = append(words, textOf(x.Runs))
			}
		}
		if got := strings.Join(words, "|"); got != c.words {
			t.Errorf("%s:\n got %s\nwant %s", c.reason, got, c.words)
		}
	}
	if _, no := Cover(Folder{Name: strings.Repeat("Verylongname", 9)}, "M", 105, 40, &english); no == nil || no.Code != CodeCoverTooLong {
		t.Errorf("a name wider than the label: %v", no)
	}
	if _, no := Cover(Folder{Name: "Aus \u263f"}, "M", 105, 40, &english); no == nil || no.Code != CodeCoverLetter {
		t.Errorf("a letter that the typeface lacks: %v", no)
	}
}

// held holds the parts of a block to be within it and not to meet.
func held(t *rapid.T, b *paper.Block, in float64) {
	for i, p := range b.Parts {
		if p.Box.X < in-0.01 || p.Box.Right() > b.W-in+0.01 || p.Box.Y < 0 || p.Box.Bottom() > b.H {
			t.Fatalf("%s lies outside: %+v of %g x %g", p.Name, p.Box, b.W, b.H)
		}
		for _, q := range b.Parts[i+1:] {
			// The boxes reach over letters that hardly any word has: 0.6 mm.
			if p.Box.X < q.Box.Right() && q.Box.X < p.Box.Right() && p.Box.Y < q.Box.Bottom()-0.6 && q.Box.Y < p.Box.Bottom()-0.6 {
				t.Fatalf("%s meets %s: %+v %+v", p.Name, q.Name, p.Box, q.Box)
			}
		}
	}
}

// TestCoversHold: labels of random folders and sizes have all words within
// them, apart from each other, or are refused.
func TestCoversHold(t *testing.T) {
	made, draws := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		draws++
		word := rapid.StringMatching(`[A-Z][a-z]{2,18}`)
		f := Folder{Genus: rapid.Bool().Draw(t, "genus"), Family: word.Draw(t, "family"), Cabinet: rapid.StringMatching(`[0-9]{0,3}`).Draw(t, "cabinet"),
			Region: rapid.StringMatching(`|[A-Z][a-z]{3,20}( [a-z]{3,9})?`).Draw(t, "region"), Colour: "green", Folder: rapid.IntRange(0, 200).Draw(t, "folder"), Sheets: rapid.IntRange(0, 9).Draw(t, "sheets")}
		f.Name = word.Draw(t, "name")
		if !f.Genus {
			f.Name += " " + rapid.StringMatching(`[a-w]{3,20}( subsp\. [a-w]{4,20})?`).Draw(t, "epithet")
		}
		w, h := rapid.Float64Range(40, 200).Draw(t, "w"), rapid.Float64Range(20, 100).Draw(t, "h")
		b, no := Cover(f, "Lauvkroken Museum", w, h, LanguageOf(rapid.SampledFrom(LanguageCodes).Draw(t, "lang")))
		if no != nil {
			return
		}
		made++
		if b.W != w || b.H != h {
			t.Fatal("another size")
		}
		held(t, b, coverNarrow)
		if name := partNamed(b, "name"); name.Text != f.Name {
			t.Fatalf("name %q of %q", name.Text, f.Name)
		}
	})
	if made < draws/5 { // -short draws fewer
		t.Errorf("only %d labels of %d were made", made, draws)
	}
}

func partNamed(b *paper.Block, name string) paper.Part {
	for _, p := range b.Parts {
		if p.Name == name {
			return p
		}
	}
	return paper.Part{}
}
