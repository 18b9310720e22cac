package main

import (
	"bytes"
	"context"
	"encoding/hex"
	"fmt"
	"io/fs"
	"net/url"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/pictures"
)

// pictureFlags are those of an import of pictures.
var pictureFlags = []*flag{flagStubs, flagCopy, flagAddress, flagPhotogr, flagLicence, flagShows, flagNoCodes}

// arePictures reports whether import takes a path for pictures: a folder, or
// one picture.
func arePictures(file string, info fs.FileInfo) bool {
	return info.IsDir() || info.Mode().IsRegular() && pictures.IsPicture(file)
}

func importPictures(ctx context.Context, c *call, file string) error {
	d, err := c.desk()
	if err != nil {
		return err
	}
	if info, err := os.Stat(file); err == nil && info.IsDir() {
		return d.importPictures(ctx, file, "")
	}
	return d.importPictures(ctx, filepath.Dir(file), filepath.Base(file))
}

// picturing is one run of import over a folder of pictures.
type picturing struct {
	desk   *desk
	dir    string // the folder
	name   string // as typed
	others int    // files that are no pictures
	shots  []shot
	known  pictureIndex

	sorted [lastOutcome][]int          // places in shots, by what becomes of them
	ties   map[ledger.Number][]pending // new pictures by sheet
	stubs  map[ledger.Number]bool      // sheets to be made
	free   func() (ledger.Number, error)
	taken  map[string]bool // keys of numbers that were ever in the ledger
	place  map[int]string  // of a picture to be copied: its path below images/
	asked  map[string]string
}

// pending is a picture on its way to a record.
type pending struct {
	at    int // in shots
	entry []ledger.KV
}

// importPictures ties the pictures of a folder to sheets: rehearses, asks, and
// enters them as one entry. only, when not "", is the one file that is taken.
func (d *desk) importPictures(ctx context.Context, dir, only string) error {
	if d.opts.given("address") && d.opts.on("copy") {
		return misuse("--copy and --address are both given; one of them says where the pictures lie")
	}
	p := &picturing{desk: d, dir: dir, name: filepath.Base(dir), ties: map[ledger.Number][]pending{}, stubs: map[ledger.Number]bool{},
		taken: map[string]bool{}, place: map[int]string{}, asked: map[string]string{}}
	if err := p.list(ctx, only); err != nil {
		return err
	}
	if len(p.shots) == 0 {
		d.say("%s has no pictures.", dir)
		return nil
	}
	if err := p.examine(ctx); err != nil {
		return err
	}
	if d.opts.on("positions") {
		return p.placeByPictures(ctx)
	}
	if err := p.sortPictures(ctx); err != nil {
		return err
	}
	if err := p.askWhatIsMissing(ctx); err != nil {
		return err
	}
	changes, err := p.changes()
	if err != nil {
		return err
	}
	sound, faulty, found, err := p.judge(ctx, changes)
	if err != nil {
		return err
	}
	p.show(sound, faulty, found)
	if len(sound) == 0 {
		d.say("Nothing to enter.")
		return p.fault(faulty)
	}
	if len(faulty) > 0 && d.opts.on("strict") {
		d.say("Nothing was entered: --strict.")
		return errFindings
	}
	if err := p.enterPictures(ctx, sound); err != nil {
		return err
	}
	return p.fault(faulty)
}

// fault ends a run in exit 1 when pictures were left over.
func (p *picturing) fault(faulty []fileChange) error {
	left := len(faulty)
	for _, o := range []outcome{noNumber, noRecord, twoNumbers, disagree, unreadable} {
		left += len(p.sorted[o])
	}
	if left > 0 {
		return errFindings
	}
	return nil
}

// enterPictures asks, brings the files to their places and makes the one
// entry.
func (p *picturing) enterPictures(ctx context.Context, sound []fileChange) error {
	pics, sheets := p.counted(sound)
	question := "Tie " + count(pics, "picture") + " to " + count(sheets, "sheet") + "?"
	if ok, err := p.desk.consent(ctx, question); !ok {
		return err
	}
	also, undo, err := p.bring(ctx, sound)
	if err != nil {
		undo()
		return err
	}
	subject := "Tie " + count(pics, "picture") + " to " + count(sheets, "sheet")
	if n := p.made(sound); n > 0 {
		subject += ", " + thousands(n) + " of them new"
	}
	r, err := p.desk.enter(ctx, entry{changes: sound, also: also, judged: true, subject: subject})
	if err != nil {
		undo()
		return err
	}
	p.desk.report(r, count(pics, "picture")+" tied to "+count(sheets, "sheet"))
	return nil
}

// counted is how many pictures the changes tie, and to how many sheets.
func (p *picturing) counted(changes []fileChange) (pics, sheets int) {
	for _, c := range changes {
		n, _ := ledger.NumberOfPath(c.path)
		pics += len(p.ties[n])
	}
	return pics, len(changes)
}

func (p *picturing) made(changes []fileChange) int {
	n := 0
	for _, c := range changes {
		if c.old == nil {
			n++
		}
	}
	return n
}

// changes are the records with their new pictures.
func (p *picturing) changes() ([]fileChange, error) {
	var out []fileChange
	for _, n := range sortedNumbers(p.ties) {
		list := p.ties[n]
		for i := range list {
			var err error
			if list[i].entry, err = p.entryOf(n, list[i].at); err != nil {
				return nil, err
			}
		}
		if p.stubs[n] {
			c, err := stubOf(n, list)
			if err != nil {
				return nil, err
			}
			out = append(out, c)
			continue
		}
		c, err := p.desk.editSheet(n, func(*ledger.Record) ([]ledger.Op, error) {
			var ops []ledger.Op
			for _, x := range list {
				ops = append(ops, ledger.Append("images", x.entry...))
			}
			return ops, nil
		})
		if err != nil {
			return nil, err
		}
		out = append(out, c)
	}
	return out, nil
}

// stubOf is the record of a sheet of which there is a picture only.
func stubOf(n ledger.Number, list []pending) (fileChange, error) {
	r := &ledger.Record{Path: n.Path()}
	r.Specimen.Text, r.Entry.Text = string(n), string(ledger.Stub)
	src := ledger.Encode(r)
	for _, x := range list {
		var err error
		if src, err = ledger.Edit(src, ledger.Append("images", x.entry...)); err != nil {
			return fileChange{}, refusedEdit(n, err)
		}
	}
	return fileChange{path: n.Path(), new: src}, nil
}

func sortedNumbers[V any](m map[ledger.Number]V) []ledger.Number {
	out := make([]ledger.Number, 0, len(m))
	for n := range m {
		out = append(out, n)
	}
	slices.Sort(out)
	return out
}

// entryOf is what is written of a picture. A flag says more than what the
// camera was set to, and the camera more than an answer for all.
func (p *picturing) entryOf(n ledger.Number, at int) ([]ledger.KV, error) {
	s := &p.shots[at]
	file, err := p.fileOf(n, at)
	if err != nil {
		return nil, err
	}
	day := ""
	if s.meta.Taken.Known() {
		day = s.meta.Taken.Clock.Format(time.DateOnly)
	}
	return []ledger.KV{{Key: "file", Value: file}, {Key: "shows", Value: p.said("shows", s.shows)},
		{Key: "photographer", Value: p.said("photographer", s.meta.Artist)}, {Key: "date", Value: day},
		{Key: "licence", Value: p.said("licence", s.meta.Copyright)}, {Key: "checksum", Value: "sha256:" + hex.EncodeToString(s.sum[:])}}, nil
}

// said is the value of a flag, or else what the picture says, or else the
// answer for all.
func (p *picturing) said(flag, own string) string {
	switch {
	case p.desk.opts.given(flag):
		return p.desk.opts.text(flag)
	case own != "":
		return own
	}
	return p.asked[flag]
}

// askWhatIsMissing asks a person once for what some pictures do not say.
func (p *picturing) askWhatIsMissing(ctx context.Context) error {
	if !p.desk.Asks || p.desk.opts.on("yes") || p.desk.opts.on("dry-run") {
		return nil
	}
	a := p.desk.asker()
	for _, q := range []struct {
		flag, words string
		own         func(*shot) string
	}{
		{"photographer", "Who took %s (Enter: not known)? ", func(s *shot) string { return s.meta.Artist }},
		{"licence", "Under which terms may %s be used (Enter: not said)? ", func(s *shot) string { return s.meta.Copyright }},
		{"shows", "What is to be seen on %s, for example whole sheet (Enter: not said)? ", func(s *shot) string { return s.shows }},
	} {
		lack := 0
		for _, list := range p.ties {
			for _, x := range list {
				if q.own(&p.shots[x.at]) == "" {
					lack++
				}
			}
		}
		if lack == 0 || p.desk.opts.given(q.flag) {
			continue
		}
		answer, err := a.ask(ctx, fmt.Sprintf(q.words, "the "+count(lack, "picture")+" without a word on it"))
		if err != nil {
			return err
		}
		p.asked[q.flag] = answer
	}
	return nil
}

// fileOf is what is written under file: the path below images/ where the
// picture lies or is brought, its address on the web, or where it lies outside
// the ledger.
func (p *picturing) fileOf(n ledger.Number, at int) (string, error) {
	s := &p.shots[at]
	full := filepath.Join(p.dir, filepath.FromSlash(s.rel))
	if rel, err := filepath.Rel(p.desk.root, full); err == nil {
		if rel = filepath.ToSlash(rel); strings.HasPrefix(rel, ledger.ImagesDir+"/") {
			p.place[at] = rel
			return rel, nil
		}
	}
	switch {
	case p.desk.opts.on("copy"):
		return p.copyPlace(n, at)
	case p.desk.opts.given("address"):
		base, err := url.Parse(p.desk.opts.text("address"))
		if err != nil || !book.IsAddress(base.String()) || base.Host == "" {
			return "", misuse("--address %q is no web address", p.desk.opts.text("address")).try("blotter import DIR --address https://pictures.example/2026")
		}
		return base.JoinPath(strings.Split(s.rel, "/")...).String(), nil
	}
	slashed := filepath.ToSlash(full)
	if !strings.HasPrefix(slashed, "/") {
		slashed = "/" + slashed // a drive
	}
	return (&url.URL{Scheme: "file", Path: slashed}).String(), nil
}

// copyPlace is a free path below images/ named after the sheet: names of files
// are public, and the one that the photographer gave may tell the place.
func (p *picturing) copyPlace(n ledger.Number, at int) (string, error) {
	s := &p.shots[at]
	for k := 1; ; k++ {
		name := string(n)
		if k > 1 {
			name += "_" + itoa(k)
		}
		to := ledger.ImagesDir + "/" + name + strings.ToLower(path.Ext(s.rel))
		if slices.ContainsFunc(p.ties[n], func(x pending) bool { return x.at != at && p.place[x.at] == to }) {
			continue
		}
		info, err := os.Lstat(p.desk.file(to))
		if err == nil && (!info.Mode().IsRegular() || info.Size() != s.size || !p.sameSum(to, s.sum)) {
			continue
		}
		p.place[at] = to
		return to, nil
	}
}

func (p *picturing) sameSum(file string, sum [32]byte) bool {
	have, _, err := sumOfFile(p.desk.file(file))
	return err == nil && bytes.Equal(have[:], sum[:])
}
