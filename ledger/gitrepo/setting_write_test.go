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

// TestSettingsAround: what the environment passes as settings counts with the
// git program and without, after the files and a later one over an earlier.
func TestSettingsAround(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	runScript(t, dir, "git init -q; git config core.fsync all; git config blotter.Museum.Block file")
	environ := append(testEnviron(t), "GIT_CONFIG_COUNT=3", "GIT_CONFIG_KEY_0=Core.FSync", "GIT_CONFIG_VALUE_0=objects",
		"GIT_CONFIG_KEY_1=blotter.Museum.block", "GIT_CONFIG_VALUE_1=around", "GIT_CONFIG_KEY_2=core.fsync", "GIT_CONFIG_VALUE_2=none")
	for _, path := range []string{"PATH=" + os.Getenv("PATH"), "PATH="} {
		r, err := Open(dir, append(environ, path))
		if err != nil {
			t.Fatal(err)
		}
		defer r.Close()
		for key, want := range map[string]string{"core.fsync": "none", "blotter.Museum.block": "around"} {
			if got, err := r.Setting(key); got != want || err != nil {
				t.Errorf("%s: %s is %q, %v, want %q", path[:min(len(path), 12)], key, got, err, want)
			}
		}
		if r.waits() {
			t.Errorf("%s: the disk is waited for", path[:min(len(path), 12)])
		}
	}
}
