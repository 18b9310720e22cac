package main

import (
	"cmp"
	"context"
	"errors"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// works are the files of work/ in the work tree, joined to its records. They
// are read once a run.
func (d *desk) works(ctx context.Context) (*work.Works, error) {
	if d.worked == nil {
		w, err := d.worksOf(ctx, d.source())
		if err != nil {
			return nil, err
		}
		d.worked = w
	}
	return d.worked, nil
}

// worksOnDay are the works, and the day that --on names.
func (d *desk) worksOnDay(ctx context.Context) (*work.Works, dates.Day, error) {
	w, err := d.works(ctx)
	if err != nil {
		return nil, 0, err
	}
	on, err := d.onDay()
	return w, on, err
}

// worksAt are the files of work/ at a REV; "" is the work tree.
func (d *desk) worksAt(ctx context.Context, rev string) (*work.Works, error) {
	if rev == "" {
		return d.works(ctx)
	}
	id, err := d.revision(ctx, rev)
	if err != nil {
		return nil, err
	}
	src, err := d.repo.At(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	return d.worksOf(ctx, src)
}

func (d *desk) worksOf(ctx context.Context, src ledger.Source) (*work.Works, error) {
	b, err := book.Load(ctx, src, d.loadOptions())
	if err != nil {
		return nil, err
	}
	w, err := work.LoadKept(ctx, src, b, d.cache())
	if err != nil {
		return nil, stuck("read %s/: %v", ledger.WorkDir, err)
	}
	return w, nil
}

// onDay is the day that --on names, or today in the museum's zone. A month or
// a year counts from its last day.
func (d *desk) onDay() (dates.Day, error) {
	typed := d.opts.text(flagOn.Name)
	if typed == "" || typed == "today" {
		return d.todayAsDay(), nil
	}
	r := dates.Read(typed, dates.OrderOf(d.museum.Dates.Order.Text))
	if both := twoWays(typed, r, d.todayAsDay()); both != "" {
		return 0, misuse("%s %s", typed, both)
	}
	if !r.Known() || r.OpenEnd {
		return 0, misuse("--on %s is not read as a day", typed).try("As on a label (14.vii.1987), as ISO day (1987-07-14), or today")
	}
	return r.Last, nil
}

var workWord = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([a-z]+)-([0-9]+)(?:-([0-9]+))?$`) })

// isWork reports whether a word is meant for a number of work, well written or
// not: it begins with a kind. A sheet that bears it goes before.
func (d *desk) isWork(word string) bool {
	if _, sheet := d.find(ledger.Number(word)); sheet {
		return false
	}
	if n, ok := ledger.WorkNumberOfPath(filepath.ToSlash(word)); ok {
		word = string(n)
	}
	kind, _, dash := strings.Cut(strings.ToLower(word), "-")
	if _, ok := ledger.WorkKindOf(kind); ok && dash {
		return true
	}
	m := workWord().FindStringSubmatch(strings.ToLower(word))
	return m != nil && m[3] != "" && nearest(kind, workKindNames()) != ""
}

func workKindNames() []string {
	var all []string
	for _, k := range ledger.WorkKinds() {
		all = append(all, k.Name)
	}
	return all
}

// workArgument is the work of the work tree that a word names: loan-2026-004,
// loan-2026-4, or the path of its file. What only comes near is answered with
// the right number.
func (d *desk) workArgument(word string) (ledger.WorkNumber, error) {
	return workAmong(word, d.workNumbers())
}

// workAmong is the one of have that a word names.
func workAmong(word string, have []ledger.WorkNumber) (ledger.WorkNumber, error) {
	n, near := readWorkNumber(word, have)
	if n != "" && slices.Contains(have, n) {
		return n, nil
	}
	if near != "" {
		return "", misuse("there is no work %s; did you mean %s?", word, near)
	}
	if n == "" {
		return "", misuse("%q is no number of work; it is like loan-2026-004: kind, year, running number", word).
			try("All that there are: blotter show work", "Kinds: "+strings.Join(workKindNames(), ", "))
	}
	f := misuse("there is no work %s in this ledger", n)
	if last := lastOfKind(have, n.Kind()); last != "" {
		return "", f.try("The last one of its kind is " + string(last))
	}
	return "", f.try("There is no " + n.Kind() + " yet: blotter open " + n.Kind())
}

// readWorkNumber is the number that a word spells, "" for none, and the one of
// have that it may be meant for when it is not written as a number is.
func readWorkNumber(word string, have []ledger.WorkNumber) (n, near ledger.WorkNumber) {
	if of, ok := ledger.WorkNumberOfPath(filepath.ToSlash(word)); ok {
		word = string(of)
	}
	m := workWord().FindStringSubmatch(strings.ToLower(strings.TrimSpace(word)))
	if m == nil {
		return "", ""
	}
	kind, year, no := m[1], m[2], m[3]
	if _, ok := ledger.WorkKindOf(kind); !ok {
		if kind = nearest(kind, workKindNames()); kind == "" {
			return "", ""
		}
		near = workNumber(kind, year, no)
	} else if len(year) == 4 && no != "" {
		return workNumber(kind, year, no), ""
	}
	for _, h := range slices.Backward(have) { // loan-26-4, loan-4, lon-2026-4
		parts := strings.Split(string(h), "-")
		serial, _ := strconv.Atoi(parts[2])
		same := no != "" && strings.HasSuffix(parts[1], year) && serial == atoi(no) || no == "" && serial == atoi(year)
		if parts[0] == kind && same {
			return "", h
		}
	}
	if !slices.Contains(have, near) {
		near = ""
	}
	return "", near
}

// workNumber is a number in its full form: three figures or more.
func workNumber(kind, year, no string) ledger.WorkNumber {
	no = strings.TrimLeft(no, "0")
	if len(no) < 3 {
		no = strings.Repeat("0", 3-len(no)) + no
	}
	return ledger.WorkNumber(kind + "-" + year + "-" + no)
}

// workFiles are the paths of what may be works in the work tree. The folder's
// own name is no part of the pattern: it may hold brackets.
func (d *desk) workFiles() []string {
	if d.past != nil {
		return d.past.below(ledger.WorkDir)
	}
	files, _ := fs.Glob(os.DirFS(d.root), ledger.WorkDir+"/*/*.yaml")
	return files
}

// workNumbers are those of the files of the work tree, in order.
func (d *desk) workNumbers() []ledger.WorkNumber {
	var all []ledger.WorkNumber
	for _, f := range d.workFiles() {
		n := ledger.WorkNumber(strings.TrimSuffix(path.Base(f), ".yaml"))
		if n.Valid() && path.Base(path.Dir(f)) == n.Kind() {
			all = append(all, n)
		}
	}
	slices.SortFunc(all, compareWorkNumbers)
	return all
}

// compareWorkNumbers is the order of kind, year and running number.
func compareWorkNumbers(a, b ledger.WorkNumber) int {
	x, y := strings.Split(string(a), "-"), strings.Split(string(b), "-")
	return cmp.Or(strings.Compare(x[0], y[0]), strings.Compare(x[1], y[1]), cmp.Compare(atoi(x[2]), atoi(y[2])))
}

// lastOfKind is the highest number of one kind; "" when there is none.
func lastOfKind(have []ledger.WorkNumber, kind string) ledger.WorkNumber {
	for _, n := range slices.Backward(have) {
		if n.Kind() == kind {
			return n
		}
	}
	return ""
}

// work reads one file of work/ of the work tree.
func (d *desk) work(n ledger.WorkNumber) (src []byte, w *ledger.Work, err error) {
	src, err = d.read(n.Path())
	if err != nil {
		return nil, nil, err
	}
	if src == nil {
		return nil, nil, misuse("there is no work %s in this ledger", n)
	}
	w, _ = ledger.DecodeWork(n.Path(), src)
	return src, w, nil
}

// appendLine is the change that adds a line to a work: behind the lines that
// are not later. Fields with "" are left out; words of a list are fields of
// their own, sheets.1, sheets.2 (see entryWords).
func (d *desk) appendLine(f *work.File, fields ...ledger.KV) (fileChange, error) {
	return d.editWork(f.Number, func(w *ledger.Work) ([]ledger.Op, error) {
		return []ledger.Op{ledger.Insert("lines", placeOfLine(w, fields), fields...)}, nil
	})
}

// appendLines is appendLine for several lines of one day: they stand in this
// order.
func (d *desk) appendLines(f *work.File, lines ...[]ledger.KV) (fileChange, error) {
	return d.editWork(f.Number, func(w *ledger.Work) ([]ledger.Op, error) {
		var ops []ledger.Op
		for i, fields := range lines {
			at := placeOfLine(w, fields)
			if at > 0 {
				at += i
			}
			ops = append(ops, ledger.Insert("lines", at, fields...))
		}
		return ops, nil
	})
}

// editWork is the change that ops make to the file of a work, in memory only.
func (d *desk) editWork(n ledger.WorkNumber, ops func(*ledger.Work) ([]ledger.Op, error)) (fileChange, error) {
	src, w, err := d.work(n)
	if err != nil {
		return fileChange{}, err
	}
	list, err := ops(w)
	if err != nil || len(list) == 0 {
		return fileChange{}, err
	}
	out, err := ledger.EditFile(ledger.WorkFileKind, src, list...)
	if err != nil {
		return fileChange{}, refusedWork(n, err)
	}
	return fileChange{path: n.Path(), old: src, new: out}, nil
}

// refusedWork says why the file of a work was not edited, and what to type.
func refusedWork(n ledger.WorkNumber, err error) error {
	f := stuck("%s is left as it is: %v", n, err)
	var refused *ledger.RefusedEdit
	if errors.As(err, &refused) && refused.Lines != "" {
		f.try("Write these lines into its file by hand:").try(strings.Split(strings.TrimRight(refused.Lines, "\n"), "\n")...)
	}
	return f.try("blotter edit " + string(n))
}

// placeOfLine is where a new line stands, from 1; 0: at the end.
func placeOfLine(w *ledger.Work, fields []ledger.KV) int {
	for _, kv := range fields {
		if kv.Key != "date" {
			continue
		}
		day, clock, ok := momentOf(kv.Value)
		for i, l := range w.Lines {
			if was, at, known := momentOf(l.Date.Text); ok && known && (was > day || was == day && clock >= 0 && at > clock) {
				return i + 1
			}
		}
	}
	return 0
}

// momentOf is the day and the minute from which a line counts.
func momentOf(words string) (day dates.Day, clock int, ok bool) {
	r, clock := work.ReadMoment(words)
	return r.Last, clock, r.Known() && !r.OpenEnd
}

// entryWords are the fields of an entry that make up one of its lists of words.
func entryWords(key string, words ...string) []ledger.KV {
	var out []ledger.KV
	for i, w := range words {
		out = append(out, ledger.KV{Key: key + "." + itoa(i+1), Value: w})
	}
	return out
}
