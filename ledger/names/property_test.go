package names

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

var slugShape = regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)

// lawful checks what holds for every text that can be read.
func lawful(t interface {
	Helper()
	Errorf(string, ...any)
}, text string) {
	t.Helper()
	n, err := Read(text)
	if err != nil {
		return
	}
	var joined strings.Builder
	for _, p := range n.Pieces() {
		joined.WriteString(p.Text)
	}
	if joined.String() != n.Text {
		t.Errorf("%q: pieces join to %q, the text is %q", text, joined.String(), n.Text)
	}
	if n.Canonical() == "" {
		t.Errorf("%q: no canonical form", text)
	}
	if s := n.Slug(); !slugShape.MatchString(s) {
		t.Errorf("%q: slug %q", text, s)
	}
	again, err := Read(n.Text)
	if err != nil {
		t.Errorf("%q: its own text is refused: %v", text, err)
	} else if again.Text != n.Text || again.Canonical() != n.Canonical() {
		t.Errorf("%q: read again %q (%q), before %q (%q)", text, again.Text, again.Canonical(), n.Text, n.Canonical())
	}
	_, _, _, _ = n.SortKey(), n.Key(), n.Firm(), n.ByCode()
	for _, w := range n.Warnings {
		if !slices.Contains(Codes, w.Code) {
			t.Errorf("%q: the code %s is not among Codes", text, w.Code)
		}
	}
	written := n.String()
	back, err := Read(written)
	switch {
	case err != nil:
		t.Errorf("%q: written as %q it is refused: %v", text, written, err)
	case back.String() != written || back.Canonical() != n.Canonical() || back.Authorship() != n.Authorship() || back.Rank != n.Rank ||
		back.IdentificationQualifier() != n.IdentificationQualifier():
		t.Errorf("%q: written as %q it is %q, %q, %q, %v, %q, %q; it was %q, %q, %v, %q", text, written, back.String(), back.Canonical(), back.Authorship(), back.Rank, back.IdentificationQualifier(), back.Text,
			n.Canonical(), n.Authorship(), n.Rank, n.IdentificationQualifier())
	}
}

func FuzzRead(f *testing.F) {
	for _, c := range readTests {
		f.Add(c.text)
	}
	f.Add("Taraxacum 3?")
	f.Add("Aaa()?")
	f.Add("× × x (cf. ?) 'A or ‘")
	f.Fuzz(func(t *testing.T, text string) { lawful(t, text) })
}

// A name put together from its parts is read back into them.
func TestReadsWhatIsWritten(t *testing.T) {
	epithet := rapid.StringMatching(`[bcdfglmnprstv][aeiou][a-z]{2,8}(a|us|um|is)`)
	rapid.Check(t, func(t *rapid.T) {
		genus := rapid.StringMatching(`[A-Z][aeiou][a-z]{2,7}(a|us|um)`).Draw(t, "genus")
		species := epithet.Draw(t, "species")
		authors := rapid.SampledFrom([]string{"", "L.", "(L.) Mill.", "Hook. f.", "Á.Löve & D.Löve", "A. Gray ex S. Watson", "(Wahlenb.) van der Veken", "Fr. : Fr."}).Draw(t, "authors")
		m := rapid.SampledFrom([]string{"", "subsp.", "var.", "f."}).Draw(t, "rank")
		doubt := rapid.SampledFrom([]string{"", "cf. ", "aff. "}).Draw(t, "doubt")
		text, canonical := genus+" ", genus+" "+species
		if m == "" {
			text += doubt + species
		} else {
			below := epithet.Draw(t, "below")
			text += species + " " + doubt + m + " " + below
			canonical += " " + m + " " + below
		}
		text = strings.TrimSpace(text + " " + authors)
		n, err := Read(text)
		if err != nil {
			t.Fatal(err)
		}
		if n.Canonical() != canonical || n.Authors != authors || n.Text != text || n.Genus != genus || n.Certain() != (doubt == "") {
			t.Fatalf("%q: %q, authors %q, text %q, certain %v", text, n.Canonical(), n.Authors, n.Text, n.Certain())
		}
		lawful(t, text)
		c, err := Read(canonical)
		if err != nil || !Same(c, n) {
			t.Fatalf("%q: its canonical form is another name", text)
		}
	})
}

func BenchmarkRead(b *testing.B) {
	texts := []string{"Ranunculus acris L.", "Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve & D.Löve", "Taraxacum sp. 3", "Salix aurita L. × S. caprea L.",
		"Dryopteris filix-mas (L.) Schott"}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := Read(texts[i%len(texts)]); err != nil {
			b.Fatal(err)
		}
	}
}
