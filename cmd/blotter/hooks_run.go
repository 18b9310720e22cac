package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// runHook is what git's hooks call: hooks run NAME ARGUMENTS. It speaks on
// standard error and stops git by its exit code.
func runHook(ctx context.Context, c *call) error {
	if len(c.args) < 2 {
		return misuse("hooks run is called by git, with the name of a hook")
	}
	name, args := c.args[1], c.args[2:]
	if name == "merge" {
		return runMergeDriver(ctx, c, args)
	}
	repo, err := gitrepo.Open(c.Dir, c.Environ)
	if err != nil {
		return stuck("%v", err)
	}
	defer repo.Close()
	at, err := repo.Setting("blotter.ledger")
	if err != nil {
		return stuck("%v", err)
	}
	if repo.Bare() {
		repo = repo.In(strings.TrimPrefix(at, "."))
	} else if at != "" && at != "." {
		repo.Close()
		if repo, err = gitrepo.Open(filepath.Join(repo.Top(), at), c.Environ); err != nil {
			return stuck("%v", err)
		}
		defer repo.Close()
	}
	h := hookRun{call: c, repo: repo, bench: hooks.Bench{Repo: repo, Cache: repo.Cache(), Progress: c.hookProgress()}}
	h.zone = zoneOf(ctx, repo)
	h.bench.Today = dayIn(c.Now(), h.zone)
	return h.run(ctx, name, args)
}

// hookRun is one hook at work.
type hookRun struct {
	*call
	repo  *gitrepo.Repo
	bench hooks.Bench
	zone  *time.Location
}

func (h hookRun) run(ctx context.Context, name string, args []string) error {
	switch name {
	case "pre-commit", "pre-merge-commit":
		if h.repo.BrokenOff() {
			return stuck("Not entered: a share was broken off here, and what others sent is half in its place").try("End it first: blotter share")
		}
		h.warnWho()
		return h.beforeCommit(ctx)
	case "commit-msg":
		return h.commitMessage(ctx, args)
	case "prepare-commit-msg":
		return h.prepareMessage(ctx, args)
	case "pre-push":
		if h.getenv(gitrepo.JudgedVariable) != "" {
			return nil // blotter share sends, and has judged it
		}
		pushes, err := h.lines(hooks.Pushes)
		if err != nil {
			return err
		}
		v, err := h.bench.Push(ctx, pushes)
		return h.end(v, err, "Not sent", "Mend it here and enter that: blotter check. Then send again.")
	case "pre-receive":
		updates, err := h.lines(hooks.Updates)
		if err != nil {
			return err
		}
		v, err := h.bench.Receive(ctx, updates)
		if err := h.repo.ShareState(); err != nil {
			h.tell("what this hook keeps could not be opened to the others who send here: %v", err)
		}
		return h.end(v, err, "Not taken", "Mend it in your copy and enter that: blotter check. Then send again.")
	case "post-merge":
		return h.after(ctx, gitrepo.Range{Tips: []string{"HEAD"}, Not: []string{"ORIG_HEAD"}})
	case "post-rewrite":
		return h.rewritten(ctx)
	}
	return misuse("no hook is named %q", name)
}

// beforeCommit judges what is staged; the message too, where a command of ours
// says it beforehand.
func (h hookRun) beforeCommit(ctx context.Context) error {
	const mend = "Mend the lines above, then commit again. Your edits are safe."
	text, err := os.ReadFile(h.getenv(gitrepo.EnteringVariable))
	if err != nil {
		v, err := h.bench.BeforeCommit(ctx)
		return h.end(v, err, "Not entered", mend)
	}
	contents, law, err := h.bench.BeforeEntry(ctx, string(text))
	if err := h.end(contents, err, "Not entered", mend); err != nil {
		return err
	}
	return h.endLaw(law, nil)
}

// commitMessage judges the message that git is about to keep.
func (h hookRun) commitMessage(ctx context.Context, args []string) error {
	if len(args) < 1 {
		return misuse("hooks run commit-msg is called by git, with the file of the message")
	}
	text, err := os.ReadFile(inDir(h.Dir, args[0]))
	if err != nil {
		return stuck("read the message: %v", err)
	}
	return h.endLaw(h.bench.Message(ctx, string(text)))
}

// endLaw is end of what the law of lists found.
func (h hookRun) endLaw(v hooks.Verdict, err error) error {
	return h.end(v, err, "Not entered: "+brokenWords(v.Findings), "Your edits are safe.")
}

// brokenWords is what was broken: the law of lists, of a record, of a work or of
// both, or that a plant keeps its number.
func brokenWords(found []ledger.Finding) string {
	records, works, moved := false, false, false
	for _, f := range found {
		_, isWork := ledger.WorkNumberOfPath(f.Path)
		switch {
		case f.Severity != ledger.Error:
		case f.Code == history.CodeMoved:
			moved = true
		default:
			works, records = works || isWork, records || !isWork
		}
	}
	switch {
	case works && records:
		return "an earlier opinion, and a line of a work, was changed"
	case works:
		return "an earlier line was changed"
	case moved && !records:
		return "a plant and its number would come apart"
	}
	return "an earlier opinion was changed"
}

// prepareMessage offers a message where git has none yet: second argument
// empty, and no words in the file.
func (h hookRun) prepareMessage(ctx context.Context, args []string) error {
	if len(args) < 1 || len(args) > 1 && args[1] != "" {
		return nil
	}
	file := inDir(h.Dir, args[0])
	text, err := os.ReadFile(file)
	if err != nil {
		return stuck("read the message: %v", err)
	}
	proposed, err := h.bench.Propose(ctx)
	if err != nil || proposed == "" {
		return nil // git's own empty message will do
	}
	if err := os.WriteFile(file, append([]byte(proposed), text...), 0o666); err != nil {
		return stuck("write the message: %v", err)
	}
	return nil
}

// after warns of what stands wrong in commits that are made already: git asks
// nobody before a fast-forward, a rebase or a cherry-pick.
func (h hookRun) after(ctx context.Context, g gitrepo.Range) error {
	v, err := h.bench.Range(ctx, g)
	if err != nil {
		h.tell("Not checked: %v. To check by hand: blotter check", err)
		return nil
	}
	if v.Refused() {
		h.show(v)
		h.tell("This is entered already and must be mended before it is sent: blotter check")
	}
	return nil
}

// rewritten warns after a rebase or an amend, of the new commits alone.
func (h hookRun) rewritten(ctx context.Context) error {
	lines, err := io.ReadAll(h.In)
	if err != nil {
		return stuck("%v", err)
	}
	g := gitrepo.Range{Tips: []string{"HEAD"}, NotRemotes: true}
	for line := range strings.Lines(string(lines)) {
		if old, _, ok := strings.Cut(strings.TrimSpace(line), " "); ok {
			g.Not = append(g.Not, old)
		}
	}
	return h.after(ctx, g)
}

// lines reads what git says on standard input.
func (h hookRun) lines(read func(string) ([]hooks.Update, error)) ([]hooks.Update, error) {
	all, err := io.ReadAll(h.In)
	if err != nil {
		return nil, stuck("%v", err)
	}
	list, err := read(string(all))
	if err != nil {
		return nil, stuck("%v", err)
	}
	return list, nil
}

// end shows a verdict and stops git when it refuses.
func (h hookRun) end(v hooks.Verdict, err error, refused, mend string) error {
	if errors.Is(err, gitrepo.ErrConflict) {
		return stuck("a merge conflict is not settled yet").try("Settle the files that git status names, then commit again.")
	}
	if err != nil {
		return stuck("%s: the checks could not be done: %v", refused, err)
	}
	h.show(v)
	if !v.Refused() {
		return nil
	}
	errs, _ := countFindings(v.Findings)
	h.tell("%s: %s.", refused, count(errs, "error"))
	h.tell("%s", mend)
	return errFindings
}

func (h hookRun) show(v hooks.Verdict) {
	e := *h.env
	e.Out = h.Err
	findingsView{env: &e}.show(v.Findings)
	if v.Older > 0 {
		h.tell("%s that stood before, elsewhere: blotter check", count(v.Older, "error"))
	}
}

// hookProgress tells of long work; a person may wait behind a hook though its
// input is no terminal.
func (c *call) hookProgress() func(done, total int) {
	begun := c.Now()
	last := begun
	return func(done, total int) {
		if now := c.Now(); now.Sub(begun) > time.Second && now.Sub(last) > time.Second {
			last = now
			c.tell("Reading the ledger for the first time: %s of %s", thousands(done), thousands(total))
		}
	}
}

// zoneOf is the museum's time zone as its settings in HEAD have it; UTC when
// there are none yet.
func zoneOf(ctx context.Context, repo *gitrepo.Repo) *time.Location {
	head, err := repo.Head(ctx)
	if err != nil {
		return time.UTC
	}
	id, err := repo.BlobAt(ctx, head, ledger.MuseumFile)
	if err != nil || id == "" {
		return time.UTC
	}
	b, err := repo.Blob(ctx, id)
	if err != nil {
		return time.UTC
	}
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, b)
	zone, err := time.LoadLocation(m.Timezone.Text)
	if err != nil {
		return time.UTC
	}
	return zone
}

// warnWho tells, on a computer that several share, of an entry by another git
// program whose author is not who types here today.
func (h hookRun) warnWho() {
	src, err := os.ReadFile(filepath.Join(h.repo.Root(), ledger.MuseumFile))
	if err != nil || h.getenv(gitrepo.EnteringVariable) != "" {
		return
	}
	m, _ := ledger.DecodeMuseum(ledger.MuseumFile, src)
	if m.Shared.Text != "yes" {
		return
	}
	zone, err := time.LoadLocation(m.Timezone.Text)
	if err != nil {
		zone = time.UTC
	}
	today := h.Now().In(zone).Format(time.DateOnly)
	author := h.getenv("GIT_AUTHOR_NAME")
	switch who := typistOn(filepath.Join(h.repo.StateDir(), "iam"), today); {
	case who == "":
		h.tell("Several people type at this computer, and nobody has said today who it is; this is entered by %s. blotter iam PERSON, and blotter enter, say so.", author)
	case author != who:
		h.tell("%s types here today, and this is entered by %s. If it is not theirs: git commit --amend --author, or blotter enter in place of git commit.", who, author)
	}
}
