package main

import (
	"context"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
)

func initCommand() *command {
	return &command{
		Name: "init", Family: famEnter, Synopsis: "[DIR]",
		Says: "Makes an empty folder into a ledger.",
		Examples: []example{
			{"blotter init herbarium", "asks for the museum's name and code"},
			{`blotter init herbarium --code LK7 --name "Lauvkroken Museum" --timezone Europe/Oslo`, "asks nothing"},
			{`blotter init --code LK7 --name "Lauvkroken Museum" --prefix LK7-F- --digits 4`, "numbers like LK7-F-0001, in this folder"},
		},
		Args:  []argument{{"DIR", "the folder; it is made when missing, and must be empty"}},
		Flags: joinFlags([]*flag{flagCode, flagName, flagPrefix, flagDigits, flagTimezone, flagNoHooks}, []*flag{flagYes, flagDryRun, flagHold}),
		Kin:   []string{"new", "import", "hooks"},
		Run:   runInit,
	}
}

// founding is what a new ledger is made from.
type founding struct {
	name, code, prefix, digits, zone string
}

func runInit(ctx context.Context, c *call) error {
	if len(c.args) > 1 {
		return misuse("one folder; %q is too much", c.args[1])
	}
	dir := c.Dir
	if len(c.args) == 1 {
		dir = inDir(c.Dir, c.args[0])
	}
	refused := mayBecomeLedger(dir)
	if refused != nil && c.opts.text("code") == "" {
		return c.refusedFor(ctx, dir, refused)
	}
	f := founding{c.opts.text("name"), c.opts.text("code"), c.opts.text("prefix"), c.opts.text("digits"), c.opts.text("timezone")}
	if err := c.askFounding(ctx, &f); err != nil {
		return err
	}
	if err := f.complete(); err != nil {
		return err
	}
	files := foundingFiles(f)
	if refused != nil && !c.beganLedger(dir, files) {
		return c.refusedFor(ctx, dir, refused)
	}
	if c.opts.on("dry-run") {
		for _, ch := range files {
			c.say("%s", ch.path)
		}
		c.tell("Nothing was changed: --dry-run.")
		return nil
	}
	return c.found(ctx, dir, f, files)
}

// refusedFor refuses a folder. Where a ledger stands in it whose entry was
// broken off, as when init is typed again that was killed at its end, that is
// mended first; what cannot be mended the next command tells.
func (c *call) refusedFor(ctx context.Context, dir string, refused error) error {
	if _, err := os.Stat(filepath.Join(dir, ledger.MuseumFile)); err != nil {
		return refused
	}
	if repo, err := gitrepo.Open(dir, c.Environ); err == nil {
		defer repo.Close()
		d := &desk{call: c, root: dir, repo: repo, zone: time.UTC, museum: &ledger.Museum{}}
		_ = d.recover(ctx)
	}
	return refused
}

// mayBecomeLedger refuses a folder that holds something already.
func mayBecomeLedger(dir string) error {
	entries, err := os.ReadDir(dir)
	if errors.Is(err, os.ErrNotExist) {
		return nil
	}
	if err != nil {
		return stuck("%v", err)
	}
	if _, err := os.Stat(filepath.Join(dir, ledger.MuseumFile)); err == nil {
		return misuse("%s is a ledger already", dir).try("blotter status")
	}
	for _, e := range entries {
		if e.Name() != ".git" && !disk.IsTemp(e.Name()) { // of an init that was killed
			return misuse("%s is not empty: it holds %s", dir, e.Name()).
				try("A ledger begins in a folder of its own: blotter init NEW-FOLDER")
		}
	}
	return nil
}

// beganLedger reports whether a folder holds nothing but what this same init
// left when it was broken off: nothing is entered yet, and each file is as it
// would write it.
func (c *call) beganLedger(dir string, files []fileChange) bool {
	want := map[string]string{}
	for _, f := range files {
		want[f.path] = string(f.new)
	}
	began := false
	err := filepath.WalkDir(dir, func(p string, e fs.DirEntry, err error) error {
		rel, _ := filepath.Rel(dir, p)
		switch {
		case err != nil:
			return err
		case rel == ".git":
			began = true
			return fs.SkipDir
		case e.IsDir(), disk.IsTemp(e.Name()):
			return nil
		}
		if src, err := os.ReadFile(p); err != nil || string(src) != want[filepath.ToSlash(rel)] {
			return errors.Join(err, fs.ErrExist)
		}
		return nil
	})
	if err != nil || !began {
		return false
	}
	repo, err := gitrepo.Open(dir, c.Environ)
	if err != nil {
		return errors.Is(err, gitrepo.ErrNoRepository) // git's own folder was only begun
	}
	defer repo.Close()
	_, err = repo.Head(context.Background())
	return errors.Is(err, gitrepo.ErrNoCommits) && repo.Prefix() == ""
}

// askFounding asks for what was not given.
func (c *call) askFounding(ctx context.Context, f *founding) error {
	if !c.Asks || f.name != "" && f.code != "" {
		return nil
	}
	a := c.asker()
	for _, q := range []struct {
		label, hint string
		into        *string
	}{
		{"museum", "its name, as it stands on labels", &f.name},
		{"code", "short, with no blank, for example LK7", &f.code},
		{"prefix", "before the digits of a number; Enter: CODE-", &f.prefix},
		{"digits", "how many a number has at least; Enter: 7", &f.digits},
		{"time zone", "for example Europe/Oslo; Enter: UTC", &f.zone},
	} {
		if *q.into != "" {
			continue
		}
		c.tell("  %s%s", pad("", labelWidth), q.hint)
		answer, err := a.ask(ctx, "  "+pad(q.label, labelWidth))
		if errors.Is(err, io.EOF) {
			return errInterrupted
		}
		if err != nil {
			return err
		}
		*q.into = answer
	}
	return nil
}

var codeShape = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]*$`) })

// complete fills in what can be worked out and refuses what cannot stand.
func (f *founding) complete() error {
	if f.name == "" || f.code == "" {
		return misuse("the museum's name and code are needed").try(`blotter init herbarium --code LK7 --name "Lauvkroken Museum"`)
	}
	if !codeShape().MatchString(f.code) {
		return misuse("the code %q has something else than letters, digits, dot, hyphen and underline", f.code)
	}
	if isPracticeCode(f.code) {
		return misuse("the code %s is that of the practice museum; a real one needs another", practiceCode).try("To practise: blotter demo --practice")
	}
	if f.prefix == "" {
		f.prefix = f.code + "-"
	}
	if f.digits == "" {
		f.digits = "7"
	}
	if n, err := strconv.Atoi(f.digits); err != nil || n < 1 || n > 12 {
		return misuse("--digits %s: a number has from 1 to 12 digits", f.digits)
	}
	if f.zone == "" {
		f.zone = "UTC"
	}
	if _, err := time.LoadLocation(f.zone); err != nil {
		return misuse("no time zone is called %q; the names are those of the IANA, for example Europe/Oslo", f.zone)
	}
	if !ledger.Number(f.prefix + "1").Valid() {
		return misuse("the prefix %q has something else than letters, digits, dot, hyphen and underline", f.prefix)
	}
	return nil
}

// What git is told of a ledger: never to alter line ends, to let Blotter join
// two versions of its files, and to leave the published site alone.
const (
	gitAttributes = "* -text\n/specimens/** merge=blotter\n/work/*/*.yaml merge=blotter\n" + mergedFiles
	mergedFiles   = "/names/*.yaml merge=blotter\n/people.yaml merge=blotter\n/places.yaml merge=blotter\n/blotter.yaml merge=blotter\n/public.yaml merge=blotter\n"
	gitIgnore     = "/" + siteFolder + "/\n/" + staffFolder + "/\n.blotter-*.tmp\n"
)

// foundingFiles are the files of a new ledger.
func foundingFiles(f founding) []fileChange {
	m := &ledger.Museum{}
	m.Format.Text = ledger.FormatVersion
	m.Name.Text, m.Code.Text, m.Timezone.Text = f.name, f.code, f.zone
	m.Numbering.Prefix.Text, m.Numbering.Digits.Text = f.prefix, f.digits
	m.Site.Title.Text, m.Site.Language.Text = "Herbarium of "+f.name, "en"
	return []fileChange{
		{path: ".gitattributes", new: []byte(gitAttributes)},
		{path: ".gitignore", new: []byte(gitIgnore)},
		{path: ledger.MuseumFile, new: ledger.EncodeMuseum(m)},
		{path: ledger.PagesDir + "/about.md", new: []byte("# About this herbarium\n\nWrite here who keeps it, what it holds and how to visit.\n")},
		{path: ledger.PeopleFile, new: []byte("# Collectors, determiners and staff: name, spellings met on labels, years, email of those who enter.\npeople: []\n")},
		{path: ledger.SchemaFile, new: ledger.Schema()},
		{path: ledger.WorkSchema, new: ledger.SchemaOf(ledger.WorkFileKind)},
	}
}

// found writes the files, makes the repository and the first entry.
func (c *call) found(ctx context.Context, dir string, f founding, files []fileChange) error {
	_, there := os.Stat(dir)
	if err := os.MkdirAll(dir, 0o777); err != nil {
		return stuck("%v", err)
	}
	repo, err := gitrepo.Open(dir, c.Environ)
	made := errors.Is(err, gitrepo.ErrNoRepository)
	if made {
		repo, err = gitrepo.Init(ctx, dir, c.Environ)
	}
	if err != nil {
		return stuck("%v", err)
	}
	c.opened = append(c.opened, repo)
	d := &desk{call: c, root: dir, repo: repo, zone: time.UTC, museum: &ledger.Museum{}}
	if err := d.recover(ctx); err != nil { // of an init that was broken off
		return err
	}
	author, committer, err := d.recorder(ctx)
	if err != nil && !c.opts.on("hold") {
		if made {
			os.RemoveAll(filepath.Join(dir, ".git")) // made a moment ago, and empty
		}
		if there != nil {
			os.Remove(dir)
		}
		return err
	}
	missing := slices.DeleteFunc(slices.Clone(files), func(f fileChange) bool { return d.has(f.path) }) // one that was broken off left the others
	if err := d.write(ctx, missing); err != nil {
		return err
	}
	for _, folder := range []string{ledger.SpecimensDir, ledger.NamesDir, ledger.ImagesDir} {
		if err := os.MkdirAll(filepath.Join(dir, folder), 0o777); err != nil {
			return stuck("%v", err)
		}
	}
	if !c.opts.on("no-hooks") {
		if err := d.installHooks(ctx); err != nil {
			return err
		}
	}
	c.say("%s is now the ledger of %s (%s).", dir, f.name, f.code)
	c.say("%s", wrap("The ledger itself is not to be public: it holds withheld places and e-mail addresses, in its history too. What may be is what blotter publish, export and mirror make.", c.Width, ""))
	if c.opts.on("hold") {
		d.report(entered{held: true}, "")
		return nil
	}
	id, err := repo.Commit(ctx, gitrepo.CommitRequest{Paths: paths(files), Message: "A new ledger: " + f.name + " (" + f.code + ")\n", Author: author, Committer: committer})
	if errors.Is(err, gitrepo.ErrNothing) { // git, left alone by an init that was broken off, has just done it
		id, err = repo.Head(ctx)
	}
	if err != nil {
		return stuck("the files are written, but the first entry was not made: %v", err).try("blotter enter")
	}
	d.say("Entered by %s, revision %s. The first number will be %s.", author.Name, id[:7], f.prefix+strings.Repeat("0", max(atoi(f.digits)-1, 0))+"1")
	c.next("cd %s, then blotter new", shellWord(dir))
	return nil
}

func atoi(s string) int {
	n, _ := strconv.Atoi(s)
	return n
}
