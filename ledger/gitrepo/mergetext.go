package gitrepo

import (
	"context"
	"errors"
	"os/exec"
)

// MergeText lets git merge three versions of a file by lines, into the file
// ours; all are paths seen from dir. clean is false when git left conflicts.
// It needs the git program.
func MergeText(ctx context.Context, dir string, environ []string, ours, base, theirs string) (clean bool, err error) {
	program := findProgram(environ)
	if program == "" {
		return false, ErrNoProgram
	}
	git := exec.CommandContext(ctx, program, "merge-file", "--quiet", "-L", "ours", "-L", "base", "-L", "theirs", ours, base, theirs)
	git.Dir, git.Env = dir, environ
	err = git.Run()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 && exit.ExitCode() < 128 { // the number of conflicts
		return false, nil
	}
	return err == nil, err
}
