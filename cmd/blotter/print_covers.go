package main

import (
	"context"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/shelf"
	"blotter/render/document"
	"blotter/render/label"
	"blotter/render/paper"
)

// coversPrint is the list of covers that are needed, and their labels.
func coversPrint() printKind {
	return printKind{
		Name: "covers", Says: "labels of genus covers and folders: those needed since a REV, of SHEETS, or --of a family or genus; as text the list of them", Takes: "[SHEETS]",
		Flags: []*flag{flagSince, flagOf},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			c, err := d.covers(ctx, words)
			if err != nil {
				return nil, err
			}
			return d.coverList(c), nil
		},
		Blocks: func(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
			c, err := d.covers(ctx, words)
			if err != nil {
				return nil, nil, err
			}
			return d.coverPapers(c)
		},
	}
}

// covers are covers to be made or labelled.
type covers struct {
	title  string
	genera []shelf.Need
	need   []shelf.Need
	shelf  *shelf.Shelves
}

// covers are those that are asked for.
func (d *desk) covers(ctx context.Context, words []string) (*covers, error) {
	of, since := d.opts.text(flagOf.Name), d.opts.text(flagSince.Name)
	picked := len(words) > 0 || d.opts.text("where") != ""
	switch {
	case of != "" && (picked || since != ""):
		return nil, misuse("--of is given beside sheets or --since; one of them is enough")
	case of != "":
		return d.coversUnder(ctx, of)
	case since != "" && !picked:
		m, err := d.movesSince(ctx)
		if err != nil {
			return nil, err
		}
		c := &covers{title: "Covers needed since " + since, need: shelf.Needed(m.before, m.after), shelf: m.after}
		c.genera = shelf.NewGenera(m.before, c.need)
		return c, nil
	}
	return d.coversOfSheets(ctx, words)
}

// coversUnder are all covers of a family or genus, with those of its genera.
func (d *desk) coversUnder(ctx context.Context, of string) (*covers, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	s := shelvesOf(w)
	all := shelf.Needed(&shelf.Shelves{}, s)
	c := &covers{title: "Covers of " + of, shelf: s}
	var names []string
	for _, n := range all {
		if strings.EqualFold(n.Cover.Family, of) || strings.EqualFold(n.Cover.Genus, of) {
			c.need = append(c.need, n)
		}
		names = append(names, n.Cover.Family, n.Cover.Genus)
	}
	if len(c.need) == 0 {
		f := misuse("no sheet lies in a cover of the family or genus %s", of)
		if near := nearest(of, names); near != "" {
			f = misuse("no sheet lies in a cover of the family or genus %s; did you mean %s?", of, near)
		}
		return nil, f
	}
	c.genera = shelf.NewGenera(&shelf.Shelves{}, c.need)
	return c, nil
}

// coversOfSheets are the covers in which sheets lie, each once.
func (d *desk) coversOfSheets(ctx context.Context, words []string) (*covers, error) {
	if len(words) == 0 && d.opts.text("where") == "" {
		return nil, misuse("covers of which sheets, of what, or since when?").try("blotter print covers --since 2026-11-01", "blotter print covers --of Ranunculus", "blotter print covers 480..489")
	}
	ns, _, err := d.sheets(ctx, words)
	if err != nil {
		return nil, err
	}
	w, err := d.works(ctx)
	if err != nil {
		return nil, err
	}
	s := shelvesOf(w)
	c := &covers{title: "Covers of " + count(len(ns), "sheet"), shelf: s}
	seen := map[*shelf.Cover]bool{}
	for _, n := range ns {
		e := w.Book().Find(n)
		if e == nil {
			continue
		}
		if p, ok := s.Of(e); ok && !seen[p.Cover] {
			seen[p.Cover] = true
			c.need = append(c.need, shelf.Need{Cover: p.Cover, Place: p, Sheets: p.Cover.Sheets})
		}
	}
	return c, nil
}

// coverList is the covers to make, with what stands on them.
func (d *desk) coverList(c *covers) *document.Document {
	doc := &document.Document{Title: c.title}
	var rows [][]string
	for _, g := range c.genera {
		rows = append(rows, []string{"genus", g.Cover.Genus, "", familyWords(g.Cover), g.Place.Bay.Name, ""})
	}
	for _, n := range c.need {
		v := n.Cover
		rows = append(rows, []string{coverKind(v), v.Title(), v.Colour, familyWords(v), n.Place.Bay.Name, itoa(v.Folders)})
	}
	if len(rows) == 0 {
		doc.Say("No cover is needed.")
	}
	doc.Table([]string{"cover", "what stands on it", "colour", "family", "cabinet", "folders"}, rows)
	doc.Names("what stands on it")
	return doc
}

func coverKind(c *shelf.Cover) string {
	if c.Name == c.Genus || c.Genus == "" {
		return "genus"
	}
	return "species"
}

func familyWords(c *shelf.Cover) string { return joinNonEmpty(" ", c.Family, c.Number) }

// coverPapers are the labels: one for each genus cover, one for each folder.
func (d *desk) coverPapers(c *covers) (*smallPapers, []refusedPaper, error) {
	set := ledger.WithStandard(d.museum)
	lang := label.LanguageOf(set.Labels.Language.Text)
	w, h := millimetresOr(set.Covers.Width, 105), millimetresOr(set.Covers.Height, 40)
	out := &smallPapers{Noun: "folder label", Place: paper.Size{W: w, H: h}}
	var refused []refusedPaper
	add := func(f label.Folder) {
		b, no := label.Cover(f, d.museum.Name.Text, w, h, lang)
		if no != nil {
			refused = append(refused, refusedPaper{Code: no.Code, Why: no.Why, Try: no.Try})
			return
		}
		out.Blocks = append(out.Blocks, smallPaper{Block: b})
	}
	for _, g := range c.genera {
		v := g.Cover
		add(label.Folder{Genus: true, Series: v.Series, Family: v.Family, Number: v.Number, Name: v.Genus, Cabinet: g.Place.Bay.Name})
	}
	for _, n := range c.need {
		for i := range n.Cover.Folders {
			add(d.folderOf(c.shelf, n.Cover, i))
		}
	}
	colours := false
	for _, n := range c.need {
		colours = colours || n.Cover.Colour != ""
	}
	if colours {
		out.Said = append(out.Said, "The colour of a region stands in words; what is printed is black. Coloured paper makes it seen from afar.")
	}
	return out, refused, nil
}

// folderOf is folder i of a cover, from 0.
func (d *desk) folderOf(s *shelf.Shelves, v *shelf.Cover, i int) label.Folder {
	f := label.Folder{
		Series: v.Series, Family: v.Family, Number: v.Number, Name: v.Name, Region: v.Region, Colour: v.Colour, Planted: v.Planted, Types: v.Types,
		Folder: v.First + i, Sheets: min(s.PerFolder, v.Sheets-i*s.PerFolder), Cabinet: s.FolderBay(v, i).Name,
	}
	switch {
	case v.Name == v.Family:
		f.Level = label.FamilyOnly
	case v.Name == v.Genus:
		f.Level = label.GenusOnly
	}
	return f
}

// millimetresOr is a measure of the settings; otherwise what stands for none.
func millimetresOr(l ledger.Leaf, otherwise float64) float64 {
	v, err := strconv.ParseFloat(l.Text, 64)
	if err != nil || v <= 0 {
		return otherwise
	}
	return v
}
