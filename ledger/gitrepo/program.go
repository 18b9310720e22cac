package gitrepo

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"strings"
)

// ErrNoProgram is returned for what only the git program can do, on a machine
// without it.
var ErrNoProgram = errors.New("the git program is not on this machine")

// kept are the inherited git variables that the git program gets to see: the
// index of a hook, the quarantine of a push, which settings files hold, and
// how to reach other machines. All others (GIT_DIR leaks into the hooks of a
// linked work tree) are dropped.
var kept = map[string]bool{
	"GIT_INDEX_FILE": true, "GIT_OBJECT_DIRECTORY": true, "GIT_ALTERNATE_OBJECT_DIRECTORIES": true, "GIT_QUARANTINE_PATH": true,
	"GIT_CONFIG_GLOBAL": true, "GIT_CONFIG_SYSTEM": true, "GIT_CONFIG_NOSYSTEM": true, "GIT_CONFIG_PARAMETERS": true,
	"GIT_SSH": true, "GIT_SSH_COMMAND": true, "GIT_SSH_VARIANT": true, "GIT_ASKPASS": true, "GIT_TERMINAL_PROMPT": true, "GIT_EXEC_PATH": true,
	"GIT_SSL_CAINFO": true, "GIT_SSL_CAPATH": true, "GIT_SSL_CERT": true, "GIT_SSL_KEY": true, "GIT_SSL_NO_VERIFY": true, "GIT_HTTP_PROXY_AUTHMETHOD": true,
	"GIT_PROXY_SSL_CAINFO": true, "GIT_PROXY_COMMAND": true, "GIT_ALLOW_PROTOCOL": true,
}

// findProgram looks for git on the PATH of environ.
func findProgram(environ []string) string {
	name := "git"
	if runtime.GOOS == "windows" {
		name = "git.exe"
	}
	for _, dir := range filepath.SplitList(getenv(environ, "PATH")) {
		if !filepath.IsAbs(dir) {
			continue // never a program from the current folder
		}
		f := filepath.Join(dir, name)
		if st, err := os.Stat(f); err == nil && st.Mode().IsRegular() && (runtime.GOOS == "windows" || st.Mode()&0o111 != 0) {
			return f
		}
	}
	return ""
}

// command is the one place where the git program is called from. extra are
// variables of this call alone.
func (r *Repo) command(ctx context.Context, extra []string, args ...string) *exec.Cmd {
	if r.top == "" {
		args = append([]string{"--git-dir=" + r.gitDir}, args...)
	}
	cmd := exec.CommandContext(ctx, r.git, args...)
	cmd.Dir = r.home()
	for _, kv := range r.environ {
		key, _, _ := strings.Cut(kv, "=")
		if !strings.HasPrefix(key, "GIT_") || kept[key] || isConfigCount(key) {
			cmd.Env = append(cmd.Env, kv)
		}
	}
	cmd.Env = append(cmd.Env, "LC_ALL=C", "GIT_OPTIONAL_LOCKS=0", "GIT_NO_REPLACE_OBJECTS=1")
	cmd.Env = append(cmd.Env, extra...)
	return cmd
}

// isConfigCount reports whether key passes a setting in the environment
// (GIT_CONFIG_COUNT, GIT_CONFIG_KEY_0, ...).
func isConfigCount(key string) bool {
	return key == "GIT_CONFIG_COUNT" || strings.HasPrefix(key, "GIT_CONFIG_KEY_") || strings.HasPrefix(key, "GIT_CONFIG_VALUE_")
}

// ErrLocked is the error, also by errors.Is of a ProgramError, where a lock
// of git's is there: it tells in words of ours what git says in ten lines.
var ErrLocked = errors.New("another git program is at work in this ledger, or was broken off; if none runs, blotter doctor says what to remove")

// locked reports whether git's lock on the index is there.
func (r *Repo) locked() bool {
	_, err := os.Lstat(r.index + ".lock")
	return err == nil
}

// ProgramError says that the git program ended with an error.
type ProgramError struct {
	Verb string // the git command, for example "commit"
	Code int    // its exit code; -1 when it did not run or was stopped
	Text string // what it wrote to its standard error
	err  error
}

func (e *ProgramError) Error() string {
	if e.Is(ErrLocked) {
		return ErrLocked.Error()
	}
	if text := strings.TrimSpace(e.Text); text != "" {
		return fmt.Sprintf("git %s: %s", e.Verb, text)
	}
	return fmt.Sprintf("git %s: %v", e.Verb, e.err)
}

func (e *ProgramError) Unwrap() error { return e.err }

// Is makes errors.Is(err, ErrLocked) true for what git says of it.
func (e *ProgramError) Is(target error) bool {
	return target == ErrLocked && strings.Contains(e.Text, ".lock': File exists")
}

// failed turns the end of cmd into an error that names the git command.
func failed(ctx context.Context, verb, text string, err error) error {
	if err == nil {
		return nil
	}
	if ctx.Err() != nil {
		return ctx.Err()
	}
	e := &ProgramError{Verb: verb, Code: -1, Text: text, err: err}
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		e.Code = exit.ExitCode()
		if e.Code < 0 && strings.TrimSpace(text) == "" {
			e.Text = exit.Error() // it could not say itself why it ended: signal: file size limit exceeded
		}
	}
	return e
}

// run runs the git program to its end and returns what it printed.
func (r *Repo) run(ctx context.Context, in io.Reader, args ...string) ([]byte, error) {
	return r.runWith(ctx, nil, in, args...)
}

func (r *Repo) runWith(ctx context.Context, extra []string, in io.Reader, args ...string) ([]byte, error) {
	if r.git == "" {
		return nil, ErrNoProgram
	}
	cmd := r.command(ctx, extra, args...)
	var out, text bytes.Buffer
	cmd.Stdin, cmd.Stdout, cmd.Stderr = in, &out, &text
	err := cmd.Run()
	return out.Bytes(), failed(ctx, verbOf(args), text.String(), err)
}

// verbOf is the git command among args, past its global options.
func verbOf(args []string) string {
	for _, a := range args {
		if !strings.HasPrefix(a, "-") {
			return a
		}
	}
	return ""
}

// askWidth learns from the git program how long this repository's ids are.
func (r *Repo) askWidth() error {
	out, err := r.run(context.Background(), nil, "rev-parse", "--show-object-format")
	if err != nil {
		return err
	}
	if strings.TrimSpace(string(out)) == "sha256" {
		r.width = 32
	}
	return nil
}

// HasProgram reports whether the git program is on the PATH of environ.
func HasProgram(environ []string) bool { return findProgram(environ) != "" }
