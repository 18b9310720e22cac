package hooks

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

// environ is the environment of a person without any git settings, with the
// git program or without.
func environ(program bool) []string {
	e := []string{"HOME=" + os.DevNull, "LC_ALL=C", "TZ=UTC", "GIT_CONFIG_NOSYSTEM=1", "GIT_CONFIG_GLOBAL=" + os.DevNull,
		"GIT_AUTHOR_NAME=Tiril Aune", "GIT_AUTHOR_EMAIL=tiril@lauvkroken.example", "GIT_COMMITTER_NAME=Tiril Aune", "GIT_COMMITTER_EMAIL=tiril@lauvkroken.example"}
	if program {
		e = append(e, "PATH="+os.Getenv("PATH"))
	}
	return e
}

// teller makes a history by plain git, past all hooks.
type teller struct {
	t      testing.TB
	dir    string
	second int
}

func newTeller(t testing.TB) *teller {
	t.Helper()
	if _, err := exec.LookPath("git"); err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatal("git is missing and CI=true")
		}
		t.Skip("git is missing: the history is made by it")
	}
	h := &teller{t: t, dir: t.TempDir(), second: 1_700_000_000}
	h.git("init", "-q", "-b", "main")
	return h
}

// aside does something on a branch of its own, "side", and comes back.
func (h *teller) aside(do func()) {
	h.t.Helper()
	h.git("checkout", "-q", "-b", "side")
	do()
	h.git("checkout", "-q", "main")
}

func (h *teller) git(args ...string) string {
	h.t.Helper()
	h.second += 60
	c := exec.Command("git", args...)
	c.Dir = h.dir
	c.Env = append(environ(true), fmt.Sprintf("GIT_AUTHOR_DATE=%d +0000", h.second), fmt.Sprintf("GIT_COMMITTER_DATE=%d +0000", h.second))
	out, err := c.CombinedOutput()
	if err != nil {
		h.t.Fatalf("git %s: %v\n%s", strings.Join(args, " "), err, out)
	}
	return strings.TrimSpace(string(out))
}

func (h *teller) path(n int) string {
	return fmt.Sprintf("specimens/000/00/LK7-%07d.yaml", n)
}

// put writes sheet n with these opinions, one letter each.
func (h *teller) put(n int, opinions string) {
	h.t.Helper()
	text := fmt.Sprintf("specimen: LK7-%07d\nentry: draft\n", n)
	for i, o := range opinions {
		if i == 0 {
			text += "determinations:\n"
		}
		text += fmt.Sprintf("  - name: Ranunculus %c\n    by: M. Ostrander\n    date: 2026-01-%02d\n", o, i+1)
	}
	h.write(n, text)
}

// say writes sheet n with these opinions, one letter each, which has its day
// wherever it stands.
func (h *teller) say(n int, opinions string) {
	h.t.Helper()
	text := fmt.Sprintf("specimen: LK7-%07d\nentry: draft\ndeterminations:\n", n)
	for _, o := range opinions {
		text += fmt.Sprintf("  - name: Ranunculus %c\n    by: M. Ostrander\n    date: 2026-01-%02d\n", o, o-'a'+1)
	}
	h.write(n, text)
}

// joined ends a merge with side by these opinions on sheet 1.
func (h *teller) joined(opinions, message string) {
	h.t.Helper()
	h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
	h.say(1, opinions)
	h.enter(message)
}

// apart makes two lines: what side says of sheet 1, then what main says.
func (h *teller) apart(before, side, why, main, mainWhy string) {
	h.t.Helper()
	h.say(1, before)
	h.enter("1")
	h.aside(func() { h.say(1, side); h.enter("2" + why) })
	h.say(1, main)
	h.write(2, "specimen: LK7-0000002\nentry: draft\n")
	h.enter("3" + mainWhy)
}

func (h *teller) write(n int, text string) {
	h.t.Helper()
	file := filepath.Join(h.dir, h.path(n))
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		h.t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		h.t.Fatal(err)
	}
}

// move lets sheet n go on as to; what bore that number goes on as n, else a stub
// stays or nothing. The trailer that says so.
func (h *teller) move(n, to int, stub bool) string {
	h.t.Helper()
	read := func(n int) string { b, _ := os.ReadFile(filepath.Join(h.dir, h.path(n))); return string(b) }
	bears := func(text string, n int) string {
		_, rest, _ := strings.Cut(text, "\n")
		return fmt.Sprintf("specimen: LK7-%07d\n%s", n, rest)
	}
	from, other := read(n), read(to)
	if from == "" {
		return ""
	}
	h.write(to, bears(from, to))
	key := "Renumbered"
	switch {
	case other != "":
		h.write(n, bears(other, n))
		key = "Swapped"
	case stub:
		h.write(n, fmt.Sprintf("specimen: LK7-%07d\nentry: stub\nfate:\n  - {is: same-as, to: LK7-%07d, by: Ove Bannister, date: 2026-11-03, why: stuck}\n", n, to))
	default:
		os.Remove(filepath.Join(h.dir, h.path(n)))
	}
	return fmt.Sprintf("\n\n%s: LK7-%07d LK7-%07d stuck", key, n, to)
}

func (h *teller) enter(message string) string {
	h.t.Helper()
	h.git("add", "-A")
	h.git("commit", "-q", "--allow-empty", "-m", message)
	return h.git("rev-parse", "HEAD")
}

const correct1 = "\n\nCorrects: LK7-0000001 slip of another sheet"

// loan writes a loan to a partner, with a line for each event.
func (h *teller) loan(partner string, events ...string) {
	h.t.Helper()
	text := "work: loan-2026-001\ntitle: " + partner + "\nlines:\n"
	for i, e := range events {
		text += fmt.Sprintf("  - date: 2026-01-%02d\n    event: %s\n    by: Tiril Aune\n", i+1, e)
	}
	file := filepath.Join(h.dir, "work", "loan", "loan-2026-001.yaml")
	if err := os.MkdirAll(filepath.Dir(file), 0o777); err != nil {
		h.t.Fatal(err)
	}
	if err := os.WriteFile(file, []byte(text), 0o666); err != nil {
		h.t.Fatal(err)
	}
}

// loanApart corrects the heading of a loan on a side line, adds a line to it on
// the main line, and joins both to a loan of these events.
func (h *teller) loanApart(joined ...string) {
	h.t.Helper()
	h.loan("Fjelheim Museum", "sent")
	h.enter("1")
	h.aside(func() { h.loan("Fjellheim Museum", "sent"); h.enter("2\n\nCorrects: loan-2026-001 letter seen") })
	h.loan("Fjelheim Museum", "sent", "reminded")
	h.enter("3")
	h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
	h.loan("Fjellheim Museum", joined...)
	h.enter("4")
}
