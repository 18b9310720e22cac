package main

import (
	"bytes"
	"context"
	"fmt"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/render/paper"
)

// smallPapers are papers that are cut from a printed sheet: labels, slips,
// strips. print lays them out, writes them and enters that they were printed.
type smallPapers struct {
	Noun   string     // of one: "label"
	Place  paper.Size // of one place on the sheet
	Blocks []smallPaper
	Paper  string   // as a printing keeps it, one of ledger.PaperWords; "": nobody keeps it
	Said   []string // what else is told
}

// smallPaper is one of them.
type smallPaper struct {
	*paper.Block
	Of    ledger.Number // the record whose words it bears; "" none
	Again *paper.Block  // how copies after the first look, those of duplicates; nil: the same
}

// refusedPaper is one that cannot be printed, and why: no file is written.
type refusedPaper struct {
	Of   ledger.Number
	Code string // of the reason: label-too-long
	Why  string // what is wrong
	Try  string // what to type
}

// makeBlocks and makePages make what a kind of print consists of. A refusal
// of some papers refuses the whole run, so that nothing is printed by halves.
type (
	makeBlocks func(ctx context.Context, d *desk, words []string) (*smallPapers, []refusedPaper, error)
	makePages  func(ctx context.Context, d *desk, words []string) (*paper.Paper, error)
	makeText   func(ctx context.Context, d *desk, words []string) ([]byte, error)
)

// cutPapers lays the papers of the kind out on sheets, writes the file and
// keeps that it was printed.
func (p *printing) cutPapers(ctx context.Context) error {
	cut, err := p.imposed(ctx)
	if err != nil || cut == nil {
		return err
	}
	text, err := p.bytes(cut.sheet)
	if err != nil {
		return err
	}
	put, err := p.putPrint(text)
	if err != nil {
		return err
	}
	if put {
		p.sayCut(cut)
	}
	return p.keep(ctx, cut.made, cut.state, !put)
}

// cutSheet is papers laid out on sheets.
type cutSheet struct {
	sheet  *paper.Paper
	made   *smallPapers
	blocks []*paper.Block // with their copies
	size   paper.Size
	used   paper.Used
	state  printState // that they are printed from
}

// imposed lays the papers of the kind out on sheets; nil when there are none.
func (p *printing) imposed(ctx context.Context) (*cutSheet, error) {
	made, err := p.smallPapers(ctx)
	if err != nil || made == nil {
		return nil, err
	}
	state, err := p.printedFrom(ctx, made.of())
	if err != nil {
		return nil, err
	}
	blocks, im, err := p.layout(made, state)
	if err != nil {
		return nil, err
	}
	sheet, used, err := paper.Impose(blocks, im)
	if err != nil {
		return nil, misuse("%v", err)
	}
	sheet.Day = state.when
	return &cutSheet{sheet: sheet, made: made, blocks: blocks, size: im.Size, used: used, state: state}, nil
}

// layout is every paper as often as it is wanted, and how they lie on the sheet.
func (p *printing) layout(made *smallPapers, state printState) (blocks []*paper.Block, im paper.Imposition, err error) {
	if im, err = p.imposition(); err != nil {
		return nil, im, err
	}
	copies, err := p.copies()
	if err != nil {
		return nil, im, err
	}
	for _, b := range made.Blocks {
		blocks = append(blocks, b.copies(copies)...)
	}
	im.Place, im.Foot = paper.Box{W: made.Place.W, H: made.Place.H}, p.foot(state)
	im.Title, im.Lang, im.Draft = p.kind.Name+", "+p.museum.Name.Text, ledger.WithStandard(p.museum).Labels.Language.Text, p.opts.on("draft")
	return blocks, im, nil
}

// copies are n of it: the first is the sheet's, the others are of duplicates.
func (b smallPaper) copies(n int) []*paper.Block {
	again := b.Again
	if again == nil {
		again = b.Block
	}
	return append([]*paper.Block{b.Block}, slices.Repeat([]*paper.Block{again}, n-1)...)
}

// smallPapers are those of the kind; nil when there is nothing to print.
func (p *printing) smallPapers(ctx context.Context) (*smallPapers, error) {
	made, refused, err := p.kind.Blocks(ctx, p.desk, p.words)
	switch {
	case err != nil:
		return nil, err
	case len(refused) > 0:
		return nil, p.refused(made, refused)
	case made == nil || len(made.Blocks) == 0:
		p.say("Nothing to print.")
		return nil, nil
	}
	return made, nil
}

// of are the records whose words the papers bear, each once.
func (s *smallPapers) of() []ledger.Number {
	var all []ledger.Number
	seen := map[ledger.Number]bool{}
	for _, b := range s.Blocks {
		if b.Of != "" && !seen[b.Of] {
			seen[b.Of] = true
			all = append(all, b.Of)
		}
	}
	return all
}

// imposition is what flags say of the layout.
func (p *printing) imposition() (im paper.Imposition, err error) {
	if im.Size, err = p.paperSize(); err != nil {
		return im, err
	}
	if im.Start, err = p.number(flagStart, 1); err != nil {
		return im, err
	}
	im.Skip, err = p.places()
	return im, err
}

// number is the value of a flag that counts from 1.
func (d *desk) number(f *flag, otherwise int) (int, error) {
	typed := d.opts.text(f.Name)
	if typed == "" {
		return otherwise, nil
	}
	n, err := strconv.Atoi(typed)
	if err != nil || n < 1 || n > 10_000 {
		return 0, misuse("--%s %s: a whole number from 1", f.Name, typed)
	}
	return n, nil
}

// copies is how many of each --copies asks for.
func (d *desk) copies() (int, error) { return d.number(flagCopies, 1) }

// places are those that --skip leaves out: 3 or 3,5..6.
func (p *printing) places() ([]int, error) {
	var all []int
	for _, piece := range splitList(p.opts.text("skip")) {
		from, to, span := strings.Cut(piece, "..")
		a, errA := strconv.Atoi(strings.TrimSpace(from))
		b, errB := a, error(nil)
		if span {
			b, errB = strconv.Atoi(strings.TrimSpace(to))
		}
		if errA != nil || errB != nil || a < 1 || b < a || b > 1000 {
			return nil, misuse("--skip %s: places of the sheet, from 1, for example 3 or 3,5..6", piece)
		}
		for n := a; n <= b; n++ {
			all = append(all, n)
		}
	}
	return all, nil
}

// bytes is the paper in the form that --to asks for.
func (p *printing) bytes(sheet *paper.Paper) ([]byte, error) {
	if p.form.ending == ".html" {
		return sheet.HTML(), nil
	}
	b, err := sheet.PDF()
	if err != nil {
		return nil, stuck("%v", err)
	}
	return b, nil
}

// pages writes what consists of whole pages.
func (p *printing) pages(ctx context.Context) error {
	sheet, err := p.kind.Pages(ctx, p.desk, p.words)
	if err != nil {
		return err
	}
	state, err := p.headState(ctx)
	if err != nil {
		return err
	}
	if sheet.Day.IsZero() {
		sheet.Day = state.when
	}
	text, err := p.bytes(sheet)
	if err != nil {
		return err
	}
	put, err := p.putPrint(text)
	if err == nil && put && len(sheet.Pages) > 0 {
		p.say("%s: %s %s.", p.opts.text("to"), count(len(sheet.Pages), "page"), sizeWords(sheet.Pages[0].Size))
		p.say("Print at 100 %%.")
	}
	return err
}

// text writes what a kind is as plain text.
func (p *printing) text(ctx context.Context) error {
	text, err := p.kind.Text(ctx, p.desk, p.words)
	if err != nil {
		return err
	}
	return p.putDocument(text)
}

// cutWords shows the words of the papers, to be read through before they are
// printed.
func (p *printing) cutWords(ctx context.Context) error {
	made, err := p.smallPapers(ctx)
	if err != nil || made == nil {
		return err
	}
	var b bytes.Buffer
	for i, block := range made.Blocks {
		if i > 0 {
			b.WriteByte('\n')
		}
		if block.Block.Of != "" {
			fmt.Fprintf(&b, "%s\n", joinNonEmpty("   ", block.Block.Of, draftWord(p.opts.on("draft"))))
		}
		for _, part := range block.Parts {
			if part.Name == "fold" { // the number of a fold, beside it
				continue
			}
			fmt.Fprintf(&b, "%s\n", hang("  "+pad(part.Name, 12)+"  ", part.Text, p.Width))
		}
	}
	for _, l := range made.Said {
		p.tell("%s", l)
	}
	put, err := p.putPrint(b.Bytes())
	if err == nil && put {
		p.say("%s: the words of %s.", p.opts.text("to"), count(len(made.Blocks), made.Noun))
	}
	return err
}

func draftWord(on bool) string {
	if on {
		return "DRAFT"
	}
	return ""
}

// sayCut says what was written and what to watch in printing it.
func (p *printing) sayCut(cut *cutSheet) {
	made, blocks, used := cut.made, cut.blocks, cut.used
	facts := []string{count(len(blocks), made.Noun), blockSizes(made.Place, blocks), count(used.Pages, "page") + " " + sizeWords(cut.size)}
	switch {
	case used.Pages > 1 && used.Next > 0:
		facts = append(facts, fmt.Sprintf("the last up to place %d of %d", used.Last, used.Places))
	case used.Pages == 1 && used.First < used.Last:
		facts = append(facts, fmt.Sprintf("places %d to %d of %d used", used.First, used.Last, used.Places))
	case used.Pages == 1:
		facts = append(facts, fmt.Sprintf("place %d of %d used", used.First, used.Places))
	}
	p.say("%s", wrap(filepath.Base(p.opts.text("to"))+": "+strings.Join(facts, ", ")+".", p.Width, ""))
	next := ""
	if used.Next > 0 {
		next = fmt.Sprintf(" Next time: --start %d uses up this sheet.", used.Next)
	}
	p.say("%s", wrap("Print at 100 %. The line at the foot of the page must measure 50 mm."+next, p.Width, ""))
	for _, l := range made.Said {
		if p.opts.on("quiet") && strings.HasPrefix(l, "Caution") {
			p.tell("%s", wrap(l, p.Width, "")) // --quiet keeps no danger back
		}
		p.say("%s", wrap(l, p.Width, ""))
	}
}

// blockSizes is "105 x 68 mm", with the others when not all are as high.
func blockSizes(place paper.Size, blocks []*paper.Block) string {
	words := measures(place.W, place.H)
	heights := map[float64]int{}
	var order []float64
	for _, b := range blocks {
		if heights[b.H]++; heights[b.H] == 1 && b.H != place.H {
			order = append(order, b.H)
		}
	}
	slices.Sort(order)
	for _, h := range order {
		words += fmt.Sprintf(", %d of them %s mm high", heights[h], millimetres(h))
	}
	return words
}

// refused says which papers cannot be printed and what to type: no file is
// written, since a run with some of them missing is not seen to be one.
func (p *printing) refused(made *smallPapers, refused []refusedPaper) error {
	noun, all := "paper", len(refused)
	if made != nil {
		noun, all = made.Noun, all+len(made.Blocks)
	}
	what := "cannot be printed"
	if !slices.ContainsFunc(refused, func(r refusedPaper) bool { return !strings.HasSuffix(r.Code, "-too-long") }) {
		what = verb(len(refused), "does not fit", "do not fit")
	}
	to := "nothing"
	if p.toFile() {
		to = filepath.Base(p.opts.text("to")) + " not"
	}
	f := stuck("%s written: %s of %s %s", to, thousands(len(refused)), count(all, noun), what)
	var leave []ledger.Number
	for _, r := range refused {
		f.try(joinNonEmpty(": ", string(r.Of), r.Why) + prefixedAny("   [", r.Code) + closing(r.Code))
		if r.Try != "" {
			f.try("  " + r.Try)
		}
		if r.Of != "" && !slices.Contains(leave, r.Of) {
			leave = append(leave, r.Of)
		}
	}
	if len(leave) > 0 && len(refused) < all {
		f.try("All others now: add --except " + strings.Join(p.briefSpans(leave), ","))
	}
	return f
}

func closing(code string) string {
	if code == "" {
		return ""
	}
	return "]"
}

// briefSpans are numbers as people type them: 480..489.
func (d *desk) briefSpans(ns []ledger.Number) []string {
	var out []string
	for _, s := range spansOf(ns) {
		first, last, span := strings.Cut(s, "..")
		words := d.brief(ledger.Number(first))
		if span {
			words += ".." + d.brief(ledger.Number(last))
		}
		out = append(out, words)
	}
	return out
}
