package main

import (
	"bufio"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
)

func restoreCommand() *command {
	return &command{
		Name: "restore", Family: famMake, Synopsis: "FILE DIR",
		Says: "Makes a ledger from a backup, in a folder of its own, and says what it found.",
		Notes: []string{
			"The backup is read through first: its checksum, when FILE.sha256 stands beside it, and every object in it. Nothing is written when anything is amiss. A ledger that exists is never touched.",
			"The hooks are set up as init does, and the records are checked. Whether anything ever vanished from its history: blotter verify in the new folder.",
		},
		Examples: []example{
			{"blotter restore /media/usb/lauvkroken.bundle herbarium", "a new ledger in the folder herbarium"},
			{"blotter restore /media/usb/lauvkroken.bundle --check", "prove that it can be read back; write nothing"},
			{"blotter restore lauvkroken.bundle herbarium --no-hooks", "without the checks that git runs"},
		},
		Args:     []argument{{"FILE", "what blotter backup wrote, or any git bundle of a ledger"}, {"DIR", "the folder; it is made, and must not hold anything"}},
		Flags:    []*flag{flagCheck, flagNoHooks},
		Kin:      []string{"backup", "init", "check", "verify"},
		Complete: "files",
		Run:      runRestore,
	}
}

func runRestore(ctx context.Context, c *call) error {
	check := c.opts.on("check")
	switch {
	case len(c.args) == 0:
		return misuse("which backup?").try("blotter restore FILE DIR", "Only read it through: blotter restore FILE --check")
	case len(c.args) == 1 && !check:
		return misuse("where to? The folder of the new ledger is missing").try("blotter restore "+shellWord(c.args[0])+" DIR", "Only read it through: add --check")
	case len(c.args) > 2 || len(c.args) == 2 && check:
		return misuse("%q is too much", c.args[len(c.args)-1])
	}
	dir := ""
	if !check {
		dir = inDir(c.Dir, c.args[1])
		if err := c.fitsForNew(dir, "A restored ledger begins in a folder of its own: blotter restore FILE NEW-FOLDER"); err != nil {
			return err
		}
	}
	f, err := os.Open(inDir(c.Dir, c.args[0]))
	if err != nil {
		return stuck("open the backup: %v", pathless(err))
	}
	defer f.Close()
	b, in, err := c.readBackup(ctx, f)
	if err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return err
	}
	if !c.opts.on("quiet") {
		c.say("%s.", backupWords(b, in, time.UTC))
		c.say("Every one of %s is whole, and all are there.", count(b.Objects(), "object"))
	}
	if check {
		return nil
	}
	return c.restoreInto(ctx, b, in, dir)
}

// pathless is an error of the file system without the path, which is said
// already.
func pathless(err error) error {
	var pe *fs.PathError
	if errors.As(err, &pe) {
		return pe.Err
	}
	return err
}

// fitsForNew refuses a folder that holds anything, and one in a ledger; other
// is what to type instead.
func (c *call) fitsForNew(dir, other string) error {
	list, err := os.ReadDir(dir)
	switch {
	case err == nil && len(list) > 0:
		return misuse("%s is not empty: it holds %s", dir, list[0].Name()).try(other)
	case err == nil && realPath(dir) == realPath(c.Dir):
		return misuse("the folder that we stand in cannot be made anew").try(other)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return stuck("%v", err)
	}
	if root, ok := ledgerAbove(realPath(filepath.Dir(dir))); ok {
		return misuse("%s lies in a ledger, %s", dir, root).try("Name a folder outside it.")
	}
	if up, err := os.Stat(filepath.Dir(dir)); err != nil || !up.IsDir() {
		return stuck("there is no folder %s", filepath.Dir(dir))
	}
	return nil
}

// readBackup holds a backup to its checksum and reads all of it.
func (c *call) readBackup(ctx context.Context, f *os.File) (*gitrepo.Bundle, gitrepo.InBundle, error) {
	var in gitrepo.InBundle
	name := filepath.Base(f.Name())
	info, err := f.Stat()
	if err != nil {
		return nil, in, stuck("%v", err)
	}
	if !info.Mode().IsRegular() {
		return nil, in, stuck("%s is no file", name)
	}
	if err := c.holdToSum(ctx, f); err != nil {
		return nil, in, err
	}
	b, err := gitrepo.OpenBundle(f, info.Size())
	if err == nil {
		err = b.Verify(ctx)
	}
	if err == nil {
		in, err = b.Ledger(ctx)
	}
	const untouched = "Nothing was written. Another copy may be whole: restore that one."
	switch {
	case err == nil:
		return b, in, nil
	case errors.Is(err, gitrepo.ErrNotBundle):
		return nil, in, stuck("%s is no backup: %v", name, cause(err)).try("A backup is what blotter backup or git bundle create writes.")
	case errors.Is(err, gitrepo.ErrPartOfHistory):
		return nil, in, stuck("%s cannot be read back by itself: %v", name, cause(err)).try("Nothing was written. A whole one: blotter backup --to FILE, or git bundle create FILE --all")
	case errors.Is(err, gitrepo.ErrNoLedger):
		return nil, in, stuck("%s is a whole git bundle, but of something else: %v", name, cause(err)).try("Nothing was written.")
	}
	return nil, in, stuck("%s: %v", name, cause(err)).try(untouched)
}

// cause is an error without the words that say what was done.
func cause(err error) string { return strings.TrimPrefix(err.Error(), "read bundle: ") }

// holdToSum holds a backup to the checksum beside it, if there is one.
func (c *call) holdToSum(ctx context.Context, f *os.File) error {
	base := filepath.Base(f.Name())
	want, err := readSum(f.Name()+sumEnding, base)
	if errors.Is(err, fs.ErrNotExist) {
		c.tell("No checksum beside it (%s): only git's own checksums inside it are held to.", base+sumEnding)
		return nil
	}
	if err != nil {
		return stuck("%s: %v", base+sumEnding, pathless(err))
	}
	h := sha256.New()
	buf := make([]byte, 1<<20)
	for {
		n, err := f.Read(buf)
		h.Write(buf[:n])
		if err == io.EOF {
			break
		}
		if err := errors.Join(err, ctx.Err()); err != nil {
			return stuck("%v", err)
		}
	}
	if got := hex.EncodeToString(h.Sum(nil)); got != want {
		return stuck("%s is not as it was written: its sha256 is %s, %s says %s", base, got[:12], base+sumEnding, want[:12]).
			try("Nothing was written. It was changed, cut short, or is another backup; restore another copy.",
				"If only the checksum is wrong, move "+base+sumEnding+" away: what is inside is then held to git's own checksums.")
	}
	return nil
}

// readSum reads the checksum of a file out of a file as sha256sum writes it:
// that of the file's name, or the only one, since files get other names.
func readSum(file, base string) (string, error) {
	f, err := os.Open(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	var only string
	n := 0
	lines := bufio.NewScanner(io.LimitReader(f, 1<<20))
	for lines.Scan() {
		sum, name, ok := strings.Cut(strings.TrimRight(lines.Text(), "\r"), " ")
		if raw, err := hex.DecodeString(sum); !ok || err != nil || len(raw) != sha256.Size {
			continue
		}
		if only, n = strings.ToLower(sum), n+1; strings.TrimLeft(name, " *") == base {
			return only, nil
		}
	}
	if n != 1 {
		return "", errors.New("it bears no checksum of the backup")
	}
	return only, lines.Err()
}

// restoreInto makes the ledger beside its place and moves it there when it is
// whole.
func (c *call) restoreInto(ctx context.Context, b *gitrepo.Bundle, in gitrepo.InBundle, dir string) error {
	m, err := c.makeBeside(ctx, dir)
	if err != nil {
		return err
	}
	defer m.end()
	repo, err := b.Restore(ctx, m.temp, c.Environ)
	if err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return stuck("%v", err).try("Nothing was left behind.")
	}
	repo.Close()
	if err := m.moveTo(dir); err != nil {
		return stuck("%v", err)
	}
	return c.restored(ctx, in, dir)
}

// restored sets up the hooks of a restored ledger and checks it.
func (c *call) restored(ctx context.Context, in gitrepo.InBundle, dir string) error {
	there := c.in(filepath.Join(dir, filepath.FromSlash(in.Folder)))
	defer there.close()
	d, err := there.desk()
	if err != nil {
		return err
	}
	if d.root != there.Dir {
		return stuck("%s is restored, but no ledger was found in it", dir)
	}
	for _, folder := range []string{ledger.SpecimensDir, ledger.NamesDir, ledger.ImagesDir} {
		if err := os.MkdirAll(d.file(folder), 0o777); err != nil {
			return stuck("%v", err)
		}
	}
	if !c.opts.on("no-hooks") {
		if err := d.installHooks(ctx); err != nil {
			return stuck("%s is restored, but the hooks were not set up: %v", dir, err).try("blotter hooks install")
		}
	}
	report, book, err := d.judgedAll(ctx)
	if err != nil {
		return stuck("%s is restored, but was not checked: %v", dir, err).try("blotter check")
	}
	if c.opts.on("quiet") {
		return nil
	}
	d.say("%s", summary(report.Findings, len(report.Settled), book.Len()))
	d.say("%s is the ledger of %s (%s) as it was on %s, revision %s.", d.root, d.museum.Name.Text, d.museum.Code.Text,
		in.Last.Author.When.In(d.zone).Format("2 January 2006"), in.Last.ID[:7])
	d.say("%s", wrap("What was not entered when the backup was made is not in it; numbers that were given since stand on sheets and labels alone: look there before the first new one.", d.Width, ""))
	d.next("cd %s, then blotter status", shellWord(d.root))
	return nil
}
