package gitrepo

import (
	"context"
	"os"
	"testing"
)

// Both ways of writing a setting leave what stood there, and git reads what
// the one without git wrote.
func TestSetSettingBothWays(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q", "-b", "main")
	mustGit(t, dir, "config", "remote.origin.url", "../elsewhere")
	without := append(testEnviron(t)[1:], "PATH="+os.DevNull)
	ctx := context.Background()
	for _, environ := range [][]string{testEnviron(t), without} {
		repo, err := Open(dir, environ)
		if err != nil {
			t.Fatal(err)
		}
		for key, value := range map[string]string{"blotter.program": "/opt/a folder/é'x", "merge.blotter.driver": `"/opt/b" hooks run merge %O %A %B %P`} {
			if err := repo.SetSetting(ctx, key, value); err != nil {
				t.Fatal(err)
			}
			if got := mustGit(t, dir, "config", key); got != value {
				t.Errorf("git reads %s as %q, want %q", key, got, value)
			}
			if err := repo.SetSetting(ctx, key, ""); err != nil {
				t.Fatal(err)
			}
			if err := repo.SetSetting(ctx, key, ""); err != nil {
				t.Errorf("taken away twice: %v", err)
			}
			if got, err := repo.ownSetting(ctx, key); got != "" || err != nil {
				t.Errorf("%s is still %q, %v", key, got, err)
			}
		}
		repo.Close()
	}
	if got := mustGit(t, dir, "config", "remote.origin.url"); got != "../elsewhere" {
		t.Errorf("another setting became %q", got)
	}
}
