package field

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// TestFormatTable: the table of FORMAT.md is the list of questions.
// UPDATE_GOLDEN=1 writes it anew.
func TestFormatTable(t *testing.T) {
	file := filepath.Join("..", "..", "ledger", "FORMAT.md")
	page, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	const mark = "<!-- questions -->\n"
	head, rest, ok := strings.Cut(string(page), mark)
	_, tail, ok2 := strings.Cut(rest, "<!-- end -->")
	if !ok || !ok2 {
		t.Fatal("FORMAT.md has no section of questions")
	}
	want := head + mark + table() + "<!-- end -->" + tail
	if os.Getenv("UPDATE_GOLDEN") != "" {
		if os.Getenv("CI") != "" {
			t.Fatal("golden files are not rewritten in CI")
		}
		if err := os.WriteFile(file, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(want, string(page)); d != "" {
		t.Errorf("FORMAT.md is not what the form asks; UPDATE_GOLDEN=1 go test ./render/field -run FormatTable mends it\n%s", d)
	}
}

func table() string {
	var b strings.Builder
	b.WriteString("| question | bokmål | field | words to be ticked |\n| --- | --- | --- | --- |\n")
	for _, q := range questions {
		path := "`" + q.Path + "`"
		if q.Join && !q.leads() {
			path += ", joins"
		}
		if q.leads() {
			path += ", leads"
		}
		var ticks []string
		for _, x := range q.Ticks {
			ticks = append(ticks, x.Says+" / "+LanguageOf("nb").Say(x.Says)+": `"+x.Is+"`")
		}
		fmt.Fprintf(&b, "| %s | %s | %s | %s |\n", q.Key, LanguageOf("nb").Say(q.Key), path, strings.Join(ticks, "; "))
	}
	return b.String()
}
