package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"hash/fnv"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/disk"
)

// run writes the file, looks through it and puts it in place.
func (x *exporting) run(ctx context.Context, kind exportKind) error {
	file := x.desk.opts.text("to")
	if file != "-" {
		file = inDir(x.desk.Dir, file)
		if err := x.mayReplace(file); err != nil {
			return err
		}
	}
	if len(x.chosen) == 0 {
		x.sayLeft()
		return stuck("no sheet is left to export; nothing was written")
	}
	if err := x.givesAway(); err != nil {
		return err
	}
	out, err := x.begin(file)
	if err != nil {
		return stuck("%v", err)
	}
	defer out.Discard()
	sum := sha256.New()
	x.Out = io.MultiWriter(out, sum)
	if err := kind.Write(ctx, x); err != nil {
		if ctx.Err() != nil {
			return errInterrupted
		}
		return stuck("%v", err).try("Nothing was written.")
	}
	if !x.Full {
		secrets, err := x.view.Secrets(ctx, x.load)
		if err != nil {
			return stuck("%v", err)
		}
		if err := x.desk.lookThrough(ctx, secrets, "export:"+kind.Name, out, out.Size()); err != nil {
			return err
		}
	}
	hash := hex.EncodeToString(sum.Sum(nil))
	if err := x.place(out, file, hash); err != nil {
		return stuck("%v", err)
	}
	x.report(file, out.Size(), hash)
	return nil
}

// begin begins the file beside the place where it will stand; what goes to
// the screen or nowhere waits among temporary files.
func (x *exporting) begin(file string) (*disk.NewFile, error) {
	if file == "-" || x.desk.opts.on("dry-run") {
		return disk.Scratch(cmp.Or(x.desk.getenv("TMPDIR"), os.TempDir()))
	}
	return disk.Begin(file)
}

// place puts the file where it belongs.
func (x *exporting) place(out *disk.NewFile, file, hash string) error {
	switch {
	case x.desk.opts.on("dry-run"):
		return nil
	case file == "-":
		if _, err := out.Seek(0, io.SeekStart); err != nil {
			return err
		}
		_, err := io.Copy(x.desk.env.Out, out)
		return err
	}
	// Noted before, beside what was exported last, and after: broken off between
	// them, either file is known as ours.
	last, _ := os.ReadFile(x.exportNote(file))
	noted := x.desk.keepState(x.exportNote(file), []byte(hash+"\n"+string(last)))
	if saysNoRoom(noted) {
		return noted
	}
	if err := out.Commit(); err != nil {
		return err
	}
	if err := cmp.Or(noted, x.desk.keepState(x.exportNote(file), []byte(hash+"\n"))); err != nil {
		x.desk.tell("this export could not be noted (%v); --yes is needed to replace it", err)
	}
	return nil
}

// report says what was written and what was not.
func (x *exporting) report(file string, size int64, hash string) {
	say := x.desk.say
	if file == "-" {
		say = x.desk.tell // the file itself goes to the screen
	}
	whom := "for everybody"
	if x.Full {
		whom = "for " + x.desk.opts.text("for") + ", with exact places"
	}
	if !x.desk.opts.on("quiet") {
		say("%s, revision %s, %s.%s", count(len(x.chosen), "sheet"), x.tip[:7], whom, prefixedAny(" ", x.Said))
		if x.Full {
			say("%s %s not to be published.", thousands(x.held), verb(x.held, "of them has an exact place that is", "of them have exact places that are"))
		} else {
			say("%s; nothing withheld found in the file.", withheldWords(x.held))
		}
		x.sayLeft()
		if staged, err := x.desk.repo.Unentered(context.Background()); err == nil && staged && !x.desk.opts.given("at") {
			say("Edits that are not entered yet are not in it: blotter status")
		}
	}
	switch {
	case x.desk.opts.on("dry-run"):
		say("Nothing written: %s bytes.", thousands(int(size)))
	case file != "-" && !x.desk.opts.on("quiet"):
		say("%s, %s bytes, sha256 %s", file, thousands(int(size)), hash)
	}
}

func verb(n int, one, more string) string {
	if n == 1 {
		return one
	}
	return more
}

// sayLeft says what of the selection does not go out.
func (x *exporting) sayLeft() {
	var words []string
	for _, w := range []struct {
		n    int
		noun string
	}{{x.left.drafts, "draft"}, {x.left.stubs, "stub"}} {
		if w.n > 0 {
			words = append(words, count(w.n, w.noun))
		}
	}
	if n := x.left.teaching; n > 0 {
		words = append(words, count(n, "sheet")+" of teaching or student lots, not yet taken in")
	}
	if n := x.left.mistakes; n > 0 {
		words = append(words, count(n, "number")+" that "+verb(n, "was a mistake or goes", "were mistakes or go")+" on under another")
	}
	if len(words) > 0 && !x.desk.opts.on("quiet") {
		x.desk.tell("Not exported: %s.", strings.Join(words, ", "))
	}
}

// exportNote is where the checksum of the file that was last exported to a
// place is noted; two while one takes the place of the other.
func (x *exporting) exportNote(file string) string {
	h := fnv.New64a()
	h.Write([]byte(file))
	return filepath.Join(x.desk.repo.StateDir(), fmt.Sprintf("export-%016x", h.Sum64()))
}

// mayReplace refuses to replace what this ledger did not export to the same
// place, unless --yes is given, and anything that is no plain file.
func (x *exporting) mayReplace(file string) error {
	if err := x.fitsForExport(file); err != nil {
		return err
	}
	info, err := os.Lstat(file)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if dir, err := os.Stat(filepath.Dir(file)); err != nil || !dir.IsDir() {
			return stuck("there is no folder %s", filepath.Dir(file))
		}
		return nil
	case err != nil:
		return stuck("%v", err)
	case !info.Mode().IsRegular():
		return misuse("%s is a folder, a link or a device, not a file that could be replaced", file)
	case x.desk.opts.on("yes"):
		return nil
	}
	noted, err := os.ReadFile(x.exportNote(file))
	if err == nil {
		if hash, err := fileHash(file); err == nil && slices.Contains(strings.Fields(string(noted)), hash) {
			return nil
		}
	}
	return stuck("%s is there already and is not what was last exported to it; nothing was changed", file).
		try("Another name: --to FILE", "Replace it: add --yes")
}

// fitsForExport refuses the folders of the ledger's own files.
func (x *exporting) fitsForExport(file string) error {
	dir := filepath.Dir(file)
	if dir == x.desk.root {
		return nil
	}
	if err := x.desk.fitsForSite(dir); err != nil {
		return misuse("an export cannot stand among the ledger's own files").try("Another place: --to ../" + filepath.Base(file))
	}
	return nil
}

// fileHash is the SHA-256 of a file in hexadecimal.
func fileHash(file string) (string, error) {
	f, err := os.Open(file)
	if err != nil {
		return "", err
	}
	defer f.Close()
	h := sha256.New()
	if _, err := io.Copy(h, f); err != nil {
		return "", err
	}
	return hex.EncodeToString(h.Sum(nil)), nil
}
