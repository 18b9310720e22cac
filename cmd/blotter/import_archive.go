package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"iter"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/archive"
	"blotter/ledger/darwincore"
	"blotter/ledger/exchange"
	"blotter/ledger/reading"
)

// isArchive reports whether import takes a path for a Darwin Core archive: a
// zip file that is no spreadsheet, or a folder with a meta.xml in it or in its
// one folder.
func isArchive(path string) bool {
	info, err := os.Stat(path)
	if err != nil {
		return false
	}
	if !info.IsDir() {
		return archive.Is(path) || strings.EqualFold(filepath.Ext(path), ".zip")
	}
	if _, err := os.Stat(filepath.Join(path, "meta.xml")); err == nil {
		return true
	}
	deeper, _ := filepath.Glob(filepath.Join(path, "*", "meta.xml"))
	return len(deeper) == 1
}

// importArchive brings a Darwin Core archive into the ledger, or proposes a
// mapping of its core.
func importArchive(ctx context.Context, c *call, path string) error {
	mapping, err := c.readMapping()
	if err != nil {
		return err
	}
	a, err := archive.Open(path)
	if err != nil {
		return archiveFault(path, err)
	}
	defer a.Close()
	d, noDesk := c.desk()
	x := &archiveImport{a: a, name: filepath.Base(path), tmp: cmp.Or(c.getenv("TMPDIR"), os.TempDir())}
	var opts darwincore.InOptions
	var by exchange.Options
	if noDesk == nil {
		opts.Code, opts.Prefix, opts.Conventions = d.museum.Code.Text, d.museum.Numbering.Prefix.Text, reading.ConventionsOf(d.museum)
		by.Today = d.todayAsDay()
		if by.By, err = d.importer(); err != nil {
			return err
		}
	}
	if x.in, err = darwincore.NewIn(a, opts); err == nil {
		x.sum, err = a.SHA256()
	}
	switch {
	case err != nil:
		return archiveFault(path, err)
	case c.opts.on("propose"):
		return x.propose(ctx, c, opts.Prefix)
	case noDesk != nil:
		return noDesk
	}
	if mapping != nil {
		if x.plan, err = exchange.NewPlan(x.core(ctx).Heads(), mapping, by); err != nil {
			return misuse("%v", err)
		}
	}
	return d.bringArchive(ctx, x)
}

// archiveImport is one archive on its way in.
type archiveImport struct {
	a              *archive.Archive
	in             *darwincore.In
	plan           *exchange.Plan // of the core, when there is a mapping
	name, sum, tmp string
	joined         int            // rows of extensions
	other          map[string]int // rows that are said to be no specimens, by what they are
}

func (x *archiveImport) core(ctx context.Context) *darwincore.Core {
	return x.in.Core(ctx, x.a, x.name, x.sum, x.tmp)
}

// propose prints a mapping of the core.
func (x *archiveImport) propose(ctx context.Context, c *call, prefix string) error {
	profile, err := exchange.NewProfile(x.core(ctx))
	if err != nil {
		return archiveFault(x.name, err)
	}
	c.say("# Without a mapping Blotter goes further: it weighs words against figures and parts collectors.\n# The extensions are read in either case.")
	_, err = c.Out.Write(exchange.Propose(x.name, profile, prefix).Text())
	return err
}

// bringArchive hands the archive's records to the import.
func (d *desk) bringArchive(ctx context.Context, x *archiveImport) error {
	in := incoming{
		name: x.name, noun: "row", numbered: x.in.Numbered(), made: x.made,
		said: func(rows int) {
			d.say("%s: a Darwin Core archive, %s of the core, %s of extensions.", x.name, count(rows, "row"), count(x.joined, "row"))
			for _, what := range slices.Sorted(maps.Keys(x.other)) {
				d.say("%s", wrap(fmt.Sprintf("  %s said to be no preserved specimens but %s (basisOfRecord); they are taken all the same.", count(x.other[what], "row"), what), d.Width, "  "))
			}
			d.sayFeeds(x)
		},
		same: func() error {
			again, err := x.a.SHA256()
			if err == nil && again != x.sum {
				return stuck("%s is not what was shown: it changed meanwhile", x.name).try("blotter import " + x.name)
			}
			return err
		},
	}
	if x.plan != nil {
		in.numbered, in.made = x.plan.Numbered(), x.mapped
	}
	return d.bring(ctx, in)
}

// made makes a record of each row of the core.
func (x *archiveImport) made(ctx context.Context) iter.Seq2[exchange.Made, error] {
	return func(yield func(exchange.Made, error) bool) {
		x.joined, x.other = 0, map[string]int{}
		for s, err := range x.a.Stars(ctx, x.tmp) {
			if err != nil {
				yield(exchange.Made{}, err)
				return
			}
			m := exchange.Made{File: x.name, SHA256: x.sum, Line: s.Line.Line}
			x.came(&m, s)
			m.Record, m.Why = x.in.Record(s)
			if !yield(m, nil) {
				return
			}
		}
	}
}

// mapped makes them as a mapping of the core says.
func (x *archiveImport) mapped(ctx context.Context) iter.Seq2[exchange.Made, error] {
	return func(yield func(exchange.Made, error) bool) {
		x.joined, x.other = 0, map[string]int{}
		core := x.core(ctx)
		for m, err := range x.plan.Make(core) {
			if err != nil {
				yield(m, err)
				return
			}
			x.came(&m, core.Star())
			if m.Record != nil {
				if err := x.in.Join(m.Record, core.Star()); err != nil {
					m.Record, m.Why = nil, err.Error()
				}
			}
			if !yield(m, nil) {
				return
			}
		}
	}
}

// came says where a row comes from and what it is known by.
func (x *archiveImport) came(m *exchange.Made, s *archive.Star) {
	for _, rows := range s.Extensions {
		x.joined += len(rows)
	}
	if what := x.in.Otherwise(s); what != "" {
		x.other[what]++
	}
	if len(x.a.Core.Files) > 1 { // a line stands in each of them
		m.File, m.SHA256 = x.name+"/"+s.File, fileSum(x.sum, s.File)
	}
	if m.Key == "" {
		m.Key, m.List = x.in.Key(s)
	}
	m.List = cmp.Or(m.List, x.name)
}

// fileSum tells the rows of one file of an archive from those of another.
func fileSum(sum, file string) string {
	h := sha256.Sum256([]byte(sum + "\n" + file))
	return hex.EncodeToString(h[:])
}

// sayFeeds says what becomes of the columns.
func (d *desk) sayFeeds(x *archiveImport) {
	fed, kept, left := x.in.Feeds()
	why := "Left out, as they follow from the others: "
	if x.plan != nil {
		fed, kept, left, why = x.plan.Homed, x.plan.Kept, x.plan.Ignored, "Left out, as the mapping says: "
	}
	for _, part := range []struct {
		what  string
		heads []string
	}{{"Feed a field: ", fed}, {"Kept to the letter under import: ", kept}, {why, left}} {
		if len(part.heads) > 0 {
			d.say("%s", hang("  "+part.what, strings.Join(part.heads, ", "), d.Width))
		}
	}
}

// archiveFault is an archive that cannot be read, with what to do.
func archiveFault(path string, err error) error {
	if errors.Is(err, archive.ErrNoMeta) {
		return stuck("%v", err).try("A spreadsheet or a table is imported by itself: blotter import register.csv")
	}
	return stuck("%v", err)
}
