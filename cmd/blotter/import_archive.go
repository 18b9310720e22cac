package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
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
	if c.opts.on("propose") {
		m, err := darwincore.Propose(a)
		if err != nil {
			return archiveFault(path, err)
		}
		c.say("# Which column of the core of %s feeds which field. Without a mapping Blotter goes further:\n# it weighs words against figures and parts the collectors. Mend it, then:\n# blotter import %s --map THIS-FILE", filepath.Base(path), c.args[0])
		fmt.Fprintf(c.Out, "%s", ledger.EncodeMapping(m))
		return nil
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	return d.bringArchive(ctx, path, a, mapping)
}

// bringArchive hands the archive's records to the import.
func (d *desk) bringArchive(ctx context.Context, path string, a *archive.Archive, mapping *ledger.Mapping) error {
	by, err := d.importer()
	if err != nil {
		return err
	}
	name := filepath.Base(path)
	in, err := darwincore.NewIn(a, darwincore.InOptions{Name: name, Code: d.museum.Code.Text, Prefix: d.museum.Numbering.Prefix.Text,
		By: by, Today: d.todayAsDay(), Conventions: reading.ConventionsOf(d.museum), Mapping: mapping})
	if err != nil {
		return archiveFault(path, err)
	}
	sum, err := a.SHA256()
	if err != nil {
		return archiveFault(path, err)
	}
	joined := 0
	return d.bring(ctx, incoming{
		name: name, noun: "row", numbered: in.Numbered(),
		made: func(ctx context.Context) iter.Seq2[exchange.Made, error] {
			joined = 0
			return d.archived(ctx, a, in, name, sum, &joined)
		},
		said: func(rows int) {
			d.say("%s: a Darwin Core archive, %s of the core, %s of extensions.", name, count(rows, "row"), count(joined, "row"))
			d.sayFeeds(in)
		},
		same: func() error {
			again, err := a.SHA256()
			if err == nil && again != sum {
				return stuck("%s is not what was shown: it changed meanwhile", name).try("blotter import " + name)
			}
			return err
		},
	})
}

// archived makes a record of each row of the core.
func (d *desk) archived(ctx context.Context, a *archive.Archive, in *darwincore.In, name, sum string, joined *int) iter.Seq2[exchange.Made, error] {
	return func(yield func(exchange.Made, error) bool) {
		for s, err := range a.Stars(ctx, cmp.Or(d.getenv("TMPDIR"), os.TempDir())) {
			if err != nil {
				yield(exchange.Made{}, err)
				return
			}
			for _, rows := range s.Extensions {
				*joined += len(rows)
			}
			m := exchange.Made{File: name, SHA256: sum, Line: s.Line.Line}
			if len(a.Core.Files) > 1 { // a line stands in each of them
				m.File, m.SHA256 = name+"/"+s.File, fileSum(sum, s.File)
			}
			if m.Key, m.List = in.Key(s); m.List == "" {
				m.List = name
			}
			m.Record, m.Why = in.Record(s)
			if !yield(m, nil) {
				return
			}
		}
	}
}

// fileSum tells the rows of one file of an archive from those of another.
func fileSum(sum, file string) string {
	h := sha256.Sum256([]byte(sum + "\n" + file))
	return hex.EncodeToString(h[:])
}

// sayFeeds says what becomes of the columns.
func (d *desk) sayFeeds(in *darwincore.In) {
	fed, kept, left := in.Feeds()
	why := "Left out, as the mapping says: "
	if in.Ours() {
		why = "Left out, as they follow from the others: "
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
	if strings.HasPrefix(err.Error(), "mapping ") {
		return misuse("%v", err)
	}
	return stuck("%v", err)
}
