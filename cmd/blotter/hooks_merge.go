package main

import (
	"context"
	"errors"
	"os"
	"strings"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
	"blotter/ledger/merge"
)

// runMergeDriver is what git calls for a file of the ledger that two copies
// changed: hooks run merge BASE OURS THEIRS PATH. The result goes into the
// file OURS; exit 1 says that a person must decide.
func runMergeDriver(ctx context.Context, c *call, args []string) error {
	if len(args) != 4 {
		return misuse("hooks run merge is called by git, with three versions of a file and its path")
	}
	var versions [3][]byte
	for i, name := range args[:3] {
		b, err := os.ReadFile(inDir(c.Dir, name))
		if err != nil {
			return stuck("merge %s: %v", args[3], err)
		}
		versions[i] = b
	}
	path, prefix := c.mergedPath(args[3])
	join := merge.Onto
	if c.joinsTwo() {
		join = merge.Record
	}
	merged, conflicts, err := join(path, versions[0], versions[1], versions[2])
	if errors.Is(err, merge.ErrText) {
		return mergeText(ctx, c, args)
	}
	if err != nil {
		return stuck("merge %s: %v", args[3], err)
	}
	if len(conflicts) > 0 {
		c.signMerged(ctx, strings.TrimPrefix(args[3], prefix), prefix, conflicts, versions[2])
		merged = merge.Sign(merged, conflicts)
	}
	if err := disk.WriteFile(inDir(c.Dir, args[1]), merged); err != nil {
		return stuck("merge %s: %v", args[3], err)
	}
	if len(conflicts) == 0 {
		return nil
	}
	for _, x := range conflicts {
		c.tell("%s:%d: %s", args[3], x.Line, x.Message)
		if x.Hint != "" {
			c.tell("  hint: %s", x.Hint)
		}
	}
	return errFindings
}

// joinsTwo reports whether the revision that git is making will have both
// copies before it, as it says of itself when it merges or pulls. When it
// rebases or picks, what it comes to has this copy alone before it.
func (c *call) joinsTwo() bool {
	for _, e := range c.Environ {
		if did, ok := strings.CutPrefix(e, "GIT_REFLOG_ACTION="); ok {
			if repo, err := gitrepo.Open(c.Dir, c.Environ); err == nil && repo.InProgress() == "rebase" {
				return false
			}
			return strings.HasPrefix(did, "merge") || strings.HasPrefix(did, "pull")
		}
	}
	return false
}

// mergedPath is the ledger's path of a file that git names from the top of
// its repository, and where the ledger lies below that.
func (c *call) mergedPath(typed string) (path, prefix string) {
	if at := indexOfFolder(typed, ledger.SpecimensDir); at >= 0 {
		if number, ok := ledger.NumberOfPath(typed[at:]); ok {
			return number.Path(), typed[:at]
		}
	}
	if at := indexOfFolder(typed, ledger.WorkDir); at >= 0 {
		if number, ok := ledger.WorkNumberOfPath(typed[at:]); ok {
			return number.Path(), typed[:at]
		}
	}
	if repo, err := gitrepo.Open(c.Dir, c.Environ); err == nil {
		if at, err := repo.Setting("blotter.ledger"); err == nil && at != "" && at != "." {
			prefix = strings.Trim(at, "/") + "/"
		}
	}
	return strings.TrimPrefix(typed, prefix), prefix
}

// signMerged finds who wrote the two readings: ours is where this copy is,
// theirs the entry that brought the file they have.
func (c *call) signMerged(ctx context.Context, path, prefix string, open []merge.Conflict, theirs []byte) {
	repo, err := gitrepo.Open(c.Dir, c.Environ)
	if err != nil || !repo.HasProgram() {
		return
	}
	defer repo.Close()
	repo = repo.In(prefix)
	bearer, err := repo.Bearer(ctx, ledger.BlobOf(theirs), prefix+path)
	if err != nil {
		bearer = ""
	}
	whoWrote(ctx, repo, path, open, "HEAD", bearer)
}

// indexOfFolder is where the ledger's own path begins in one that git gives
// from the top of the repository; -1 when it does not lie in that folder.
func indexOfFolder(path, folder string) int {
	for i := range path {
		if (i == 0 || path[i-1] == '/') && strings.HasPrefix(path[i:], folder+"/") {
			return i
		}
	}
	return -1
}

// mergeText lets git merge by lines, for files that are no sound records.
func mergeText(ctx context.Context, c *call, args []string) error {
	clean, err := gitrepo.MergeText(ctx, c.Dir, c.Environ, args[1], args[0], args[2])
	if err != nil {
		return stuck("merge %s by lines: %v", args[3], err)
	}
	if !clean {
		return errFindings
	}
	return nil
}
