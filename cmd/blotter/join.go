package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"

	"blotter/hooks"
	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

func joinCommand() *command {
	return &command{
		Name: "join", Family: famEnter, Synopsis: "ADDRESS DIR",
		Says: "Makes a copy of a museum's ledger on this computer, ready to work at.",
		Notes: []string{
			"It asks who you are, since every entry bears a name and an e-mail address; the catalogue and the public mirror never show the address. The checks are set up, and the whole is looked through once.",
			"Afterwards blotter share, without an address, receives what others enter and sends what you did. Broken off or refused, nothing is left behind.",
		},
		Examples: []example{
			{"blotter join /media/usb herbarium", "from a stick: the folder herbarium is made"},
			{"blotter join /srv/herbarium/lk7.git herbarium", "from a folder that several people reach"},
			{"blotter join ssh://museum.example/lk7.git herbarium", "from another machine"},
		},
		Args: []argument{
			{"ADDRESS", "a folder, a file or folder on a stick, what backup wrote, or an ssh or https address that was given you"},
			{"DIR", "the folder; it is made, and must not hold anything"},
		},
		Flags: []*flag{flagAs, flagNoHooks}, Exits: []int{exitFindings},
		Kin:      []string{"share", "status", "restore"},
		Complete: "files",
		Run:      runJoin,
	}
}

func runJoin(ctx context.Context, c *call) error {
	switch {
	case len(c.args) == 0:
		return misuse("which ledger? Its address was given you by whoever keeps it").try("blotter join ADDRESS DIR", "Only looking: blotter demo")
	case len(c.args) == 1:
		return misuse("where to? The folder of your copy is missing").try("blotter join " + shellWord(c.args[0]) + " herbarium")
	case len(c.args) > 2:
		return misuse("%q is too much", c.args[2]).try("blotter join ADDRESS DIR; words with blanks need quotes")
	}
	if !gitrepo.HasProgram(c.Environ) {
		return noProgram("join").try("Without it: have one make a file with blotter backup, then here: blotter restore FILE DIR")
	}
	p := c.addressOf(c.args[0])
	if err := p.usable(""); err != nil {
		return err
	}
	dir := inDir(c.Dir, c.args[1])
	if err := c.fitsForNew(dir, "A copy begins in a folder of its own: blotter join "+shellWord(c.args[0])+" NEW-FOLDER"); err != nil {
		return err
	}
	if err := p.there(); err != nil {
		return err
	}
	if err := p.narrow("join"); err != nil {
		return err
	}
	j := &joining{call: c, place: p, dir: dir}
	return j.run(ctx)
}

// joining is one run of join.
type joining struct {
	*call
	place address
	dir   string // where the copy will be
	made  *making
	desk  *desk
}

func (j *joining) run(ctx context.Context) error {
	var err error
	if j.made, err = j.makeBeside(ctx, j.dir); err != nil {
		return err
	}
	defer j.made.end()
	if j.Asks && !j.place.onDisk() {
		j.tell("Asking %s ...", j.place)
	}
	repo, err := gitrepo.Copy(ctx, j.place.text, j.made.temp, j.Environ, j.Asks)
	switch {
	case ctx.Err() != nil:
		return errInterrupted
	case errors.Is(err, gitrepo.ErrNoCommits):
		return stuck("the copy at %s is still empty", j.place).try("Nothing was left behind. Who has the ledger fills it: blotter share --with " + shellWord(j.place.String()))
	case errors.Is(err, gitrepo.ErrWhichBranch):
		return stuck("%v", err).try("Nothing was left behind. Its keeper knows which one is meant.")
	case err != nil:
		return j.place.unreachable("Nothing was left behind.", err)
	}
	defer repo.Close()
	folder, err := j.folderOf(ctx, repo)
	if err != nil {
		return err
	}
	if err := j.sitDown(ctx, folder); err != nil {
		return err
	}
	defer func() { j.desk.repo.Close() }()
	if err := j.desk.notPractice("joined"); err != nil {
		return err
	}
	if err := j.prepare(ctx); err != nil {
		return err
	}
	sheets, err := j.lookThrough(ctx)
	if err != nil {
		return err
	}
	if err := j.moveIn(ctx, folder); err != nil {
		return err
	}
	return j.ready(sheets)
}

// folderOf is where the ledger lies in the copy.
func (j *joining) folderOf(ctx context.Context, repo *gitrepo.Repo) (string, error) {
	head, err := repo.Head(ctx)
	if err != nil {
		return "", stuck("%v", err)
	}
	folder, found, err := repo.LedgerFolder(ctx, head, ledger.MuseumFile)
	if err != nil {
		return "", stuck("%v", err)
	}
	if !found {
		return "", stuck("what is at %s is no ledger: it has no %s", j.place, ledger.MuseumFile).try("Nothing was left behind. Look at the address; a museum may keep other things there too.")
	}
	return folder, nil
}

// sitDown opens the ledger where it is made.
func (j *joining) sitDown(ctx context.Context, folder string) (err error) {
	there := j.call.in(filepath.Join(j.made.temp, filepath.FromSlash(folder)))
	j.desk, err = there.desk()
	j.call.opened = append(j.call.opened, there.opened...)
	if err != nil {
		return err
	}
	for _, folder := range []string{ledger.SpecimensDir, ledger.NamesDir, ledger.ImagesDir} {
		if err := os.MkdirAll(j.desk.file(folder), 0o777); err != nil {
			return stuck("%v", err)
		}
	}
	return nil
}

// prepare asks who works here and sets up the checks.
func (j *joining) prepare(ctx context.Context) error {
	if err := j.whoAreYou(ctx); err != nil {
		return err
	}
	if j.opts.on("no-hooks") {
		return nil
	}
	if err := j.desk.installHooks(ctx); err != nil {
		return stuck("the checks were not set up: %v", err).try("Nothing was left behind.")
	}
	return nil
}

// whoAreYou keeps name and address in this copy: those of --as, those that a
// person at the terminal types, or those that git knows already.
func (j *joining) whoAreYou(ctx context.Context) error {
	d := j.desk
	if as := j.opts.text("as"); as != "" {
		p, err := d.person(as)
		if err != nil {
			return err
		}
		if p.Email.Text == "" {
			return misuse("people.yaml has no email for %s, which an entry needs", p.Name.Text).try("Without --as you are asked for both.")
		}
		return d.keepIdentity(ctx, p.Name.Text, p.Email.Text)
	}
	if !j.Asks {
		return nil
	}
	known, _, err := d.repo.Identity(j.Now())
	if err != nil && !errors.Is(err, gitrepo.ErrNobody) {
		return stuck("%v", err)
	}
	if err != nil {
		known = history.Person{}
	}
	return d.introduceAs(ctx, known.Name, known.Email)
}

// lookThrough checks the whole ledger and counts its sheets.
func (j *joining) lookThrough(ctx context.Context) (int, error) {
	report, book, err := j.desk.judgedAll(ctx)
	if ctx.Err() != nil {
		return 0, errInterrupted
	}
	if err != nil {
		return 0, stuck("it could not be checked: %v", err).try("Nothing was left behind.")
	}
	if errs, _ := countFindings(report.Findings); errs > 0 {
		j.say("%s", wrap(summary(report.Findings, len(report.Settled), book.Len())+" They were there before you came; blotter check shows them.", j.Width, ""))
	}
	return book.Len(), nil
}

// moveIn gives the copy its place. What hooks need to find the program by is
// written again there, since it may lie in the copy itself.
func (j *joining) moveIn(ctx context.Context, folder string) error {
	if err := ctx.Err(); err != nil {
		return errInterrupted
	}
	if err := j.made.moveTo(j.dir); err != nil {
		return stuck("%v", err).try("Nothing was left behind.")
	}
	j.desk.root = filepath.Join(j.dir, filepath.FromSlash(folder))
	repo, err := gitrepo.Open(j.desk.root, j.Environ)
	if err != nil {
		return stuck("%v", err)
	}
	j.desk.repo.Close()
	j.desk.repo = repo
	j.opened = append(j.opened, repo)
	if j.opts.on("no-hooks") {
		return nil
	}
	if err := hooks.Setup(ctx, repo, j.Program); err != nil {
		return stuck("the copy is made, but its checks were not set up: %v", err).try("There: blotter hooks install")
	}
	return nil
}

// ready is the last line: what there is, and who you are.
func (j *joining) ready(sheets int) error {
	d := j.desk
	line := "Ready. " + sentence(count(sheets, "sheet"))
	author, _, err := d.author()
	if err == nil {
		line += " You are " + author.Name + "."
	}
	j.say("%s", line)
	if err != nil {
		j.tell(`Nobody is known to enter anything here yet. Say who you are: git config user.name "Your Name", git config user.email you@example.org`)
	}
	j.next("cd %s, then blotter status", shellWord(d.root))
	return nil
}
