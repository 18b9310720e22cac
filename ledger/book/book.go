package book

import (
	"cmp"
	"iter"
	"slices"
	"strings"

	"blotter/ledger"
)

// Book is one version of a ledger as read. It does not change; several
// goroutines may ask it at once.
type Book struct {
	Museum   *Museum
	Findings []ledger.Finding // of files that are neither records nor the museum's and lie where they should not

	entries  []Entry         // by path
	byNumber []int32         // places in entries, by number ignoring case, then by path
	others   []string        // every other file, by path
	aside    map[string]bool // keys of the numbers that are kept out of all that is public
	works    []ledger.File   // those of work/ that end in .yaml, by path; they are among others too
	stamp    string          // what the entries depend on besides their bytes
}

// Len is the number of records.
func (b *Book) Len() int { return len(b.entries) }

// All yields every record's entry in order of path, which is that of numbers.
func (b *Book) All() iter.Seq[*Entry] {
	return func(yield func(*Entry) bool) {
		for i := range b.entries {
			if !yield(&b.entries[i]) {
				return
			}
		}
	}
}

// At is the i-th entry in order of path, from 0.
func (b *Book) At(i int) *Entry { return &b.entries[i] }

// Find is the record of a number, ignoring case; nil when there is none. Of
// two files with one number it is the first by path.
func (b *Book) Find(n ledger.Number) *Entry {
	if i, ok := b.Place(n); ok {
		return &b.entries[i]
	}
	return nil
}

// Place is where the record that Find gives stands among All, from 0; false
// when there is none.
func (b *Book) Place(n ledger.Number) (int, bool) {
	key := n.Key()
	i, ok := slices.BinarySearchFunc(b.byNumber, key, func(i int32, key string) int { return b.entries[i].Number.CompareKey(key) })
	if !ok {
		return 0, false
	}
	return int(b.byNumber[i]), true
}

// ByPath is the record at a path; nil when there is none.
func (b *Book) ByPath(path string) *Entry {
	i, ok := slices.BinarySearchFunc(b.entries, path, func(e Entry, p string) int { return strings.Compare(e.Path, p) })
	if !ok {
		return nil
	}
	return &b.entries[i]
}

// Has reports whether the ledger has a file at path that is no record and
// none of the museum's: a picture, a page.
func (b *Book) Has(path string) bool {
	_, ok := slices.BinarySearch(b.others, path)
	return ok
}

// Others yields those files in order of path.
func (b *Book) Others() iter.Seq[string] { return slices.Values(b.others) }

// Aside reports whether a specimen is kept out of everything public, and of
// exports, though its record is complete: it is in a teaching or student lot.
func (b *Book) Aside(n ledger.Number) bool { return len(b.aside) > 0 && b.aside[n.Key()] }

// Works yields the files of work/ that end in .yaml, in order of path.
func (b *Book) Works() iter.Seq[ledger.File] { return slices.Values(b.works) }

// sort takes the records out of files, in order of path, and remembers the
// rest.
func (b *Book) sort(files []ledger.File) []ledger.File {
	records := make([]ledger.File, 0, len(files))
	for _, f := range files {
		_, isRecord := ledger.NumberOfPath(f.Path)
		b.Findings = append(b.Findings, Misplaced(f)...)
		switch {
		case f.Link: // never followed: as if it were not there
		case isRecord:
			records = append(records, f)
		case IsMuseumFile(f.Path):
		default:
			b.others = append(b.others, f.Path)
			if strings.HasPrefix(f.Path, ledger.WorkDir+"/") && strings.HasSuffix(f.Path, ".yaml") {
				b.works = append(b.works, f)
			}
		}
	}
	slices.SortFunc(b.works, func(a, b ledger.File) int { return strings.Compare(a.Path, b.Path) })
	if !slices.IsSortedFunc(records, func(a, b ledger.File) int { return cmp.Compare(a.Path, b.Path) }) {
		slices.SortFunc(records, func(a, b ledger.File) int { return cmp.Compare(a.Path, b.Path) })
	}
	slices.Sort(b.others)
	return records
}

// index makes ready for Find.
func (b *Book) index() {
	b.byNumber = make([]int32, len(b.entries))
	keys := make([]string, len(b.entries))
	for i := range b.entries {
		b.byNumber[i] = int32(i)
		keys[i] = b.entries[i].Number.Key()
	}
	byKey := func(i, j int32) int { return cmp.Or(strings.Compare(keys[i], keys[j]), cmp.Compare(i, j)) }
	if !slices.IsSortedFunc(b.byNumber, byKey) {
		slices.SortFunc(b.byNumber, byKey)
	}
}

// The codes of findings about files rather than what stands in them.
const (
	CodeLink  = "file-link"
	CodeStray = "file-stray"
	CodeName  = "file-name"
)

// Misplaced is the findings about a file for what it is and where it lies.
func Misplaced(f ledger.File) []ledger.Finding {
	_, isRecord := ledger.NumberOfPath(f.Path)
	known := isRecord || IsMuseumFile(f.Path)
	top, _, _ := strings.Cut(f.Path, "/")
	linkable := top != ledger.SpecimensDir && top != ledger.NamesDir && top != ledger.PagesDir && f.Path != ledger.ImagesDir
	in := strings.HasPrefix(f.Path, ledger.SpecimensDir+"/") || strings.HasPrefix(f.Path, ledger.NamesDir+"/")
	hidden := strings.HasPrefix(f.Path[strings.LastIndexByte(f.Path, '/')+1:], ".")
	switch {
	case f.Link && (known || !linkable):
		return []ledger.Finding{LinkFinding(f.Path)}
	case !known && in && !hidden:
		return []ledger.Finding{strayFinding(f.Path)}
	case isRecord: // number-shape and number-folder hold its name
		return nil
	}
	if fault := ledger.FileNameFault(f.Path); fault != "" {
		return []ledger.Finding{nameFinding(f.Path, fault)}
	}
	return nil
}

func nameFinding(path, fault string) ledger.Finding {
	return ledger.Finding{
		Path: path, Severity: ledger.Error, Code: CodeName,
		Message: fault + ", so no copy of the ledger could be made there",
		Hint:    "Give the file or folder another name.",
	}
}

// LinkFinding is the finding about a symbolic link.
func LinkFinding(path string) ledger.Finding {
	return ledger.Finding{
		Path: path, Severity: ledger.Error, Code: CodeLink,
		Message: "is a link; links are never followed, so what it leads to is missing",
		Hint:    "Put the file or folder itself in its place.",
	}
}

func strayFinding(path string) ledger.Finding {
	return ledger.Finding{
		Path: path, Severity: ledger.Warning, Code: CodeStray,
		Message: "is no record and is not read: a record's file ends in .yaml",
		Hint:    "Move it elsewhere, or give it its right name.",
	}
}

// Map is b with another museum and every entry changed by change, which may
// not change its number or path, nor what the entry points to; for
// ledger/public.
func (b *Book) Map(m *Museum, change func(Entry) Entry) *Book {
	next := &Book{Museum: m, entries: make([]Entry, len(b.entries)), byNumber: b.byNumber, others: b.others}
	for i := range b.entries {
		next.entries[i] = change(b.entries[i])
	}
	return next
}
