package main

import (
	"cmp"
	"context"
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/render/document"
	"blotter/render/paper"
)

var flagLines = &flag{Name: "list", Help: "of numbers: a list with lines to write on, in place of strips"}

// aheadOtherwise is how many numbers are printed ahead when nobody says;
// mostAhead the most in one run.
const aheadOtherwise, mostAhead = 100, 20_000

// numbersPrint are numbers that no sheet has yet, to be assigned.
func numbersPrint() printKind {
	return printKind{
		Name: "numbers", Takes: "[FROM | FROM..TO]", Says: "numbers not yet used, as strips with their barcodes to be assigned; --list or as text: a list to write on",
		Flags: []*flag{flagOfMany, flagFor, flagBarcode, flagLines},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			ahead, err := d.numbersAhead(ctx, words)
			if err != nil {
				return nil, err
			}
			for _, l := range d.aheadSaid(ahead) {
				d.tell("%s", wrap(l, d.Width, ""))
			}
			return d.numberList(ahead), nil
		},
		Blocks: func(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error) {
			ahead, err := d.numbersAhead(ctx, words)
			if err != nil {
				return nil, nil, err
			}
			return d.aheadPapers(ahead)
		},
		Whole: func(c *call) bool { return c.opts.on(flagLines.Name) },
	}
}

// ahead are numbers to be printed before a sheet has them.
type ahead struct {
	numbers []ledger.Number
	whose   string // whose block they are of
}

func (a ahead) span() string {
	return string(a.numbers[0]) + " to " + string(a.numbers[len(a.numbers)-1])
}

// numbersAhead are the numbers that are asked for: a run that is typed, or the
// next free ones of the museum or of somebody's block. Used ones are refused.
func (d *desk) numbersAhead(ctx context.Context, words []string) (ahead, error) {
	from, to, err := d.aheadSpan(words)
	if err != nil {
		return ahead{}, err
	}
	used, err := d.everUsed(ctx)
	if err != nil {
		return ahead{}, err
	}
	taken := map[string]bool{}
	for _, n := range used {
		taken[n.Key()] = true
	}
	a := ahead{whose: d.opts.text("for")}
	many := aheadOtherwise
	if d.opts.given(flagOfMany.Name) {
		if many, err = d.number(flagOfMany, 0); err != nil {
			return a, err
		}
	}
	if _, whose, err := d.runs(); err != nil {
		return a, err
	} else if a.whose == "" && whose != blockSetting {
		a.whose = whose
	}
	switch {
	case from == 0 && a.whose == "":
		free, err := d.freeNumbers(ctx)
		if err != nil {
			return a, err
		}
		first, err := free()
		if err != nil {
			return a, err
		}
		from, _ = first.Serial()
		to = from + uint64(many) - 1
	case from == 0:
		if a.numbers, err = d.freeOfBlocks(a.whose, taken, many); err != nil {
			return a, err
		}
		return a, nil
	case to == 0:
		to = from + uint64(many) - 1
	}
	if to-from >= mostAhead {
		return a, misuse("at most %s numbers in one run", thousands(mostAhead))
	}
	for v := from; v <= to; v++ {
		a.numbers = append(a.numbers, d.short(v))
	}
	return a, d.mustBeFree(a, taken, from, to)
}

// aheadSpan reads 1301 or 1301..1400; 0: nothing is typed, or no end.
func (d *desk) aheadSpan(words []string) (from, to uint64, err error) {
	if len(words) == 0 {
		return 0, 0, nil
	}
	prefix := d.museum.Numbering.Prefix.Text
	read := func(s string) (uint64, bool) {
		s = strings.TrimSpace(s)
		if prefix != "" && len(s) > len(prefix) && strings.EqualFold(s[:len(prefix)], prefix) {
			s = s[len(prefix):]
		}
		v, err := strconv.ParseUint(s, 10, 53)
		return v, err == nil && v > 0
	}
	first, last, span := strings.Cut(words[0], "..")
	from, ok := read(first)
	if span && ok {
		to, ok = read(last)
	}
	if !ok || len(words) > 1 || span && to < from {
		return 0, 0, misuse("%q is no run of numbers", strings.Join(words, " ")).try("blotter print numbers 1301..1400 --to numbers.pdf", "The next free ones: blotter print numbers -n 100 --to numbers.pdf")
	}
	if span && d.opts.given(flagOfMany.Name) {
		return 0, 0, misuse("FROM..TO and -n are both given; one of them is enough")
	}
	return from, to, nil
}

// freeOfBlocks are the first free numbers of somebody's blocks in blotter.yaml.
func (d *desk) freeOfBlocks(whose string, taken map[string]bool, many int) ([]ledger.Number, error) {
	var names []string
	var free []ledger.Number
	have := false
	for _, b := range d.museum.Blocks {
		names = append(names, b.For.Text)
		if !strings.EqualFold(b.For.Text, whose) {
			continue
		}
		have = true
		from, to := blockSpan(b)
		for v := from; v <= to && v > 0 && len(free) < many; v++ {
			if n := d.short(v); !taken[n.Key()] {
				free = append(free, n)
			}
		}
	}
	switch {
	case !have && len(names) == 0:
		return nil, misuse("blotter.yaml has no blocks of numbers").try("A run of numbers: blotter print numbers 1301..1400 --to numbers.pdf")
	case !have:
		return nil, misuse("no block of numbers of blotter.yaml is for %s; there are some for %s", whose, strings.Join(uniqueWords(names), ", "))
	case len(free) == 0:
		return nil, stuck("the blocks of numbers for %s are used up", whose)
	case len(free) < many && d.opts.given(flagOfMany.Name):
		d.tell("%s", wrap(fmt.Sprintf("The blocks for %s have %s left, fewer than %d.", whose, count(len(free), "number"), many), d.Width, ""))
	}
	return free, nil
}

func uniqueWords(all []string) []string {
	var out []string
	seen := map[string]bool{}
	for _, w := range all {
		if !seen[w] {
			seen[w] = true
			out = append(out, w)
		}
	}
	return out
}

func blockSpan(b ledger.Block) (from, to uint64) {
	from, to = blockEnds(b)
	return from, min(to, from+mostAhead)
}

// mustBeFree refuses numbers that a sheet has or had, and those that are kept
// for somebody else; what it says to type instead is free.
func (d *desk) mustBeFree(a ahead, taken map[string]bool, from, to uint64) error {
	many := len(a.numbers)
	tail := " -n " + strconv.Itoa(many) + " --to " + cmp.Or(d.opts.text("to"), "numbers.pdf")
	others := func() string {
		return "blotter print numbers " + strconv.FormatUint(d.freeRun(a.whose, taken, from, uint64(many)), 10) + tail
	}
	var used []ledger.Number
	for _, n := range a.numbers {
		if taken[n.Key()] {
			used = append(used, n)
		}
	}
	if len(used) > 0 {
		f := stuck("%s of %s: a sheet has or had %s", thousands(len(used)), count(many, "number"), strings.Join(cutList(d.briefSpans(used), 10), ", "))
		return f.try("A number is never used twice. Free ones: " + others())
	}
	for _, b := range d.museum.Blocks {
		first, last := blockEnds(b)
		if first > to || from > last || strings.EqualFold(b.For.Text, a.whose) {
			continue
		}
		f := stuck("%s to %s are kept for %s by blotter.yaml, blocks", d.short(max(first, from)), d.short(min(last, to)), b.For.Text)
		if free, err := d.freeOfBlocks(b.For.Text, taken, 1); err == nil && len(free) > 0 {
			f.try("Theirs: blotter print numbers --for \"" + b.For.Text + "\"" + tail)
		}
		return f.try("Others, behind it: " + others())
	}
	return nil
}

// freeRun is the first of many numbers from from on that no sheet has or had
// and that are kept for nobody else than whose.
func (d *desk) freeRun(whose string, taken map[string]bool, from, many uint64) uint64 {
	for at := from; ; {
		next := at
		for _, b := range d.museum.Blocks {
			if first, last := blockEnds(b); first < at+many && at <= last && !strings.EqualFold(b.For.Text, whose) {
				next = max(next, last+1)
			}
		}
		for v := at; v < at+many; v++ {
			if taken[d.short(v).Key()] {
				next = max(next, v+1)
			}
		}
		if next == at {
			return at
		}
		at = next
	}
}

// blockEnds are the first and the last number of a block; 0: it has none.
func blockEnds(b ledger.Block) (first, last uint64) {
	first, _ = strconv.ParseUint(b.From.Text, 10, 53)
	last, _ = strconv.ParseUint(b.To.Text, 10, 53)
	return first, last
}

func cutList(words []string, most int) []string {
	if len(words) <= most {
		return words
	}
	return append(words[:most:most], "and "+thousands(len(words)-most)+" more")
}

// aheadPapers are the strips of the numbers. That they were printed is kept: one
// may be stuck on a sheet, so the number of that sheet is changed by nobody but
// people.
func (d *desk) aheadPapers(a ahead) (*smallPapers, []refusedPaper, error) {
	s, err := d.strip()
	if err != nil {
		return nil, nil, err
	}
	out := &smallPapers{Noun: "strip", Place: paper.Size{W: s.W, H: s.H}, Said: d.aheadSaid(a), Paper: "numbers"}
	for _, n := range a.numbers {
		b, no := s.Of(n)
		if no != nil { // the others are as long
			return out, []refusedPaper{{Code: no.Code, Why: string(n) + ": " + no.Why, Try: no.Try}}, nil
		}
		out.Blocks = append(out.Blocks, smallPaper{Block: b, Of: n})
	}
	return out, nil, nil
}

// aheadSaid tells that nothing is reserved, and how it is.
func (d *desk) aheadSaid(a ahead) []string {
	if a.whose != "" {
		return []string{a.span() + ", kept for " + a.whose + " by blotter.yaml. A sheet gets its number by: blotter new --sheet " + d.brief(a.numbers[0])}
	}
	from, _ := a.numbers[0].Serial()
	to, _ := a.numbers[len(a.numbers)-1].Serial()
	return []string{
		"Nothing is reserved by printing: as long as no sheet has them, " + a.span() + " can be given to others, and printed again.",
		fmt.Sprintf(`To keep them, write into blotter.yaml under blocks: {for: NAME, from: "%d", to: "%d"}   A sheet gets its number by: blotter new --sheet %s`, from, to, d.brief(a.numbers[0])),
	}
}

// numberList is a list of the numbers with room to write what gets them.
func (d *desk) numberList(a ahead) *document.Document {
	doc := &document.Document{Title: joinNonEmpty(", ", "Numbers to be assigned", a.span(), prefixedAny("for ", a.whose))}
	rows := make([][]string, len(a.numbers))
	for i, n := range a.numbers {
		rows[i] = []string{string(n), "", "", "", ""}
	}
	doc.Grid([]string{"number", "collector and number", "name", "date", "by"}, rows, document.Grid{Height: 7, Wide: []float64{2, 3, 4, 1.5, 1.5}})
	return doc
}
