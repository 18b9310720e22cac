package document

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"blotter/render/page"
)

func sample() *Document {
	d := &Document{Title: "Packing list of loan-2026-004"}
	d.Lines("To: FJ3 Fjellheim Museum", "", "From: LK7")
	d.Say("Three sheets <in all> & no more; the count on this list is what is in the box.")
	d.Caution("One sheet was treated with mercury, as far as is known. Gloves; your own rules come first.")
	d.Items("each sheet in its own fold", "some turned | level")
	d.Table([]string{"sheet", "name"}, [][]string{{"LK7-0000482", "Ranunculus acris L."}, {"LK7-0000517", "Salix \"x\" | *y*"}})
	d.Table([]string{"empty"}, nil)
	d.Page()
	d.Heading("Receipt")
	return d
}

// TestWritten holds each medium to what a reader needs of it; the expected
// lines were written by hand.
func TestWritten(t *testing.T) {
	cases := []struct{ name, got, want, reason string }{
		{"text title", string(sample().Text(60)), "Packing list of loan-2026-004\n=============================\n", "a title stands out without markup"},
		{"text wraps", string(sample().Text(60)), "Three sheets <in all> & no more; the count on this list is\nwhat is in the box.\n", "no line is longer than the width"},
		{"text caution", string(sample().Text(60)), "! Caution: One sheet was treated with mercury, as far as is\n! known. Gloves; your own rules come first.\n", "a caution is marked on every line"},
		{"text columns", string(sample().Text(60)), "sheet        name\nLK7-0000482  Ranunculus acris L.\n", "columns are parted by two blanks"},
		{"text page", string(sample().Text(60)), "\f\n\nReceipt\n-------\n", "a form feed begins the next letter"},
		{"markdown cell", string(sample().Markdown()), "| LK7-0000517 | Salix \"x\" \\| \\*y\\* |\n", "words are never markup"},
		{"markdown caution", string(sample().Markdown()), "> **Caution:** One sheet", "the word says it"},
		{"html words", string(sample().HTML()), "<p>Three sheets &lt;in all&gt; &amp; no more;", "words are never markup"},
		{"html head", string(sample().HTML()), `<th scope="col">sheet</th>`, "heads are heads of columns"},
		{"csv", string(sample().CSV()), "sheet,name\nLK7-0000482,Ranunculus acris L.\nLK7-0000517,\"Salix \"\"x\"\" | *y*\"\n", "RFC 4180"},
	}
	for _, c := range cases {
		if !strings.Contains(c.got, c.want) {
			t.Errorf("%s (%s): %q is not in\n%s", c.name, c.reason, c.want, c.got)
		}
	}
}

// FuzzDocument puts any words everywhere: nothing panics, no words become
// markup, and what goes into a CSV comes back.
func FuzzDocument(f *testing.F) {
	f.Add("Salix <b>x</b> | `y`", 12)
	f.Add("\x00\r\n\f", 1)
	f.Add("a\u202eb", 80)
	f.Fuzz(func(t *testing.T, s string, width int) {
		d := &Document{Title: s}
		d.Say(s)
		d.Lines(s, s)
		d.Items(s)
		d.Caution(s)
		d.Heading(s)
		d.Table([]string{"h", "k"}, [][]string{{s, s}})
		d.Text(max(width%200, 1))
		d.Markdown()
		if rest := strings.NewReplacer("<!DOCTYPE", "", "<p class", "").Replace(string(d.HTML())); strings.Contains(rest, "<b>") {
			t.Errorf("markup in %q", rest)
		}
		if strings.ContainsAny(s, "\r\x00") || page.Visible(s) != s {
			return // encoding/csv makes \n of \r\n inside a cell
		}
		rows, err := csv.NewReader(bytes.NewReader(d.CSV())).ReadAll()
		if err != nil || len(rows) != 2 || rows[1][0] != s {
			t.Errorf("%q came back as %q, %v", s, rows, err)
		}
	})
}
