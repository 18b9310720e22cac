package archive_test

import (
	"archive/zip"
	"errors"
	"io"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"blotter/ledger/archive"
)

const meta = `<?xml version="1.0" encoding="UTF-8"?>
<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">
  <core rowType="http://rs.tdwg.org/dwc/terms/Occurrence" encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\r\n" fieldsEnclosedBy="&quot;" ignoreHeaderLines="1">
    <files><location>one.csv</location><location>two.csv</location></files>
    <id index="0"/>
    <field index="2" term="http://rs.tdwg.org/dwc/terms/locality"/>
    <field index="1" default="Norway" term="http://rs.tdwg.org/dwc/terms/country"/>
    <field default="PreservedSpecimen" term="http://rs.tdwg.org/dwc/terms/basisOfRecord"/>
  </core>
  <extension rowType="http://rs.tdwg.org/dwc/terms/Identification" encoding="windows-1252" fieldsTerminatedBy="\t" fieldsEnclosedBy="">
    <files><location>names.txt</location></files>
    <coreid index="0"/>
    <field index="1" term="http://rs.tdwg.org/dwc/terms/identifiedBy"/>
  </extension>
</archive>`

var files = map[string]string{
	"meta.xml":  meta,
	"one.csv":   "id,country,locality\r\nLK7-1,Norway,\"Voss, \"\"Mølster\"\"\nupper field\"\r\nLK7-2,,Bulken\r\n",
	"two.csv":   "id,country,locality\r\nLK7-3,Sweden\r\n",
	"names.txt": "LK7-1\tA. S\xf8rli \"Sr.\"\n",
}

func write(t *testing.T) (folder, zipped string) {
	t.Helper()
	folder = t.TempDir()
	zipped = filepath.Join(t.TempDir(), "archive.zip")
	f, err := os.Create(zipped)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z := zip.NewWriter(f)
	for name, text := range files {
		if err := os.WriteFile(filepath.Join(folder, name), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		w, err := z.Create("export/" + name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := io.WriteString(w, text); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return folder, zipped
}

func readAll(t *testing.T, r *archive.Rows) (rows [][]string, ids []string, lines []int) {
	t.Helper()
	for {
		cells, line, err := r.Read()
		if errors.Is(err, io.EOF) {
			return rows, ids, lines
		}
		if err != nil {
			t.Fatal(err)
		}
		rows, ids, lines = append(rows, append([]string{}, cells...)), append(ids, r.ID()), append(lines, line)
	}
}

func TestArchive(t *testing.T) {
	folder, zipped := write(t)
	for _, path := range []string{folder, zipped} {
		a, err := archive.Open(path)
		if err != nil {
			t.Fatal(err)
		}
		r, err := a.Rows(&a.Core)
		if err != nil {
			t.Fatal(err)
		}
		rows, ids, lines := readAll(t, r)
		want := [][]string{
			{"Voss, \"Mølster\"\nupper field", "Norway", "PreservedSpecimen"},
			{"Bulken", "Norway", "PreservedSpecimen"},
			{"", "Sweden", "PreservedSpecimen"},
		}
		if !reflect.DeepEqual(rows, want) {
			t.Errorf("%s: rows %q, want %q", path, rows, want)
		}
		if !reflect.DeepEqual(ids, []string{"LK7-1", "LK7-2", "LK7-3"}) || !reflect.DeepEqual(lines, []int{2, 4, 2}) {
			t.Errorf("%s: ids %q on lines %v", path, ids, lines)
		}
		x, err := a.Rows(&a.Extensions[0])
		if err != nil {
			t.Fatal(err)
		}
		rows, ids, _ = readAll(t, x)
		if rows[0][0] != `A. Sørli "Sr."` || ids[0] != "LK7-1" {
			t.Errorf("%s: extension %q %q", path, ids, rows)
		}
		if err := a.Close(); err != nil {
			t.Error(err)
		}
	}
}

func TestTables(t *testing.T) {
	for _, c := range []struct{ name, text, reason string }{
		{"a.csv", "\ufeffid,locality\n1,\"Voss, Bulken\"\n2,Myrdal 5\" deep\n", "commas, a byte order mark, a quote mark within"},
		{"a.txt", "id\tlocality\r\n1\tVoss, Bulken\r\n\r\n2\tMyrdal 5\" deep\r\n", "tabs, an empty line, CRLF"},
		{"b.tsv", "id\tlocality\n1\t\"Voss, Bulken\"\n2\t\"Myrdal 5\"\" deep\"\n", "tabs, cells in quote marks as spreadsheets save them"},
		{"c.csv", "id;locality\n1;\"Voss, Bulken\"\n2;\"Myrdal 5\"\" deep\"", "semicolons, no end of line"},
		{"d.csv", "\xff\xfei\x00d\x00\t\x00l\x00o\x00c\x00a\x00l\x00i\x00t\x00y\x00\n\x001\x00\t\x00V\x00o\x00s\x00s\x00,\x00 \x00B\x00u\x00l\x00k\x00e\x00n\x00\n\x002\x00\t\x00M\x00y\x00r\x00d\x00a\x00l\x00 \x005\x00\"\x00 \x00d\x00e\x00e\x00p\x00\n\x00", "UTF-16 as spreadsheets save text"},
	} {
		r, err := archive.OpenText(c.name, io.NopCloser(strings.NewReader(c.text)))
		if err != nil {
			t.Errorf("%s: %v", c.reason, err)
			continue
		}
		rows, _, _ := readAll(t, r)
		if want := [][]string{{"1", "Voss, Bulken"}, {"2", "Myrdal 5\" deep"}}; !reflect.DeepEqual(rows, want) || !reflect.DeepEqual(r.Heads, []string{"id", "locality"}) {
			t.Errorf("%s: %q %q, want %q", c.reason, r.Heads, rows, want)
		}
	}
}

func TestFaults(t *testing.T) {
	for _, c := range []struct{ meta, want string }{
		{"no xml", "no XML document"},
		{"<archive></archive>", "exactly one core"},
		{`<archive><core><files><location>x</location></files><id index="x"/></core></archive>`, "no number"},
		{`<archive><core></core></archive>`, "names no file"},
		{`<archive><core fieldsEnclosedBy=","><files><location>x</location></files></core></archive>`, "not three different signs"},
		{`<archive><core fieldsTerminatedBy=""><files><location>x</location></files></core></archive>`, "fieldsTerminatedBy is empty"},
		{`<archive><core linesTerminatedBy=""><files><location>x</location></files></core></archive>`, "linesTerminatedBy is empty"},
	} {
		if _, err := archive.ReadMeta(strings.NewReader(c.meta)); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.meta, err, c.want)
		}
	}
	folder := t.TempDir()
	if _, err := archive.Open(folder); err == nil || !strings.Contains(err.Error(), "no meta.xml") {
		t.Errorf("empty folder: %v", err)
	}
	if err := os.WriteFile(filepath.Join(folder, "occurrence.txt"), []byte("id\tlocality\n1\tVoss\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if r, err := archive.OpenRows(folder); err != nil {
		t.Errorf("one table without meta.xml: %v", err)
	} else if rows, _, _ := readAll(t, r); rows[0][1] != "Voss" {
		t.Errorf("one table without meta.xml: %q", rows)
	}
	outside := strings.Replace(meta, "one.csv", "../one.csv", 1)
	if err := os.WriteFile(filepath.Join(folder, "meta.xml"), []byte(outside), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := archive.OpenRows(folder); err == nil || !strings.Contains(err.Error(), "only files in the archive") {
		t.Errorf("a file outside: %v", err)
	}
	lost := "id,locality\n1,\"Voss" + strings.Repeat("x,y\n", 3<<20)
	r, err := archive.OpenText("lost.csv", io.NopCloser(strings.NewReader(lost)))
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := r.Read(); err == nil || !strings.Contains(err.Error(), "not closed") {
		t.Errorf("a lost quote mark: %v", err)
	}
}

func FuzzTable(f *testing.F) {
	for _, s := range []string{"id,a\n1,2", "a\tb\n\"x\"\ty", "a;b\n\"\"\";\n", "\xff\xfea\x00", "\"", "a,b\r\n\r\n,", meta} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r, err := archive.OpenText("x.csv", io.NopCloser(strings.NewReader(s)))
		if err != nil {
			return
		}
		for {
			cells, _, err := r.Read()
			if err != nil {
				break
			}
			if len(cells) != len(r.Heads) {
				t.Fatalf("%d cells under %d headings", len(cells), len(r.Heads))
			}
		}
		_, _ = archive.ReadMeta(strings.NewReader(s))
	})
}
