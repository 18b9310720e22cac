package exchange

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"blotter/ledger"
)

func TestColumnsStandInTheOrderOfTheFieldTable(t *testing.T) {
	var c Columns
	c.Add([]ledger.KV{{Key: "specimen", Value: "LK7-1"}, {Key: "determinations.1.name", Value: "a"}, {Key: "determinations.10.name", Value: "b"}, {Key: "import.Zz", Value: "1"}, {Key: "with.2", Value: ""}})
	c.Add([]ledger.KV{{Key: "import.Aa. b.1", Value: "2"}, {Key: "determinations.2.by", Value: "c"}, {Key: "determinations.2.name", Value: "d"}, {Key: "collector", Value: "e"}, {Key: "with.10", Value: "f"}, {Key: "with.9", Value: "g"}})
	want := []string{"specimen", "collector", "with.9", "with.10", "determinations.1.name", "determinations.2.name", "determinations.2.by", "determinations.10.name", "import.Aa. b.1", "import.Zz"}
	if d := cmp.Diff(want, c.Sort()); d != "" {
		t.Error(d)
	}
	row := c.Row(nil, []ledger.KV{{Key: "collector", Value: "x"}, {Key: "import.Zz", Value: "y"}})
	if d := cmp.Diff([]string{"", "x", "", "", "", "", "", "", "", "y"}, row); d != "" {
		t.Error(d)
	}
}

func TestSeparatedIsRFC4180(t *testing.T) {
	tests := []struct {
		comma  byte
		mark   bool
		cells  []string
		want   string
		reason string
	}{
		{',', false, []string{"a", "", "b c"}, "a,,b c\r\n", "plain cells stand bare"},
		{',', false, []string{"a,b", `say "x"`, "two\nlines", "r\r"}, "\"a,b\",\"say \"\"x\"\"\",\"two\nlines\",\"r\r\"\r\n", "what needs quotes has them"},
		{'\t', false, []string{"a,b", "c\td"}, "a,b\t\"c\td\"\r\n", "tabs part, commas do not"},
		{',', true, []string{"=1+1", "-5.5", "'=x"}, "\xEF\xBB\xBF'=1+1,-5.5,''=x\r\n", "formulas are guarded, numbers are not"},
		{',', false, []string{""}, "\"\"\r\n", "one blank cell is not a blank line"},
	}
	for _, tt := range tests {
		var b strings.Builder
		s := NewSeparated(&b, tt.comma, tt.mark)
		if err := errors.Join(s.Write(tt.cells), s.Close()); err != nil || b.String() != tt.want {
			t.Errorf("%s: %q, want %q: %v", tt.reason, b.String(), tt.want, err)
		}
	}
}

// Whatever cells are written, a CSV reader that is not ours reads them again.
func TestSeparatedComesBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]rune{',', '\t'}).Draw(t, "comma")
		cell := rapid.StringMatching(`[a-zé=,"\t\n'-]{0,8}`)
		n := rapid.IntRange(1, 4).Draw(t, "columns")
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, n, n), 1, 4).Draw(t, "rows")
		var b bytes.Buffer
		s := NewSeparated(&b, byte(comma), false)
		for _, r := range rows {
			if err := s.Write(r); err != nil {
				t.Fatal(err)
			}
		}
		if err := s.Close(); err != nil {
			t.Fatal(err)
		}
		r := csv.NewReader(&b)
		r.Comma = comma
		got, err := r.ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		for _, row := range got {
			for i := range row {
				row[i] = Unguard(row[i])
			}
		}
		if d := cmp.Diff(rows, got); d != "" {
			t.Fatal(d)
		}
	})
}

func TestJSONRecordComesBack(t *testing.T) {
	words := rapid.StringMatching(`[a-zæ<&"\\\n\t😀\x{2028} ]{1,12}`)
	rapid.Check(t, func(t *rapid.T) {
		fields := []ledger.KV{{Key: "specimen", Value: "LK7-0000482"}, {Key: "collector", Value: words.Draw(t, "collector")}, {Key: "with.1", Value: words.Draw(t, "with")},
			{Key: "determinations.1.name", Value: words.Draw(t, "name")}, {Key: "determinations.2.name", Value: words.Draw(t, "name")}, {Key: "import.a.b", Value: words.Draw(t, "import")}}
		line := AppendJSONRecord(nil, fields)
		if !json.Valid(line) || bytes.ContainsAny(line, "\n") {
			t.Fatalf("%s", line)
		}
		for m, err := range ReadJSON("x.json", "", bytes.NewReader(append(line, '\n'))) {
			if err != nil || m.Why != "" {
				t.Fatal(err, m.Why)
			}
			if d := cmp.Diff(fields, ledger.Flatten(m.Record)); d != "" {
				t.Fatal(d)
			}
		}
	})
}

func TestReadJSON(t *testing.T) {
	tests := []struct{ line, want, reason string }{
		{`{"specimen":"LK7-1","place.country":"Norway"}`, "[{specimen LK7-1} {place.country Norway}]", "paths"},
		{`{"specimen":"LK7-1","place":{"country":"Norway"},"with":["A","B"],"determinations":[{"name":"x"},{"name":"y"}]}`,
			"[{specimen LK7-1} {with.1 A} {with.2 B} {place.country Norway} {determinations.1.name x} {determinations.2.name y}]", "objects and lists"},
		{`{"specimen":"LK7-1","accessRights":"exact place not to be published","habitat":null}`, "[{specimen LK7-1}]", "what is no field of ours"},
		{`{"specimen":"LK7-1","coll_no":1207}`, "why: field coll_no is 1207, not a text", "a number is no word"},
		{`{"specimen":"../x"}`, "why: \"../x\" cannot be a number", "a number that leads away"},
		{`{"colector":"x"}`, `why: field colector: no field is named "colector"`, "a field mistyped"},
		{`{"determinations.7.name":"x"}`, "why: field determinations.7.name", "a gap"},
		{`[1]`, "why: is no JSON object", "no object"},
		{`{"specimen":"a"} {"specimen":"b"}`, "why: has more than one", "two objects"},
		{`{"specimen":"a`, "why: ", "cut short"},
		{`{"a":` + strings.Repeat(`{"a":`, 50) + `"x"` + strings.Repeat("}", 51), "why: has objects and lists too deep", "deep objects"},
		{`{"a":` + strings.Repeat(`[`, 50) + `"x"` + strings.Repeat("]", 50) + "}", "why: has objects and lists too deep", "deep lists"},
	}
	for _, tt := range tests {
		n := 0
		for m, err := range ReadJSON("x.json", "", strings.NewReader("\xEF\xBB\xBF\n"+tt.line+"\n")) {
			if err != nil {
				t.Fatal(err)
			}
			n++
			got := "why: " + m.Why
			if m.Record != nil {
				got = fmt.Sprint(ledger.Flatten(m.Record))
			}
			if !strings.HasPrefix(got, tt.want) || m.Line != 2 {
				t.Errorf("%s: line %d: %s, want %s", tt.reason, m.Line, got, tt.want)
			}
		}
		if n != 1 {
			t.Errorf("%s: %d records", tt.reason, n)
		}
	}
	for m, err := range ReadJSON("x.json", "", io.MultiReader(strings.NewReader(`{"a":"`), strings.NewReader(strings.Repeat("x", maxLine)))) {
		if err == nil {
			t.Errorf("a line of %d bytes was taken: %v", maxLine, m)
		}
	}
}

func FuzzReadJSON(f *testing.F) {
	f.Add(`{"specimen":"LK7-1","with":["A"],"place":{"country":"Norway"}}`)
	f.Fuzz(func(t *testing.T, s string) {
		for m := range ReadJSON("x", "", strings.NewReader(s)) {
			if m.Record != nil {
				ledger.Encode(m.Record)
			}
		}
	})
}

var spots = []Spot{
	{Number: "LK7-1", Lat: "60.7", Lon: "6.65", Metres: 7.2, Height: "348", Page: "https://x.example/1.html", Facts: []ledger.KV{{Key: "name", Value: `Viola "tricolor" & <arvensis>`}, {Key: "district", Value: ""}}},
	{Number: "LK7-2", Lat: "-33.95", Lon: "18.45", Square: &Square{-34, 18.4, -33.9, 18.5}, Metres: 9000, Facts: []ledger.KV{{Key: "withheld", Value: "exact place withheld"}, {Key: "locality", Value: "a\vb\nc"}}},
}

// The members and their order are those of RFC 7946; a ring goes against the
// clock and is closed (3.1.6).
func TestGeoJSON(t *testing.T) {
	var b bytes.Buffer
	g := NewGeoJSON(&b, []ledger.KV{{Key: "title", Value: "T"}, {Key: "revision", Value: ""}})
	for i := range spots {
		if err := g.Write(&spots[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := g.Close(); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Type, Title string
		Features    []struct {
			Type, ID   string
			Geometry   struct{ Type string }
			Properties map[string]any
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatalf("%v\n%s", err, b.Bytes())
	}
	if got.Type != "FeatureCollection" || got.Title != "T" || len(got.Features) != 2 || got.Features[0].Type != "Feature" || got.Features[1].ID != "LK7-2" ||
		got.Features[0].Geometry.Type != "Point" || got.Features[1].Geometry.Type != "Polygon" || got.Features[0].Properties["uncertainty_m"] != 8.0 {
		t.Errorf("%+v", got)
	}
	for _, want := range []string{`"coordinates":[6.65,60.7]`, `"coordinates":[[[18.4,-34],[18.5,-34],[18.5,-33.9],[18.4,-33.9],[18.4,-34]]]`} {
		if !strings.Contains(b.String(), want) {
			t.Errorf("%s lacks %s", b.String(), want)
		}
	}
	b.Reset()
	if err := NewGeoJSON(&b, nil).Close(); err != nil || !json.Valid(b.Bytes()) {
		t.Errorf("an empty collection: %s", b.Bytes())
	}
}

// The elements of a waypoint stand in the order of the schema (wptType: ele,
// time, magvar, geoidheight, name, cmt, desc, src, link, sym, type; from memory).
func TestGPX(t *testing.T) {
	var b bytes.Buffer
	g := NewGPX(&b, AboutGPX{Name: "N", Museum: "M & M", Licence: "https://l.example/", Time: time.Date(2026, 11, 25, 8, 0, 0, 0, time.UTC)})
	for i := range spots {
		if err := g.Write(&spots[i]); err != nil {
			t.Fatal(err)
		}
	}
	if err := g.Close(); err != nil {
		t.Fatal(err)
	}
	order := []string{"ele", "time", "magvar", "geoidheight", "name", "cmt", "desc", "src", "link", "sym", "type"}
	d := xml.NewDecoder(bytes.NewReader(b.Bytes()))
	var inside []string
	last, points := -1, 0
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, b.Bytes())
		}
		switch x := tok.(type) {
		case xml.StartElement:
			if len(inside) == 2 && inside[1] == "wpt" {
				at := -1
				for i, n := range order {
					if n == x.Name.Local {
						at = i
					}
				}
				if at <= last {
					t.Errorf("<%s> stands out of order", x.Name.Local)
				}
				last = at
			}
			if x.Name.Local == "wpt" {
				last = -1
				points++
			}
			inside = append(inside, x.Name.Local)
		case xml.EndElement:
			inside = inside[:len(inside)-1]
		}
	}
	if points != 2 || !strings.Contains(b.String(), "<cmt>centre of a square, not the place itself; exact place withheld; ± 9000 m</cmt>") {
		t.Errorf("%d points\n%s", points, b.String())
	}
}
