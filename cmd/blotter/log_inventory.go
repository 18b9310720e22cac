package main

import (
	"bufio"
	"bytes"
	"context"
	"io"
	"os"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/pictures"
	"blotter/ledger/shelf"
	"blotter/ledger/work"
)

// scans are what a scanner wrote in a round through the cabinets, each scan in
// its place: nothing of it is refused and nothing is lost.
type scans struct {
	place     string          // where they were scanned, in the words of --to or of the round
	seen      []ledger.Number // where they belong, as far as place says
	again     []ledger.Number // the same, misplaced until now
	misplaced []ledger.Number // they belong in another cabinet
	withdrawn []ledger.Number // their records say that they are no longer here
	strangers []string        // what no record bears, as scanned
	twice     int             // scans of what was scanned before
	belongs   map[ledger.Number]shelf.Place
}

// scanned reports whether a line of a round is a list of scans: seen, and - or
// --from.
func (l *lining) scanned(words []string) bool {
	return l.file.Kind.Name == "inventory" && l.event == "seen" && (contains(words, "-") || l.opts.text("from") != "")
}

// enterScans writes a list of scans as one entry: a line for each thing that
// came of them.
func (l *lining) enterScans(ctx context.Context, words []string) error {
	if len(words) > 1 || len(words) == 1 && words[0] != "-" || l.opts.text("where") != "" || len(l.opts.list("except")) > 0 {
		return misuse("a list of scans stands by itself: - or --from FILE").try("blotter log " + string(l.file.Number) + ` seen - --to "cabinet 4"`)
	}
	in := l.In
	if from := l.opts.text("from"); from != "" && from != "-" {
		b, err := os.ReadFile(inDir(l.Dir, from))
		if err != nil {
			return stuck("read %s: %v", from, err)
		}
		in = bytes.NewReader(b)
	}
	fields, err := l.lineFields(l.file.Kind.Name, nil)
	if err != nil {
		return err
	}
	s, err := l.sortScans(ctx, in, fields)
	if err != nil {
		return err
	}
	lines := s.lines(fields)
	if len(lines) == 0 {
		return misuse("nothing was scanned; the list is empty").try("One number a line, as a scanner types them")
	}
	c, err := l.appendLines(l.file, lines...)
	if err != nil {
		return err
	}
	r, err := l.desk.enter(ctx, entry{changes: []fileChange{c}, subject: string(l.file.Number) + " " + s.words()})
	if err != nil {
		return err
	}
	l.sayScans(s, r)
	return nil
}

// sortScans reads one scan a line and puts each in its place. Of a line with
// several cells, as a scanner's table has them, the first is the scan.
func (l *lining) sortScans(ctx context.Context, in io.Reader, line []ledger.KV) (*scans, error) {
	w, err := l.works(ctx)
	if err != nil {
		return nil, err
	}
	on := l.todayAsDay()
	if day, _, ok := momentOf(lineWord(line, "date")); ok {
		on = day
	}
	s := &scans{place: lineWord(line, "to"), belongs: map[ledger.Number]shelf.Place{}}
	if s.place == "" {
		s.place = l.file.Work.Place.Text
	}
	cabinets := shelvesOf(w)
	had := map[string]bool{}
	series := l.series()
	lines := bufio.NewScanner(in)
	for lines.Scan() {
		scan := strings.TrimSpace(strings.TrimPrefix(lines.Text(), "\ufeff"))
		if scan == "" {
			continue
		}
		ns := l.numbersScanned(scan, series)
		if len(ns) == 0 && !had[scan] {
			s.strangers = append(s.strangers, scan)
		} else if len(ns) == 0 {
			s.twice++
		}
		had[scan] = true
		for _, n := range ns {
			if had[n.Key()+" known"] {
				s.twice++
				continue
			}
			had[n.Key()+" known"] = true
			s.put(n, w, cabinets, w.State(n, on).Where)
		}
	}
	return s, lines.Err()
}

// put sorts one known sheet.
func (s *scans) put(n ledger.Number, w *work.Works, cabinets *shelf.Shelves, is work.Place) {
	e := w.Book().Find(n)
	if e != nil && e.Fate != "" {
		s.withdrawn = append(s.withdrawn, n)
		return
	}
	away := false
	if e != nil {
		if p, ok := cabinets.Of(e); ok {
			s.belongs[n] = p
			away = elsewhere(s.place, p)
		}
	}
	switch {
	case away:
		s.misplaced = append(s.misplaced, n)
	case is == work.Stray:
		s.again = append(s.again, n)
	default:
		s.seen = append(s.seen, n)
	}
}

// series is how the museum writes its numbers, to find one in the text of a
// barcode.
func (d *desk) series() pictures.Series {
	digits, _ := strconv.Atoi(d.museum.Numbering.Digits.Text)
	return pictures.SeriesOf(d.museum.Numbering.Prefix.Text, digits)
}

// numbersScanned are the sheets of the ledger that a scan names: by its number,
// a span, or a text in which one number of the museum stands, such as an
// address.
func (d *desk) numbersScanned(scan string, series pictures.Series) []ledger.Number {
	cell := scan
	if i := strings.IndexAny(scan, ",;\t"); i > 0 {
		cell = scan[:i]
	}
	cell = strings.Trim(strings.TrimSpace(cell), `"'*`) // * begins and ends some barcodes
	if t, err := readSheet(cell); err == nil && !t.all {
		if found, _, err := t.numbers(d); err == nil && len(found) > 0 {
			return found
		}
	}
	if serials, _ := series.Numbers(cell); len(serials) == 1 {
		if n, ok := d.find(d.short(serials[0])); ok {
			return []ledger.Number{n}
		}
	}
	return nil
}

// lines are the lines of the work that the scans become.
func (s *scans) lines(fields []ledger.KV) [][]ledger.KV {
	var out [][]ledger.KV
	line := func(event, list string, words []string, note string) {
		if len(words) == 0 {
			return
		}
		l := []ledger.KV{{Key: "event", Value: event}}
		for _, kv := range fields {
			if kv.Key != "note" || note == "" {
				l = append(l, kv)
			}
		}
		if lineWord(fields, "to") == "" && event != "seen" {
			l = append(l, ledger.KV{Key: "to", Value: s.place})
		}
		if note != "" {
			l = append(l, ledger.KV{Key: "note", Value: joinNonEmpty("; ", note, lineWord(fields, "note"))})
		}
		out = append(out, append(l, entryWords(list, words...)...))
	}
	line("seen", "sheets", spansOf(s.seen), "")
	line("misplaced", "sheets", spansOf(s.misplaced), "")
	line("found", "sheets", spansOf(s.again), "")
	line(ledger.EventNoted, "sheets", spansOf(s.withdrawn), "withdrawn, and scanned here")
	line(ledger.EventNoted, "others", s.strangers, "scanned; no record bears them")
	return out
}

// words are what came of the scans, in one phrase.
func (s *scans) words() string {
	parts := []string{count(len(s.seen), "sheet") + " seen"}
	for _, p := range []struct {
		n    int
		what string
	}{{len(s.misplaced), "misplaced"}, {len(s.again), "found again"}, {len(s.withdrawn), "withdrawn and here"}, {len(s.strangers), "not of this ledger"}} {
		if p.n > 0 {
			parts = append(parts, thousands(p.n)+" "+p.what)
		}
	}
	return strings.Join(parts, ", ")
}

// manyScans is how many scans of one sort are told one by one.
const manyScans = 20

// sayScans tells what came of the scans, and what to do about each sort.
func (l *lining) sayScans(s *scans, r entered) {
	said := s.words()
	if s.twice > 0 {
		said += "; " + thousands(s.twice) + " " + plural(s.twice, "was", "were") + " scanned more than once"
	}
	l.say("%s", wrap(string(l.file.Number)+": "+said+".", l.Width, ""))
	list := func(head string, words []string, todo string) {
		if len(words) == 0 {
			return
		}
		l.say("%s", wrap(head, l.Width, ""))
		for _, w := range words[:min(len(words), manyScans)] {
			l.say("  %s", w)
		}
		if n := len(words) - manyScans; n > 0 {
			l.say("  and %s more", thousands(n))
		}
		l.say("%s", wrap(todo, l.Width, "  "))
	}
	var away, gone []string
	for _, n := range s.misplaced {
		away = append(away, string(n)+"  "+s.belongs[n].Words())
	}
	for _, n := range s.withdrawn {
		gone = append(gone, l.titleOf(n))
	}
	list("Belong elsewhere:", away, `Carry them there, then: blotter found SHEETS --why "carried over"`)
	list("Withdrawn, and scanned here:", gone, `Look at the label. It is the sheet: blotter found SHEET --why "seen in the round"`)
	list("No record bears these; they are kept in the round as scanned:", s.strangers,
		"Look at each sheet again. Scanned wrongly: blotter log "+string(l.file.Number)+" seen NUMBER. No record yet: blotter new --sheet NUMBER. A loan of ours from others: file it apart.")
	switch {
	case r.held:
		l.say("Written, not yet entered: %s", l.file.Path)
		l.next("blotter enter %s", l.file.Number)
	case r.dry:
		l.tell("Nothing was changed: --dry-run.")
	default:
		l.next("blotter print inventory %s", l.file.Number)
		l.warnOfHooks()
	}
}
