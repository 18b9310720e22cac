package workbook

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// odsOf packs a content.xml as an ODS.
func odsOf(t testing.TB, tables string) []byte {
	t.Helper()
	return zipOf(t, "mimetype", "application/vnd.oasis.opendocument.spreadsheet", "content.xml", `<?xml version="1.0" encoding="UTF-8"?>
<office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:calcext="urn:org:documentfoundation:names:experimental:calc:xmlns:calcext:1.0">
<office:automatic-styles><style:style style:name="ta2" style:family="table"><style:table-properties table:display="false"/></style:style></office:automatic-styles>
<office:body><office:spreadsheet>`+tables+`</office:spreadsheet></office:body></office:document-content>`)
}

// Cells as OpenDocument 1.3 (part 3, 9 and 19.385) writes them; written by hand,
// since no program that writes ODS is at hand.
func TestReadODS(t *testing.T) {
	b := odsOf(t, `<table:tracked-changes><table:cell-content-change><table:table-cell office:value-type="string"><text:p>old</text:p></table:table-cell></table:cell-content-change></table:tracked-changes>
<table:table table:name="Hidden" table:style-name="ta2"><table:table-row><table:table-cell office:value-type="string"><text:p>h</text:p></table:table-cell></table:table-row></table:table>
<table:table table:name="Sheets" table:style-name="ta1"><office:forms/><table:table-column table:number-columns-repeated="16384"/>
<table:table-header-rows><table:table-row><table:table-cell office:value-type="string" calcext:value-type="string"><text:p>number</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>place</text:p></table:table-cell></table:table-row></table:table-header-rows>
<table:table-row table:number-rows-repeated="2"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
<table:table-row-group><table:table-row>
<table:table-cell office:value-type="float" office:value="482"><text:p>0000482</text:p></table:table-cell>
<table:table-cell table:number-rows-spanned="2" office:value-type="string"><text:p>Voss,<text:s text:c="2"/>above
  the <text:span>lake</text:span></text:p><text:p>by the church</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="1207"><text:p>1 207,00</text:p></table:table-cell>
<table:table-cell office:value-type="float" office:value="348"><text:p>348 m</text:p></table:table-cell>
<table:table-cell office:value-type="date" office:date-value="2025-07-14"><office:annotation><text:p>a comment</text:p></office:annotation><text:p>14.07.25</text:p></table:table-cell>
<table:table-cell office:value-type="date" office:date-value="2025-01-01"><text:p>2025</text:p></table:table-cell>
<table:table-cell office:value-type="date" office:date-value="2025-07-14T13:30:00"><text:p>x</text:p></table:table-cell>
<table:table-cell office:value-type="boolean" office:boolean-value="true"><text:p>SANN</text:p></table:table-cell>
<table:table-cell table:formula="of:=[.A4]*2" office:value-type="float" office:value="964"><text:p>964</text:p></table:table-cell>
<table:table-cell office:value-type="percentage" office:value="0.125"><text:p>13 %</text:p></table:table-cell>
<table:table-cell table:number-columns-repeated="2" office:value-type="string"><text:p>twice</text:p></table:table-cell>
</table:table-row></table:table-row-group>
<table:table-row table:number-rows-repeated="2" table:visibility="collapse"><table:table-cell office:value-type="float" office:value="483"><text:p>483</text:p></table:table-cell><table:covered-table-cell office:value-type="string"><text:p>beneath</text:p></table:covered-table-cell></table:table-row>
<table:table-row table:number-rows-repeated="1048570"><table:table-cell table:number-columns-repeated="16384"/></table:table-row>
</table:table>`)
	place := "Voss,  above the lake\nby the church"
	want := []Row{
		{Line: 1, Cells: []string{"number", "place"}},
		{Line: 4, Cells: []string{"0000482", place, "1207", "348 m", "2025-07-14", "2025", "2025-07-14T13:30:00", "TRUE", "964", "12.5%", "twice", "twice"},
			Notes: []Note{{8, Formula, "I4: the stored result of the formula of:=[.A4]*2"}}},
		{Line: 5, Cells: []string{"483", place}, Hidden: true, Notes: []Note{
			{1, Merged, `B5: "beneath" lies beneath a merged cell and is not seen`},
			{1, Merged, "B5: one cell with B4, which holds the words"}}},
		{Line: 6, Cells: []string{"483", place}, Hidden: true, Notes: []Note{
			{1, Merged, `B5: "beneath" lies beneath a merged cell and is not seen`},
			{1, Merged, "B5: one cell with B4, which holds the words"}}},
	}
	got := read(t, b, "")
	if len(got) == 4 { // a repeated row is one row to the file: its range is not cut
		if d := cmp.Diff(want, got); d != "" {
			t.Error(d)
		}
	} else {
		t.Errorf("%d rows: %v", len(got), got)
	}
	if got := read(t, b, "hidden"); len(got) != 1 || got[0].Cells[0] != "h" {
		t.Errorf("the hidden sheet: %v", got)
	}
}
