package render

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestPartyInOneField leads to each of two collectors who stand in one field,
// makes no page of both together, and shows the one who asked for it by
// initials wherever the field is shown.
func TestPartyInOneField(t *testing.T) {
	const rec = "specimens/000/05/LK7-0000521.yaml"
	people, err := os.ReadFile(filepath.Join("..", "examples", "demo", "gatherings", "staff-2026", "people.yaml"))
	if err != nil {
		t.Fatal(err)
	}
	build := func(collector string) map[string]string {
		files := demoFiles(t)
		files["people.yaml"] = string(people)
		if !strings.Contains(files[rec], "collector: Rask & Bannister\n") {
			t.Fatal("the demo's LK7-0000521 is no longer by Rask & Bannister")
		}
		files[rec] = strings.Replace(files[rec], "Rask & Bannister", collector, 1)
		dir := filepath.Join(t.TempDir(), "site")
		buildInto(t, dir, inputOf(t, files), nil)
		return filesOf(t, dir)
	}
	both := build("Rask & Bannister")
	for file, want := range map[string]string{
		"specimens/000/05/LK7-0000521.md": "- **Collector** [Rask](../../../people/signe-rask.md) & [Bannister](../../../people/ove-bannister.md) 1114\n",
		"people/signe-rask.md":            "LK7-0000521",
		"people/ove-bannister.md":         "LK7-0000521",
	} {
		if !strings.Contains(both[file], want) {
			t.Errorf("%s does not say %q", file, want)
		}
	}
	if _, ok := both["people/rask-bannister.md"]; ok {
		t.Error("a page of two people as if they were one")
	}
	for file, text := range build("Rask & Emil Sørheim") {
		if strings.Contains(text, "Emil") || strings.Contains(text, "& Sørheim") {
			t.Errorf("%s names one who asked to be shown by initials", file)
		}
		if file == "specimens/000/05/LK7-0000521.md" && !strings.Contains(text, "[Rask](../../../people/signe-rask.md) & [E.S.](../../../people/e-s.md)") {
			t.Errorf("the sheet does not show the second by initials:\n%s", text)
		}
	}
	for file, text := range build("Rask & Nobody & Emil Sørheim") { // not all of them are known
		if strings.Contains(text, "Emil") {
			t.Errorf("%s names one who asked to be shown by initials", file)
		}
	}
}
