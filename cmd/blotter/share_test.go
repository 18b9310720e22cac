package main

import (
	"regexp"

	"github.com/rogpeppe/go-internal/testscript"
)

// gitWords are words that only people who know git understand: no message of
// sharing uses one.
var gitWords = regexp.MustCompile(`(?i)\b(?:commit|branch|merg|push|pull|fetch|clon|remote|repositor|rebas|conflict)[a-z]*\b|\bHEAD\b`)

// cmdPlain is exits, and holds what is printed to words that need no git:
// plain 0 blotter share
func cmdPlain(ts *testscript.TestScript, neg bool, args []string) {
	cmdExits(ts, neg, args)
	for _, name := range []string{"stdout", "stderr"} {
		if words := gitWords.FindAllString(ts.ReadFile(name), -1); len(words) > 0 {
			ts.Fatalf("%s uses the words of git %q", name, words)
		}
	}
}
