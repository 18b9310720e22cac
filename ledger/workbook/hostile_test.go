package workbook

import (
	"archive/zip"
	"bytes"
	"fmt"
	"strings"
	"testing"
	"time"
)

// zipOf packs names and contents.
func zipOf(t testing.TB, parts ...string) []byte {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	for i := 0; i < len(parts); i += 2 {
		w, err := z.Create(parts[i])
		if err == nil {
			_, err = w.Write([]byte(parts[i+1]))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// xlsxOf packs the rows of a sheet as an XLSX, and what else is given.
func xlsxOf(t testing.TB, rows string, more ...string) []byte {
	t.Helper()
	return zipOf(t, append([]string{
		"[Content_Types].xml", contentTypes, "_rels/.rels", topRelations,
		"xl/workbook.xml", fmt.Sprintf(workbookPart, "S"),
		"xl/_rels/workbook.xml.rels", strings.Replace(workbookRelations, "</Rel", `<Relationship Id="rId3" Type="`+documentKind+`sharedStrings" Target="/xl/sharedStrings.xml"/></Rel`, 1),
		"xl/styles.xml", stylesPart,
		"xl/worksheets/sheet1.xml", `<worksheet ` + mainSpace + `><sheetData>` + rows + `</sheetData></worksheet>`,
	}, more...)...)
}

// readAll reads every sheet, and says what went wrong.
func readAll(b []byte) error {
	book, err := Open(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		return err
	}
	for i := range book.Sheets {
		for _, err := range book.Rows(i) {
			if err != nil {
				return err
			}
		}
	}
	return nil
}

func TestHostileWorkbooks(t *testing.T) {
	good := xlsxOf(t, `<row r="1"><c r="A1" t="inlineStr"><is><t>x</t></is></c></row>`)
	if err := readAll(good); err != nil {
		t.Fatal(err)
	}
	zeros := strings.Repeat("0", 70<<20)
	laughs := `<!DOCTYPE s [<!ENTITY a "ha"><!ENTITY b "&a;&a;">]>`
	shared := `<sst><si><t>` + strings.Repeat("x", 1<<19) + `</t></si></sst>`
	tests := []struct {
		name string
		file []byte
		want string
	}{
		{"a zip cut short", good[:len(good)/2], "not a valid zip"},
		{"no zip", []byte("specimen,collector\n"), "not a valid zip"},
		{"a compound file", append([]byte{0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1}, zeros[:100]...), "password"},
		{"another zip", zipOf(t, "a.txt", "x"), "neither XLSX nor ODS"},
		{"a path out of the file", zipOf(t, "[Content_Types].xml", "", "../../etc/passwd", "x"), "outside the file"},
		{"a path from the root", zipOf(t, "[Content_Types].xml", "", "/etc/passwd", "x"), "outside the file"},
		{"a path with backslashes", zipOf(t, "[Content_Types].xml", "", `..\x`, "x"), "outside the file"},
		{"two parts of one name", zipOf(t, "[Content_Types].xml", "", "[Content_Types].xml", ""), "two parts"},
		{"a relation to what is not there", zipOf(t, "[Content_Types].xml", contentTypes, "_rels/.rels", topRelations), `no part "xl/workbook.xml"`},
		{"a relation out of the file", zipOf(t, "[Content_Types].xml", contentTypes, "_rels/.rels", strings.Replace(topRelations, "xl/workbook.xml", "../../etc/passwd", 1)), "no part"},
		{"entities", xlsxOf(t, laughs), "document type"},
		{"an outer entity", zipOf(t, "content.xml", `<!DOCTYPE x SYSTEM "file:///etc/passwd"><x>&x;</x>`), "document type"},
		{"an unknown entity", xlsxOf(t, `<row><c t="inlineStr"><is><t>&nbsp;</t></is></c></row>`), "entity"},
		{"a bomb of one cell", xlsxOf(t, `<row><c><v>`+zeros+`</v></c></row>`), "more than"},
		{"a bomb of blanks", xlsxOf(t, `<row/>`+strings.Repeat(" ", 70<<20)), "more than"},
		{"a bomb of empty rows", xlsxOf(t, strings.Repeat("<row/>", 12<<20)), "more than"},
		{"a bomb of shared words", xlsxOf(t, "<row>"+strings.Repeat(`<c t="s"><v>0</v></c>`, 400)+"</row>", "xl/sharedStrings.xml", shared), "bytes"},
		{"a bomb of shared words, row by row", xlsxOf(t, strings.Repeat(`<row>`+strings.Repeat(`<c t="s"><v>0</v></c>`, 16)+"</row>", 100), "xl/sharedStrings.xml", shared), "times the size"},
		{"an ODS that repeats", odsOf(t, `<table:table table:name="a"><table:table-row table:number-rows-repeated="1048576"><table:table-cell table:number-columns-repeated="16384" office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row></table:table>`), "times the size"},
		{"an ODS that repeats too wide", odsOf(t, `<table:table table:name="a"><table:table-row><table:table-cell table:number-columns-repeated="1048576" office:value-type="string"><text:p>x</text:p></table:table-cell></table:table-row></table:table>`), "columns"},
		{"deep elements", xlsxOf(t, strings.Repeat("<a>", 10000)), "too deep"},
		{"a part cut short", xlsxOf(t, `<row><c r="A1"><v>1</v></c>`), `closes "sheetData"`},
		{"elements that cross", xlsxOf(t, `<row><c></row></c>`), "closes"},
		{"shared words that are not there", xlsxOf(t, `<row><c t="s"><v>7</v></c></row>`), "shared words number"},
		{"rows out of order", xlsxOf(t, `<row r="5"/><row r="4"/>`), "follow one another"},
		{"a row far away", xlsxOf(t, `<row r="99999999"/>`), "follow one another"},
		{"a column far away", xlsxOf(t, `<row r="1"><c r="ZZZZ1"><v>1</v></c></row>`), "columns"},
		{"a cell of another row", xlsxOf(t, `<row r="1"><c r="A9"><v>1</v></c></row>`), "cell"},
		{"a NUL", xlsxOf(t, "<row><c t=\"str\"><v>a\x00b</v></c></row>"), "control character"},
		{"a NUL by number", xlsxOf(t, `<row><c t="str"><v>a&#0;b</v></c></row>`), "entity"},
		{"bytes that are no UTF-8", xlsxOf(t, "<row><c t=\"str\"><v>\xff</v></c></row>"), "not UTF-8"},
		{"UTF-16", zipOf(t, "content.xml", "\xff\xfe<\x00"), "not in UTF-8"},
		{"another encoding", zipOf(t, "content.xml", `<?xml version="1.0" encoding="ISO-8859-1"?><a/>`), "ISO-8859-1"},
		{"no sheet", odsOf(t, ""), "no sheet"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			began := time.Now()
			err := readAll(tt.file)
			if err == nil || !strings.Contains(err.Error(), tt.want) {
				t.Errorf("error %v, want one with %q", err, tt.want)
			}
			if d := time.Since(began); d > 10*time.Second {
				t.Errorf("took %v", d)
			}
		})
	}
}

// What a workbook links to outside itself is not looked at.
func TestOuterLinksAreNotFollowed(t *testing.T) {
	b := zipOf(t, "[Content_Types].xml", contentTypes, "_rels/.rels", topRelations,
		"xl/workbook.xml", fmt.Sprintf(workbookPart, "S"),
		"xl/_rels/workbook.xml.rels", relationsHead+`<Relationship Id="rId1" Type="`+documentKind+`worksheet" Target="file:///etc/passwd" TargetMode="External"/></Relationships>`)
	if err := readAll(b); err == nil || !strings.Contains(err.Error(), "no sheet") {
		t.Errorf("error %v", err)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(xlsxOf(f, `<row r="2"><c r="B2" s="1"><f>A1</f><v>1.5</v></c><c t="s"><v>0</v></c></row>`, "xl/sharedStrings.xml", `<sst><si><r><t xml:space="preserve"> a</t></r><rPh><t>b</t></rPh></si></sst>`))
	f.Add(odsOf(f, `<table:table table:name="a"><table:table-row table:number-rows-repeated="2"><table:table-cell office:value-type="float" office:value="1"><text:p>1,0<text:s/></text:p></table:table-cell></table:table-row></table:table>`))
	f.Fuzz(func(t *testing.T, b []byte) { _ = readAll(b) })
}

// The parts themselves, since a fuzzer seldom makes a sound zip.
func FuzzSheet(f *testing.F) {
	f.Add(`<row r="2"><c r="B2" s="1"><f>A1</f><v>1.5</v></c></row>`, `<si><t>a_x000D_</t></si>`, `<numFmt numFmtId="170" formatCode="yyyy\-mm"/>`, `<table:table-row><table:table-cell><text:p>a</text:p></table:table-cell></table:table-row>`)
	f.Fuzz(func(t *testing.T, rows, shared, styles, ods string) {
		_ = readAll(xlsxOf(t, rows, "xl/sharedStrings.xml", "<sst>"+shared+"</sst>"))
		_ = readAll(odsOf(t, `<table:table table:name="a">`+ods+`</table:table>`))
		_ = readFormat(styles)
	})
}

func BenchmarkRead(b *testing.B) {
	var rows strings.Builder
	for y := 1; y <= 2000; y++ {
		fmt.Fprintf(&rows, `<row r="%d">`, y)
		for x := range 20 {
			fmt.Fprintf(&rows, `<c r="%s" t="inlineStr"><is><t>Hay meadow &amp; %d</t></is></c>`, cellName(x, y), x)
		}
		rows.WriteString("</row>")
	}
	file := xlsxOf(b, rows.String())
	b.ReportAllocs()
	for b.Loop() {
		if err := readAll(file); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(2000*20*b.N)/b.Elapsed().Seconds(), "cells/s")
}

func BenchmarkWrite(b *testing.B) {
	row := make([]string, 20)
	for i := range row {
		row[i] = "Hay meadow & lake"
	}
	b.ReportAllocs()
	for b.Loop() {
		var out bytes.Buffer
		w, err := NewWriter(&out, "specimens")
		if err != nil {
			b.Fatal(err)
		}
		for range 2000 {
			if err := w.Write(row); err != nil {
				b.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			b.Fatal(err)
		}
	}
	b.ReportMetric(float64(2000*20*b.N)/b.Elapsed().Seconds(), "cells/s")
}
