package main

import (
	"path"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

type qualifier = names.Qualifier

// changes are the files of names/ as the renaming leaves them, and what it
// says of itself.
func (r *renaming) changes() (all []fileChange, told []string, err error) {
	files := map[string]*fileChange{}
	edit := func(family string, ops ...ledger.Op) error { return r.editFamily(files, family, ops...) }
	if e := r.before.Book().Museum.Names.Find(r.old.Key()); e != nil {
		r.old = reading.ReadName(e.Given.Name.Text)
	}
	family := ""
	for i, n := range r.news {
		e := r.before.Book().Museum.Names.Find(n.Key())
		if e != nil {
			r.news[i] = reading.ReadName(e.Given.Name.Text) // with the authors that names/ has
			continue
		}
		if r.split && n.Key() == r.old.Key() {
			continue // OLD's own entry
		}
		if family, err = r.familyOf(n); err != nil {
			return nil, nil, err
		}
		if err := edit(family, ledger.Append("names", r.entry(n.Words)...)); err != nil {
			return nil, nil, err
		}
		told = append(told, n.Words+" is new to names/, in "+family+".")
		if n.Read.Authors == "" && n.Read.SpeciesAuthors == "" {
			told = append(told, "It stands there without authors; add them: blotter edit "+ledger.NamesDir+"/"+family+".yaml")
		}
	}
	was, err := r.oldEntry(edit)
	if err != nil {
		return nil, nil, err
	}
	for _, f := range files {
		all = append(all, *f)
	}
	slices.SortFunc(all, func(a, b fileChange) int {
		if a.path < b.path {
			return -1
		}
		return 1
	})
	return all, append(r.told(), append(was, told...)...), nil
}

// editFamily edits the file of a family, which is made if it is missing; files
// are those edited so far.
func (r *renaming) editFamily(files map[string]*fileChange, family string, ops ...ledger.Op) error {
	path := ledger.NamesDir + "/" + family + ".yaml"
	f := files[path]
	if f == nil {
		src, err := r.desk.read(path)
		if err != nil {
			return err
		}
		f = &fileChange{path: path, old: src, new: src}
		if src == nil {
			x := &ledger.FamilyNames{}
			x.Family.Text = family
			f.new = ledger.EncodeNames(x)
		}
		files[path] = f
	}
	out, err := ledger.EditFile(ledger.NamesKind, f.new, ops...)
	if err != nil {
		return stuck("%s is left as it is: %v", path, err).try("blotter edit " + path)
	}
	f.new = out
	return nil
}

// entry is an entry of names/ as this renaming makes one.
func (r *renaming) entry(name string, more ...ledger.KV) []ledger.KV {
	return append([]ledger.KV{{Key: "name", Value: name}, {Key: "source", Value: r.source}, {Key: "date", Value: r.date},
		{Key: "by", Value: r.by}, {Key: "why", Value: r.why}}, more...)
}

// oldEntry makes the entry of OLD what it is now, in the file where it stands,
// or gives it one.
func (r *renaming) oldEntry(edit func(string, ...ledger.Op) error) (told []string, err error) {
	var news []string
	for _, n := range r.news {
		news = append(news, n.Words)
	}
	was := r.before.Book().Museum.Names.Find(r.old.Key())
	if was == nil {
		family, err := r.familyOf(r.old)
		if err != nil {
			return nil, err
		}
		is := []ledger.KV{{Key: "of", Value: news[0]}}
		if r.split {
			is = entryWords("split", news...)
		}
		return nil, edit(family, ledger.Append("names", r.entry(r.old.Words, is...)...))
	}
	at := "names." + itoa(r.placeIn(was.Path, was.Given)+1) + "."
	ops := []ledger.Op{ledger.Set(at+"of", news[0])}
	if r.split {
		ops = []ledger.Op{ledger.SetList(at+"split", news...)}
	}
	ops = append(ops, ledger.Set(at+"source", r.source), ledger.Set(at+"date", r.date), ledger.Set(at+"by", r.by))
	if r.why != "" {
		ops = append(ops, ledger.Set(at+"why", r.why))
	}
	if d := joinNonEmpty(", ", was.Given.Source.Text, was.Given.By.Text, r.desk.shownIfAny(was.Given.Date.Text)); d != "" {
		told = append(told, "Its entry said before: "+d+"; the history of the file keeps it.")
	}
	return told, edit(strings.TrimSuffix(path.Base(was.Path), ".yaml"), ops...)
}

// placeIn is the place of an entry in its file, from 0.
func (r *renaming) placeIn(path string, e *ledger.NameEntry) int {
	src, err := r.desk.read(path)
	if err != nil {
		return 0
	}
	f, _ := ledger.DecodeNames(path, src)
	return slices.IndexFunc(f.Names, func(x ledger.NameEntry) bool { return x.Line == e.Line && x.Name.Text == e.Name.Text })
}

// familyOf is the family into whose file a name goes that has no entry yet:
// that of --family, of its genus, of the other name.
func (r *renaming) familyOf(n reading.Name) (string, error) {
	ns := &r.before.Book().Museum.Names
	if f := ns.FamilyOf(n.Key()); f != "" {
		return f, nil
	}
	if f := r.desk.opts.text("family"); f != "" {
		if w := reading.ReadName(f); !w.Readable || w.Read.Uninomial == "" {
			return "", misuse("--family %s is no name of a family", f)
		}
		return f, nil
	}
	for _, other := range append([]reading.Name{r.old}, r.news...) {
		if f := ns.FamilyOf(other.Key()); f != "" {
			return f, nil
		}
	}
	return "", misuse("names/ does not say to which family %s belongs", n.Key()).try("Say so: --family FAMILY")
}

// told says what this renaming does.
func (r *renaming) told() []string {
	who := joinNonEmpty(", ", r.source, r.by, r.desk.shownDate(r.date))
	if r.split {
		var news []string
		for _, n := range r.news {
			news = append(news, n.Words)
		}
		return []string{r.old.Words + " was divided among " + joinAnd(news) + ": " + who + "."}
	}
	return []string{r.old.Words + " is " + r.news[0].Words + " now: " + who + "."}
}

func joinAnd(words []string) string {
	if len(words) < 2 {
		return joinNonEmpty("", words...)
	}
	return joinNonEmpty(", ", words[:len(words)-1]...) + " and " + words[len(words)-1]
}
