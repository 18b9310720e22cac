package main

import (
	"context"
	"io"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/work/printed"
	"blotter/render/document"
)

// printKind is one thing that print makes. Each is declared in a file of its
// own, print_NAME.go, and has its row in printKinds.
type printKind struct {
	Name  string // as typed
	Takes string // what is typed after it: "LOAN", "SHEETS", ""
	Says  string // for the help
	Flags []*flag
	// Make makes the document. words are what was typed after the name.
	Make func(ctx context.Context, d *desk, words []string) (*document.Document, error)
	// Blocks makes papers that are cut apart; Pages makes whole pages. A kind
	// that has a document too gives it for the other endings of --to.
	Blocks makeBlocks
	Pages  makePages
	// Again gives the words of the papers of one record as they would be
	// printed now, for --changed; nil: nobody asks.
	Again func(ctx context.Context, d *desk, r *ledger.Record) ([]printed.Words, error)
	// Whole reports that the document is asked for in place of papers that are
	// cut apart; nil: never.
	Whole func(c *call) bool
	Text  makeText // the same as plain text, for --to FILE.txt and the screen
}

// printGroup is kinds that stand together in the help.
type printGroup struct {
	Title string
	Kinds []printKind
}

// printGroups are all kinds, in the order of the help.
func printGroups() []printGroup {
	return []printGroup{
		{"Papers that are cut apart", []printKind{
			labelsPrint(), slipsPrint(), typesPrint(), exsiccataPrint(), renamingsPrint(), coversPrint(), packetsPrint(), stripsPrint(),
			numbersPrint(), tagsPrint(),
		}},
		{"Whole pages for the field and for mounting", []printKind{fieldPrint(), kitPrint(), stackPrint(), mountPrint()}},
		{"Forms to write on", []printKind{formsPrint(), packingPrint(), receiptPrint(), registerPrint()}},
		{"Letters and lists", []printKind{
			reminderPrint(), noticesPrint(), partnersPrint(), permitsPrint(), movesPrint(), cabinetsPrint(), salvagePrint(), inventoryPrint(),
		}},
	}
}

// printKinds are all kinds, in the order of the help.
func printKinds() []printKind {
	var all []printKind
	for _, g := range printGroups() {
		all = append(all, g.Kinds...)
	}
	return all
}

// helpWidth is how wide the list of kinds in the help is: a screen's 80 columns.
const helpWidth = 80

func printCommand() *command {
	c := &command{
		Name: "print", Family: famMake, Synopsis: "KIND [SHEETS | WORK] [--to FILE]",
		Says: "Makes labels, slips, forms, lists and letters for paper, at true size.",
		Notes: []string{
			"The ending of --to chooses the form: .pdf (for the printer), .html (for the browser, and to be printed from it), .txt, .md or, for the list alone, .csv. Without --to, or with --to -, it goes to the screen as text.",
			"What is printed is for the museum and its partners: nothing is withheld in it. A file that is there already is not replaced, unless --yes is given.",
			"Print at 100 %, and measure the line of 50 mm where there is one. Which labels, slips, packets and strips were printed, and from which revision, is kept, but for --trial and --draft.",
		},
		Examples: []example{
			{"blotter print labels 482,1203..1205 --to labels.pdf", "specimen labels on a sheet to be cut; without --to their words on the screen"},
			{"blotter print slips --unprinted --to slips.pdf", "a slip for every opinion that has none yet"},
			{"blotter print packing loan-2026-004 --to packing.pdf", "the list that travels with a loan"},
		},
		Args:  []argument{{"KIND", "what to print"}, {"SHEETS", "482, 480..489, 482,485, all or -"}, {"WORK", "loan-2026-004"}},
		Flags: joinFlags([]*flag{flagTo, flagAt, flagPaper}, cutFlags, keptFlags, []*flag{flagYes, flagNoCache}, sheetFlags),
		Kin:   []string{"export", "show", "find"},
		Run:   runPrint,
	}
	for _, g := range printGroups() {
		c.Notes = append(c.Notes, "\n"+g.Title)
		for _, k := range g.Kinds {
			c.Kinds = append(c.Kinds, k.Name)
			c.Notes = append(c.Notes, hang("  "+pad(joinNonEmpty(" ", k.Name, k.Takes), 27)+"  ", k.Says, helpWidth))
			c.takes(k.Flags)
		}
	}
	return c
}

func runPrint(ctx context.Context, c *call) error {
	if len(c.args) == 0 && c.opts.on("changed") {
		d, err := c.desk()
		if err != nil {
			return err
		}
		return d.listChanged(ctx)
	}
	kind, words, err := c.printKind()
	if err != nil {
		return err
	}
	if err := kind.fits(c); err != nil {
		return err
	}
	form, err := c.printForm(kind)
	if err != nil {
		return err
	}
	if err := c.fitsForm(kind, form); err != nil {
		return err
	}
	if to := c.opts.text("to"); c.opts.on("quiet") && to != "" && to != "-" {
		c.Out = io.Discard
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	if rev := c.opts.text("at"); rev != "" {
		if err := d.turnTo(ctx, rev); err != nil {
			return err
		}
	}
	p := &printing{desk: d, kind: kind, form: form, words: words}
	return form.make(p, ctx)
}

// printing is one run of print.
type printing struct {
	*desk
	kind  printKind
	form  printForm
	words []string // typed after the kind
}

// fits refuses flags that are not for the kind.
func (k printKind) fits(c *call) error {
	for _, f := range c.cmd.Flags {
		if !c.opts.given(f.Name) || slices.Contains(printFlags, f) || slices.Contains(k.Flags, f) {
			continue
		}
		if f == flagPaper || k.Blocks != nil && slices.Contains(cutFlags, f) || slices.Contains(ledger.PaperWords, k.Name) && slices.Contains(keptFlags, f) && (k.Name != "numbers" || f == flagTrial || f == flagAs) {
			continue
		}
		if f == flagDrafts {
			return noDraft(k.Name)
		}
		return misuse("--%s is not for %s", f.Name, k.Name)
	}
	return nil
}

// fitsForm refuses flags of papers that are cut apart where the form is a list.
func (c *call) fitsForm(k printKind, form printForm) error {
	for _, f := range cutFlags {
		switch {
		case form.cut || !c.opts.given(f.Name):
		case f == flagDrafts:
			return noDraft(k.Name + " as a list")
		default:
			return misuse("--%s is not for %s as a list", f.Name, k.Name)
		}
	}
	return nil
}

// noDraft refuses --draft of what is no paper of the sheets.
func noDraft(what string) error {
	return misuse("--draft is not for %s: DRAFT is printed across papers that are cut from a sheet; a list or form says in its foot of which revision it tells, and of edits not entered", what)
}

// Flags of every kind, of those that are cut from a sheet, and of those whose
// printing is kept.
var (
	printFlags = joinFlags([]*flag{flagTo, flagYes, flagAt, flagNoCache}, sheetFlags, commonFlags)
	cutFlags   = []*flag{flagStart, flagSkip, flagCopies, flagDrafts}
	keptFlags  = []*flag{flagNever, flagChanged, flagTrial, flagAs}
)

// printKind is the kind that is typed first, and the words after it.
func (c *call) printKind() (printKind, []string, error) {
	var names []string
	for _, k := range printKinds() {
		if len(c.args) > 0 && c.args[0] == k.Name {
			return k, c.args[1:], nil
		}
		names = append(names, k.Name)
	}
	if len(c.args) == 0 {
		return printKind{}, nil, misuse("what is to be printed? One of %s", strings.Join(names, ", "))
	}
	if near := nearest(c.args[0], names); near != "" {
		return printKind{}, nil, misuse("%q is nothing that print makes; did you mean %s?", c.args[0], near)
	}
	return printKind{}, nil, misuse("%q is nothing that print makes; it makes %s", c.args[0], strings.Join(names, ", "))
}
