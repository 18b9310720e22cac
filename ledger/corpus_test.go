package ledger

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

const corpus = "../testdata/records"

var (
	headPath   = regexp.MustCompile(`(?m)^# path: (.*)$`)
	headExpect = regexp.MustCompile(`(?m)^# expect: (.*)$`)
)

// badRecord is one file of testdata/records/bad.
type badRecord struct {
	name, path string
	src        []byte
	expect     string // "code line:col", several joined by ", "
}

// badRecords reads the corpus. Records that a rule of another package finds
// are left out: their codes are not ours.
func badRecords(t testing.TB) []badRecord {
	t.Helper()
	files, err := filepath.Glob(corpus + "/bad/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no bad records: %v", err)
	}
	var out []badRecord
	for _, f := range files {
		src, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		b := badRecord{name: strings.TrimSuffix(filepath.Base(f), ".yaml"), path: samplePath, src: src}
		if m := headPath.FindSubmatch(src); m != nil {
			b.path = string(m[1])
		}
		m := headExpect.FindSubmatch(src)
		if m == nil {
			t.Errorf("%s: no line # expect:", f)
			continue
		}
		b.expect = string(m[1])
		code, _, _ := strings.Cut(b.expect, " ")
		if slices.ContainsFunc(Rules(), func(r Rule) bool { return r.Code == code }) {
			out = append(out, b)
		}
	}
	return out
}

// TestBadRecords: each bad record gives exactly the findings of its head.
// UPDATE_GOLDEN=1 writes the lines and columns found into the heads.
func TestBadRecords(t *testing.T) {
	for _, b := range badRecords(t) {
		t.Run(b.name, func(t *testing.T) {
			var got []string
			for _, f := range CheckFile(b.path, b.src) {
				got = append(got, fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Col))
				t.Logf("%v\n  hint: %s", f, f.Hint)
				if f.Message == "" || f.Hint == "" || strings.HasSuffix(f.Message, ".") {
					t.Errorf("message %q, hint %q", f.Message, f.Hint)
				}
				for _, w := range []string{"invalid", "illegal", "failed", "please", "unable"} {
					if strings.Contains(strings.ToLower(f.Message+f.Hint), w) {
						t.Errorf("%v\n%s: the word %q", f, f.Hint, w)
					}
				}
			}
			if os.Getenv("UPDATE_GOLDEN") != "" {
				out := headExpect.ReplaceAll(b.src, []byte("# expect: "+strings.Join(got, ", ")))
				if err := os.WriteFile(corpus+"/bad/"+b.name+".yaml", out, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if d := cmp.Diff(b.expect, strings.Join(got, ", ")); d != "" {
				t.Error(d)
			}
		})
	}
}

// TestEveryRuleHasBadRecord: no code without a record that breaks it.
func TestEveryRuleHasBadRecord(t *testing.T) {
	have := map[string]bool{}
	for _, b := range badRecords(t) {
		code, _, _ := strings.Cut(b.expect, " ")
		have[code] = true
		if !strings.HasPrefix(b.name, code+"-") {
			t.Errorf("%s is named for another code than %s", b.name, code)
		}
	}
	// Too large to lie in testdata: file-large, file-faults.
	for _, src := range [][]byte{bytes.Repeat([]byte("# x\n"), MaxFile/4+1), bytes.Repeat([]byte("a: \v\n"), 200)} {
		for _, f := range CheckFile(samplePath, src) {
			have[f.Code] = true
		}
	}
	for _, r := range Rules() {
		if !have[r.Code] {
			t.Errorf("no bad record for %s", r.Code)
		}
	}
}
