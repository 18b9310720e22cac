package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/georeference"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
)

// desk is an opened ledger: what a command works at.
type desk struct {
	*call
	root   string        // the ledger's folder
	repo   *gitrepo.Repo // nil: a folder without git
	museum *ledger.Museum
	zone   *time.Location

	past *past       // the state that it is turned to; nil: the work tree
	once *listedOnce // the work tree, of a command that only looks; nil: as it is each time

	all    []ledger.Number         // of the work tree, filled on first use
	names  map[string]knownName    // of names/, filled on first use
	named  *georeference.Gazetteer // of places.yaml, filled on first use
	worked *work.Works             // of work/, filled on first use

	files *book.Museum // the museum's own, filled on first use

	undone bool // an undo that was broken off was found done

	adding string // who is being put into people.yaml, and enters that

	shelved   *shelf.Shelves // every specimen in its place, filled on first use
	shelvedOf *work.Works    // by this version

	states map[string]stateThen // by revision, as printings say it, filled on first use
}

// desk opens the ledger that we stand in, or that --ledger names.
func (c *call) desk() (*desk, error) {
	root, ok := ledgerAbove(c.Dir)
	if standing, _ := gitrepo.StandingOf(c.Dir); !ok && standing == gitrepo.Server {
		return nil, stuck("in %s nobody works: it is there to be shared with", c.Dir).try("A copy to work at: blotter join " + shellWord(c.Dir) + " NEW-FOLDER")
	}
	if !ok {
		return nil, stuck("there is no ledger in %s", c.Dir).
			try("A new one: blotter init DIR", "Only looking: blotter demo", "Elsewhere: add --ledger DIR")
	}
	d := &desk{call: c, root: root, zone: time.UTC}
	src, err := d.read(ledger.MuseumFile)
	if err != nil {
		return nil, err
	}
	var found []ledger.Finding
	d.museum, found = ledger.DecodeMuseum(ledger.MuseumFile, src)
	if v := d.museum.Format.Text; v != ledger.FormatVersion {
		return nil, stuck("%s says format %q; this program reads format %s", ledger.MuseumFile, v, ledger.FormatVersion).
			try("A newer blotter may read it; nothing was changed.")
	}
	if errs, _ := countFindings(found); errs > 0 && c.cmd.Family == famEnter && c.cmd.Name != "edit" && c.cmd.Name != "enter" {
		findingsView{env: c.env}.show(found)
		return nil, errFindings
	}
	if zone, err := time.LoadLocation(d.museum.Timezone.Text); err == nil {
		d.zone = zone
	}
	d.repo, err = gitrepo.Open(root, c.Environ)
	if errors.Is(err, gitrepo.ErrNoRepository) {
		d.repo, err = nil, nil
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	if d.repo != nil {
		c.opened = append(c.opened, d.repo)
		if err := d.takeUp(context.Background()); err != nil {
			return nil, err
		}
	}
	return d, nil
}

// ledgerAbove is the nearest folder at or above dir that holds blotter.yaml.
func ledgerAbove(dir string) (string, bool) {
	for {
		if _, err := os.Stat(filepath.Join(dir, ledger.MuseumFile)); err == nil {
			return dir, true
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", false
		}
		dir = up
	}
}

// today is the day in the museum's time zone.
func (d *desk) today() string { return d.Now().In(d.zone).Format(time.DateOnly) }

// source is the work tree, or the state that the desk is turned to.
func (d *desk) source() ledger.Source {
	if d.past != nil {
		return d.past.src
	}
	if d.once != nil {
		return d.once
	}
	if d.repo == nil {
		return gitrepo.Folder(d.root)
	}
	return d.repo.WorkTree(d.cache())
}

// file is the place of a ledger path on disk.
func (d *desk) file(path string) string { return filepath.Join(d.root, filepath.FromSlash(path)) }

// read gives the bytes of a file of the work tree; nil when there is none.
func (d *desk) read(path string) ([]byte, error) {
	if d.past != nil {
		return d.past.read(path)
	}
	if err := d.plainWay(path); err != nil {
		return nil, err
	}
	info, err := os.Lstat(d.file(path))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, nil
	case err != nil:
		return nil, err
	case info.Mode()&fs.ModeSymlink != 0:
		return nil, linkInTheWay(path)
	case !info.Mode().IsRegular():
		return nil, stuck("%s is a folder or a device, not a file", ledger.ShownPath(path)).try("Move it out of the ledger, then: blotter check")
	case info.Size() > ledger.MaxFile:
		return nil, stuck("%s is larger than %d bytes, the most that a file of the ledger may have", ledger.ShownPath(path), ledger.MaxFile).
			try("Put pictures into images/ and long texts into files of their own")
	}
	b, err := os.ReadFile(d.file(path))
	if err != nil {
		return nil, stuck("read %s: %v", path, err)
	}
	if b == nil {
		b = []byte{}
	}
	return b, nil
}

// plainWay refuses a path that leads through a link: what lies behind it may
// be anywhere, and is neither read nor written.
func (d *desk) plainWay(path string) error {
	for i := range len(path) {
		if path[i] != '/' {
			continue
		}
		if info, err := os.Lstat(d.file(path[:i])); err == nil && info.Mode()&fs.ModeSymlink != 0 {
			return linkInTheWay(path[:i])
		}
	}
	return nil
}

func linkInTheWay(path string) error {
	return stuck("%s is a link; links are never followed, and nothing was changed", ledger.ShownPath(path)).
		try("Put the file or folder itself in its place.")
}

// find, short and numbers make the desk a stock.

func (d *desk) find(n ledger.Number) (ledger.Number, bool) {
	if !n.Valid() {
		return "", false
	}
	if d.has(n.Path()) && d.exactCase(n) {
		return n, true
	}
	for _, have := range d.numbers() {
		if have.Key() == n.Key() {
			return have, true
		}
	}
	return "", false
}

// exactCase reports whether the file of n is spelled so, on file systems that
// would find it in any case.
func (d *desk) exactCase(n ledger.Number) bool {
	if d.past != nil {
		return true
	}
	entries, err := os.ReadDir(filepath.Dir(d.file(n.Path())))
	return err == nil && slices.ContainsFunc(entries, func(e fs.DirEntry) bool { return e.Name() == string(n)+".yaml" })
}

func (d *desk) short(serial uint64) ledger.Number {
	digits := strconv.FormatUint(serial, 10)
	if w, err := strconv.Atoi(d.museum.Numbering.Digits.Text); err == nil && w < 20 && len(digits) < w {
		digits = strings.Repeat("0", w-len(digits)) + digits
	}
	return ledger.Number(d.museum.Numbering.Prefix.Text + digits)
}

func (d *desk) numbers() []ledger.Number {
	if d.all == nil {
		d.all = []ledger.Number{}
		for _, p := range d.recordPaths() {
			if n, ok := ledger.NumberOfPath(p); ok && n.Valid() {
				d.all = append(d.all, n)
			}
		}
		slices.Sort(d.all)
	}
	return d.all
}

// recordPaths are the paths of all records in the work tree.
func (d *desk) recordPaths() []string {
	if d.past != nil {
		return d.past.below(ledger.SpecimensDir)
	}
	var paths []string
	top := d.file(ledger.SpecimensDir)
	filepath.WalkDir(top, func(p string, e fs.DirEntry, err error) error {
		if err == nil && e.Type().IsRegular() && strings.HasSuffix(p, ".yaml") {
			if rel, err := filepath.Rel(d.root, p); err == nil {
				paths = append(paths, filepath.ToSlash(rel))
			}
		}
		return nil // a folder that cannot be read has no records for us; check says so
	})
	return paths
}

// pathOf is where the record of n lies: where its number says, or else
// wherever the file of that name is.
func (d *desk) pathOf(n ledger.Number) string {
	if d.has(n.Path()) {
		return n.Path()
	}
	for _, p := range d.recordPaths() {
		if have, _ := ledger.NumberOfPath(p); have == n {
			return p
		}
	}
	return n.Path()
}

// sheets are the numbers that the arguments, --where and --except name.
// picked reports that they were not named one by one.
func (d *desk) sheets(ctx context.Context, words []string) (ns []ledger.Number, picked bool, err error) {
	except, err := readSheets(d.opts.list("except"), nil)
	if err != nil {
		return nil, false, err
	}
	where := d.opts.text("where")
	if where != "" {
		if len(words) > 0 {
			return nil, false, misuse("SHEETS and --where are both given; one of them is enough")
		}
		found, err := d.query(ctx, where)
		if err != nil {
			return nil, false, err
		}
		leave, err := resolveSheets(except, d, nil)
		if err != nil {
			return nil, false, err
		}
		return slices.DeleteFunc(found, func(n ledger.Number) bool { return slices.Contains(leave, n) }), true, nil
	}
	terms, err := readSheets(words, d.In)
	if err != nil {
		return nil, false, err
	}
	if len(terms) == 0 {
		return nil, false, misuse("which sheets?").try("A number (482), a span (480..489), a list (482,485), all, or --where QUERY")
	}
	ns, err = resolveSheets(terms, d, except)
	picked = slices.ContainsFunc(terms, func(t sheetTerm) bool { return t.all })
	return ns, picked, err
}

// author is the person who records: --as, or git's identity.
func (d *desk) author() (history.Person, history.Person, error) {
	now := d.Now()
	var author, committer history.Person
	var err error
	if d.repo != nil {
		author, committer, err = d.repo.Identity(now)
	}
	if err != nil && !errors.Is(err, gitrepo.ErrNobody) {
		return author, committer, stuck("%v", err)
	}
	who := d.opts.text("as")
	if typist := d.typist(); who == "" && typist != "" {
		return d.authorToday(typist, author, committer, err, now)
	}
	if who == "" && d.sharedComputer() {
		return author, committer, stuck("%w", errNobody).try(`Say who types here today: blotter iam "Ove Bannister"`)
	}
	if who == "" {
		if err != nil {
			f := stuck("%w", errNobody).
				try("Say who you are, once:", `git config --global user.name "Your Name"`, `git config --global user.email you@example.org`)
			if src, err := d.read(ledger.PeopleFile); err == nil && src != nil {
				f.try("or name a person of people.yaml: --as PERSON")
			}
			return author, committer, f
		}
		return author, committer, nil
	}
	p, perr := d.person(who)
	if perr != nil {
		return author, committer, perr
	}
	if p.Email.Text == "" {
		return author, committer, stuck("people.yaml has no email for %s, which an entry needs", p.Name.Text).
			try("Add the line  email: ...  to that person")
	}
	author = history.Person{Name: p.Name.Text, Email: p.Email.Text, When: author.When}
	if author.When.IsZero() {
		author.When = now
	}
	if err != nil {
		committer = author
	}
	return author, committer, nil
}

// person is the one of people.yaml who is called so, by name or spelling.
func (d *desk) person(who string) (ledger.Person, error) {
	src, err := d.read(ledger.PeopleFile)
	if err != nil {
		return ledger.Person{}, err
	}
	people, _ := ledger.DecodePeople(ledger.PeopleFile, src)
	var found []ledger.Person
	var names []string
	for _, p := range people.People {
		names = append(names, p.Name.Text)
		if strings.EqualFold(p.Name.Text, who) || slices.ContainsFunc(p.Spellings, func(l ledger.Leaf) bool { return strings.EqualFold(l.Text, who) }) {
			found = append(found, p)
		}
	}
	switch {
	case len(found) == 1:
		return found[0], nil
	case len(found) > 1:
		return ledger.Person{}, misuse("%q can be %s", who, found[0].Name.Text+" or "+found[1].Name.Text)
	}
	f := misuse("people.yaml has nobody called %q", who)
	if near := nearest(who, names); near != "" {
		f = misuse("people.yaml has nobody called %q; did you mean %s?", who, near)
	}
	return ledger.Person{}, f
}

// whoSays is the person of --by: me is the person who records.
func (d *desk) whoSays(by string) (string, error) {
	if by != "me" {
		return by, nil
	}
	author, _, err := d.author()
	return author.Name, err
}

func itoa(n int) string { return strconv.Itoa(n) }

// brief is a sheet's number as people type it.
func (d *desk) brief(n ledger.Number) string { return briefIn(d, n) }

// briefPath is the number of a record's or a work's path as people type it, or
// the path.
func (d *desk) briefPath(path string) string {
	if n, ok := ledger.NumberOfPath(path); ok {
		return d.brief(n)
	}
	return sheetOrPath(path)
}

// has reports whether there is something at a path of the ledger.
func (d *desk) has(path string) bool {
	if d.past != nil {
		_, ok := d.past.files[path]
		return ok
	}
	_, err := os.Lstat(d.file(path))
	return err == nil
}
