package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/disk"
	"blotter/ledger/gitrepo"
)

func backupCommand() *command {
	return &command{
		Name: "backup", Family: famMake, Synopsis: "--to FILE",
		Says: "Writes the whole ledger, with all its history, into one file that any git can read.",
		Notes: []string{
			"The file is a git bundle: git clone FILE DIR makes a ledger of it without Blotter. Beside it FILE.sha256 bears its checksum (sha256sum -c FILE.sha256) and says in words what is in it. What was written is read back, object by object, before it counts. Whether the history in it kept its promises is what blotter verify proves: run that before a new backup takes the place of an older one.",
			"Not in it: edits not yet entered, which are counted; files that git is told to leave alone, such as the site; settings of git and the hooks, which restore sets up again.",
			"Keep it private: withheld places and e-mail addresses are in it. Keep copies in another building. Berlin lost its register of loans with its herbarium in 1943; of the sheets only those that were out on loan survived.",
		},
		Examples: []example{
			{"blotter backup --to /media/usb/lauvkroken.bundle", "one file, and its checksum beside it"},
			{"blotter backup --to /media/usb", "named after the museum and the day"},
			{"blotter restore /media/usb/lauvkroken.bundle --check", "read a backup through, write nothing"},
		},
		Flags: []*flag{flagTo, flagYes, flagDryRun},
		Kin:   []string{"restore", "export", "mirror", "verify"},
		Run:   runBackup,
	}
}

// sumEnding is added to the name of a backup for the file with its checksum.
const sumEnding = ".sha256"

func runBackup(ctx context.Context, c *call) error {
	if len(c.args) > 0 {
		return misuse("backup takes the whole ledger; %q is too much", c.args[0]).try("blotter backup --to FILE", "Read one through: blotter restore FILE --check")
	}
	if c.opts.text("to") == "" {
		return misuse("where to? --to names the file, or a folder").try("blotter backup --to /media/usb")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if d.repo == nil {
		return stuck("this folder has no git repository, so nothing is entered that could be backed up").try("Copy the folder as it is.")
	}
	if missing, err := d.repo.Missing(); err != nil || len(missing) > 0 {
		return stuck("this copy of the ledger does not have the whole history; a backup of it could not be read back").
			try("Get the rest: git fetch --unshallow")
	}
	file, err := d.backupPlace()
	if err != nil {
		return err
	}
	b := &backup{desk: d, file: file}
	return b.run(ctx)
}

// backupPlace is the file that --to means, once a backup may be written there.
func (d *desk) backupPlace() (string, error) {
	file := inDir(d.Dir, d.opts.text("to"))
	if info, err := os.Stat(file); err == nil && info.IsDir() {
		file = filepath.Join(file, slugWord(d.museum.Code.Text)+"-"+d.today()+".bundle")
	}
	if dir, err := os.Stat(filepath.Dir(file)); err != nil || !dir.IsDir() {
		return "", stuck("there is no folder %s", filepath.Dir(file))
	}
	if d.liesIn(file) {
		return "", misuse("a backup inside the ledger's folder is lost with it").try("Another disk: blotter backup --to /media/usb")
	}
	base := filepath.Base(file)
	if strings.ContainsFunc(base, func(r rune) bool { return r < ' ' || r == 0x7f || r == '\\' }) || strings.HasSuffix(base, sumEnding) {
		return "", misuse("%q cannot be the name of a backup", base)
	}
	for _, f := range []string{file, file + sumEnding} {
		info, err := os.Lstat(f)
		switch {
		case errors.Is(err, fs.ErrNotExist):
		case err != nil:
			return "", stuck("%v", err)
		case !info.Mode().IsRegular():
			return "", misuse("%s is a folder, a link or a device, not a file that could be replaced", f)
		case !d.opts.on("yes"):
			return "", stuck("%s is there already; nothing was changed", f).try("Keep older backups. Another name: --to FILE", "Replace it: add --yes")
		}
	}
	return file, nil
}

// slugWord is a museum's code as it may stand in the name of a file.
func slugWord(code string) string {
	word := strings.Map(func(r rune) rune {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' || r == '-' {
			return r
		}
		return -1
	}, strings.ToLower(code))
	return cmp.Or(word, "ledger")
}

// backup is one backup on its way.
type backup struct {
	desk    *desk
	file    string
	waiting []pendingFile
	in      gitrepo.InBundle
	read    *gitrepo.Bundle
	size    int64
	sum     string
}

func (b *backup) run(ctx context.Context) error {
	refs, err := b.desk.repo.BundleRefs(ctx)
	if errors.Is(err, gitrepo.ErrNoCommits) {
		return stuck("nothing has been entered yet").try("blotter enter")
	}
	if err != nil {
		return stuck("%v", err)
	}
	if b.waiting, err = b.desk.pending(ctx); err != nil {
		return err
	}
	out, err := b.begin()
	if err != nil {
		return stuck("%v", err)
	}
	defer out.Discard()
	hash := sha256.New()
	if err := b.desk.repo.WriteBundle(ctx, io.MultiWriter(out, hash)); err != nil {
		return b.broken(ctx, err)
	}
	b.size, b.sum = out.Size(), hex.EncodeToString(hash.Sum(nil))
	if err := b.readBack(ctx, out, refs); err != nil {
		return b.broken(ctx, err)
	}
	if b.desk.opts.on("dry-run") {
		b.report()
		return nil
	}
	// Between the two files stands a backup without a checksum beside it, never
	// one beside the checksum of another.
	if err := removeFile(b.file + sumEnding); err != nil {
		return stuck("%v", err)
	}
	if err := out.Commit(); err != nil {
		return b.broken(ctx, err)
	}
	if err := disk.WriteFile(b.file+sumEnding, b.words()); err != nil {
		return stuck("%s is whole, but its checksum was not written: %v", b.file, err).try("Again: add --yes")
	}
	b.report()
	return nil
}

// removeFile removes a file that may not be there.
func removeFile(file string) error {
	if _, err := os.Lstat(file); errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	tree, err := disk.OpenTree(filepath.Dir(file))
	if err != nil {
		return err
	}
	defer tree.Close()
	return tree.Remove(filepath.Base(file))
}

func (b *backup) begin() (*disk.NewFile, error) {
	if b.desk.opts.on("dry-run") {
		return disk.Scratch(cmp.Or(b.desk.getenv("TMPDIR"), os.TempDir()))
	}
	return disk.Begin(b.file)
}

func (b *backup) broken(ctx context.Context, err error) error {
	if ctx.Err() != nil {
		return errInterrupted
	}
	return stuck("not backed up: %v", err).try("What stood there before is as it was.")
}

// readBack reads what was written and holds it to the ledger: the same refs,
// every object whole, as many records.
func (b *backup) readBack(ctx context.Context, out *disk.NewFile, refs []gitrepo.BundleRef) (err error) {
	if b.read, err = gitrepo.OpenBundle(out, out.Size()); err != nil {
		return err
	}
	if err := b.read.Verify(ctx); err != nil {
		return err
	}
	if !slices.Equal(b.read.Refs, refs) {
		return errors.New("something was entered meanwhile; run it again")
	}
	if b.in, err = b.read.Ledger(ctx); err != nil {
		return err
	}
	records := 0
	err = b.desk.repo.Walk(ctx, refs[0].ID, func(path string, _ ledger.BlobID) {
		if _, ok := ledger.NumberOfPath(path); ok {
			records++
		}
	})
	if err == nil && (b.in.Folder == b.desk.repo.Prefix()) && records != b.in.Records {
		err = fmt.Errorf("read back it holds %d records, the ledger %d", b.in.Records, records)
	}
	return err
}

// words are the file beside the backup: what it is, in lines that sha256sum
// passes over, and the checksum as sha256sum writes it.
func (b *backup) words() []byte {
	base := filepath.Base(b.file)
	var s strings.Builder
	line := func(format string, args ...any) { fmt.Fprintf(&s, "# "+format+"\n", args...) }
	line("Backup of the ledger of %s (%s), made on %s.", oneLine(b.desk.museum.Name.Text), oneLine(b.desk.museum.Code.Text), b.desk.today())
	line("In it: %s.", b.contents())
	if b.in.Folder != "" {
		line("The ledger is the folder %s in it.", oneLine(b.in.Folder))
	}
	line("Not in it: %s; files that git leaves alone (the site); settings of git, and its hooks.", b.missing())
	line("Keep it private: withheld places and e-mail addresses are in it. Keep copies in another building.")
	line("Is it whole?   sha256sum -c %s", shellWord(base+sumEnding))
	line("Read it back:  blotter restore %s DIR     or, with git alone:  git clone %s DIR", shellWord(base), shellWord(base))
	fmt.Fprintf(&s, "%s  %s\n", b.sum, base)
	return []byte(s.String())
}

// contents is what is in the backup, in words.
func (b *backup) contents() string { return backupWords(b.read, b.in, b.desk.zone) }

func backupWords(b *gitrepo.Bundle, in gitrepo.InBundle, zone *time.Location) string {
	return fmt.Sprintf("%s in %s, the last of %s (revision %s); %s",
		count(in.Records, "sheet"), count(b.Commits(), "entry"), in.Last.Author.When.In(zone).Format("2 January 2006"), in.Last.ID[:12], branchWords(b.Refs))
}

// branchWords counts what leads into the history.
func branchWords(refs []gitrepo.BundleRef) string {
	branches, tags := 0, 0
	for _, r := range refs {
		switch {
		case strings.HasPrefix(r.Name, "refs/heads/"):
			branches++
		case strings.HasPrefix(r.Name, "refs/tags/"):
			tags++
		}
	}
	words := fmt.Sprintf("%d branches", branches)
	if branches == 1 {
		words = "1 branch"
	}
	if tags > 0 {
		words += ", " + count(tags, "tag")
	}
	return words
}

// missing is what is written and not yet entered, in words.
func (b *backup) missing() string {
	if len(b.waiting) == 0 {
		return "nothing that was written by then"
	}
	sheets := 0
	for _, p := range b.waiting {
		if _, ok := ledger.NumberOfPath(p.path); ok {
			sheets++
		}
	}
	words := count(len(b.waiting), "file") + " not yet entered"
	if sheets > 0 {
		words += " (" + count(sheets, "sheet") + ")"
	}
	return words
}

func (b *backup) report() {
	if b.desk.opts.on("quiet") {
		return
	}
	if len(b.waiting) > 0 {
		b.desk.say("Not in it: %s. To have them in it: blotter enter, then blotter backup again.", b.missing())
	}
	b.desk.say("%s.", b.contents())
	b.desk.say("Read back: every one of %s is whole, and all are there.", count(b.read.Objects(), "object"))
	if b.desk.opts.on("dry-run") {
		b.desk.say("Nothing written: %s bytes.", thousands(int(b.size)))
		return
	}
	b.desk.say("%s, %s bytes, sha256 %s", b.file, thousands(int(b.size)), b.sum)
	b.desk.say("%s", wrap("Keep it private: withheld places and e-mail addresses are in it. Keep a copy in another building.", b.desk.Width, ""))
}

// liesIn reports whether a path lies in the ledger or its repository.
func (d *desk) liesIn(path string) bool {
	real := realPath(path)
	for _, own := range []string{d.root, d.repo.Top(), d.repo.CommonDir(), d.repo.GitDir()} {
		if own == "" {
			continue
		}
		if rel, err := filepath.Rel(realPath(own), real); err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			return true
		}
	}
	return false
}
