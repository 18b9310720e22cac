package render

import (
	"bytes"
	"encoding/hex"
	"iter"
	"slices"
	"strings"
	"sync"
)

// sumLen is how many bytes of a hash stand for a file.
const sumLen = 10

// siteFiles is what a build knows of each file of the site. A million sheets
// have three million files, so what differs in its ending alone is one row
// with one path. It may be used by several goroutines.
type siteFiles struct {
	mu     sync.Mutex
	pages  map[string]int32 // path without its ending -> row
	others map[string]int32 // path of a file with none of the endings -> row
	rows   [][]siteRow      // in blocks of rowBlock
	listed bool             // a manifest was read
	there  int              // files in the folder
	made   int              // files of this build
}

// pageEnds are the endings of the files of one page.
var pageEnds = [...]string{".html", ".md", ".json"}

// rowBlock is how many rows stand together: blocks are never moved as more
// come.
const rowBlock = 1 << 12

// siteRow is the files of one page, or one other file, which stands first.
type siteRow struct {
	path  string // without the ending
	other bool
	files [len(pageEnds)]siteFile
}

// siteFile is what is known of one file.
type siteFile struct {
	old, now [sumLen]byte // as the manifest has it; as this build makes it
	is       fileFacts
}

type fileFacts uint8

const (
	inManifest fileFacts = 1 << iota
	inFolder
	inBuild
)

// was is the hash that the manifest has; "" for none.
func (f siteFile) was() string {
	if f.is&inManifest == 0 {
		return ""
	}
	return hex.EncodeToString(f.old[:])
}

// present reports whether the file is in the folder.
func (f siteFile) present() bool { return f.is&inFolder != 0 }

// pathOf is the path of the k-th file of a row.
func (r *siteRow) pathOf(k int) string {
	if r.other {
		return r.path
	}
	return r.path + pageEnds[k]
}

// cutEnd parts the path of a page's file; k is -1 for any other.
func cutEnd(path string) (base string, k int) {
	for k, end := range pageEnds {
		if base, ok := strings.CutSuffix(path, end); ok {
			return base, k
		}
	}
	return path, -1
}

func (t *siteFiles) row(i int32) *siteRow { return &t.rows[i/rowBlock][i%rowBlock] }

// find is what is known of a file; nil when nothing is. The caller holds mu.
func (t *siteFiles) find(path string) *siteFile {
	base, k := cutEnd(path)
	in := t.pages
	if k < 0 {
		in = t.others
	}
	i, ok := in[base]
	if !ok {
		return nil
	}
	return &t.row(i).files[max(k, 0)]
}

// file is what is known of a file, made if nothing is. The caller holds mu.
func (t *siteFiles) file(path string) *siteFile {
	if f := t.find(path); f != nil {
		return f
	}
	if t.pages == nil {
		t.pages, t.others = map[string]int32{}, map[string]int32{}
	}
	base, k := cutEnd(path)
	base = strings.Clone(base) // path may be part of a longer text
	last := len(t.rows) - 1
	if last < 0 || len(t.rows[last]) == rowBlock {
		t.rows = append(t.rows, make([]siteRow, 0, rowBlock))
		last++
	}
	t.rows[last] = append(t.rows[last], siteRow{path: base, other: k < 0})
	i := int32(last*rowBlock + len(t.rows[last]) - 1)
	if k < 0 {
		t.others[base] = i
	} else {
		t.pages[base] = i
	}
	return &t.row(i).files[max(k, 0)]
}

// each yields the files of which something is known, with their rows and
// places in them.
func (t *siteFiles) each() iter.Seq2[*siteRow, int] {
	return func(yield func(*siteRow, int) bool) {
		for _, block := range t.rows {
			for i := range block {
				for k := range block[i].files {
					if block[i].files[k].is != 0 && !yield(&block[i], k) {
						return
					}
				}
			}
		}
	}
}

// of is what is known of a file.
func (t *siteFiles) of(path string) siteFile {
	t.mu.Lock()
	defer t.mu.Unlock()
	if f := t.find(path); f != nil {
		return *f
	}
	return siteFile{}
}

// was is the hash that the manifest has of a file; "" for none.
func (t *siteFiles) was(path string) string { return t.of(path).was() }

// found notes that a file is in the folder.
func (t *siteFiles) found(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if f := t.file(path); f.is&inFolder == 0 {
		f.is |= inFolder
		t.there++
	}
}

// makes notes that this build makes a file with the hash sum, and says what
// was known of it before.
func (t *siteFiles) makes(path, sum string) siteFile {
	t.mu.Lock()
	defer t.mu.Unlock()
	f := t.file(path)
	before := *f
	hex.Decode(f.now[:], []byte(sum))
	if f.is&inBuild == 0 {
		f.is |= inBuild
		t.made++
	}
	return before
}

// stays notes that a file stands as the manifest has it; one that it does not
// have stays unknown.
func (t *siteFiles) stays(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	f := t.file(path)
	if f.now = f.old; f.is&inBuild == 0 {
		f.is |= inBuild
		t.made++
	}
}

// unmade takes back makes or stays.
func (t *siteFiles) unmade(path string) {
	t.mu.Lock()
	defer t.mu.Unlock()
	if f := t.file(path); f.is&inBuild != 0 {
		f.is &^= inBuild
		t.made--
	}
}

// same reports whether this build makes what the manifest has, to a byte.
func (t *siteFiles) same() bool {
	for r, k := range t.each() {
		f := &r.files[k]
		listed, made := f.is&inManifest != 0, f.is&inBuild != 0
		if listed != made || made && f.old != f.now {
			return false
		}
	}
	return true
}

// strange lists the files of the folder that no build made.
func (t *siteFiles) strange() map[string]bool {
	out := map[string]bool{}
	for r, k := range t.each() {
		if r.files[k].is == inFolder {
			out[r.pathOf(k)] = true
		}
	}
	return out
}

// gone lists the files of the manifest, still in the folder, that this build
// does not make.
func (t *siteFiles) gone() []string {
	var out []string
	for r, k := range t.each() {
		if r.files[k].is == inManifest|inFolder {
			out = append(out, r.pathOf(k))
		}
	}
	slices.Sort(out)
	return out
}

// The manifest is a text file: a head line, then one line a file, hash and
// path, in order of path. It lists output bytes and nothing of the ledger.
const manifestHead = "blotter site 1\n"

// manifest lists what this build makes.
func (t *siteFiles) manifest() []byte {
	type line struct{ row, file int32 }
	order := make([]line, 0, t.made)
	size := len(manifestHead)
	for i := range int32(t.count()) {
		for k, f := range t.row(i).files {
			if f.is&inBuild != 0 {
				order = append(order, line{i, int32(k)})
				size += 2*sumLen + len(t.row(i).path) + len(pageEnds[k]) + 2
			}
		}
	}
	slices.SortFunc(order, func(a, b line) int { return comparePaths(t.row(a.row), int(a.file), t.row(b.row), int(b.file)) })
	b := make([]byte, 0, size)
	b = append(b, manifestHead...)
	for _, l := range order {
		r := t.row(l.row)
		b = hex.AppendEncode(b, r.files[l.file].now[:])
		b = append(b, ' ')
		b = append(b, r.path...)
		if !r.other {
			b = append(b, pageEnds[l.file]...)
		}
		b = append(b, '\n')
	}
	return b
}

func (t *siteFiles) count() int {
	if len(t.rows) == 0 {
		return 0
	}
	return (len(t.rows)-1)*rowBlock + len(t.rows[len(t.rows)-1])
}

// comparePaths compares two paths, which are made only where one has to look
// behind the shorter.
func comparePaths(a *siteRow, i int, b *siteRow, j int) int {
	n := min(len(a.path), len(b.path))
	if c := strings.Compare(a.path[:n], b.path[:n]); c != 0 {
		return c
	}
	return strings.Compare(a.pathOf(i), b.pathOf(j))
}

// read takes in a manifest. One of another form lists nothing, so that all of
// its files count as foreign.
func (t *siteFiles) read(manifest []byte) {
	list, ok := bytes.CutPrefix(manifest, []byte(manifestHead))
	if !ok {
		return
	}
	t.listed = true
	for line := range bytes.Lines(list) {
		sum, path, ok := bytes.Cut(bytes.TrimSuffix(line, []byte{'\n'}), []byte{' '})
		if !ok || len(sum) != 2*sumLen {
			continue
		}
		f := t.file(string(path))
		if _, err := hex.Decode(f.old[:], sum); err == nil {
			f.is |= inManifest
		}
	}
}
