package main

import (
	"context"
	"encoding/json"
	"os"
	"path/filepath"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/render"
)

// staffFolder is where the staff's site goes when --to does not say; git
// leaves it alone.
const staffFolder = "site-staff"

// siteDir is the folder that the site goes into, once it is fit for it.
func (d *desk) siteDir(staff bool) (string, error) {
	dir := filepath.Join(d.root, siteFolder)
	if staff {
		dir = filepath.Join(d.root, staffFolder)
	}
	if to := d.opts.text("to"); to != "" {
		dir = inDir(d.Dir, to)
	}
	if err := d.fitsForSite(dir); err != nil {
		return "", err
	}
	return dir, apart(dir, staff)
}

// siteKind says what site stands in a folder: none, a public one or the
// staff's.
func siteKind(dir string) (stands, staff bool) {
	b, err := os.ReadFile(filepath.Join(dir, "site.json"))
	if err != nil {
		return false, false
	}
	var v struct {
		Staff bool `json:"staff_only"`
	}
	return json.Unmarshal(b, &v) == nil, v.Staff
}

// apart refuses a folder in which the staff's site and a public one would
// stand in each other: whoever puts the one on the web puts the other there.
func apart(dir string, staff bool) error {
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	if stands, was := siteKind(dir); stands && was != staff {
		if staff {
			return misuse("%s holds the public catalogue", dir).try("blotter publish --staff --to DIR")
		}
		return misuse("%s holds the staff's site, which shows withheld places", dir).try("blotter publish --to DIR")
	}
	for up := filepath.Dir(dir); up != filepath.Dir(up); up = filepath.Dir(up) {
		if stands, was := siteKind(up); stands && was != staff {
			return misuse("%s lies in a folder with the other site: %s", dir, up).try("Name a folder beside it: --to DIR")
		}
	}
	below, _ := os.ReadDir(dir) // none: nothing stands there yet
	for _, e := range below {
		if stands, was := siteKind(filepath.Join(dir, e.Name())); e.IsDir() && stands && was != staff {
			return misuse("the other site stands in %s", filepath.Join(dir, e.Name())).try("Name a folder beside it: --to DIR")
		}
	}
	return nil
}

// publishedForStaff says what was made, and that git is told to leave it alone.
func (d *desk) publishedForStaff(r render.Report, tip, dir string) {
	if rel, err := filepath.Rel(d.root, dir); err == nil && filepath.IsLocal(rel) {
		if err := disk.WriteFile(filepath.Join(dir, ".gitignore"), []byte("*\n")); err != nil {
			d.tell("git could not be told to leave %s alone: %v", dir, err)
		}
	}
	if d.opts.on("quiet") {
		return
	}
	d.say("For the staff only: %s, revision %s. %s written, %s unchanged%s. Nothing is withheld in it; it is not to be made public.",
		count(r.Sheets, "sheet"), tip[:7], count(r.Written, "file"), thousands(r.Unchanged), removedWords(r.Removed))
	d.say("%s", filepath.Join(dir, "index.html"))
}

// staffDays is how far ahead the staff's due page looks.
const staffDays = 30

// staffWork is what the staff's site shows of work/, as of today.
func (d *desk) staffWork(ctx context.Context, src ledger.Source, b *book.Book, load *book.Loader) (*render.StaffWork, error) {
	w, err := work.Load(ctx, src, b)
	if err != nil {
		return nil, stuck("read %s/: %v", ledger.WorkDir, err)
	}
	day := d.todayAsDay()
	print, err := d.toPrint(ctx, w, load)
	if err != nil {
		return nil, err
	}
	things, err := due.List(ctx, w, due.On{Print: print.due(), Day: day, Within: staffDays, Zone: d.zone, Record: load.Record})
	if err != nil {
		return nil, stuck("%v", err)
	}
	return &render.StaffWork{Works: w, Day: day, Due: things}, nil
}
