package history

import (
	"bytes"
	"context"
	"os"
	"os/exec"
	"slices"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func TestCorrections(t *testing.T) {
	cases := []struct {
		name, reason, message string
		want                  []Correction
	}{
		{"none", "no trailer", "Correct elevation of LK7-0000482\n", nil},
		{"title", "the first paragraph holds no trailer", "Corrects: LK7-0000482 typed wrongly\n", nil},
		{"one", "number and reason", "Correct it\n\nCorrects: LK7-0000482 label says 348\n", []Correction{{"LK7-0000482", "label says 348"}}},
		{"two", "one a number", "Correct it\n\nCorrects: LK7-0000482 a\ncorrects: LK7-0000483\n", []Correction{{"LK7-0000482", "a"}, {"LK7-0000483", ""}}},
		{"folded", "a reason on two lines", "x\n\nCorrects: A-1 label\n  says 348\n", []Correction{{"A-1", "label says 348"}}},
		{"in the body", "not the last paragraph", "x\n\nCorrects: A-1 b\n\nmore\n", nil},
		{"prose around", "a paragraph of prose is no block", "x\n\nThis\nCorrects: A-1 b\n", nil},
		{"no number", "corrects nothing", "x\n\nCorrects:\n", nil},
		{"comments after", "an editor's template", "x\n\nCorrects: A-1 b\n\n# lines with # are left out\n", []Correction{{"A-1", "b"}}},
		{"verbose", "git commit -v", "x\n\nCorrects: A-1 b\n# ------------------------ >8 ------------------------\ndiff\n", []Correction{{"A-1", "b"}}},
	}
	for _, c := range cases {
		if got := Corrections(c.message); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v (%s)", c.name, got, c.want, c.reason)
		}
	}
}

// The judge of Trailers is git itself.
func TestTrailersAsGit(t *testing.T) {
	git, err := exec.LookPath("git")
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing")
		}
		t.Skip("git is missing")
	}
	lines := []string{"", "", " ", "Corrects: A-1 b", "corrects : x", "Signed-off-by: S <s@example.org>", " continued", "\tConflicts/path", "prose here",
		"prose: with colon", "two words: x", "# comment", "#c: d", "---", "--- a", "Conflicts:", ":", "Key:", "Key=x",
		"# ------------------------ >8 ------------------------", "(cherry picked from commit abc)", "Née: x", "a\r", "  x: y"}
	rapid.Check(t, func(t *rapid.T) {
		var all []string
		for range rapid.IntRange(1, 4).Draw(t, "messages in one") {
			all = append(all, strings.Join(rapid.SliceOfN(rapid.SampledFrom(lines), 0, 9).Draw(t, "lines"), "\n"))
		}
		for _, m := range all {
			if strings.Contains("\n"+m, "\n---") && strings.Contains(m, ">8") {
				continue // git 2.39 itself runs for ever on scissors behind a patch
			}
			m = "Title\n" + m
			if rapid.Bool().Draw(t, "line feed at the end") {
				m += "\n"
			}
			ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
			defer cancel()
			cmd := exec.CommandContext(ctx, git, "interpret-trailers", "--parse")
			cmd.Env = append(os.Environ(), "GIT_CONFIG_GLOBAL=/dev/null", "GIT_CONFIG_NOSYSTEM=1", "LC_ALL=C")
			cmd.Dir = os.TempDir()
			cmd.Stdin = strings.NewReader(m)
			var out bytes.Buffer
			cmd.Stdout = &out
			if err := cmd.Run(); err != nil {
				t.Fatalf("message %q: %v", m, err)
			}
			var got strings.Builder
			for _, x := range Trailers(m) {
				got.WriteString(x.Key + ": " + x.Value + "\n")
			}
			if got.String() != out.String() {
				t.Fatalf("message %q\nours %q\ngit  %q", m, got.String(), out.String())
			}
		}
	})
}
