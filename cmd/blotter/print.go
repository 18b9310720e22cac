package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/disk"
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
}

// printKinds are all kinds, in the order of the help.
func printKinds() []printKind {
	return []printKind{
		packingPrint(),
		receiptPrint(),
		reminderPrint(),
		noticesPrint(),
		partnersPrint(),
		permitsPrint(),
		kitPrint(),
		movesPrint(),
		coversPrint(),
		renamingsPrint(),
		cabinetsPrint(),
		salvagePrint(),
		inventoryPrint(),
	}
}

// helpWidth is how wide the list of kinds in the help is: a screen's 80 columns.
const helpWidth = 80

func printCommand() *command {
	c := &command{
		Name: "print", Family: famMake, Synopsis: "KIND [SHEETS | WORK] [--to FILE]",
		Says: "Makes lists and letters for paper.",
		Notes: []string{
			"The ending of --to chooses the form: .txt, .md, .html (to be printed from a browser) or, for the list alone, .csv. Without --to, or with --to -, it goes to the screen as text.",
			"What is printed is for the museum and its partners: nothing is withheld in it. A file that is there already is not replaced, unless --yes is given.",
		},
		Examples: []example{
			{"blotter print packing loan-2026-004 --to packing.html", "the list that travels with a loan, for the printer"},
			{"blotter print reminder", "a letter for every loan that is due, on the screen"},
			{"blotter print partners --to partners.csv", "every partner, for a spreadsheet"},
		},
		Args:  []argument{{"KIND", "what to print"}, {"SHEETS", "482, 480..489, 482,485, all or -"}, {"WORK", "loan-2026-004"}},
		Flags: joinFlags([]*flag{flagTo, flagYes, flagNoCache}, sheetFlags),
		Kin:   []string{"export", "show", "find"},
		Run:   runPrint,
	}
	for _, k := range printKinds() {
		c.Kinds = append(c.Kinds, k.Name)
		c.Notes = append(c.Notes, hang("  "+pad(joinNonEmpty(" ", k.Name, k.Takes), 27)+"  ", k.Says, helpWidth))
		c.takes(k.Flags)
	}
	return c
}

func runPrint(ctx context.Context, c *call) error {
	kind, words, err := c.printKind()
	if err != nil {
		return err
	}
	for _, other := range printKinds() {
		for _, f := range other.Flags {
			if c.opts.given(f.Name) && !slices.Contains(kind.Flags, f) {
				return misuse("--%s is not for %s", f.Name, kind.Name)
			}
		}
	}
	form, err := c.printForm()
	if err != nil {
		return err
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	doc, err := kind.Make(ctx, d, words)
	if err != nil {
		return err
	}
	text := form.write(doc, c.Width)
	if text == nil {
		return stuck("%s has no rows for a table; nothing was written", kind.Name)
	}
	return d.putPrint(text)
}

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

// printForm is one form of a document, by the ending of its file.
type printForm struct {
	ending string
	write  func(d *document.Document, width int) []byte
}

var printForms = []printForm{
	{".txt", func(d *document.Document, _ int) []byte { return d.Text(80) }},
	{".md", func(d *document.Document, _ int) []byte { return d.Markdown() }},
	{".html", func(d *document.Document, _ int) []byte { return d.HTML() }},
	{".csv", func(d *document.Document, _ int) []byte { return d.CSV() }},
}

// printForm is the form that --to asks for.
func (c *call) printForm() (printForm, error) {
	to := c.opts.text("to")
	if to == "" || to == "-" {
		return printForm{"", func(d *document.Document, width int) []byte { return d.Text(width) }}, nil
	}
	ending := strings.ToLower(filepath.Ext(to))
	var all []string
	for _, f := range printForms {
		if f.ending == ending {
			return f, nil
		}
		all = append(all, f.ending)
	}
	return printForm{}, misuse("the ending of --to chooses the form: %s; %q is none of them", strings.Join(all, ", "), filepath.Base(to))
}

// putPrint puts what was made where --to says.
func (d *desk) putPrint(text []byte) error {
	to := d.opts.text("to")
	if to == "" || to == "-" {
		if d.Screen {
			text = bytes.ReplaceAll(text, []byte("\f\n"), nil)
		}
		_, err := d.Out.Write(text)
		return err
	}
	file := inDir(d.Dir, to)
	if err := (&exporting{desk: d}).fitsForExport(file); err != nil {
		return misuse("what is printed cannot stand among the ledger's own files").try("Another place: --to ../" + filepath.Base(file))
	}
	switch old, err := os.ReadFile(file); {
	case err != nil && !os.IsNotExist(err):
		return stuck("%v", err)
	case err == nil && bytes.Equal(old, text):
		d.say("%s is there already, the same.", to)
		return nil
	case err == nil && !d.opts.on("yes"):
		return stuck("%s is there already; nothing was changed", to).try("Another name: --to FILE", "Replace it: add --yes")
	}
	if err := disk.WriteFile(file, text); err != nil {
		return stuck("write %s: %v", to, err)
	}
	d.say("%s, %s bytes.", to, thousands(len(text)))
	return nil
}
