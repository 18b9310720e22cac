package archive_test

import (
	"archive/zip"
	"bytes"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger/archive"
)

// What contradicts itself is an error that says where and what to do.
func TestBadArchives(t *testing.T) {
	good := map[string]string{"meta.xml": metaOf(heads1, coreFields, heads1, extFields), "core.txt": "id,locality\n1,Voss\n2,Bulken\n", "ext.txt": "coreid,by\n1,Rask\n2,Aune\n"}
	if _, err := stars(folderOf(t, good), ""); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ file, text, want, reason string }{
		{"core.txt", "id,locality\n1,Voss\n1,Bulken\n", `core.txt: line 3: column 1: id "1" stands in line 2 of core.txt too`, "an id twice"},
		{"core.txt", "id,locality\n1,Voss\n,Bulken\n", "core.txt: line 3: column 1: no id", "no id"},
		{"core.txt", "id,locality\n1,Voss\n2,Bulken,x\n", "core.txt: line 3: 3 cells, but the file has 2 columns", "too many cells"},
		{"core.txt", "id,locality\n1,Voss\n2\n", "core.txt: line 3: 1 cells, but the file has 2 columns", "too few cells"},
		{"core.txt", "id,locality\n1,V\xf8ss\n2,Bulken\n", "core.txt: line 2: column 2 holds bytes that are not UTF-8", "another encoding than declared, in one line"},
		{"core.txt", "id,locality\n1,V\x00ss\n2,Bulken\n", "core.txt: line 2: column 2 holds a zero byte", "a zero byte"},
		{"core.txt", "id,locality\n1,\"Voss\n2,Bulken\n", "core.txt: line 2: a quote mark opens a cell and none closes it", "a lost quote mark"},
		{"core.txt", "id,locality\n1," + strings.Repeat("x", 5<<20) + "\n", "core.txt: line 2: a row of more than 4 MiB", "a cell without end"},
		{"core.txt", "id,locality\n" + strings.Repeat(",", 200_000) + "\n", "core.txt: line 2: a row of more than 100,000 cells", "cells without end"},
		{"core.txt", "id\n1\n2\n", "field http://rs.tdwg.org/dwc/terms/locality is column 1 (index from 0), but core.txt has 1 columns", "fewer columns than declared"},
		{"ext.txt", "coreid,by\n1,Rask\n3,Aune\n4,Aune\n", `ext.txt: line 3: column 1: coreid "3" is the id of no row of core.txt (2 such rows in all)`, "extension rows of nothing"},
		{"ext.txt", "coreid,by\n1,Rask\n,Aune\n", "ext.txt: line 3: column 1: no coreid", "no coreid"},
		{"ext.txt", "coreid,by\n" + strings.Repeat("1,"+strings.Repeat("x", 1000)+"\n", 5000), `the rows of id "1" have more than 4194304 bytes together`, "extension rows without end"},
		{"meta.xml", metaOf(heads1, strings.Replace(coreFields, `<id index="0"/>`, "", 1), heads1, extFields), "core: no id element", "nothing to join by"},
		{"meta.xml", metaOf(heads1, coreFields, heads1, strings.Replace(extFields, `<coreid index="0"/>`, "", 1)), "extension 1: no coreid element", "nothing to join by"},
		{"meta.xml", strings.Replace(good["meta.xml"], "ext.txt", "lost.txt", 1), "location lost.txt: there is no such file", "a file that is not there"},
		{"meta.xml", strings.Replace(good["meta.xml"], "ext.txt", "../ext.txt", 1), "only files in the archive", "a file outside"},
		{"meta.xml", strings.Replace(good["meta.xml"], "ext.txt", "/etc/passwd", 1), "only files in the archive", "an absolute path"},
		{"meta.xml", strings.Replace(good["meta.xml"], "ext.txt", `C:\ext.txt`, 1), "only files in the archive", "a path of Windows"},
		{"meta.xml", strings.Replace(good["meta.xml"], "ext.txt", "https://example.org/ext.txt", 1), "a file elsewhere is not fetched", "an address"},
		{"meta.xml", strings.Replace(good["meta.xml"], `<field index="1" term="http://rs.tdwg.org/dwc/terms/locality"/>`, `<field index="1" term="x"/><field index="1" term="x"/>`, 1), "two fields have the term x", "a term twice"},
		{"meta.xml", strings.Replace(good["meta.xml"], heads1, `encoding="EBCDIC-9"`, 1), "encoding EBCDIC-9 is not known", "an encoding of nobody"},
		{"meta.xml", `<!DOCTYPE a [<!ENTITY x SYSTEM "file:///etc/passwd">]><archive>&x;</archive>`, "a DOCTYPE with entities of its own is not read", "an entity from outside"},
		{"meta.xml", `<!DOCTYPE a [<!ENTITY a "lol"><!ENTITY b "&a;&a;&a;">]><archive>&b;</archive>`, "a DOCTYPE with entities of its own is not read", "entities that multiply"},
		{"meta.xml", `<archive>&b;</archive>`, "invalid character entity &b;", "an entity of nobody"},
		{"meta.xml", good["meta.xml"][:len(good["meta.xml"])-20], "unexpected EOF", "cut short"},
		{"meta.xml", "<archive>" + strings.Repeat("<x></x>", 1<<20), "more than 4194304 bytes", "no end"},
	} {
		files := map[string]string{}
		for name, text := range good {
			files[name] = text
		}
		files[c.file] = c.text
		_, err := stars(folderOf(t, files), t.TempDir())
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.reason, err, c.want)
		}
	}
	dir := folderOf(t, good)
	if err := os.Remove(filepath.Join(dir, "core.txt")); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink("/etc/passwd", filepath.Join(dir, "core.txt")); err != nil {
		t.Skip(err)
	}
	if _, err := stars(dir, ""); err == nil || !strings.Contains(err.Error(), "core.txt") {
		t.Errorf("a link that leads out: %v", err)
	}
}

// zipOf writes a zip file of entries that the caller makes.
func zipOf(t *testing.T, write func(*zip.Writer)) string {
	t.Helper()
	var b bytes.Buffer
	z := zip.NewWriter(&b)
	write(z)
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "a.zip")
	if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	return name
}

func entry(t *testing.T, z *zip.Writer, name, text string) {
	t.Helper()
	w, err := z.Create(name)
	if err == nil {
		_, err = io.WriteString(w, text)
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestBadZips(t *testing.T) {
	m := metaOf(heads1, coreFields, "", "")
	whole := zipOf(t, func(z *zip.Writer) {
		entry(t, z, "meta.xml", m)
		entry(t, z, "core.txt", "id,locality\n1,Voss\n")
	})
	if got, err := stars(whole, ""); err != nil || len(got) != 1 {
		t.Fatal(got, err)
	}
	bytes, err := os.ReadFile(whole)
	if err != nil {
		t.Fatal(err)
	}
	short := filepath.Join(t.TempDir(), "short.zip")
	if err := os.WriteFile(short, bytes[:len(bytes)-30], 0o644); err != nil {
		t.Fatal(err)
	}
	bent := append([]byte{}, bytes...)
	at := strings.Index(string(bent), "core.txt") + len("core.txt") + 3
	bent[at] ^= 0xff
	broken := filepath.Join(t.TempDir(), "broken.zip")
	if err := os.WriteFile(broken, bent, 0o644); err != nil {
		t.Fatal(err)
	}
	lying := zipOf(t, func(z *zip.Writer) {
		entry(t, z, "meta.xml", m)
		text := "id,locality\n1,Voss\n2,Bulken\n"
		w, err := z.CreateRaw(&zip.FileHeader{Name: "core.txt", Method: zip.Store, CRC32: crc32.ChecksumIEEE([]byte(text)), CompressedSize64: uint64(len(text)), UncompressedSize64: 5})
		if err == nil {
			_, err = io.WriteString(w, text)
		}
		if err != nil {
			t.Fatal(err)
		}
	})
	for _, c := range []struct{ name, want, reason string }{
		{short, "not a whole zip file", "cut short"},
		{broken, "core.txt", "bytes that changed"},
		{lying, "core.txt", "a size that is not true"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "meta.xml", m); entry(t, z, "../core.txt", "x") }), "leads out of the archive", "a path upwards"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "meta.xml", m); entry(t, z, "/core.txt", "x") }), "leads out of the archive", "an absolute path"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "meta.xml", m); entry(t, z, `..\core.txt`, "x") }), "leads out of the archive", "a path upwards as Windows writes it"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "meta.xml", m); entry(t, z, "meta.xml", m) }), "stands in it twice", "two files of one name"},
		{zipOf(t, func(z *zip.Writer) {
			entry(t, z, "meta.xml", m)
			w, err := z.Create("core.txt")
			if err != nil {
				t.Fatal(err)
			}
			zeros := make([]byte, 1<<20)
			for range 200 {
				if _, err := w.Write(zeros); err != nil {
					t.Fatal(err)
				}
			}
		}), "would unpack to more than 200 times its size", "a bomb"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "occurrence.csv", "id,locality\n") }), "no meta.xml in it: not a Darwin Core archive. It holds one table, occurrence.csv", "a table alone"},
		{zipOf(t, func(z *zip.Writer) { entry(t, z, "x.jpg", "") }), "no meta.xml in it", "pictures"},
	} {
		if _, err := stars(c.name, ""); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, want %q", c.reason, err, c.want)
		}
	}
	book := zipOf(t, func(z *zip.Writer) { entry(t, z, "[Content_Types].xml", ""); entry(t, z, "xl/workbook.xml", "") })
	if archive.Is(book) || !archive.Is(whole) || !archive.Is(short) {
		t.Error("what is an archive")
	}
	if a, err := archive.Open(whole); err != nil {
		t.Error(err)
	} else if sum, err := a.SHA256(); err != nil || len(sum) != 64 {
		t.Errorf("%q %v", sum, err)
	}
}
