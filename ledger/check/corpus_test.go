package check_test

import (
	"context"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/check"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/reading"
	"blotter/ledger/work"
)

const (
	records = "../../testdata/records"
	ledgers = "../../testdata/ledgers-bad"
	path482 = "specimens/000/04/LK7-0000482.yaml"
)

// today is the day on which the bad ledgers are judged.
var today = dates.DayOf(2026, 11, 25)

var headExpect = regexp.MustCompile(`(?m)^# expect: (.*)$`)

func codes() map[string]bool {
	out := map[string]bool{}
	for _, r := range check.Rules() {
		out[r.Code] = true
	}
	return out
}

// found tells a finding in short and complains of words that are not in house
// style.
func found(t *testing.T, f ledger.Finding) string {
	t.Helper()
	if f.Message == "" || f.Hint == "" || strings.HasSuffix(f.Message, ".") || f.Field == "" && f.Code != book.CodeLink && f.Code != book.CodeStray && f.Code != book.CodeName {
		t.Errorf("%v: field %q, hint %q", f, f.Field, f.Hint)
	}
	for _, w := range []string{"invalid", "illegal", "failed", "please", "!"} {
		if strings.Contains(strings.ToLower(f.Message+f.Hint), w) {
			t.Errorf("%v\n%s: the word %q", f, f.Hint, w)
		}
	}
	return fmt.Sprintf("%s %d:%d", f.Code, f.Line, f.Col)
}

// TestBadRecords: each bad record of this package gives exactly the findings
// of its head. UPDATE_GOLDEN=1 writes what is found into the heads.
func TestBadRecords(t *testing.T) {
	files, err := filepath.Glob(records + "/bad/*.yaml")
	if err != nil || len(files) == 0 {
		t.Fatalf("no bad records: %v", err)
	}
	mine := codes()
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		m := headExpect.FindSubmatch(src)
		if m == nil {
			t.Errorf("%s: no line # expect:", file)
			continue
		}
		if code, _, _ := strings.Cut(string(m[1]), " "); !mine[code] && string(m[1]) != "?" {
			continue
		}
		t.Run(filepath.Base(file), func(t *testing.T) {
			r, fs := ledger.Decode(path482, src)
			var got []string
			fs = append(fs, check.One(reading.Of(r, reading.Conventions{}), &standard)...)
			ledger.SortFindings(fs)
			for _, f := range fs {
				got = append(got, found(t, f))
				t.Logf("%v\n  hint: %s", f, f.Hint)
			}
			if os.Getenv("UPDATE_GOLDEN") != "" {
				out := headExpect.ReplaceAll(src, []byte("# expect: "+strings.Join(got, ", ")))
				if err := os.WriteFile(file, out, 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if d := cmp.Diff(string(m[1]), strings.Join(got, ", ")); d != "" {
				t.Error(d)
			}
		})
	}
}

// readLedger is one bad ledger: its files, what it expects, the records that
// once bore numbers, from files below former/.
func readLedger(t *testing.T, file string) (files map[string]string, expect []string, former map[string]*ledger.Record, comment string) {
	t.Helper()
	a, err := txtar.ParseFile(file)
	if err != nil {
		t.Fatal(err)
	}
	files, former = map[string]string{}, map[string]*ledger.Record{}
	for _, f := range a.Files {
		if n, ok := strings.CutPrefix(f.Name, "former/"); ok {
			r, _ := ledger.Decode("", f.Data)
			former[strings.ToLower(strings.TrimSuffix(n, ".yaml"))] = r
			continue
		}
		files[f.Name] = string(f.Data)
	}
	for line := range strings.Lines(string(a.Comment)) {
		if e, ok := strings.CutPrefix(strings.TrimSpace(line), "expect: "); ok {
			expect = append(expect, e)
		} else {
			comment += line
		}
	}
	return files, expect, former, comment
}

// sumOf gives the checksums of the files of a ledger.
func sumOf(files map[string]string) func(string) string {
	return func(path string) string {
		if text, ok := files[path]; ok {
			return fmt.Sprintf("sha256:%x", sha256.Sum256([]byte(text)))
		}
		return ""
	}
}

// TestBadLedgers: each bad ledger gives exactly the findings of its head.
func TestBadLedgers(t *testing.T) {
	files, err := filepath.Glob(ledgers + "/*.txtar")
	if err != nil || len(files) == 0 {
		t.Fatalf("no bad ledgers: %v", err)
	}
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			content, expect, former, comment := readLedger(t, file)
			b, err := book.Load(context.Background(), ledgertest.MapSource(content), book.Options{Judge: check.Judge()})
			if err != nil {
				t.Fatal(err)
			}
			works, err := work.Load(context.Background(), ledgertest.MapSource(content), b)
			if err != nil {
				t.Fatal(err)
			}
			var got []string
			for _, f := range check.Run(b, check.Options{Works: works, Today: today, Former: func(n ledger.Number) *ledger.Record { return former[n.Key()] }, Sum: sumOf(content)}) {
				got = append(got, f.Path+" "+found(t, f)+" "+f.Severity.String())
				t.Logf("%v\n  hint: %s", f, f.Hint)
			}
			if os.Getenv("UPDATE_GOLDEN") != "" {
				a, _ := txtar.ParseFile(file)
				for _, g := range got {
					comment += "expect: " + g + "\n"
				}
				a.Comment = []byte(comment)
				if err := os.WriteFile(file, txtar.Format(a), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if d := cmp.Diff(expect, got); d != "" {
				t.Error(d)
			}
		})
	}
}

// TestEveryRuleIsBroken: no code without a bad record or ledger named for it.
func TestEveryRuleIsBroken(t *testing.T) {
	have := map[string]bool{}
	for _, pattern := range []string{records + "/bad/*.yaml", ledgers + "/*.txtar"} {
		files, _ := filepath.Glob(pattern)
		for _, f := range files {
			src, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			for _, r := range check.Rules() {
				if strings.HasPrefix(filepath.Base(f), r.Code+"-") && strings.Contains(string(src), r.Code+" ") {
					have[r.Code] = true
				}
			}
		}
	}
	for _, r := range check.Rules() {
		if !have[r.Code] && r.Code != book.CodeLink { // a map has no links; see book's tests
			t.Errorf("nothing breaks %s", r.Code)
		}
		if r.Says == "" || r.Why == "" {
			t.Errorf("%s is not explained", r.Code)
		}
	}
}

// TestCodesDiffer: no code belongs to two rules, ledger's included.
func TestCodesDiffer(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range ledger.Rules() {
		seen[r.Code] = true
	}
	for _, r := range check.Rules() {
		if seen[r.Code] {
			t.Errorf("two rules have the code %s", r.Code)
		}
		seen[r.Code] = true
	}
}

// TestGoodRecords: records that are in order give no findings.
func TestGoodRecords(t *testing.T) {
	files, err := filepath.Glob(records + "/good/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if filepath.Base(file) == "imported.yaml" {
			continue // its table has a date in two ways, which an import keeps
		}
		r, _ := ledger.Decode("", src)
		r.Path = path482
		for _, f := range check.One(reading.Of(r, reading.Conventions{}), &standard) {
			if slices.ContainsFunc(r.Sic, func(s ledger.Settled) bool { return s.Code.Text == f.Code }) {
				continue
			}
			t.Errorf("%s: %v\n%s", filepath.Base(file), f, f.Hint)
		}
	}
}
