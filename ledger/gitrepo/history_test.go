package gitrepo

import (
	"context"
	"fmt"
	"math/rand/v2"
	"testing"

	"blotter/ledger/disk"
	"blotter/ledger/history"
)

// told is all that a view says, as text.
func told(v *history.View) string {
	s := ""
	for i := range v.Len() {
		c := v.Commit(i)
		s += fmt.Sprintln(c.ID, c.Parents, c.Author, c.Message, v.Touched(i))
	}
	for _, n := range v.Numbers() {
		s += fmt.Sprintln(n, v.Of(n))
	}
	return s
}

// TestHistoryFromCacheIsHistoryFromScratch grows a ledger by commits, branches
// and merges, asks for the history of this tip and that in between, and
// compares with a reading that knows no cache. Long enough for the segments to
// be joined.
func TestHistoryFromCacheIsHistoryFromScratch(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q", "-b", "main")
	random := rand.New(rand.NewPCG(7, 7))
	ctx := context.Background()
	enter := func(i int) {
		n := syntheticNumber(random.IntN(5) + 1)
		write(t, dir, map[string]string{n.Path(): string(syntheticRecord(1, i))})
		mustGit(t, dir, "add", "-A")
		mustGit(t, dir, "commit", "-q", "--allow-empty", "-m", fmt.Sprint("entry ", i))
	}
	enter(0)
	for i := 1; i <= mostSegments+8; i++ {
		switch {
		case i%9 == 4:
			mustGit(t, dir, "checkout", "-q", "-B", "side")
			enter(i)
			mustGit(t, dir, "checkout", "-q", "main")
		case i%9 == 8:
			mustGit(t, dir, "merge", "-q", "-X", "ours", "side")
		default:
			enter(i)
		}
		repo, err := Open(dir, testEnviron(t))
		if err != nil {
			t.Fatal(err)
		}
		tip, err := repo.Resolve(ctx, []string{"main", "HEAD~1", "main"}[i%3])
		if err != nil {
			t.Fatal(err)
		}
		cached, err := repo.History(ctx, repo.Cache(), tip)
		if err != nil {
			t.Fatal(err)
		}
		var none *disk.Cache
		scratch, err := repo.History(ctx, none, tip)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := told(cached), told(scratch); got != want {
			t.Fatalf("after %d entries:\ncached\n%s\nscratch\n%s", i, got, want)
		}
		repo.Close()
	}
}
