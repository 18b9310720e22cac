package gitrepo

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// byGit asks git interpret-trailers --parse.
func byGit(t testing.TB, message string) []Trailer {
	cmd := exec.Command("git", "interpret-trailers", "--parse")
	cmd.Env = testEnviron(t)
	cmd.Dir = "/"
	cmd.Stdin = strings.NewReader(message)
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	var ts []Trailer
	for line := range strings.Lines(string(out)) {
		key, value, _ := strings.Cut(strings.TrimSuffix(line, "\n"), ":")
		ts = append(ts, Trailer{key, strings.TrimPrefix(value, " ")})
	}
	return ts
}

func TestTrailers(t *testing.T) {
	tests := []struct {
		name, message string
		want          []Trailer
	}{
		{"none", "Enter a sheet\n", nil},
		{"title is never a trailer", "Corrects: LK7-1 why\n", nil},
		{"two", "Correct a date\n\nCorrects: LK7-1 misread\nCorrects: LK7-2 misread\n", []Trailer{{"Corrects", "LK7-1 misread"}, {"Corrects", "LK7-2 misread"}}},
		{"continued", "A\n\nCorrects: LK7-1 a long\n  reason\n", []Trailer{{"Corrects", "LK7-1 a long reason"}}},
		{"prose beside it", "A\n\nCorrects: LK7-1 x\nand so on\n", nil},
		{"comment lines", "A\n\nCorrects: LK7-1 x\n# Please enter\n#\n", []Trailer{{"Corrects", "LK7-1 x"}}},
		{"no line feed at the end", "A\n\nCorrects: LK7-1 x", []Trailer{{"Corrects", "LK7-1 x"}}},
		{"scissors", "A\n\nCorrects: LK7-1 x\n" + cutLine + "diff --git\n", []Trailer{{"Corrects", "LK7-1 x"}}},
		{"patch", "A\n\nCorrects: LK7-1 x\n---\nrest: y\n", []Trailer{{"Corrects", "LK7-1 x"}}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, Trailers(tt.message)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// TestTrailersAsGit compares with git itself on messages made of the pieces
// that its rules turn on.
func TestTrailersAsGit(t *testing.T) {
	needGit(t)
	piece := rapid.SampledFrom([]string{
		"Corrects: LK7-1 why", "Key:", "Key : v", "a b: c", "Signed-off-by: A <a@b>", "(cherry picked from commit abc)", " continued", "\tpath", "  ",
		"", "", "# comment", "Conflicts:", "prose without a colon", "prose: with one", "---", "--- a", "----", "é: x", ": x", "-k: v", "K:\r", strings.TrimSuffix(cutLine, "\n"), "k:a:b", "\x0bx: y",
	})
	rapid.Check(t, func(rt *rapid.T) {
		message := strings.Join(rapid.SliceOfN(piece, 0, 9).Draw(rt, "lines"), "\n") + rapid.SampledFrom([]string{"", "\n", "\n\n"}).Draw(rt, "end")
		if diff := cmp.Diff(byGit(t, message), Trailers(message)); diff != "" {
			rt.Fatalf("%q: (-git +ours)\n%s", message, diff)
		}
	})
}
