package gitrepo

import (
	"errors"
	"testing"
)

// TestReachWords: what git writes when these things are done to it, and what
// each is taken for. That of the limit and of the folder were tried, the others
// are from git's sources and from memory.
func TestReachWords(t *testing.T) {
	for _, row := range []struct {
		done, text string
		kind       Reach
	}{
		{"a file of the sender cut short", "error: inflate: data stream error (unknown compression method)\nfatal: pack has bad object at offset 12\nfatal: fetch-pack: invalid index-pack output", Damaged},
		{"ulimit -f 60 here", "fatal: fetch-pack: invalid index-pack output", Ended},
		{"a full disk here", "fatal: write error: No space left on device\nfatal: fetch-pack: invalid index-pack output", DiskFull},
		{"more than 4 GB onto a FAT stick", "fatal: write error: File too large", DiskFull},
		{"no such folder", "fatal: '/nowhere' does not appear to be a git repository\nfatal: Could not read from remote repository.", NoSuch},
		{"nothing known", "fatal: the moon is full", Unknown},
	} {
		var reach *ReachError
		if err := reachError(&ProgramError{Verb: "fetch", Code: 128, Text: row.text}); !errors.As(err, &reach) || reach.Kind != row.kind {
			t.Errorf("%s: %v is taken for %+v, want %d", row.done, row.text, reach, row.kind)
		}
	}
}
