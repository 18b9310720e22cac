package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
)

// TestCommandTable walks the table: every command has one family, a sentence,
// three examples that call it, known kin; every flag is the one shared
// declaration of its name.
func TestCommandTable(t *testing.T) {
	names := map[string]bool{}
	flags := map[string]*flag{}
	knownFamily := func(f family) bool {
		return slices.ContainsFunc(families, func(x struct {
			name    family
			promise string
		}) bool {
			return x.name == f
		})
	}
	for _, c := range commands() {
		if names[c.Name] || c.Name == "" {
			t.Errorf("%s: name empty or used twice", c.Name)
		}
		names[c.Name] = true
		if !knownFamily(c.Family) {
			t.Errorf("%s: family %q", c.Name, c.Family)
		}
		if !strings.HasSuffix(c.Says, ".") || strings.Count(c.Says, ". ") > 0 {
			t.Errorf("%s: says %q, wanted one sentence", c.Name, c.Says)
		}
		if c.Run == nil {
			t.Errorf("%s: does nothing", c.Name)
		}
		if !c.Hidden {
			testHelpWords(t, c)
		}
		for _, f := range slices.Concat(c.Flags, commonFlags) {
			if flags[f.Name] != nil && flags[f.Name] != f {
				t.Errorf("%s: --%s is declared twice, with two meanings", c.Name, f.Name)
			}
			flags[f.Name] = f
			if f.Help == "" || strings.HasSuffix(f.Help, ".") {
				t.Errorf("--%s: help %q", f.Name, f.Help)
			}
		}
	}
}

func testHelpWords(t *testing.T, c *command) {
	if n := len(c.Examples); n < 3 || n > 4 {
		t.Errorf("%s: %d examples, wanted 3 or 4", c.Name, n)
	}
	for _, x := range c.Examples {
		if !strings.Contains(x.Line, "blotter "+c.Name) && !strings.Contains(x.Line, "blotter") {
			t.Errorf("%s: example %q calls something else", c.Name, x.Line)
		}
	}
	if len(c.Kin) == 0 {
		t.Errorf("%s: no next of kin", c.Name)
	}
	for _, k := range c.Kin {
		if findCommand(k) == nil {
			t.Errorf("%s: kin %q is no command", c.Name, k)
		}
	}
	seen := map[string]bool{}
	for _, f := range slices.Concat(c.Flags, commonFlags) {
		if seen[f.Name] {
			t.Errorf("%s: --%s is listed twice", c.Name, f.Name)
		}
		seen[f.Name] = true
	}
}

// testEnv is an env over buffers with a fixed clock.
func testEnv(in string) (*env, *bytes.Buffer, *bytes.Buffer) {
	var out, err bytes.Buffer
	return &env{
		In: strings.NewReader(in), Out: &out, Err: &err,
		Now: func() time.Time { return time.Date(2026, 11, 3, 9, 40, 0, 0, time.UTC) },
		Dir: "/", Width: 80,
	}, &out, &err
}

func TestMistypedCommands(t *testing.T) {
	cases := []struct{ name, typed, want, reason string }{
		{"letter swapped", "hlep", "did you mean help?", "a near miss is answered with the right word"},
		{"prefix", "comp", "did you mean completion?", "no prefix is taken for the whole"},
		{"far off", "zzz", `no command "zzz"`, "nothing is near"},
		{"flag", "version --jsn", "did you mean --json?", "near flag"},
		{"flag prefix", "version --js", "did you mean --json?", "no prefix of a flag is taken for the whole"},
		{"one dash", "version -json", "did you mean --json?", "long flags have two dashes"},
		{"value for a switch", "version --json=yes", "takes no value", "a switch is on or not there"},
		{"value missing", "version --ledger", "needs a value", "nothing follows"},
		{"twice", "version --ledger a --ledger b", "only once", "the last does not silently win"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			e, out, errs := testEnv("")
			code := run(context.Background(), append([]string{"blotter"}, strings.Fields(c.typed)...), e)
			if code != exitUsage || out.Len() > 0 || !strings.Contains(errs.String(), c.want) {
				t.Errorf("%s: exit %d, stdout %q, stderr %q, want %q", c.reason, code, out, errs, c.want)
			}
		})
	}
}

func TestFlagsFirst(t *testing.T) {
	flags := []*flag{flagBy, flagYes, flagQuiet}
	cases := []struct{ name, typed, want, reason string }{
		{"after", "482 --by me", "--by=me -- 482", "flags may follow arguments"},
		{"between", "482 --yes 483 -q", "--yes -q -- 482 483", "and stand between them"},
		{"scanner", "- --by=me", "--by=me -- -", "a lone dash is the standard input"},
		{"negative", "-33.5", "-- -33.5", "a position may be negative"},
		{"end", "-- --yes", "-- --yes", "after -- nothing is a flag"},
		{"value with dash", "--by -x", "--by=-x --", "the word after a flag is its value"},
	}
	for _, c := range cases {
		got, err := flagsFirst("x", flags, strings.Fields(c.typed))
		if err != nil || strings.Join(got, " ") != c.want {
			t.Errorf("%s (%s): got %q, %v, want %q", c.name, c.reason, got, err, c.want)
		}
	}
}

// TestFlagsAskedFor holds the names in calls like opts.text("by") to the flags
// that some command declares.
func TestFlagsAskedFor(t *testing.T) {
	declared := map[string]bool{}
	for _, c := range commands() {
		for _, f := range slices.Concat(c.Flags, commonFlags) {
			declared[f.Name] = true
		}
	}
	files, err := filepath.Glob("*.go")
	if err != nil || len(files) == 0 {
		t.Fatal("no files", err)
	}
	asked := regexp.MustCompile(`opts\.(?:text|list|given|on|has)\("([^"]*)"\)`)
	for _, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		for _, m := range asked.FindAllStringSubmatch(string(src), -1) {
			if !declared[m[1]] {
				t.Errorf("%s asks for --%s, which no command declares", file, m[1])
			}
		}
	}
}
