package main

import (
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"sync"
	"time"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

var (
	flagSign     = &flag{Name: "sign", Help: "sign it with the key that git is set up to sign with, on this computer"}
	flagUnsigned = &flag{Name: "unsigned", Help: "without a signature, though the settings ask for one"}
)

func releaseCommand() *command {
	return &command{
		Name: "release", Family: famEnter, Synopsis: "NAME [FILE...]",
		Says: "Gives what is entered now a name for ever, with the checksums of the files that go out with it.",
		Notes: []string{
			"A release says: this is the ledger as it was published, sent or cited. Files that went out with it (a Darwin Core archive, the site in one file, a PDF) are named with their size and SHA-256; they stay where they are and are not kept in the ledger. blotter verify holds every release to what it was, and blotter verify --archive FILE proves whether a file is one of those that went out.",
			"A name is given once; blotter share takes it to the others. It stands wherever a revision may: blotter show 482 --at 2026-1. What a release names is not undone any more.",
			"It is signed where git is set up to sign tags (tag.gpgSign, with user.signingKey; OpenPGP or ssh), or by --sign.",
		},
		Examples: []example{
			{"blotter release 2026-1 lk7.zip --why 'Spring, as sent to the network'", "the ledger as entered now, and the archive made of it"},
			{"blotter release 2026-2", "the ledger alone"},
			{"blotter verify --archive lk7.zip", "is that file what went out, and with which release?"},
		},
		Args:  []argument{{"NAME", "letters, digits, dot, hyphen, underline: 2026-1"}, {"FILE", "what goes out with it, wherever it lies"}},
		Flags: []*flag{flagWhy, flagSign, flagUnsigned, flagDryRun, flagAs},
		Kin:   []string{"verify", "export", "share", "undo"}, Complete: "files",
		Run: runRelease,
	}
}

func runRelease(ctx context.Context, c *call) error {
	if len(c.args) == 0 {
		return misuse("what is the release to be called?").try("blotter release 2026-1", "with an archive that goes out: blotter release 2026-1 lk7.zip")
	}
	if c.opts.on("sign") && c.opts.on("unsigned") {
		return misuse("--sign and --unsigned are both given")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so nothing is entered that could be released")
	}
	r := &releasing{desk: d, q: gitrepo.ReleaseRequest{Name: c.args[0], Words: oneLine(c.opts.text("why"))}}
	if r.q.Words == "" {
		r.q.Words = "Release " + r.q.Name
	}
	return r.run(ctx)
}

// releasing is one release on its way.
type releasing struct {
	*desk
	q gitrepo.ReleaseRequest
}

func (r *releasing) run(ctx context.Context) error {
	if err := r.named(); err != nil {
		return err
	}
	if err := r.notBegun("nothing was released"); err != nil {
		return err
	}
	if err := r.standing(ctx); err != nil {
		return err
	}
	if err := r.signs(); err != nil {
		return err
	}
	var err error
	if r.q.Archives, err = r.archives(ctx, r.args[1:]); err != nil {
		return err
	}
	if r.opts.on("dry-run") {
		for _, a := range r.q.Archives {
			r.tellArchive("", a)
		}
		r.tell("Nothing was changed: --dry-run.")
		return nil
	}
	if r.q.By, _, err = r.recorder(ctx); err != nil {
		return err
	}
	unlock, err := r.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	before := r.q.Commit
	if err := r.standing(ctx); err != nil { // while files were read, and we waited for another
		return err
	}
	if before != r.q.Commit {
		return stuck("something was entered meanwhile; nothing was released").try("Type it again, when the files are of what is entered now.")
	}
	made, err := r.repo.MakeRelease(ctx, r.q)
	if err != nil {
		return r.notMade(ctx, err)
	}
	r.noteReleases(r.seenReleases(), []gitrepo.Release{made})
	r.report(made)
	return nil
}

// longestName of a release, in letters.
const longestName = 64

var dayName = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^\d{4}-\d{2}-\d{2}$`) })

// named refuses names that could not be a release's, or would be read as
// something else where a release is named.
func (r *releasing) named() error {
	name := r.q.Name
	switch {
	case !ledger.Number(name).Valid() || len(name) > longestName || strings.HasSuffix(strings.ToLower(name), ".lock"):
		return misuse("%q cannot be the name of a release: it has letters a to z, digits, and between them dot, hyphen and underline; at most %d", name, longestName).
			try("blotter release 2026-1 FILE", "Words about it: --why TEXT")
	case dayName().MatchString(name):
		return misuse("%s would be read as a day wherever a release may be named (--at, --since)", name).try("blotter release " + name + "-1")
	case strings.EqualFold(name, "published") || strings.EqualFold(name, "HEAD"):
		return misuse("%s means something else wherever a release may be named (--at, --since)", name).try("blotter release 2026-1")
	}
	return nil
}

// standing finds the entry that is released, and refuses what is not entered
// and a name that is given.
func (r *releasing) standing(ctx context.Context) (err error) {
	if r.q.Commit, err = r.head(ctx); err != nil {
		return err
	}
	if r.q.Commit == "" {
		return stuck("nothing has been entered yet, so there is nothing to release").try("blotter enter")
	}
	waiting, err := r.pending(ctx)
	if err != nil {
		return err
	}
	if len(waiting) > 0 {
		var names []string
		for _, p := range waiting[:min(len(waiting), fewNumbers)] {
			names = append(names, sheetOrPath(p.path))
		}
		return stuck("%s not yet entered, and a release holds what is entered: %s", plural(len(waiting), "a file is", thousands(len(waiting))+" files are"), strings.Join(names, ", ")).
			try("blotter enter", "then release")
	}
	return r.notGiven(ctx)
}

// notGiven refuses a name that something has already. Where upper and lower
// case are one to the disk, so are the names.
func (r *releasing) notGiven(ctx context.Context) error {
	all, err := r.repo.Releases(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	for _, t := range all {
		if !strings.EqualFold(t.Name, r.q.Name) && !strings.HasPrefix(strings.ToLower(t.Name), strings.ToLower(r.q.Name)+"/") {
			continue
		}
		whose := ""
		if t.By.Name != "" {
			whose = ", by " + t.By.Name + ", " + dayWord(t.By.When, r.zone)
		}
		if t.Commit != "" {
			whose += ", revision " + t.Commit[:7]
		}
		return stuck("there is a release %s already%s; what was released stays", t.Name, whose).try("A later one gets a name of its own.", "What went out with it: blotter verify")
	}
	refs, err := r.repo.Refs(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	for _, ref := range refs {
		if name, ok := strings.CutPrefix(ref.Name, "refs/heads/"); ok && strings.EqualFold(name, r.q.Name) {
			return misuse("%s is the name of a line of entries, so it cannot be a release's", name).try("blotter release 2026-1")
		}
	}
	if s, ok := r.seenReleases()[r.q.Name]; ok {
		return stuck("there was a release %s here on %s, and it is gone; its name is not given again", r.q.Name, r.shownDate(s.day)).try("blotter verify", "says what to type to bring it back")
	}
	return nil
}

// signs finds whether a signature is wanted, and that it can be made.
func (r *releasing) signs() (err error) {
	r.q.Sign = r.opts.on("sign")
	if !r.q.Sign && !r.opts.on("unsigned") {
		if r.q.Sign, err = r.repo.SignsReleases(); err != nil {
			return stuck("%v", err)
		}
	}
	if r.q.Sign && !gitrepo.HasProgram(r.Environ) {
		return stuck("a signature is wanted, and only the git program makes one, which is not on this computer; nothing was released").
			try("Without a signature: add --unsigned")
	}
	return nil
}

// archives reads the files that go out: their names, sizes and checksums.
func (r *releasing) archives(ctx context.Context, files []string) (all []gitrepo.Archive, err error) {
	for _, file := range files {
		a, err := r.archive(ctx, file)
		if err != nil {
			return nil, err
		}
		if slices.ContainsFunc(all, func(b gitrepo.Archive) bool { return strings.EqualFold(a.Name, b.Name) }) {
			return nil, misuse("two files are called %s; a release names each by its name alone, without its folder", a.Name).try("Give one of them another name.")
		}
		all = append(all, a)
	}
	return all, nil
}

// archive is a file as a release names it.
func (d *desk) archive(ctx context.Context, file string) (a gitrepo.Archive, err error) {
	path := inDir(d.Dir, file)
	a.Name = filepath.Base(path)
	if strings.ContainsFunc(a.Name, unicode.IsControl) || !utf8.ValidString(a.Name) || a.Name != strings.TrimSpace(a.Name) {
		return a, misuse("%q cannot be named in a release: characters that cannot be printed, or blanks at an end", a.Name).try("Give the file a plain name.")
	}
	h, err := os.Open(path)
	if errors.Is(err, os.ErrNotExist) {
		return a, misuse("there is no file %s", file)
	}
	if err != nil {
		return a, stuck("%v", err)
	}
	defer h.Close()
	info, err := h.Stat()
	if err != nil {
		return a, stuck("%v", err)
	}
	if !info.Mode().IsRegular() {
		return a, misuse("%s is a folder or a device, not a file; what goes out as one is one file", file).try("A folder: pack it, for example into a .zip")
	}
	hash := sha256.New()
	if a.Size, err = io.Copy(hash, interruptible{ctx, h}); ctx.Err() != nil {
		return a, errInterrupted
	}
	if err != nil {
		return a, stuck("read %s: %v", file, err)
	}
	if a.Size == 0 {
		return a, misuse("%s is empty", file)
	}
	a.Sum = hex.EncodeToString(hash.Sum(nil))
	return a, nil
}

// interruptible ends reading when its person does.
type interruptible struct {
	ctx context.Context
	io.Reader
}

func (r interruptible) Read(p []byte) (int, error) {
	if err := r.ctx.Err(); err != nil {
		return 0, err
	}
	return r.Reader.Read(p)
}

// notMade says why there is no release.
func (r *releasing) notMade(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return errInterrupted
	}
	if !errors.Is(err, gitrepo.ErrUnsigned) {
		return stuck("nothing was released: %v", err)
	}
	f := stuck("nothing was released: the signature could not be made; git may not find the key").
		try("Which key git signs with: git config user.signingKey KEY (of ssh keys also: git config gpg.format ssh)", "Without a signature: add --unsigned")
	var program *gitrepo.ProgramError
	if errors.As(err, &program) {
		f.quote("the git program", strings.Split(strings.TrimSpace(program.Text), "\n")...)
	}
	return f
}

// report says what was released.
func (r *releasing) report(made gitrepo.Release) {
	signed := ""
	if made.Signed {
		signed = ", signed"
	}
	r.say("%s", wrap("Released by "+made.By.Name+", "+made.By.When.In(r.zone).Format("2 January 2006")+": "+made.Name+", revision "+made.Commit[:7]+signed+".", r.Width, "  "))
	for _, a := range made.Archives {
		r.tellArchive("", a)
	}
	if before := r.lastSigned(made); before != "" {
		r.tell("It is not signed, though %s before it is.", before)
	}
	r.next("blotter share")
}

// lastSigned names a release that is signed, when the one just made is not.
func (r *releasing) lastSigned(made gitrepo.Release) (name string) {
	all, err := r.repo.Releases(context.Background())
	if err != nil || made.Signed {
		return ""
	}
	var when time.Time
	for _, t := range all {
		if t.Signed && t.By.When.After(when) {
			name, when = t.Name, t.By.When
		}
	}
	return name
}
