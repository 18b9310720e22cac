package main

import (
	"bytes"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"
)

// TestInterrupt sends a real Ctrl-C to a new that waits at a question, and
// what comes when its terminal is closed: exit 130, a draft on disk, nothing
// else.
func TestInterrupt(t *testing.T) {
	t.Run("Ctrl-C", func(t *testing.T) { interrupted(t, os.Interrupt) })
	t.Run("the terminal is closed", func(t *testing.T) { interrupted(t, syscall.SIGHUP, syscall.SIGHUP) })
}

func interrupted(t *testing.T, signals ...os.Signal) {
	if _, err := exec.LookPath("git"); err != nil {
		t.Skip("git is missing: a ledger lives in its repository")
	}
	if os.PathSeparator == '\\' {
		t.Skip("there is no signal to send on Windows")
	}
	dir := t.TempDir()
	env := append(os.Environ(), "GIT_CONFIG_GLOBAL="+os.DevNull, "GIT_CONFIG_NOSYSTEM=1",
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=t@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=t@lauvkroken.example",
		"BLOTTER_TERMINAL=80", "BLOTTER_AS_PROGRAM=1")
	program := func(args ...string) *exec.Cmd {
		cmd := exec.Command(os.Args[0], args...)
		cmd.Dir, cmd.Env = dir, env
		return cmd
	}
	if out, err := program("init", ".", "--code", "LK7", "--name", "Lauvkroken Museum", "--no-hooks").CombinedOutput(); err != nil {
		t.Fatalf("init: %v\n%s", err, out)
	}
	cmd := program("new")
	stdin, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	var out, asked lockedBuffer
	cmd.Stdout, cmd.Stderr = &out, &asked
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	io.WriteString(stdin, "\nSigne Rask\n")
	for begun := time.Now(); !strings.Contains(asked.String(), "  with "); time.Sleep(5 * time.Millisecond) {
		if time.Since(begun) > 30*time.Second {
			t.Fatalf("never asked for companions:\n%s", asked.String())
		}
	}
	for i, s := range signals {
		if err := cmd.Process.Signal(s); err != nil && i == 0 {
			t.Fatal(err)
		}
	}
	err = cmd.Wait()
	if cmd.ProcessState.ExitCode() != exitInterrupted {
		t.Errorf("exit %v, want %d\n%s", err, exitInterrupted, asked.String())
	}
	if !strings.Contains(out.String(), "LK7-0000001 kept as a draft") {
		t.Errorf("stdout %q", out.String())
	}
	src, err := os.ReadFile(filepath.Join(dir, "specimens", "000", "00", "LK7-0000001.yaml"))
	if err != nil || !bytes.Contains(src, []byte("entry: draft")) || !bytes.Contains(src, []byte("collector: Signe Rask")) {
		t.Errorf("%v\n%s", err, src)
	}
	for _, left := range []string{"*.tmp*", "*~", ".*"} {
		if found, _ := filepath.Glob(filepath.Join(dir, "specimens", "000", "00", left)); len(found) > 0 {
			t.Errorf("left behind: %v", found)
		}
	}
}
