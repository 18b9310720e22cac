package paper

import (
	"bytes"
	"fmt"
	"unicode/utf16"

	"codeberg.org/go-pdf/fpdf"
)

// PDF is p as a PDF with its letters embedded.
func (p *Paper) PDF() ([]byte, error) {
	f := fpdf.NewCustom(&fpdf.InitType{UnitStr: "mm"})
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(p.Day.UTC())
	f.SetModificationDate(p.Day.UTC())
	f.SetTitle(p.Title, true)
	f.SetCreator("blotter", true)
	if p.Lang != "" {
		f.SetLang(p.Lang)
	}
	for i, a := range faces() {
		f.AddUTF8FontFromBytes("Gentium Plus", pdfStyle[i], a.ttf)
	}
	w := pdfWriter{Fpdf: f}
	for _, page := range p.Pages {
		f.AddPageFormat("P", fpdf.SizeType{Wd: page.Size.W, Ht: page.Size.H})
		for _, it := range page.Items {
			w.item(it)
		}
	}
	var b bytes.Buffer
	if err := f.Output(&b); err != nil {
		return nil, fmt.Errorf("write PDF: %w", err)
	}
	return b.Bytes(), nil
}

var pdfStyle = [2]string{"", "I"}

type pdfWriter struct{ *fpdf.Fpdf }

func (w pdfWriter) item(it Item) {
	switch it := it.(type) {
	case Text:
		w.text(it)
	case Rule:
		w.SetLineWidth(it.Width)
		if it.Dash > 0 {
			w.SetDashPattern([]float64{it.Dash, it.Dash}, 0)
		}
		w.Line(it.X1, it.Y1, it.X2, it.Y2)
		if it.Dash > 0 {
			w.SetDashPattern(nil, 0)
		}
	case Frame:
		w.SetLineWidth(it.Width)
		w.Rect(it.B.X, it.B.Y, it.B.W, it.B.H, "D")
	case Area:
		_, high := w.GetPageSize()
		for _, b := range it.Boxes {
			w.RawWriteStr(fmt.Sprintf("%.4f %.4f %.4f %.4f re\n", b.X/Point, (high-b.Y-b.H)/Point, b.W/Point, b.H/Point))
		}
		if len(it.Boxes) > 0 {
			w.RawWriteStr("f\n")
		}
	}
}

func (w pdfWriter) text(t Text) {
	if t.Turn != 0 {
		w.TransformBegin()
		w.TransformRotate(t.Turn, t.X, t.Y)
		defer w.TransformEnd()
	}
	x := t.X
	for _, r := range merged(t.Runs) {
		w.SetFont("Gentium Plus", pdfStyle[r.Face], r.Size)
		grey := greyLevel(r.Grey)
		w.SetTextColor(grey, grey, grey)
		if r.Spread != 0 {
			w.RawWriteStr(fmt.Sprintf("%.4f Tc\n", r.Spread*r.Size))
		}
		pieces := faces()[r.Face].pieces(r.Text)
		for len(pieces) > 0 {
			n := 1 + pieces[0].marks
			w.pieces(x, t.Y, r.Style, pieces[:n])
			pieces = pieces[n:]
		}
		if r.Spread != 0 {
			w.RawWriteStr("0 Tc\n")
		}
		x += Width(r)
	}
}

// pieces writes letters that stand together; those of one with marks as one
// letter to whoever copies or searches them (ISO 32000-1, 14.9.4).
func (w pdfWriter) pieces(x, y float64, s Style, all []piece) {
	if len(all) > 1 {
		text := ""
		for _, p := range all {
			text += p.text
		}
		if all[0].said != "" {
			text = all[0].said
		}
		w.RawWriteStr("/Span <</ActualText <FEFF")
		for _, u := range utf16.Encode([]rune(text)) {
			w.RawWriteStr(fmt.Sprintf("%04X", u))
		}
		w.RawWriteStr(">>> BDC\n")
		defer w.RawWriteStr("EMC\n")
	}
	for _, p := range all {
		dx, up := p.place(s)
		w.Text(x+dx, y-up, p.text)
	}
}
