package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"testing"
)

func TestUnenteredBothWays(t *testing.T) {
	needGit(t)
	for _, way := range []string{"program", "alone"} {
		t.Run(way, func(t *testing.T) {
			dir := t.TempDir()
			mustGit(t, dir, "init", "-q", "-b", "main")
			environ := testEnviron(t)
			if way == "alone" {
				environ = append(environ[1:], "PATH="+os.DevNull)
			}
			ask := func(why string, want bool) {
				t.Helper()
				repo, err := Open(dir, environ)
				if err != nil {
					t.Fatal(err)
				}
				defer repo.Close()
				if got, err := repo.Unentered(context.Background()); err != nil || got != want {
					t.Errorf("%s: %v, %v, want %v", why, got, err, want)
				}
			}
			ask("an empty ledger", false)
			write(t, dir, map[string]string{"blotter.yaml": "format: \"1\"\n", ".gitignore": "/site/\n"})
			ask("before the first entry", true)
			mustGit(t, dir, "add", "-A")
			mustGit(t, dir, "commit", "-q", "-m", "first")
			ask("all entered", false)
			write(t, dir, map[string]string{"site/index.html": "x"})
			ask("ignored files do not count", false)
			write(t, dir, map[string]string{"people.yaml": "people: []\n"})
			ask("a new file", true)
			if err := os.Remove(filepath.Join(dir, "people.yaml")); err != nil {
				t.Fatal(err)
			}
			write(t, dir, map[string]string{"blotter.yaml": "format: \"2\"\n"})
			ask("another text", true)
			if err := os.Remove(filepath.Join(dir, "blotter.yaml")); err != nil {
				t.Fatal(err)
			}
			ask("a file taken away", true)
		})
	}
}
