package paper

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"encoding/xml"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"
)

// sample is a paper with all that can be drawn, on pages of two sizes.
func sample(draft bool) *Paper {
	block := &Block{W: 105, H: 68}
	italic, roman := Style{Face: Italic, Size: 12.5}, Style{Size: 10}
	block.Add(
		Text{X: 5, Y: 8, Runs: []Run{{Style: Style{Size: 8.5, Spread: 0.04}, Text: "LAUVKROKEN MUSEUM"}}},
		Rule{X1: 5, Y1: 10, X2: 100, Y2: 10, Width: 0.2},
		Text{X: 5, Y: 16, Runs: []Run{{Style: italic, Text: "Ranunculus acris "}, {Style: roman, Text: "subsp. "}, {Style: italic, Text: "pumilus "}, {Style: roman, Text: "(Wahlenb.) Á.Löve & D.Löve"}}},
		Text{X: 5, Y: 22, Runs: []Run{{Style: roman, Text: "<b>V. Tay</b>, W. AVATAR: 60°42′12″N ± 8 m × ♂ ♀ q\u0301"}}},
		Frame{Box{5, 30, 90, 10}, 0.3},
		Rule{X1: 5, Y1: 50, X2: 100, Y2: 50, Width: 0.1, Dash: 1},
	)
	code, err := Barcode(DataMatrix, "LK7-0000482", BarcodeOptions{})
	if err != nil {
		panic(err)
	}
	block.Put(code, 80, 52)
	p, _, err := Impose([]*Block{block, block, block}, Imposition{Size: a4, Place: labelPlace, Title: "labels & more", Draft: draft, Foot: Foot{File: "labels.pdf", Day: "3 November 2026", Revision: "8c1d0fe"}})
	if err != nil {
		panic(err)
	}
	small := Page{Size: Size{W: 120, H: 80.5}}
	small.Put(block, 5, 5)
	p.Pages = append(p.Pages, small)
	p.Day = time.Date(2026, 11, 3, 9, 0, 0, 0, time.UTC)
	return p
}

// TestHTML: words are never markup, nothing is fetched, every run of letters
// has its place.
func TestHTML(t *testing.T) {
	text := string(sample(true).HTML())
	for _, want := range []string{
		`<html lang="en">`, "<title>labels &amp; more</title>", "&lt;b&gt;V. Tay&lt;/b&gt;", "@page p0{size:210mm 297mm;margin:0}", "@page p1{size:120mm 80.5mm;margin:0}",
		`<section class="p1" aria-label="Page 2 of 2">`, `viewBox="0 0 210 297"`, "on A4 (210 x 297 mm), 120 x 80.5 mm.", "q\u0301",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("no %s", want)
		}
	}
	if n := strings.Count(text, "@font-face"); n != 2 {
		t.Errorf("%d faces", n)
	}
	rest := regexp.MustCompile(`base64,[^)]*|http://www.w3.org/2000/svg`).ReplaceAllString(text, "")
	for _, never := range []string{"http:", "https:", "<script", "@import", "-0\"", "NaN", "<b>"} {
		if strings.Contains(rest, never) {
			t.Errorf("%s stands in it", never)
		}
	}
	if !bytes.Equal(sample(true).HTML(), []byte(text)) {
		t.Error("the same paper gave other bytes")
	}
	roman := &Paper{Pages: []Page{{Size: a4, Items: []Item{Text{X: 9, Y: 9, Runs: []Run{{Style: Style{Size: 9}, Text: "a"}}}}}}}
	if n := strings.Count(string(roman.HTML()), "@font-face"); n != 1 {
		t.Errorf("%d faces where one is used", n)
	}
}

// TestSVG: well formed, no font, no letter twice, the same each time.
func TestSVG(t *testing.T) {
	page := sample(true).Pages[0]
	text := page.SVG()
	if !bytes.Equal(text, page.SVG()) {
		t.Error("the same page gave other bytes")
	}
	ids, uses := map[string]bool{}, 0
	for d := xml.NewDecoder(bytes.NewReader(text)); ; {
		tok, err := d.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		e, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		for _, at := range e.Attr {
			switch {
			case e.Name.Local == "text" || strings.HasPrefix(at.Name.Local, "font"):
				t.Fatalf("%s %s asks for a font", e.Name.Local, at.Name.Local)
			case at.Name.Local == "id" && ids[at.Value]:
				t.Errorf("%s is drawn twice", at.Value)
			case at.Name.Local == "id":
				ids[at.Value] = true
			case at.Name.Local == "href":
				uses++
				if !ids[at.Value[1:]] {
					t.Errorf("%s is put and not drawn", at.Value)
				}
			}
		}
	}
	letters := 0
	for _, it := range page.Items {
		if line, ok := it.(Text); ok {
			for _, r := range line.Runs {
				letters += len([]rune(strings.ReplaceAll(r.Text, " ", "")))
			}
		}
	}
	if uses != letters {
		t.Errorf("%d letters put, want %d", uses, letters)
	}
}

// TestWOFF unpacks both faces: every table is the one of the TrueType file.
func TestWOFF(t *testing.T) {
	be := binary.BigEndian
	for i, ttf := range [][]byte{romanTTF, italicTTF} {
		w := woff(ttf)
		if string(w[:4]) != "wOFF" || int(be.Uint32(w[8:])) != len(w) || be.Uint16(w[12:]) != be.Uint16(ttf[4:]) {
			t.Fatalf("face %d: header %x", i, w[:44])
		}
		total := 12 + 16*int(be.Uint16(w[12:]))
		for k := range int(be.Uint16(w[12:])) {
			e, from := w[44+20*k:], ttf[12+16*k:]
			at, packed, long := be.Uint32(e[4:]), be.Uint32(e[8:]), be.Uint32(e[12:])
			got := w[at : at+packed]
			if packed < long {
				r, err := zlib.NewReader(bytes.NewReader(got))
				if err != nil {
					t.Fatal(err)
				}
				if got, err = io.ReadAll(r); err != nil {
					t.Fatal(err)
				}
			}
			want := ttf[be.Uint32(from[8:]) : be.Uint32(from[8:])+be.Uint32(from[12:])]
			if string(e[:4]) != string(from[:4]) || at%4 != 0 || !bytes.Equal(got, want) || !bytes.Equal(e[16:20], from[4:8]) {
				t.Errorf("face %d: table %s is another", i, e[:4])
			}
			total += (int(long) + 3) &^ 3
		}
		if int(be.Uint32(w[16:])) != total {
			t.Errorf("face %d: size of the TrueType file %d, want %d", i, be.Uint32(w[16:]), total)
		}
	}
}
