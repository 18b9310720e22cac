package main

import (
	"bytes"
	"context"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"
)

const problems = "../../examples/problems"

// TestProblems walks through the mistakes of examples/problems and holds its
// README to what `blotter check` says of each. UPDATE_GOLDEN=1 writes the
// README anew.
func TestProblems(t *testing.T) {
	files, err := filepath.Glob(problems + "/specimens/000/00/*.yaml")
	if err != nil || len(files) < 20 {
		t.Fatalf("%d records, %v", len(files), err)
	}
	slices.Sort(files)
	readme := problems + "/README.md"
	have, err := os.ReadFile(readme)
	if err != nil {
		t.Fatal(err)
	}
	intro, _, _ := strings.Cut(string(have), "\n## ")
	var page bytes.Buffer
	page.WriteString(intro)
	mistakes := 0
	for i, file := range files {
		src, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		title, story, record := problemParts(t, file, string(src))
		fmt.Fprintf(&page, "\n## %s\n\n%s\n\n```yaml\n%s```\n\n", title, story, record)
		if said := checkSays(t, strconv.Itoa(i+1)); said != "" {
			mistakes++
			fmt.Fprintf(&page, "```console\n$ blotter check %d\n%s```\n", i+1, said)
		} else if !strings.HasPrefix(story, "No fault") {
			t.Errorf("%s: blotter check says nothing of it", file)
		}
	}
	if mistakes < 20 {
		t.Errorf("%d mistakes are found, want at least 20", mistakes)
	}
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if err := os.WriteFile(readme, page.Bytes(), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if os.Getenv("UPDATE_GOLDEN") == "" && string(have) != page.String() {
		t.Errorf("%s is not what check says now; look, then UPDATE_GOLDEN=1 go test ./cmd/blotter -run Problems", readme)
	}
}

// problemParts are the title and story that a record's comment tells, and the
// record without it.
func problemParts(t *testing.T, file, src string) (title, story, record string) {
	t.Helper()
	head, record, ok := strings.Cut(src, "specimen: ")
	title, rest, two := strings.Cut(head, "\n#\n")
	if !ok || !two {
		t.Fatalf("%s: no title and story above the record", file)
	}
	story = strings.TrimSpace(strings.ReplaceAll("\n"+rest, "\n# ", "\n"))
	return strings.TrimPrefix(title, "# "), story, "specimen: " + record
}

// checkSays is what check prints of one sheet, without the summary; "" when
// it finds nothing.
func checkSays(t *testing.T, sheet string) string {
	t.Helper()
	var said bytes.Buffer
	dir, err := filepath.Abs(problems)
	if err != nil {
		t.Fatal(err)
	}
	e := &env{In: strings.NewReader(""), Out: &said, Err: &said, Dir: dir, Width: 100,
		Now:     func() time.Time { return time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC) },
		Environ: []string{"PATH=" + os.Getenv("PATH"), "HOME=" + t.TempDir()}}
	run(context.Background(), []string{"blotter", "check", sheet, "--no-cache"}, e)
	lines := strings.SplitAfter(said.String(), "\n")
	return strings.Join(lines[:max(len(lines)-2, 0)], "")
}
