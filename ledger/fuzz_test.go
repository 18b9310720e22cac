package ledger

import (
	"bytes"
	"errors"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func seeds(f *testing.F) [][]byte {
	out := [][]byte{[]byte(sample), []byte("a: &a [*a]"), []byte("? [a]\n: b\n"), []byte("specimen: 'x\n")}
	for _, g := range goodRecords(f) {
		out = append(out, g.src)
	}
	for _, b := range badRecords(f) {
		out = append(out, b.src)
	}
	return out
}

// FuzzDecode: no panic, each finding within the file, Encode of what was read
// a fixed point with the same words, the packed record equal to the decoded.
func FuzzDecode(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		r, fs := Decode(samplePath, src)
		lines := newLines(src)
		for _, x := range fs {
			if x.Line < 1 || x.Line > len(lines.from)+1 || x.Col < 1 || x.Code == "" || x.Message == "" || strings.ContainsAny(x.Message, "\n\r") {
				t.Fatalf("finding %+v in a file of %d lines", x, len(lines.from))
			}
		}
		b, err := r.MarshalBinary()
		if err != nil {
			t.Fatal(err)
		}
		var back Record
		if err := back.UnmarshalBinary(b); err != nil || !cmp.Equal(*r, back) {
			t.Fatalf("packed: %v %s", err, cmp.Diff(*r, back))
		}
		out := Encode(r)
		again, fs2 := Decode(samplePath, out)
		for _, x := range fs2 {
			if strings.HasPrefix(x.Code, "yaml-") || strings.HasPrefix(x.Code, "value-") && x.Code != "value-unlisted" && x.Code != "value-shape" {
				t.Fatalf("encoded: %v\n%s", x, out)
			}
		}
		if a, b := words(r), words(again); !slices.Equal(a, b) {
			t.Fatalf("other words: %s\n%s", cmp.Diff(a, b), out)
		}
		if twice := Encode(again); !bytes.Equal(out, twice) {
			t.Fatalf("no fixed point\n%s\n%s", out, twice)
		}
	})
}

// words are the fields of r that have words: an empty entry of a list holds none.
func words(r *Record) []KV {
	return slices.DeleteFunc(Flatten(r), func(kv KV) bool { return kv.Value == "" })
}

// FuzzEdit: no panic; what an edit writes can be read and has the new words;
// what it refuses comes with a reason.
func FuzzEdit(f *testing.F) {
	for _, s := range seeds(f) {
		f.Add(s, "place.locality", "a: b")
		f.Add(s, "determinations.1.by", "X")
		f.Add(s, "read.date.is", "1934")
	}
	f.Fuzz(func(t *testing.T, src []byte, path, value string) {
		for _, op := range []Op{Set(path, value), Append(path, KV{"name", value}), Append(path, KV{"", value}), Remove(path)} {
			out, err := Edit(src, op)
			var refused *RefusedEdit
			switch {
			case errors.As(err, &refused):
				if refused.Why == "" {
					t.Fatal("refused without a reason")
				}
			case err != nil:
				t.Fatal(err)
			default:
				if _, err := parse(out); err != nil {
					t.Fatalf("%v\n%s", err, out)
				}
			}
		}
	})
}

// TestHostile: files made to hurt are answered at once.
func TestHostile(t *testing.T) {
	big := strings.Repeat("x", MaxFile-100)
	for _, c := range []struct{ name, src string }{
		{"100 MB", strings.Repeat("specimen: A\n", 100<<20/12)},
		{"brackets", strings.Repeat("[", MaxFile/2)},
		{"braces", strings.Repeat("{a: ", MaxFile/5)},
		{"steps", deepSteps(1000)},
		{"hyphens", strings.Repeat("- ", MaxFile/2)},
		{"questions", strings.Repeat("? ", MaxFile/2)},
		{"one long word", "remarks: " + big},
		{"one long key", big + ": x"},
		{"quotes never closed", "remarks: \"" + big},
		{"many unknown fields", manyKeys(60000)},
		{"many faults", strings.Repeat("date: NO\n", MaxFile/10)},
		{"many cuts", "with:\n" + strings.Repeat("- a #b\n", MaxFile/8)},
		{"many anchors", "a: &a [x]\n" + strings.Repeat("b: *a\n", MaxFile/8)},
		{"alias bomb", "a: &a [x,x,x,x,x,x,x,x]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d]\n"},
		{"controls", strings.Repeat("\x01", MaxFile)},
		{"not UTF-8", strings.Repeat("\xff", MaxFile)},
		{"line separators", "remarks: " + strings.Repeat("\u2028", MaxFile/4)},
		{"comments", strings.Repeat("#\n", MaxFile/2)},
		{"documents", strings.Repeat("---\n", MaxFile/4)},
		{"tabs", strings.Repeat("\t", MaxFile)},
		{"CR", strings.Repeat("a:\r", MaxFile/4)},
		{"quote over many lines", "a: \"x\n" + strings.Repeat("y\n", MaxFile/2-10)},
		{"bracket over many lines", "a: [x\n" + strings.Repeat(" y\n", MaxFile/3-10)},
		{"quotes over lines, then a fault", strings.Repeat("a: 'x\n  y'\n", MaxFile/12) + "b: c: d\n"},
		{"not closed brackets in lines", strings.Repeat("a: [x\n", MaxFile/8)},
		{"not closed quotes in lines", strings.Repeat("a: \"x\n", MaxFile/8)},
	} {
		t.Run(c.name, func(t *testing.T) {
			start := time.Now()
			_, fs := Decode(samplePath, []byte(c.src))
			if len(fs) == 0 {
				t.Error("no finding")
			}
			if len(fs) > maxFindings+1 {
				t.Errorf("%d findings", len(fs))
			}
			if d := time.Since(start); d > 30*time.Second {
				t.Errorf("took %v", d)
			} else {
				t.Logf("%v, %d findings, first %v", d, len(fs), fs[0])
			}
		})
	}
}

func deepSteps(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString(strings.Repeat(" ", i) + "a:\n")
	}
	return b.String()
}

func manyKeys(n int) string {
	var b strings.Builder
	for i := range n {
		b.WriteString("k" + strings.Repeat("x", i%7) + string(rune('a'+i%26)) + ": 1\n")
	}
	return b.String()
}

// FuzzDecodePublic: no panic, each finding within the file, and Encode of what
// was read has the same words.
func FuzzDecodePublic(f *testing.F) {
	for _, s := range []string{
		"reviewed:\n  - file: about/meadows.html\n    text: the old mill by the falls\n    why: another mill\n    by: Tiril Aune\n    date: 2026-11-05\n",
		"reviewed: []\n", "reviewed: x\n", "reviewed:\n- {file: \"a\\nb\", text: '60.7, 6.6'}\n", "- a\n", "reviewed:\n  - &a [*a]\n",
	} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, src []byte) {
		p, fs := DecodePublic("public.yaml", src)
		for _, x := range fs {
			if x.Line < 1 || x.Line > len(newLines(src).from)+1 || x.Col < 1 || x.Code == "" || strings.ContainsAny(x.Message, "\n\r") {
				t.Fatalf("finding %+v", x)
			}
		}
		again, _ := DecodePublic("public.yaml", EncodePublic(p))
		texts := func(p *Public) (out []string) {
			for _, y := range p.Reviewed {
				if s := strings.Join([]string{y.File.Text, y.Text.Text, y.Why.Text, y.By.Text, y.Date.Text}, "\x00"); strings.Trim(s, "\x00") != "" {
					out = append(out, s)
				}
			}
			return out
		}
		if a, b := texts(p), texts(again); !slices.Equal(a, b) {
			t.Fatalf("other words: %s", cmp.Diff(a, b))
		}
	})
}
