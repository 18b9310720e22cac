package main

import (
	"regexp"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// gitWords are words that only people who know git understand: no message of
// sharing uses one.
var gitWords = regexp.MustCompile(`(?i)\b(?:commit|branch|merg|push|pull|fetch|clon|remote|repositor|rebas|conflict)[a-z]*\b|\bHEAD\b`)

// cmdPlain is exits, and holds what is printed to words that need no git, but
// for another program's own words, which stand apart:
// plain 0 blotter share
func cmdPlain(ts *testscript.TestScript, neg bool, args []string) {
	cmdExits(ts, neg, args)
	for _, name := range []string{"stdout", "stderr"} {
		for line := range strings.Lines(ts.ReadFile(name)) {
			if words := gitWords.FindAllString(line, -1); len(words) > 0 && !strings.HasPrefix(line, quoteMark) {
				ts.Fatalf("%s uses the words of git %q", name, words)
			}
		}
	}
}
