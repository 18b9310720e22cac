package main

import (
	"context"
	"maps"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/history"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// netChange is what differs of one sheet between two publications, as
// everybody may see it.
type netChange struct {
	history.Change
	Withheld bool   // what was changed is withheld: Fields does not have it
	Gone     bool   // it is no longer published
	Was, Now string // its accepted name, where names/ has another now
}

// words are the kinds of the change.
func (c *netChange) words() []string {
	var out []string
	if c.Gone {
		out = append(out, "no longer published")
	} else if c.Kinds != 0 {
		out = strings.Split(c.Kinds.String(), ", ")
	}
	if c.Now != c.Was {
		out = append(out, "renamed")
	}
	return out
}

// listChange is what differs of one of the museum's lists of names.
type listChange struct {
	Path    string `json:"path"`
	Added   int    `json:"added"`
	Altered int    `json:"altered"`
	Removed int    `json:"removed"`
}

// difference is what changed from one publication to another.
type difference struct {
	Sheets []netChange  // in order of number
	Lists  []listChange // in order of path
}

// comparison makes a difference. What today's policy withholds is withheld of
// the older version too.
type comparison struct {
	desk   *desk
	museum *book.Museum // before
	book   *book.Book   // after
	view   *public.View
	reads  reading.Conventions
}

// difference compares two revisions. now is the Book of the second; nil: it is
// loaded.
func (d *desk) difference(ctx context.Context, from, to string, now *book.Book) (*difference, error) {
	var src [2]ledger.Source
	var files [2][]ledger.File
	for i, id := range []string{from, to} {
		var err error
		if src[i], err = d.repo.At(ctx, id); err == nil {
			files[i], err = src[i].Files(ctx)
		}
		if err != nil {
			return nil, stuck("%v", err)
		}
	}
	sheets, lists := alteredFiles(files)
	out := &difference{}
	if len(sheets) == 0 && !lists {
		return out, nil
	}
	c := &comparison{desk: d, book: now}
	var err error
	if c.book == nil {
		c.book, err = book.Load(ctx, src[1], d.loadOptions())
	}
	if err == nil && lists {
		c.museum, err = book.LoadMuseum(ctx, src[0], files[0], d.cache())
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	c.view, c.reads = public.Of(c.book), reading.ConventionsOf(&c.book.Museum.Museum)
	for _, n := range slices.Sorted(maps.Keys(sheets)) {
		net, err := c.sheet(ctx, n, sheets[n])
		if err != nil {
			return nil, stuck("%v", err)
		}
		if net != nil {
			out.Sheets = append(out.Sheets, *net)
		}
	}
	if lists {
		c.names(out)
	}
	return out, nil
}

// alteredFiles are the records whose files differ, before and after, and
// whether any of the museum's files does.
func alteredFiles(files [2][]ledger.File) (sheets map[ledger.Number][2]ledger.BlobID, museum bool) {
	blobs := map[string]ledger.BlobID{}
	for _, f := range files[0] {
		blobs[f.Path] = f.Blob
	}
	sheets = map[ledger.Number][2]ledger.BlobID{}
	note := func(path string, at int, blob ledger.BlobID) {
		museum = museum || book.IsMuseumFile(path)
		if n, ok := ledger.NumberOfPath(path); ok {
			two := sheets[n]
			two[at] = blob
			sheets[n] = two
		}
	}
	for _, f := range files[1] {
		if blobs[f.Path] != f.Blob {
			note(f.Path, 1, f.Blob)
			if old := blobs[f.Path]; old != "" {
				note(f.Path, 0, old)
			}
		}
		delete(blobs, f.Path)
	}
	for path, blob := range blobs {
		note(path, 0, blob)
	}
	for n, two := range sheets {
		if two[0] == two[1] { // moved to another folder
			delete(sheets, n)
		}
	}
	return sheets, museum
}

// sheet is the change of one sheet; nil when everybody sees what they saw.
func (c *comparison) sheet(ctx context.Context, n ledger.Number, blobs [2]ledger.BlobID) (*netChange, error) {
	if c.book.Aside(n) {
		return nil, nil
	}
	var full, shown [2]history.Version
	withheld := false
	for i, id := range blobs {
		if id == "" {
			continue
		}
		v, err := c.desk.readVersion(ctx, n, id)
		if err != nil {
			return nil, err
		}
		if v.Record == nil || v.Unread || v.Record.Entry.Text != string(ledger.Full) {
			continue
		}
		full[i], shown[i] = v, v
		var why *public.Withheld
		shown[i].Record, why = c.view.Published(v.Record)
		withheld = withheld || why != nil
	}
	if full[0].Record == nil && full[1].Record == nil {
		return nil, nil
	}
	var before []history.Version
	if full[0].Record != nil {
		before = shown[:1]
	}
	net := &netChange{Change: history.Compare(n, before, shown[1], nil, c.reads)}
	switch {
	case full[1].Record == nil:
		net.Gone = true
	case net.Kinds == 0 && withheld && history.Compare(n, full[:1], full[1], nil, c.reads).Kinds != 0:
		net.Kinds, net.Withheld = history.Corrected, true
	case net.Kinds == 0:
		return nil, nil
	}
	return net, nil
}

// names adds the sheets whose accepted name names/ changed, and what changed
// in its lists.
func (c *comparison) names(out *difference) {
	at := map[ledger.Number]int{}
	for i := range out.Sheets {
		at[out.Sheets[i].Number] = i
	}
	accepted := func(m *book.Museum, e *book.Entry) string {
		if a := m.Renamed(e); a != nil {
			return a.Given.Name.Text
		}
		return e.Name
	}
	for e := range c.view.Book.All() {
		was, now := accepted(c.museum, e), accepted(c.book.Museum, e)
		if was == now || e.Stage != ledger.Full {
			continue
		}
		i, ok := at[e.Number]
		if !ok {
			i = len(out.Sheets)
			out.Sheets = append(out.Sheets, netChange{Change: history.Change{Number: e.Number, Place: -1}})
		}
		if x := &out.Sheets[i]; !x.Kinds.Has(history.New | history.Redetermined) {
			x.Was, x.Now = was, now
		}
	}
	slices.SortFunc(out.Sheets, func(a, b netChange) int { return strings.Compare(string(a.Number), string(b.Number)) })
	out.Lists = listChanges(c.museum.Names.All, c.book.Museum.Names.All)
}

// listChanges compares the names of names/, file by file.
func listChanges(before, after []*book.Name) []listChange {
	was := map[[2]string]string{}
	for _, n := range before {
		was[[2]string{n.Path, n.Given.Name.Text}] = nameWords(n.Given)
	}
	changes := map[string]*listChange{}
	of := func(path string) *listChange {
		if changes[path] == nil {
			changes[path] = &listChange{Path: path}
		}
		return changes[path]
	}
	for _, n := range after {
		key := [2]string{n.Path, n.Given.Name.Text}
		words, known := was[key]
		switch {
		case !known:
			of(n.Path).Added++
		case words != nameWords(n.Given):
			of(n.Path).Altered++
		}
		delete(was, key)
	}
	for key := range was {
		of(key[0]).Removed++
	}
	var out []listChange
	for _, path := range slices.Sorted(maps.Keys(changes)) {
		out = append(out, *changes[path])
	}
	return out
}

// nameWords are what everybody may see of an entry of names/.
func nameWords(n *ledger.NameEntry) string {
	return strings.Join([]string{n.Of.Text, n.Published.Text, n.Source.Text, n.Date.Text, n.Native.Text, n.Protection.Text, n.Common.Text}, "\n")
}

// counted says how many sheets changed in which way: "3 new, 1 named anew"; ""
// when none did.
func (x *difference) counted() string {
	counts := map[string]int{}
	var order []string
	for i := range x.Sheets {
		for _, w := range x.Sheets[i].words() {
			if counts[w] == 0 {
				order = append(order, w)
			}
			counts[w]++
		}
	}
	for i, w := range order {
		order[i] = thousands(counts[w]) + " " + w
	}
	return strings.Join(order, ", ")
}
