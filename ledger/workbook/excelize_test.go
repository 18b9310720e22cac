package workbook

import (
	"bytes"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// The reference is excelize, which reads and writes XLSX for many others.

// read opens a workbook and reads a sheet whole.
func read(t testing.TB, b []byte, sheet string) (rows []Row) {
	t.Helper()
	book, err := Open(bytes.NewReader(b), int64(len(b)))
	if err != nil {
		t.Fatal(err)
	}
	at := book.Find(sheet)
	if at < 0 {
		t.Fatalf("no sheet %q in %v", sheet, book.Sheets)
	}
	for r, err := range book.Rows(at) {
		if err != nil {
			t.Fatal(err)
		}
		rows = append(rows, r)
	}
	return rows
}

func TestReadWhatExcelizeWrites(t *testing.T) {
	f := excelize.NewFile()
	set := func(cell string, v any, code string) {
		t.Helper()
		if err := f.SetCellValue("Sheet1", cell, v); err != nil {
			t.Fatal(err)
		}
		if code != "" {
			style, err := f.NewStyle(&excelize.Style{CustomNumFmt: &code})
			if err != nil {
				t.Fatal(err)
			}
			if err := f.SetCellStyle("Sheet1", cell, cell, style); err != nil {
				t.Fatal(err)
			}
		}
	}
	cells := []struct {
		value      any
		code, want string
		reason     string
	}{
		{"Signe Rask", "", "Signe Rask", "shared words"},
		{"  two blanks ", "", "  two blanks ", "blanks kept by xml:space"},
		{"a\nb", "", "a\nb", "two lines"},
		{"a_x000D_", "", "a\r", "an escape of ISO/IEC 29500-1, ST_Xstring; excelize leaves it as it is among shared words"},
		{"<&>\"'", "", "<&>\"'", "marks of XML"},
		{1207, "", "1207", "a whole number"},
		{1207.0, "", "1207", "a whole number from a float"},
		{60.70321, "", "60.70321", "a fraction"},
		{0.1 + 0.2, "", "0.3", "15 figures"},
		{6.7e-7, "", "0.00000067", "no powers of ten"},
		{482, "0000000", "0000482", "leading zeros"},
		{60.7, "0.0000", "60.7000", "zeros behind the point"},
		{60.70321, "0.0", "60.70321", "hidden figures are kept"},
		{348, `0" m"`, "348 m", "a unit in the format"},
		{348, `#,##0\ \m`, "348 m", "a unit, letter by letter"},
		{1207, "#,##0", "1207", "commas between thousands are left out"},
		{0.5, "0%", "50%", "per cent"},
		{-12.5, "0.00;[Red]-0.00", "-12.50", "below zero"},
		{45852, "yyyy-mm-dd", "2025-07-14", "a day"},
		{45852, "d/m/yyyy", "2025-07-14", "a day, the other way round"},
		{45852, `[$-414]d\. mmmm yyyy`, "2025-07-14", "a day in Norwegian"},
		{45852, "mmm-yy", "2025-07", "a month"},
		{45852, "yyyy", "2025", "a year"},
		{45852.5625, "yyyy-mm-dd hh:mm", "2025-07-14T13:30", "a day and time"},
		{0.5625, "hh:mm", "13:30:00", "a time"},
		{1, "yyyy-mm-dd", "1900-01-01", "the first day"},
		{59, "yyyy-mm-dd", "1900-02-28", "before the day that never was"},
		{60, "yyyy-mm-dd", "1900-02-29", "the day that never was"},
		{61, "yyyy-mm-dd", "1900-03-01", "after it"},
		{true, "", "TRUE", "yes"},
		{false, "", "FALSE", "no"},
	}
	for i, c := range cells {
		set(cellName(i, 1), c.value, c.code)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	rows := read(t, b.Bytes(), "")
	if len(rows) != 1 {
		t.Fatalf("%d rows", len(rows))
	}
	for i, c := range cells {
		if got := rows[0].Cells[i]; got != c.want {
			t.Errorf("%s: %v as %q gives %q, want %q", c.reason, c.value, c.code, got, c.want)
		}
	}
	if n := len(rows[0].Notes); n != 1 {
		t.Errorf("notes: %v, want one, of 29 February 1900", rows[0].Notes)
	}
}

func TestReadRowsGapsMergesFormulas(t *testing.T) {
	f := excelize.NewFile()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(f.SetCellValue("Sheet1", "A1", "number"))
	must(f.SetCellValue("Sheet1", "C1", "place"))
	must(f.SetCellValue("Sheet1", "A4", 1))
	must(f.SetCellValue("Sheet1", "C4", "Voss"))
	must(f.SetCellValue("Sheet1", "A5", 2))
	must(f.SetCellValue("Sheet1", "A6", 3))
	must(f.MergeCell("Sheet1", "C4", "C6"))
	must(f.SetCellFormula("Sheet1", "B5", "A5*2"))
	must(f.SetRowVisible("Sheet1", 6, false))
	must(f.SetCellRichText("Sheet1", "D5", []excelize.RichTextRun{{Text: "Ranunculus ", Font: &excelize.Font{Italic: true}}, {Text: "sp."}}))
	_, err := f.NewSheet("Far away")
	must(err)
	must(f.SetCellValue("Far away", "B2", "x"))
	must(f.SetSheetVisible("Far away", false))
	var b bytes.Buffer
	must(f.Write(&b))
	want := []Row{
		{Line: 1, Cells: []string{"number", "", "place"}},
		{Line: 4, Cells: []string{"1", "", "Voss"}},
		{Line: 5, Cells: []string{"2", "", "Voss", "Ranunculus sp."}, Notes: []Note{
			{1, Formula, "B5: the stored result of the formula A5*2"},
			{2, Merged, "C5: one cell with C4, which holds the words"}}},
		{Line: 6, Cells: []string{"3", "", "Voss"}, Hidden: true, Notes: []Note{{2, Merged, "C6: one cell with C4, which holds the words"}}},
	}
	if d := cmp.Diff(want, read(t, b.Bytes(), "")); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]Row{{Line: 2, Cells: []string{"", "x"}}}, read(t, b.Bytes(), "far AWAY")); d != "" {
		t.Error(d)
	}
	book, err := Open(bytes.NewReader(b.Bytes()), int64(b.Len()))
	must(err)
	if len(book.Sheets) != 2 || book.Sheets[0].Hidden || !book.Sheets[1].Hidden {
		t.Errorf("sheets %+v", book.Sheets)
	}
}

func TestDatesFrom1904(t *testing.T) {
	f := excelize.NewFile()
	yes := true
	if err := f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &yes}); err != nil {
		t.Fatal(err)
	}
	if err := f.SetCellValue("Sheet1", "A1", time.Date(2025, 7, 14, 0, 0, 0, 0, time.UTC)); err != nil {
		t.Fatal(err)
	}
	var b bytes.Buffer
	if err := f.Write(&b); err != nil {
		t.Fatal(err)
	}
	if got := read(t, b.Bytes(), "")[0].Cells[0]; got != "2025-07-14" {
		t.Errorf("got %q", got)
	}
}

// Whatever we write, excelize and we read the same.
func TestExcelizeReadsOurs(t *testing.T) {
	cell := rapid.OneOf(rapid.StringMatching(`[ =+@'-]?[a-zA-Z0-9<>&" \n\t_x]{0,12}`), rapid.Just("_x000D_"), rapid.Just(""), rapid.Just("0000482"), rapid.StringOf(rapid.RuneFrom([]rune("aé×√😀☃\u200b"))))
	rapid.Check(t, func(rt *rapid.T) {
		table := rapid.SliceOfN(rapid.SliceOfN(cell, 1, 5), 1, 5).Draw(rt, "table")
		var b bytes.Buffer
		w, err := NewWriter(&b, "specimens")
		if err != nil {
			rt.Fatal(err)
		}
		for _, row := range table {
			if err := w.Write(row); err != nil {
				rt.Fatal(err)
			}
		}
		if err := w.Close(); err != nil {
			rt.Fatal(err)
		}
		f, err := excelize.OpenReader(bytes.NewReader(b.Bytes()))
		if err != nil {
			rt.Fatal(err)
		}
		defer f.Close()
		ours := map[int][]string{}
		for _, r := range read(t, b.Bytes(), "specimens") {
			ours[r.Line] = r.Cells
		}
		for y, row := range table {
			for x, want := range row {
				got, err := f.GetCellValue("specimens", cellName(x, y+1))
				if err != nil || got != want {
					rt.Fatalf("excelize reads %q, want %q: %v", got, want, err)
				}
				mine := ""
				if x < len(ours[y+1]) {
					mine = ours[y+1][x]
				}
				if mine != want {
					rt.Fatalf("we read %q, want %q", mine, want)
				}
			}
		}
	})
}
