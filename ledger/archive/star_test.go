package archive_test

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"
	"pgregory.net/rapid"

	"blotter/ledger/archive"
)

// core and extension are the parts of a meta.xml of tests; attributes go into
// the elements.
func metaOf(coreAttr, core, extAttr, ext string) string {
	m := `<archive xmlns="http://rs.tdwg.org/dwc/text/"><core rowType="http://rs.tdwg.org/dwc/terms/Occurrence" ` + coreAttr + `>` + core + `</core>`
	if ext != "" {
		m += `<extension rowType="http://rs.tdwg.org/dwc/terms/Identification" ` + extAttr + `>` + ext + `</extension>`
	}
	return m + `</archive>`
}

const (
	coreFields = `<files><location>core.txt</location></files><id index="0"/><field index="1" term="http://rs.tdwg.org/dwc/terms/locality"/>`
	extFields  = `<files><location>ext.txt</location></files><coreid index="0"/><field index="1" term="http://rs.tdwg.org/dwc/terms/identifiedBy"/>`
	heads1     = `ignoreHeaderLines="1"`
)

// folderOf writes files into a new folder.
func folderOf(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// stars reads a whole archive.
func stars(name, tmp string) (out []*archive.Star, err error) {
	a, err := archive.Open(name)
	if err != nil {
		return nil, err
	}
	defer a.Close()
	for s, err := range a.Stars(context.Background(), tmp) {
		if err != nil {
			return out, err
		}
		out = append(out, s)
	}
	return out, nil
}

// Every way of writing that meta.xml can declare gives the same rows.
func TestDeclaredForms(t *testing.T) {
	utf16 := func(e unicode.Endianness, b unicode.BOMPolicy) func(string) string {
		return func(s string) string { s, _ = unicode.UTF16(e, b).NewEncoder().String(s); return s }
	}
	latin := func(s string) string { s, _ = charmap.Windows1252.NewEncoder().String(s); return s }
	plain := func(s string) string { return s }
	for _, c := range []struct {
		attr, core, reason string
		encode             func(string) string
	}{
		{``, "1,\"Voss, \"\"Mølster\"\"\"\n2,Bulken\n", "the defaults of the text guide: commas, quote marks, UTF-8", plain},
		{``, "\ufeff1,\"Voss, \"\"Mølster\"\"\"\r\n2,Bulken", "a byte order mark, CRLF where LF is declared, no last end", plain},
		{`fieldsTerminatedBy="\t" fieldsEnclosedBy=""`, "1\tVoss, \"Mølster\"\n2\tBulken\n", "tabs, no quote marks", plain},
		{`fieldsTerminatedBy="&#9;" fieldsEnclosedBy=""`, "1\tVoss, \"Mølster\"\n2\tBulken\n", "a tab as a character reference", plain},
		{`fieldsTerminatedBy="|" fieldsEnclosedBy="'" encoding="ISO-8859-1"`, "'1'|'Voss, \"Mølster\"'\n'2'|'Bulken'\n", "single quote marks, Latin-1", latin},
		{`fieldsTerminatedBy="||" encoding="windows-1252" linesTerminatedBy="\r\n"`, "1||\"Voss, \"\"Mølster\"\"\"\r\n2||Bulken\r\n", "two signs between cells, Windows-1252", latin},
		{`fieldsTerminatedBy="\\" fieldsEnclosedBy=""`, "1\\Voss, \"Mølster\"\n2\\Bulken\n", "a backslash", plain},
		{`fieldsTerminatedBy="¦" fieldsEnclosedBy="" linesTerminatedBy="§\n"`, "1¦Voss, \"Mølster\"§\n2¦Bulken§\n", "signs beyond ASCII, an end of two signs", plain},
		{`linesTerminatedBy="\r"`, "1,\"Voss, \"\"Mølster\"\"\"\r2,Bulken\r", "lines that end at CR", plain},
		{`encoding="UTF-16"`, "1,\"Voss, \"\"Mølster\"\"\"\n2,Bulken\n", "UTF-16, little endian by its mark", utf16(unicode.LittleEndian, unicode.UseBOM)},
		{`encoding="utf-16be" fieldsTerminatedBy=";"`, "1;\"Voss, \"\"Mølster\"\"\"\n2;Bulken\n", "UTF-16, big endian without a mark", utf16(unicode.BigEndian, unicode.IgnoreBOM)},
		{`encoding="UTF-16LE"`, "1,\"Voss, \"\"Mølster\"\"\"\n2,Bulken\n", "UTF-16, little endian without a mark", utf16(unicode.LittleEndian, unicode.IgnoreBOM)},
		{`ignoreHeaderLines="2"`, "made by hand\n\n1,\"Voss, \"\"Mølster\"\"\"\n2,Bulken\n", "two lines of headings, one of them empty", plain},
	} {
		got, err := stars(folderOf(t, map[string]string{"meta.xml": metaOf(c.attr, coreFields, "", ""), "core.txt": c.encode(c.core)}), "")
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		if len(got) != 2 || got[0].ID != "1" || got[0].Cells[0] != `Voss, "Mølster"` || got[1].Cells[0] != "Bulken" {
			t.Errorf("%s: %+v", c.reason, got)
		}
	}
}

// Extension rows in any order, undeclared columns, defaults, several files.
func TestStars(t *testing.T) {
	files := map[string]string{
		"meta.xml": `<archive xmlns="http://rs.tdwg.org/dwc/text/"><core rowType="x" ignoreHeaderLines="1">
			<files><location>core.txt</location><location>./more.txt</location></files><id index="0"/>
			<field index="3" default="Norway" term="http://rs.tdwg.org/dwc/terms/country" vocabulary="http://example.org/countries"/>
			<field default="PreservedSpecimen" term="http://rs.tdwg.org/dwc/terms/basisOfRecord"/>
			<field index="1" term="http://rs.tdwg.org/dwc/terms/locality"/></core>
			<extension rowType="y" fieldsTerminatedBy="\t" fieldsEnclosedBy=""><files><location>ext.txt</location></files><coreid index="1"/>
			<field index="2" term="http://rs.tdwg.org/dwc/terms/identifiedBy"/></extension></archive>`,
		"core.txt": "id,locality,Herr,country\na,Voss,x,\nb,Bulken,,Sweden\n",
		"more.txt": "id,locality,Herr,country\nc,Myrdal,y,\n",
		"ext.txt":  "1\tc\tAune\n2\ta\tMoldstad\n3\tc\tRask\n4\ta\tSørli\n",
	}
	dir := folderOf(t, files)
	a, err := archive.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	var got []string
	for s, err := range a.Stars(context.Background(), t.TempDir()) {
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, fmt.Sprintf("%s:%d %s %q", s.File, s.Line.Line, s.ID, s.Cells))
		for _, x := range s.Extensions[0] {
			got = append(got, fmt.Sprintf("  %s:%d %q", x.File, x.Line, x.Cells))
		}
	}
	want := []string{
		`core.txt:2 a ["Norway" "PreservedSpecimen" "Voss" "x"]`,
		`  ext.txt:2 ["Moldstad" "2"]`, `  ext.txt:4 ["Sørli" "4"]`,
		`core.txt:3 b ["Sweden" "PreservedSpecimen" "Bulken" ""]`,
		`./more.txt:2 c ["Norway" "PreservedSpecimen" "Myrdal" "y"]`,
		`  ext.txt:1 ["Aune" "1"]`, `  ext.txt:3 ["Rask" "3"]`,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if c := a.Columns(&a.Core); !reflect.DeepEqual(c[3:], []string{"Herr"}) {
		t.Errorf("columns %q", c)
	}
	if c := a.Columns(&a.Extensions[0]); !reflect.DeepEqual(c[1:], []string{"column 1"}) {
		t.Errorf("columns %q", c)
	}
	if a.Core.Fields[0].Vocabulary != "http://example.org/countries" {
		t.Errorf("vocabulary %q", a.Core.Fields[0].Vocabulary)
	}
	sum, err := a.SHA256()
	if err != nil || len(sum) != 64 {
		t.Errorf("checksum %q %v", sum, err)
	}
}

// More extension rows than stay in memory, shuffled: the join is the same as
// that of a map, and nothing is left behind.
func TestManyExtensionRows(t *testing.T) {
	const n = 3000
	var core, ext strings.Builder
	for i := range n {
		fmt.Fprintf(&core, "%d,Voss\n", i)
	}
	long := strings.Repeat("x", 1500)
	for k := range 2 * n {
		i := k * 1789 % n // no order that is of any use
		fmt.Fprintf(&ext, "%d,%d %s\n", i, k, long)
	}
	dir := folderOf(t, map[string]string{"meta.xml": metaOf("", coreFields, "", extFields), "core.txt": core.String(), "ext.txt": ext.String()})
	tmp := t.TempDir()
	got, err := stars(dir, tmp)
	if err != nil || len(got) != n {
		t.Fatal(len(got), err)
	}
	for i, s := range got {
		if s.ID != fmt.Sprint(i) || len(s.Extensions[0]) != 2 {
			t.Fatalf("row %d: id %s, %d rows", i, s.ID, len(s.Extensions[0]))
		}
		last := -1
		for _, x := range s.Extensions[0] {
			var k int
			if _, err := fmt.Sscan(x.Cells[0], &k); err != nil || k*1789%n != i || k <= last || x.Line != k+1 || !strings.HasSuffix(x.Cells[0], long) {
				t.Fatalf("row %d has %.20s of line %d", i, x.Cells[0], x.Line)
			}
			last = k
		}
	}
	if left, _ := os.ReadDir(tmp); len(left) > 0 {
		t.Errorf("left behind: %v", left)
	}
}

func TestStarsEndWithTheirContext(t *testing.T) {
	dir := folderOf(t, map[string]string{"meta.xml": metaOf("", coreFields, "", ""), "core.txt": "1,Voss\n"})
	a, err := archive.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	for _, err := range a.Stars(ctx, "") {
		if !errors.Is(err, context.Canceled) {
			t.Errorf("%v", err)
		}
	}
}

// Any cells, written as meta.xml says, are read as they were.
func TestCellsAsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		comma := rapid.SampledFrom([]string{",", "\t", ";", "||", "~", "¦"}).Draw(t, "comma")
		quote := rapid.SampledFrom([]string{`"`, "'", "¤", "$$"}).Draw(t, "quote")
		ends := rapid.SampledFrom([]string{"\n", "\r", "\r\n", "@\n"}).Draw(t, "ends")
		cell := rapid.StringOfN(rapid.RuneFrom([]rune("ab,;|~'\"@ø¤¦\t")), 0, 8, -1)
		wide := rapid.IntRange(1, 4).Draw(t, "columns")
		rows := rapid.SliceOfN(rapid.SliceOfN(cell, wide, wide), 1, 5).Draw(t, "rows")
		var b strings.Builder
		for i, r := range rows {
			fmt.Fprint(&b, i)
			for _, c := range r {
				b.WriteString(comma + quote + strings.ReplaceAll(c, quote, quote+quote) + quote)
			}
			b.WriteString(ends)
		}
		attr := func(s string) string {
			s = strings.NewReplacer("&", "&amp;", `"`, "&quot;", "\t", `\t`, "\r", `\r`, "\n", `\n`).Replace(s)
			return `"` + s + `"`
		}
		m := `<archive><core rowType="x" fieldsTerminatedBy=` + attr(comma) + ` fieldsEnclosedBy=` + attr(quote) + ` linesTerminatedBy=` + attr(ends) + `><files><location>core.txt</location></files><id index="0"/>`
		for i := range wide {
			m += fmt.Sprintf(`<field index="%d" term="t%d"/>`, i+1, i)
		}
		dir, err := os.MkdirTemp("", "cells")
		if err != nil {
			t.Fatal(err)
		}
		defer os.RemoveAll(dir)
		for name, text := range map[string]string{"meta.xml": m + "</core></archive>", "core.txt": b.String()} {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		got, err := stars(dir, "")
		if err != nil {
			t.Fatalf("%v\n%q", err, b.String())
		}
		for i, r := range rows {
			if !reflect.DeepEqual(got[i].Cells, r) {
				t.Fatalf("row %d: %q, want %q in %q", i, got[i].Cells, r, b.String())
			}
		}
	})
}

func FuzzMeta(f *testing.F) {
	for _, s := range []string{meta, metaOf(heads1, coreFields, heads1, extFields), `<!DOCTYPE a [<!ENTITY b "x">]><archive>&b;</archive>`, "<archive><core fieldsTerminatedBy=\"\\t\"><files><location>../x</location></files></core></archive>", "\xff\xfe<\x00a\x00"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		m, err := archive.ReadMeta(strings.NewReader(s))
		if err != nil {
			return
		}
		if len(m.Core.Files) == 0 || m.Core.Comma == "" {
			t.Fatalf("%+v", m.Core)
		}
	})
}

func FuzzStars(f *testing.F) {
	f.Add(",", `"`, "id,locality\n1,\"Voss\n\"\n", "coreid,by\n1,Rask\n")
	f.Add("\t", "", "id\tlocality\r\n1\tV\x00oss", "1\t\xf8\n")
	f.Add("||", "'", "1||'a''b'\n2||", "2||x\n1||y")
	f.Fuzz(func(t *testing.T, comma, quote, core, ext string) {
		if strings.ContainsAny(comma+quote, "<&\"\x00") {
			return
		}
		attr := `fieldsTerminatedBy="` + comma + `" fieldsEnclosedBy="` + strings.ReplaceAll(quote, `"`, "&quot;") + `"`
		dir := folderOf(t, map[string]string{"meta.xml": metaOf(attr, coreFields, attr, extFields), "core.txt": core, "ext.txt": ext})
		got, err := stars(dir, "")
		if err != nil {
			return
		}
		for _, s := range got {
			if len(s.Cells) < 1 || s.ID == "" {
				t.Fatalf("%+v", s)
			}
		}
	})
}
