package main

import (
	"bufio"
	"io"
	"regexp"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
)

// sheetTerm is one piece of a list of SHEETS: a number, a span, or all.
type sheetTerm struct {
	typed    string
	all      bool
	from, to string // the same for a single number
	line     int    // of a scanner's lines, from 1; 0: typed
}

var (
	hyphenSpan = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([0-9]+)-([0-9]+)$`) })
	onlyDigits = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[0-9]+$`) })
)

// readSheets reads a list of SHEETS: LK7-0000482, 482, 480..489, 482,485, all,
// and - for one number a line from in.
func readSheets(words []string, in io.Reader) ([]sheetTerm, error) {
	var terms []sheetTerm
	for _, word := range words {
		if word == "-" {
			lines, err := readScanned(in)
			if err != nil {
				return nil, err
			}
			terms = append(terms, lines...)
			continue
		}
		for _, piece := range strings.Split(word, ",") {
			if piece = strings.TrimSpace(piece); piece == "" {
				continue
			}
			t, err := readSheet(piece)
			if err != nil {
				return nil, err
			}
			terms = append(terms, t)
		}
	}
	return terms, nil
}

// readScanned reads one number a line, as a barcode scanner types them; empty
// lines do not count. Lines that are no numbers are told all at once.
func readScanned(in io.Reader) ([]sheetTerm, error) {
	var terms []sheetTerm
	var wrong []string
	lines := bufio.NewScanner(in)
	for n := 1; lines.Scan(); n++ {
		line := strings.TrimSpace(lines.Text())
		if line == "" {
			continue
		}
		t, err := readSheet(line)
		if err != nil {
			wrong = append(wrong, "line "+itoa(n)+": "+err.Error())
			continue
		}
		t.line = n
		terms = append(terms, t)
	}
	if len(wrong) > 0 {
		f := misuse("%s of the list can not be taken for a number; nothing was done", count(len(wrong), "line"))
		if len(wrong) > manySheets {
			wrong = append(wrong[:manySheets:manySheets], "and "+thousands(len(wrong)-manySheets)+" more")
		}
		return nil, f.try(wrong...)
	}
	return terms, lines.Err()
}

func readSheet(piece string) (sheetTerm, error) {
	if piece == "all" {
		return sheetTerm{typed: piece, all: true}, nil
	}
	if m := hyphenSpan().FindStringSubmatch(piece); m != nil {
		return sheetTerm{}, misuse("%s is no number of a sheet; did you mean %s..%s?", piece, m[1], m[2])
	}
	if strings.HasSuffix(piece, ".yaml") {
		base := piece[strings.LastIndexAny(piece, `/\`)+1:]
		piece = strings.TrimSuffix(base, ".yaml")
	}
	from, to, span := strings.Cut(piece, "..")
	if !span {
		to = from
	}
	for _, end := range []string{from, to} {
		if !ledger.Number(end).Valid() {
			return sheetTerm{}, misuse("%q is no number of a sheet; write 482, LK7-0000482, 480..489, 482,485 or all", piece)
		}
	}
	return sheetTerm{typed: piece, from: from, to: to}, nil
}

// stock is what a list of SHEETS is resolved against.
type stock interface {
	// find is the number of the ledger that equals n, ignoring case.
	find(n ledger.Number) (ledger.Number, bool)
	// short is the full number of the museum's series for 482.
	short(serial uint64) ledger.Number
	// numbers are all of them, in order.
	numbers() []ledger.Number
}

// maxSpan is the longest span that is taken for meant.
const maxSpan = 1_000_000

// resolveSheets turns terms into the numbers they name, each once, in the
// order typed. One that is not in the ledger stops the whole list.
func resolveSheets(terms []sheetTerm, s stock, except []sheetTerm) ([]ledger.Number, error) {
	leave := map[ledger.Number]bool{}
	for _, t := range except {
		found, _, err := t.numbers(s)
		if err != nil {
			return nil, err
		}
		for _, n := range found {
			leave[n] = true
		}
	}
	var got []ledger.Number
	var absent, scanned []string
	seen := map[ledger.Number]bool{}
	for _, t := range terms {
		found, missing, err := t.numbers(s)
		if err != nil {
			return nil, err
		}
		for _, n := range found {
			if !leave[n] && !seen[n] {
				seen[n] = true
				got = append(got, n)
			}
		}
		for _, n := range missing {
			if !leave[ledger.Number(n)] && !leaveTyped(s, except, n) {
				absent = append(absent, n)
				if t.line > 0 {
					scanned = append(scanned, "line "+itoa(t.line)+": "+n)
				}
			}
		}
	}
	if len(absent) > 0 {
		return nil, absentSheets(s, absent, len(got)).try(scanned[:min(len(scanned), manySheets)]...)
	}
	return got, nil
}

// leaveTyped reports whether a number that is not in the ledger was left out
// by name.
func leaveTyped(s stock, except []sheetTerm, n string) bool {
	for _, t := range except {
		if t.from == t.to && (t.from == n || t.from == briefIn(s, ledger.Number(n))) {
			return true
		}
	}
	return false
}

// briefIn is a number as people type it: 482 for one of the museum's own
// series, else the whole number.
func briefIn(s stock, n ledger.Number) string {
	if v, ok := n.Serial(); ok && s.short(v) == n {
		return strconv.FormatUint(v, 10)
	}
	return string(n)
}

func absentSheets(s stock, absent []string, found int) *fault {
	shown := absent[:min(len(absent), 5)]
	more := ""
	if n := len(absent) - len(shown); n > 0 {
		more = " and " + thousands(n) + " more"
	}
	verb := "is"
	if len(absent) > 1 {
		verb = "are"
	}
	f := misuse("%s%s %s not in this ledger", strings.Join(shown, ", "), more, verb)
	if found > 0 {
		short := make([]string, len(absent))
		for i, n := range absent {
			short[i] = briefIn(s, ledger.Number(n))
		}
		f.try("Nothing was done. All others: add --except " + strings.Join(short[:min(len(short), 20)], ","))
	}
	return f
}

// numbers of the ledger that a term names, and those named but not there.
func (t sheetTerm) numbers(s stock) (found []ledger.Number, missing []string, err error) {
	if t.all {
		return s.numbers(), nil, nil
	}
	if t.from == t.to {
		n := fullNumber(t.from, s)
		if have, ok := s.find(n); ok {
			return []ledger.Number{have}, nil, nil
		}
		return nil, []string{string(n)}, nil
	}
	first, last := fullNumber(t.from, s), fullNumber(t.to, s)
	a, okA := first.Serial()
	b, okB := last.Serial()
	if okA && okB && a <= b && b-a >= maxSpan {
		return nil, nil, misuse("%s spans more than %s numbers", t.typed, thousands(maxSpan)).try("all stands for every sheet of the ledger")
	}
	if !okA || !okB || a > b {
		return nil, nil, misuse("%s is no span: it runs from the lower number to the higher, for example 480..489", t.typed)
	}
	for v := a; v <= b; v++ {
		n := withSerial(first, v)
		if have, ok := s.find(n); ok {
			found = append(found, have)
		} else {
			missing = append(missing, string(n))
		}
	}
	return found, missing, nil
}

// fullNumber is the number meant by what was typed: 482 stands for the
// museum's own series.
func fullNumber(typed string, s stock) ledger.Number {
	if onlyDigits().MatchString(typed) {
		if have, ok := s.find(ledger.Number(typed)); ok {
			return have
		}
		if v, err := strconv.ParseUint(typed, 10, 64); err == nil {
			return s.short(v)
		}
	}
	return ledger.Number(typed)
}

var digitRun = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`[0-9]+`) })

// withSerial is n with another value in its last run of digits, which keeps
// its width.
func withSerial(n ledger.Number, v uint64) ledger.Number {
	runs := digitRun().FindAllStringIndex(string(n), -1)
	last := runs[len(runs)-1]
	digits := strconv.FormatUint(v, 10)
	if w := last[1] - last[0]; len(digits) < w {
		digits = strings.Repeat("0", w-len(digits)) + digits
	}
	return ledger.Number(string(n)[:last[0]] + digits + string(n)[last[1]:])
}
