package gitrepo

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// needGit skips a test on a machine without the git program, and fails it
// where CI=true.
func needGit(t testing.TB) {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: nothing to compare with")
	}
}

// testEnviron is the environment of a person without any git settings, who
// enters at a fixed moment.
func testEnviron(t testing.TB) []string {
	t.Helper()
	return []string{
		"PATH=" + os.Getenv("PATH"), "HOME=" + os.DevNull, "LC_ALL=C", "TZ=UTC",
		"GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull,
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_AUTHOR_DATE=1700000000 +0100",
		"GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_DATE=1700000000 +0100",
	}
}

// mustGit runs git in dir and returns what it printed, without the last line
// end.
func mustGit(t testing.TB, dir string, args ...string) string {
	t.Helper()
	cmd := exec.Command("git", args...)
	cmd.Dir = dir
	cmd.Env = testEnviron(t)
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSuffix(string(out), "\n")
}

// write puts files (path, content) under dir.
func write(t testing.TB, dir string, files map[string]string) {
	t.Helper()
	for p, s := range files {
		f := filepath.Join(dir, filepath.FromSlash(p))
		if err := os.MkdirAll(filepath.Dir(f), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(f, []byte(s), 0o666); err != nil {
			t.Fatal(err)
		}
	}
}
