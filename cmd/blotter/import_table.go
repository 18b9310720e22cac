package main

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/exchange"
)

// isWorkbook knows XLSX and ODS by their endings, and XLS of before 2007 by
// its first bytes, so that it is told what to do with it.
func isWorkbook(file string, info fs.FileInfo) bool {
	if !info.Mode().IsRegular() {
		return false
	}
	return hasEnding(file, ".xlsx", ".xlsm", ".ods") || begins(file, "\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")
}

// begins reports whether a file begins with these bytes.
func begins(file, with string) bool {
	f, err := os.Open(file)
	if err != nil {
		return false
	}
	defer f.Close()
	head := make([]byte, len(with))
	_, err = io.ReadFull(f, head)
	return err == nil && bytes.Equal(head, []byte(with))
}

func importWorkbook(ctx context.Context, c *call, file string) error {
	mapping, err := c.readMapping()
	if err != nil {
		return err
	}
	f, err := os.Open(file)
	if err != nil {
		return stuck("%v", err)
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return stuck("%v", err)
	}
	w, err := exchange.OpenWorkbook(filepath.Base(file), f, info.Size(), mapping)
	if err != nil {
		return stuck("%v", err)
	}
	in := table{Source: w, file: file, form: "sheet " + w.Sheet}
	if len(w.Others) > 0 {
		in.more = []string{"  Not read: the sheets " + strings.Join(w.Others, ", ") + "; one of them is read by sheet: in a mapping."}
	}
	return importTable(ctx, c, in, mapping)
}

func importText(ctx context.Context, c *call, file string) error {
	mapping, err := c.readMapping()
	if err != nil {
		return err
	}
	t, err := exchange.OpenText(filepath.Base(file), func() (io.ReadCloser, error) { return os.Open(file) }, mapping)
	if err != nil {
		return stuck("%v", err)
	}
	in := table{Source: t, file: file, form: t.Charset}
	if t.Sample[0] != "" {
		in.more = []string{fmt.Sprintf("  Its letters were taken for %s: %s. If they are wrong, write encoding: into a mapping.", t.Charset, strings.Join(slices.DeleteFunc(t.Sample[:], func(w string) bool { return w == "" }), ", "))}
	}
	return importTable(ctx, c, in, mapping)
}

// table is an opened table to import.
type table struct {
	exchange.Source
	file string   // where it lies
	form string   // how it is written, in a word or two
	more []string // what else is to be said of it
}

// importTable proposes a mapping, or fits one to the table and brings it in.
func importTable(ctx context.Context, c *call, t table, mapping *ledger.Mapping) error {
	d, noDesk := c.desk()
	if mapping == nil || c.opts.on("propose") {
		prefix := ""
		if noDesk == nil {
			prefix = d.museum.Numbering.Prefix.Text
		}
		profile, err := exchange.NewProfile(t)
		if err != nil {
			return stuck("%v", err)
		}
		p := exchange.Propose(t.Name(), profile, prefix)
		if c.opts.on("propose") {
			fmt.Fprintf(c.Out, "%s", p.Text())
			return nil
		}
		mapping = p.Mapping
	}
	if noDesk != nil {
		return noDesk
	}
	by, err := d.importer()
	if err != nil {
		return err
	}
	plan, err := exchange.NewPlan(t.Heads(), mapping, exchange.Options{By: by, Today: d.todayAsDay()})
	if err != nil {
		return misuse("%v", err)
	}
	return d.bring(ctx, incoming{
		name: t.Name(), noun: "row", numbered: plan.Numbered(),
		made: func(context.Context) iter.Seq2[exchange.Made, error] {
			clear(plan.Blank)
			return plan.Make(t)
		},
		said: func(rows int) { d.sayTable(t, plan, rows) },
		same: func() error { return sameFile(t.file, t.SHA256()) },
	})
}

// sayTable says what the table is and what becomes of its columns.
func (d *desk) sayTable(t table, p *exchange.Plan, rows int) {
	d.say("%s: %s, %s, %s.", t.Name(), count(rows, "row"), count(len(t.Heads()), "column"), t.form)
	for _, line := range t.more {
		d.say("%s", wrap(line, d.Width, "  "))
	}
	blank := make([]string, 0, len(p.Blank))
	for _, words := range slices.SortedFunc(maps.Keys(p.Blank), func(a, b string) int {
		if p.Blank[a] != p.Blank[b] {
			return p.Blank[b] - p.Blank[a]
		}
		return strings.Compare(a, b)
	}) {
		blank = append(blank, fmt.Sprintf("%s (%s)", words, count(p.Blank[words], "cell")))
	}
	for _, part := range []struct {
		what  string
		heads []string
	}{{"Feed a field: ", p.Homed}, {"Kept to the letter under import: ", p.Kept}, {"Left out, as the mapping says: ", p.Ignored}, {"Mean nothing, left out: ", blank}} {
		if len(part.heads) > 0 {
			d.say("%s", hang("  "+part.what, strings.Join(part.heads, ", "), d.Width))
		}
	}
}

// sameFile holds that a file was not changed while a person looked at what it
// would bring.
func sameFile(file, sha256 string) error {
	now, err := sumFile(file)
	if err != nil {
		return stuck("%v", err)
	}
	if now != sha256 {
		return stuck("%s was changed since it was shown; nothing was entered", file).try("Type the command again.")
	}
	return nil
}

// sumFile is the checksum of a file, hexadecimal.
func sumFile(file string) (string, error) {
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
