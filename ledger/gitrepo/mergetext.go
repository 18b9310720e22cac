package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
)

// MergeText lets git merge three versions of a file by lines, into the file
// ours; all are paths seen from dir. clean is false when git left conflicts.
// It needs the git program.
func MergeText(ctx context.Context, dir string, environ []string, ours, base, theirs string) (clean bool, err error) {
	_, clean, err = mergeFile(ctx, dir, environ, ours, base, theirs)
	return clean, err
}

// MergeBytes lets git merge three versions of a text by lines, with extra
// flags of git merge-file. clean is false when git left conflicts, or the
// text is none. It needs the git program.
func MergeBytes(ctx context.Context, environ []string, ours, base, theirs []byte, flags ...string) (merged []byte, clean bool, err error) {
	dir, err := os.MkdirTemp("", "blotter-text-*")
	if err != nil {
		return nil, false, fmt.Errorf("merge text: %w", err)
	}
	defer os.RemoveAll(dir)
	for name, b := range map[string][]byte{"ours": ours, "base": base, "theirs": theirs} {
		if bytes.IndexByte(b, 0) >= 0 {
			return nil, false, nil
		}
		if err := os.WriteFile(filepath.Join(dir, name), b, 0o600); err != nil {
			return nil, false, fmt.Errorf("merge text: %w", err)
		}
	}
	return mergeFile(ctx, dir, environ, "ours", "base", "theirs", append(flags, "--stdout")...)
}

func mergeFile(ctx context.Context, dir string, environ []string, ours, base, theirs string, flags ...string) ([]byte, bool, error) {
	program := findProgram(environ)
	if program == "" {
		return nil, false, ErrNoProgram
	}
	args := append([]string{"merge-file", "--quiet", "-L", "ours", "-L", "base", "-L", "theirs"}, flags...)
	git := exec.CommandContext(ctx, program, append(args, ours, base, theirs)...)
	git.Dir, git.Env = dir, environ
	out, err := git.Output()
	var exit *exec.ExitError
	if errors.As(err, &exit) && exit.ExitCode() > 0 && exit.ExitCode() < 128 { // the number of conflicts
		return out, false, nil
	}
	return out, err == nil, err
}
