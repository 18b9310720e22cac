package gitrepo

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

func TestWildmatch(t *testing.T) {
	// From memory of gitignore(5); TestIgnoreAsGit has git judge more.
	tests := []struct {
		pattern, text string
		want          bool
	}{
		{"*.bak", "a.bak", true}, {"*.bak", "a/b.bak", false}, {"a?c", "abc", true}, {"a?c", "a/c", false},
		{"**/x", "x", true}, {"**/x", "a/b/x", true}, {"a/**", "a/b/c", true}, {"a/**", "a", false}, {"a/**/b", "a/b", true}, {"a/**/b", "a/x/y/b", true},
		{"[a-c]x", "bx", true}, {"[!a-c]x", "bx", false}, {"[]a]", "]", true}, {`\*`, "*", true}, {`\*`, "a", false}, {"[[:digit:]]", "7", true}, {"*", "", true},
	}
	for _, tt := range tests {
		if got := wildmatch(tt.pattern, tt.text); got != tt.want {
			t.Errorf("wildmatch(%q, %q) = %v", tt.pattern, tt.text, got)
		}
	}
}

// TestIgnoreRules are patterns that a run of TestIgnoreAsGit once found.
func TestIgnoreRules(t *testing.T) {
	tests := []struct {
		pattern, path string
		dir, want     bool
		reason        string
	}{
		{"d**//", "d", true, true, "git skips the d and takes **/ for the beginning of a name"},
		{"d**/e", "dx", true, false, "but two stars in the middle of a name are one"},
		{"/a**", "a", false, true, "nor does ** at the end ask for a letter"},
		{"***/a", "e/d/a", false, true, "three stars are as good as two"},
		{"abc", "d/abc", false, true, "a bare name is found in every folder"},
		{"/abc", "d/abc", false, false, "one with a slash is not"},
	}
	for _, tt := range tests {
		r, ok := parseIgnore("", tt.pattern)
		if ig := (&ignore{rules: []ignoreRule{r}}); !ok || ig.match(tt.path, tt.dir) != tt.want {
			t.Errorf("%q ignores %q: %v, want %v: %s", tt.pattern, tt.path, !tt.want, tt.want, tt.reason)
		}
	}
}

// TestIgnoreAsGit lists a work tree with random patterns in it as
// git ls-files --others --exclude-standard does.
func TestIgnoreAsGit(t *testing.T) {
	needGit(t)
	dir := t.TempDir()
	mustGit(t, dir, "init", "-q")
	files := map[string]string{}
	for _, p := range []string{"a", "b", "ab", "abc", "x.bak", "d/a", "d/b", "d/abc", "d/e/a", "d/e/b", "d/e/x.bak", "e/a", "e/d/a", "a b", "#a", "!a", "d1/a"} {
		files[p] = "x"
	}
	write(t, dir, files)
	piece := rapid.SampledFrom([]string{"a", "b", "c", "d", "e", "*", "**", "?", "/", "/", "[ab]", "[!a]", "[a-c]", ".bak", `\`, " ", "#", "!", "x", "1"})
	line := rapid.Custom(func(t *rapid.T) string {
		return rapid.SampledFrom([]string{"", "", "", "!", "/"}).Draw(t, "head") + strings.Join(rapid.SliceOfN(piece, 1, 5).Draw(t, "pieces"), "") + rapid.SampledFrom([]string{"", "", "/", " "}).Draw(t, "tail")
	})
	lines := rapid.SliceOfN(line, 1, 4)
	r, err := Open(dir, testEnviron(t))
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	rapid.Check(t, func(rt *rapid.T) {
		top, below := strings.Join(lines.Draw(rt, "top"), "\n")+"\n", strings.Join(lines.Draw(rt, "below"), "\n")+"\n"
		write(t, dir, map[string]string{".gitignore": top, "d/.gitignore": below})
		want := strings.Split(mustGit(t, dir, "-c", "core.quotePath=false", "ls-files", "--others", "--exclude-standard", "-z"), "\x00")
		want = want[:len(want)-1]
		found, err := r.WorkTree(nil).Files(context.Background())
		if err != nil {
			rt.Fatal(err)
		}
		var got []string
		for _, f := range found {
			got = append(got, f.Path)
		}
		if diff := cmp.Diff(strings.Join(want, "\n"), strings.Join(got, "\n")); diff != "" {
			rt.Fatalf("%q, in d %q: (-git +ours)\n%s", top, below, diff)
		}
	})
}

// TestSettingsAsGit reads settings files without git as git lists them.
func TestSettingsAsGit(t *testing.T) {
	needGit(t)
	home := t.TempDir()
	work := filepath.Join(home, "work", "ledger")
	if err := os.MkdirAll(work, 0o777); err != nil {
		t.Fatal(err)
	}
	mustGit(t, work, "init", "-q", "-b", "main")
	write(t, home, map[string]string{
		".gitconfig": "[user]\n\tname = \"Ove # B\" Bannister ; not this\n\temail=ove@example\\\n.org\n[include]\n\tpath = more\n[includeIf \"gitdir:~/work/\"]\n\tpath = ~/work.inc\n[includeIf \"gitdir:other/\"]\n\tpath = never\n",
		"more":       "[Section \"Sub.Case \\\"q\\\"\"] Key = a\\tb\\\\c\n\tflag\n\tempty =\n[old.Sub]\n k=v\n# comment\n; comment\n",
		"work.inc":   "[user]\r\n\tname = Tiril Aune\r\n",
		"never":      "[user]\n\tname = nobody\n",
	})
	environ := []string{"HOME=" + home, "GIT_CONFIG_NOSYSTEM=1"}
	without, err := Open(work, environ)
	if err != nil {
		t.Fatal(err)
	}
	with, err := Open(work, append(environ, "PATH="+os.Getenv("PATH")))
	if err != nil {
		t.Fatal(err)
	}
	want, err := with.settings()
	if err != nil {
		t.Fatal(err)
	}
	got, err := without.settings()
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, got, cmp.AllowUnexported(setting{})); diff != "" {
		t.Errorf("(-git +ours)\n%s", diff)
	}
}

// TestGCUnderway packs a repository while readers are open on it: they must
// find every object all the same.
func TestGCUnderway(t *testing.T) {
	needGit(t)
	ctx := context.Background()
	dir := t.TempDir()
	runScript(t, dir, preamble+"git init -q -b main; first; git gc -q; for i in 1 2 3; do put $C $i; enter $i; done")
	r, err := Open(dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	defer r.Close()
	head, err := r.Head(ctx)
	if err != nil {
		t.Fatal(err)
	}
	src, err := r.At(ctx, head)
	if err != nil {
		t.Fatal(err)
	}
	files, err := src.Files(ctx)
	if err != nil {
		t.Fatal(err)
	}
	mustGit(t, dir, "repack", "-q", "-a", "-d")
	mustGit(t, dir, "prune-packed")
	for _, f := range files {
		if _, err := src.Read(ctx, f); err != nil {
			t.Error(err)
		}
	}
}
