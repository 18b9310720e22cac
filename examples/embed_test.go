package examples_test

import (
	"io/fs"
	"path"
	"strings"
	"testing"
	"time"

	"blotter/examples"
)

// event is one event of the script, read only as far as these tests need.
type event struct {
	line  int
	when  time.Time
	who   string
	lines []string
}

func readEvents(t *testing.T) []event {
	t.Helper()
	b, err := fs.ReadFile(examples.Demo(), "events.txt")
	if err != nil {
		t.Fatal(err)
	}
	var evs []event
	for i, l := range strings.Split(string(b), "\n") {
		if l == "" || strings.HasPrefix(l, "#") {
			continue
		}
		stamp, who, _ := strings.Cut(l, " ")
		if when, err := time.Parse(time.RFC3339, stamp); err == nil {
			evs = append(evs, event{line: i + 1, when: when, who: who})
			continue
		}
		if len(evs) == 0 {
			t.Fatalf("events.txt:%d: a line before the first event: %s", i+1, l)
		}
		evs[len(evs)-1].lines = append(evs[len(evs)-1].lines, l)
	}
	return evs
}

// TestEventsInOrder: the demo's commits must follow each other in time, or
// `--at DATE` would show a ledger that never was.
func TestEventsInOrder(t *testing.T) {
	evs := readEvents(t)
	if len(evs) < 60 {
		t.Fatalf("%d events, want the whole story (60 or more)", len(evs))
	}
	for i, e := range evs {
		if len(e.lines) == 0 {
			t.Errorf("events.txt:%d: an event in which nothing is done", e.line)
		}
		if i > 0 && !e.when.After(evs[i-1].when) {
			t.Errorf("events.txt:%d: not after the event before it", e.line)
		}
		if i > 0 && e.lines[0] == "museum" {
			t.Errorf("events.txt:%d: museum is for the first event only", e.line)
		}
	}
	if evs[0].lines[0] != "museum" {
		t.Errorf("the first event does not begin with museum")
	}
}

// TestEventLines: each line is one of the four kinds, every folder of
// gatherings/ is used exactly once, and what is thrown away was printed by the
// line above, so that nothing of the ledger is.
func TestEventLines(t *testing.T) {
	used := map[string]int{}
	for _, e := range readEvents(t) {
		for i, l := range e.lines {
			switch {
			case l == "museum", strings.HasPrefix(l, "blotter "):
			case strings.HasPrefix(l, "throw "):
				to := " --to " + strings.TrimPrefix(l, "throw ") + " "
				if i == 0 || !strings.HasPrefix(e.lines[i-1], "blotter print ") || !strings.Contains(e.lines[i-1]+" ", to) {
					t.Errorf("events.txt, event of line %d: not printed by the line above: %s", e.line, l)
				}
			case strings.HasPrefix(l, "files "):
				used[strings.TrimPrefix(l, "files ")]++
			default:
				t.Errorf("events.txt, event of line %d: not museum, files, blotter or throw: %s", e.line, l)
			}
			if strings.Count(strings.ReplaceAll(l, `\"`, ""), `"`)%2 != 0 {
				t.Errorf("events.txt, event of line %d: a quotation mark without its fellow: %s", e.line, l)
			}
		}
	}
	dirs, err := fs.ReadDir(examples.Demo(), "gatherings")
	if err != nil {
		t.Fatal(err)
	}
	for _, d := range dirs {
		if used[d.Name()] != 1 {
			t.Errorf("gatherings/%s is brought in %d times, want once", path.Base(d.Name()), used[d.Name()])
		}
		delete(used, d.Name())
	}
	for d := range used {
		t.Errorf("events.txt names gatherings/%s, which does not exist", d)
	}
}
