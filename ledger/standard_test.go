package ledger_test

import (
	"strings"
	"testing"

	"blotter/ledger"
)

// TestStandardHasSources: every figure of standard.yaml stands beside its
// source: a comment on its line, or one above its list or entry.
func TestStandardHasSources(t *testing.T) {
	sourced := -1 // indent of the line whose comment holds for what is below it
	for i, line := range strings.Split(string(ledger.StandardText()), "\n") {
		text := strings.TrimSpace(line)
		indent := len(line) - len(strings.TrimLeft(line, " "))
		value, comment, ok := strings.Cut(text, " #")
		switch {
		case text == "":
			continue
		case strings.HasPrefix(text, "#"):
			sourced = indent - 1
			continue
		}
		if indent <= sourced {
			sourced = -1
		}
		if ok && strings.TrimSpace(comment) != "" {
			if strings.HasSuffix(strings.TrimSpace(value), ":") || strings.HasPrefix(text, "- ") {
				sourced = indent
			}
			continue
		}
		if strings.ContainsAny(value, "0123456789") && sourced < 0 {
			t.Errorf("line %d: %s: no source", i+1, text)
		}
	}
}
