package main

import (
	"cmp"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"maps"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/exchange"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// later is what an import knows of rows that an earlier version of the file
// brought in.
type later struct {
	seen  bitset           // sheets whose rows are in the file, by place in imported.sheets
	keys  map[string]place // of this file, where each first stands
	lists map[string]bool  // to which the rows belong

	words map[string]map[[16]byte]int // by list: what the sheets without a key say, how often
	view  *history.View
	fixes []fix // not yet entered

	owners map[string]string // the list of each key that the ledger knows
	others map[string]int    // rows that look new, by the other list that has their key

	shown []string // the first changes, as lines
	stand []string // the first conflicts
}

// fix is one sheet that is corrected.
type fix struct {
	fileChange
	at, line int
}

// fixBatch is how many corrections are entered together: few enough for each
// to be named in the message.
const fixBatch = 200

func newLater() later {
	return later{keys: map[string]place{}, lists: map[string]bool{}, words: map[string]map[[16]byte]int{}, others: map[string]int{}}
}

// elsewhere counts a row that looks new though another list has its key.
func (im *importing) elsewhere(m exchange.Made) {
	if im.later.owners == nil {
		im.later.owners = map[string]string{}
		for both := range im.known.keys {
			list, key, _ := strings.Cut(both, "\x00")
			if had, ok := im.later.owners[key]; !ok || list < had {
				im.later.owners[key] = list
			}
		}
	}
	if list, ok := im.later.owners[m.Key]; ok {
		im.later.others[list]++
	}
}

// showOthers warns when most rows may be those of a list of another name.
func (im *importing) showOthers() {
	for _, list := range slices.Sorted(maps.Keys(im.later.others)) {
		if n := im.later.others[list]; 2*n > im.sound {
			im.say("%s", wrap(fmt.Sprintf("Of what looks new, %s came from %s under the same key. If this is a later version of it, they would come twice: write list: %s into the mapping.", count(n, im.in.noun), list, list), im.Width, ""))
		}
	}
}

// begin forgets what one pass used up.
func (l *later) begin() {
	clear(l.words)
	l.fixes = nil
}

func listOf(m exchange.Made) string { return cmp.Or(m.List, m.File) }

// sheetOf is the sheet that an earlier row of this key became; -1 for none.
func (im *importing) sheetOf(m exchange.Made) int {
	im.later.lists[listOf(m)] = true
	if id, ok := newRowID(m.SHA256, m.Line); ok {
		if at, known := im.known.rows[id]; known {
			return int(at)
		}
	}
	if m.Key == "" {
		return -1
	}
	at, ok := im.known.keys[keyOf(listOf(m), m.Key)]
	if !ok {
		return -1
	}
	return int(at)
}

// fromSameFile reports whether this very row became a sheet.
func (im *importing) fromSameFile(m exchange.Made) bool {
	id, ok := newRowID(m.SHA256, m.Line)
	if ok {
		_, ok = im.known.rows[id]
	}
	return ok
}

// keyTwice reports whether another row of the file has the key.
func (im *importing) keyTwice(m exchange.Made, at int) bool {
	key := keyOf(listOf(m), m.Key)
	first, twice := im.later.keys[key]
	if !twice {
		im.later.keys[key] = place{at, m.Line}
	}
	return twice && first.at != at
}

// sameWords reports whether a row without a key says what a sheet says that an
// earlier version of the file brought; each sheet answers for one row.
func (im *importing) sameWords(m exchange.Made) bool {
	if m.Key != "" {
		return false
	}
	list := listOf(m)
	words, ok := im.later.words[list]
	if !ok {
		words = map[[16]byte]int{}
		for _, s := range im.known.sheets {
			if s.list != list || s.keyed {
				continue
			}
			src, err := im.read(s.path)
			if err != nil {
				continue
			}
			if r := decoded(s.path, src); r != nil && originOf(r).sha256 != m.SHA256 {
				words[contentSum(r)]++
			}
		}
		im.later.words[list] = words
	}
	if len(words) == 0 {
		return false
	}
	sum := contentSum(m.Record)
	if words[sum] == 0 {
		return false
	}
	words[sum]--
	return true
}

func contentSum(r *ledger.Record) [16]byte {
	h := sha256.Sum256([]byte(exchange.Content(r)))
	return [16]byte(h[:16])
}

// laterRow compares a row with the sheet that its earlier version became.
func (im *importing) laterRow(ctx context.Context, m exchange.Made, at, sheet int, first bool) error {
	path := im.known.sheets[sheet].path
	src, err := im.read(path)
	if err != nil {
		return err
	}
	now, _ := ledger.Decode(path, src)
	if exchange.Same(m.Record, now) {
		if first {
			im.unchanged++
		}
		return nil
	}
	base, err := im.rowBefore(ctx, now)
	if err != nil {
		return err
	}
	c := exchange.Compare(base, m.Record, now)
	if first {
		im.tally(m, now, c)
	}
	if len(c.Ops) == 0 || !im.opts.on("changed") || !first && im.bad.has(at) {
		return nil
	}
	m.Stamp()
	ops := c.Ops
	for _, p := range m.Record.Import {
		if exchange.Provenance(p.Key) {
			ops = append(ops, ledger.Set("import."+p.Key, p.Value.Text))
		}
	}
	out, err := ledger.Edit(src, ops...)
	var refused *ledger.RefusedEdit
	if errors.As(err, &refused) {
		if first {
			im.bad.add(at)
			im.refuse(m.Line, now.Specimen.Text+" cannot be corrected: "+refused.Why)
		}
		return nil
	}
	if err != nil {
		return stuck("%v", err)
	}
	im.later.fixes = append(im.later.fixes, fix{fileChange{path, src, out}, at, m.Line})
	if len(im.later.fixes) == fixBatch {
		return im.flush(ctx, first)
	}
	return nil
}

// rowBefore is what the row said in the version that was brought in last, as
// the history of its sheet tells: the words of its first revision, and of
// later ones those that an import changed.
func (im *importing) rowBefore(ctx context.Context, now *ledger.Record) (*exchange.Base, error) {
	if im.repo == nil {
		return exchange.NewBase(now), nil
	}
	if im.later.view == nil {
		head, err := im.head(ctx)
		if err != nil {
			return nil, err
		}
		if im.later.view, err = im.repo.History(ctx, im.cache(), head); err != nil {
			return nil, stuck("%v", err)
		}
	}
	var base *exchange.Base
	var before *ledger.Record
	for _, rev := range im.later.view.Of(ledger.Number(now.Specimen.Text)) {
		if rev.Blob == "" {
			continue
		}
		src, err := im.repo.Blob(ctx, rev.Blob)
		if err != nil {
			if errors.Is(err, gitrepo.ErrNoCommits) {
				break
			}
			return nil, stuck("%v", err)
		}
		r, _ := ledger.Decode(now.Path, src)
		switch sum := originOf(r).sha256; {
		case sum == "":
		case base == nil:
			base = exchange.NewBase(r)
		case sum != originOf(before).sha256:
			base.Corrected(before, r)
		}
		before = r
	}
	if base == nil { // never entered
		base = exchange.NewBase(now)
	}
	return base, nil
}

// tally counts a later row and keeps the first ones as lines.
func (im *importing) tally(m exchange.Made, now *ledger.Record, c exchange.Change) {
	if c.None() {
		im.unchanged++
		return
	}
	head := fmt.Sprintf("  %s, line %d", now.Specimen.Text, m.Line)
	if len(c.Ops) > 0 {
		im.changed++
		if im.changed <= manySheets {
			im.later.shown = append(im.later.shown, head)
			for _, a := range c.Alters {
				im.later.shown = append(im.later.shown, hang("    "+a.Field+": ", inQuotes(a.Was)+" -> "+inQuotes(a.Is), im.Width))
			}
			for _, a := range c.Added {
				im.later.shown = append(im.later.shown, hang("    "+a.Field+": added ", a.Is, im.Width))
			}
		}
	}
	for _, a := range c.Conflicts {
		if im.conflicts++; im.conflicts <= manySheets {
			im.later.stand = append(im.later.stand, head, hang("    "+a.Field+": ", fmt.Sprintf("the ledger has %s; the row had %s, has %s", inQuotes(a.Here), inQuotes(a.Was), inQuotes(a.Is)), im.Width))
		}
	}
}

func inQuotes(words string) string {
	if words == "" {
		return "nothing"
	}
	return strconv.Quote(words)
}

// flush judges the corrections at hand, or enters them.
func (im *importing) flush(ctx context.Context, first bool) error {
	if len(im.later.fixes) == 0 {
		return nil
	}
	fixes := im.later.fixes
	im.later.fixes = nil
	changes := make([]fileChange, len(fixes))
	lines := map[string]fix{}
	for i, f := range fixes {
		changes[i], lines[f.path] = f.fileChange, f
	}
	if first {
		sound, faulty, found, err := im.sortOut(ctx, changes)
		if err != nil {
			return err
		}
		errs := im.sift(found)
		for _, f := range faulty {
			im.bad.add(lines[f.path].at)
			im.refuse(lines[f.path].line, errs[f.path])
		}
		im.corrects += len(sound)
		return nil
	}
	e := entry{changes: changes, judged: true, subject: fmt.Sprintf("Correct %s from %s", count(len(changes), "sheet"), im.in.name)}
	for _, f := range fixes {
		n, _ := ledger.NumberOfPath(f.path)
		e.trailers = append(e.trailers, fmt.Sprintf("%s: %s line %d of %s changed", history.CorrectsKey, n, f.line, oneLine(im.in.name)))
	}
	r, err := im.desk.enter(ctx, e)
	if err != nil {
		return err
	}
	im.report(r, count(len(changes), "sheet")+" corrected from "+im.in.name)
	return nil
}

// showLater says what became of the rows of an earlier version.
func (im *importing) showLater() {
	d := im.desk
	if im.unchanged > 0 {
		d.say("%s as in the version that was brought in before.", count(im.unchanged, im.in.noun))
	}
	if im.changed > 0 {
		what := "would be corrected"
		if !d.opts.on("changed") {
			what = "stay as they are; --changed corrects them"
		}
		d.say("%s changed since then. Their sheets %s:", count(im.changed, im.in.noun), what)
		for _, line := range im.later.shown {
			d.say("%s", line)
		}
		if im.changed > manySheets {
			d.say("  and %s more", count(im.changed-manySheets, "sheet"))
		}
	}
	if im.conflicts > 0 {
		d.say("%s", wrap(count(im.conflicts, "field")+" of changed rows, which somebody changed in the ledger too or which are opinions, will stand as the ledger has them:", d.Width, ""))
		for _, line := range slices.Compact(im.later.stand) {
			d.say("%s", line)
		}
		if im.conflicts > manySheets {
			d.say("  and %s more", thousands(im.conflicts-manySheets))
		}
	}
	im.showGone()
	im.showOthers()
}

// showGone lists sheets whose rows are not in this version.
func (im *importing) showGone() {
	var gone []string
	n, unkeyed := 0, 0
	for i, s := range im.known.sheets {
		if im.later.seen.has(i) || !im.later.lists[s.list] {
			continue
		}
		if !s.keyed {
			unkeyed++
			continue
		}
		if n++; n <= manyOfOneCode {
			gone = append(gone, sheetOrPath(s.path))
		}
	}
	if n > 0 {
		more := ""
		if n > len(gone) {
			more = fmt.Sprintf(" and %s more", thousands(n-len(gone)))
		}
		im.say("%s", hang("Not in this version any more; their sheets stay: ", strings.Join(gone, ", ")+more, im.Width))
	}
	if unkeyed > im.unchanged && im.sound > 0 {
		im.say("%s", wrap("An earlier version brought in rows without a key, so that a row changed since then looks like a new one. Name the column that names each row: key: [COLUMN] in the mapping.", im.Width, ""))
	}
}
