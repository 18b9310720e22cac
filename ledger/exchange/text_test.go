package exchange

import (
	"bytes"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/encoding/unicode"

	"blotter/ledger"
)

func opened(content string) func() (io.ReadCloser, error) {
	return func() (io.ReadCloser, error) { return io.NopCloser(strings.NewReader(content)), nil }
}

// shown is a table as one line.
func shown(t *Text) (string, error) {
	out := strings.Join(t.Heads(), "|")
	for row, err := range t.Rows() {
		if err != nil {
			return "", err
		}
		out += fmt.Sprintf(" %d:%s", row.Line, strings.Join(row.Cells, "|"))
	}
	return out, nil
}

func in(enc encoding.Encoding, s string) string {
	out, err := enc.NewEncoder().String(s)
	if err != nil {
		panic(err)
	}
	return out
}

const norwegian = "Sted;Høyde\nMølster;340\n"

// How files come; the cases by hand.
func TestOpenText(t *testing.T) {
	big := strings.Repeat("x", 2*maxRow)
	cases := []struct{ name, reason, mapping, content, charset, want, fault string }{
		{"UTF-8", "as it should be", "", norwegian, "utf-8", "Sted|Høyde 2:Mølster|340", ""},
		{"byte order mark", "some programs write one", "", "\ufeff" + norwegian, "utf-8", "Sted|Høyde 2:Mølster|340", ""},
		{"Windows-1252", "spreadsheets of Western Europe", "", in(charmap.Windows1252, norwegian), "windows-1252", "Sted|Høyde 2:Mølster|340", ""},
		{"Mac letters", "said, not guessed", "encoding: macintosh\n", in(charmap.Macintosh, norwegian), "macintosh", "Sted|Høyde 2:Mølster|340", ""},
		{"DOS letters", "said, not guessed", "encoding: cp865\n", in(charmap.CodePage865, norwegian), "cp865", "Sted|Høyde 2:Mølster|340", ""},
		{"UTF-16 little", "a spreadsheet's Unicode text", "", in(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), strings.ReplaceAll(norwegian, ";", "\t")), "utf-16", "Sted|Høyde 2:Mølster|340", ""},
		{"UTF-16 big", "the other way round", "", in(unicode.UTF16(unicode.BigEndian, unicode.UseBOM), norwegian), "utf-16", "Sted|Høyde 2:Mølster|340", ""},
		{"UTF-16 without a mark", "every second byte is zero", "", in(unicode.UTF16(unicode.LittleEndian, unicode.IgnoreBOM), "Place;Height\nVoss;340\n"), "utf-16", "Place|Height 2:Voss|340", ""},
		{"line ends of old Macs", "CR alone", "", strings.ReplaceAll(norwegian, "\n", "\r"), "utf-8", "Sted|Høyde 2:Mølster|340", ""},
		{"line ends of Windows", "CR and LF", "", strings.ReplaceAll(norwegian, "\n", "\r\n"), "utf-8", "Sted|Høyde 2:Mølster|340", ""},
		{"sep=", "a spreadsheet's own hint", "", "sep=;\nA,x;B\n1;2\n", "utf-8", "A,x|B 3:1|2", ""},
		{"bars", "some exports", "", "A|B|C\n1|2|3\n", "utf-8", "A|B|C 2:1|2|3", ""},
		{"commas within quotes", "headings hold commas too", "", "\"A, x, y, z\";B\n1;2\n", "utf-8", "A, x, y, z|B 2:1|2", ""},
		{"tabs with quotes", "cells with line ends, as spreadsheets copy them", "", "A\tB\n\"x\ny\"\t2\n", "utf-8", "A|B 2:x\ny|2", ""},
		{"tabs with inches", "quote marks as text", "", "A\tB\n5\" stem\t2\n", "utf-8", "A|B 2:5\" stem|2", ""},
		{"separator said", "the headings mislead", "separator: ;\n", "A,a,a;B\n1;2\n", "utf-8", "A,a,a|B 2:1|2", ""},
		{"titles above", "registers have them", "head_line: \"3\"\n", "Register of 1931,\n,\nA,B\n1,2\n", "utf-8", "A|B 4:1|2", ""},
		{"formula guard", "taken off again", "", "A,B\n'=1+1,'plain\n", "utf-8", "A|B 2:=1+1|'plain", ""},
		{"no heading", "the column has its place for a name", "", "A,,B\n1,2,3\n", "utf-8", "A|column 2|B 2:1|2|3", ""},
		{"no headings at the end", "blank columns", "", "A,B,,\n1,2,,\n", "utf-8", "A|B 2:1|2", ""},
		{"mixed said", "a person looked at the lines", "encoding: mixed\n", "A,B\nMølster,1\nM\xf8lster,2\n", "mixed", "A|B 2:Mølster|1 3:Mølster|2", ""},

		{"mixed", "one line from another program", "", "A,B\nMølster,1\nVoss,x\nM\xf8lster,2\n", "", "", `line 4, column 2: the byte F8 is not UTF-8, though other lines of the file are (this line only). As Windows-1252 the line reads "Mølster,2"`},
		{"not UTF-8", "the mapping says so", "encoding: utf-8\n", "A,B\nM\xf8l,2\n", "", "", "line 2, column 2: the byte F8 is not UTF-8 (this line only)"},
		{"neither", "81 is no letter", "", "A,B\nM\x81l,2\n", "", "", "line 2, column 2: the byte 81 is neither UTF-8 nor Windows-1252"},
		{"zero byte", "damaged", "", "A,B\nx,y\nx\x00,2\n", "", "", "line 3, column 2: a zero byte"},
		{"quote never closed", "would swallow the rest", "", "A,B\n1,2\n\"x,2\n3,4\n", "", "", "line 3, column 1: a quote mark opens a cell and is never closed"},
		{"quote within", "neither opens nor closes", "", "A,B\n1,2\nx\"y,2\n", "", "", "line 3, column 2: a quote mark that neither opens nor closes"},
		{"words after a quote", "the cell was closed", "", "A,B\n\"x\"y,2\n", "", "", "line 2, column 4"},
		{"same heading twice", "one would be lost", "", "A,B,A\n1,2,3\n", "", "", `columns 1 and 3 have the heading "A"`},
		{"huge cell", "no record has room for it", "", "A,B\n1," + big + "\n", "", "", "line 2 is longer than 1048576 bytes"},
		{"huge cell in quotes", "bounded too", "", "A,B\n1,\"" + strings.ReplaceAll(big, "xx", "x\n") + "\"\n", "", "", "line 2, column 3: a quote mark opens a cell and is never closed, or not within 1048576 bytes"},
		{"row a little too long", "the bound is exact", "", "A,B\n1,\"" + strings.Repeat("x", maxRow) + "\"\n", "", "", "the row after line 1 is longer than 1048576 bytes"},
		{"huge line of tabs", "bounded too", "", "A\tB\n1\t" + big + "\n", "", "", "line 2 is longer than 1048576 bytes"},
		{"empty", "nothing there", "", "\n\n", "", "", "no headings"},
		{"titles in the way", "the mapping names a blank line", "head_line: \"2\"\n", "A,B\n\n1,2\n", "", "", "line 2, where the mapping says"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			m, fs := ledger.DecodeMapping("map.yaml", []byte(c.mapping))
			if c.mapping == "" {
				m = nil
			} else if len(fs) > 0 {
				t.Fatal(fs)
			}
			x, err := OpenText("a.csv", opened(c.content), m)
			got := ""
			if err == nil {
				got, err = shown(x)
			}
			if c.fault != "" {
				if err == nil || !strings.Contains(err.Error(), c.fault) {
					t.Fatalf("%s: error %v, want %q", c.reason, err, c.fault)
				}
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			if got != c.want || x.Charset != c.charset {
				t.Errorf("%s: %q in %s, want %q in %s", c.reason, got, x.Charset, c.want, c.charset)
			}
		})
	}
}

// endless is a file of rows that is made as it is read.
type endless struct {
	left int
	row  []byte
	rest []byte
}

func (e *endless) Read(p []byte) (int, error) {
	if len(e.rest) == 0 {
		if e.left == 0 {
			return 0, io.EOF
		}
		e.left--
		e.rest = e.row
	}
	n := copy(p, e.rest)
	e.rest = e.rest[n:]
	return n, nil
}

func (e *endless) Close() error { return nil }

// A cell of 200 MB is refused after the first megabyte of it is held.
func TestHugeCellIsBounded(t *testing.T) {
	open := func() (io.ReadCloser, error) {
		return struct {
			io.Reader
			io.Closer
		}{io.MultiReader(strings.NewReader("A,B\n1,"), &endless{left: 200, row: bytes.Repeat([]byte("x"), 1<<20)}), io.NopCloser(nil)}, nil
	}
	var before, after uint64
	allocated(&before)
	_, err := OpenText("a.csv", open, nil)
	allocated(&after)
	if err == nil || !strings.Contains(err.Error(), "line 2 is longer") {
		t.Errorf("error %v", err)
	}
	if used := after - before; used > 16<<20 {
		t.Errorf("%d MB were allocated for it", used>>20)
	}
}

func FuzzOpenText(f *testing.F) {
	for _, s := range []string{norwegian, "a,b\n\"x\ny\",2\n", "a\tb\n1\t2\n", "sep=;\na;b\n1;2\n", "\ufeffa;b\r1;2\r", in(charmap.Windows1252, norwegian), in(unicode.UTF16(unicode.LittleEndian, unicode.UseBOM), norwegian), "a,b\n\"x", "a,b\n\xf8\x81,ø\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, content string) {
		x, err := OpenText("a.csv", opened(content), nil)
		if err != nil {
			return
		}
		for row, err := range x.Rows() {
			if err == nil && len(row.Cells) != len(x.Heads()) {
				t.Fatalf("line %d: %d cells under %d headings", row.Line, len(row.Cells), len(x.Heads()))
			}
		}
		if p, err := NewProfile(x); err == nil {
			text := Propose("a.csv", p, "LK7-").Text()
			if len(text) > ledger.MaxFile {
				return
			}
			m, fs := ledger.DecodeMapping("map.yaml", text)
			for _, found := range fs {
				if found.Severity == ledger.Error && !strings.HasPrefix(found.Code, "text-") && found.Code != "yaml-deep" {
					t.Fatalf("the proposal cannot be read: %v\n%s", found, text)
				}
			}
			if _, err := NewPlan(x.Heads(), m, Options{}); err != nil && len(fs) == 0 {
				t.Fatalf("the proposal does not fit: %v\n%s", err, text)
			}
		}
	})
}

func allocated(n *uint64) {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	*n = m.TotalAlloc
}
