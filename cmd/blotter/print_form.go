package main

import (
	"bytes"
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/disk"
	"blotter/render/document"
	"blotter/render/label"
)

// printForm is one form of what is printed, by the ending of its file.
type printForm struct {
	ending string // "": the screen
	make   func(p *printing, ctx context.Context) error
	cut    bool // of papers that are cut apart
}

// forms are those that a kind has, in the order in which they are named.
func (k printKind) forms() []printForm {
	var all []printForm
	switch {
	case k.Blocks != nil:
		all = append(all, printForm{".pdf", (*printing).cutPapers, true}, printForm{".html", (*printing).cutPapers, true})
	case k.Pages != nil:
		all = append(all, printForm{".pdf", (*printing).pages, false}, printForm{".html", (*printing).pages, false})
	}
	switch {
	case k.Text != nil:
		all = append(all, printForm{".txt", (*printing).text, false})
	case k.Make != nil:
		for _, f := range documentForms {
			if !slices.ContainsFunc(all, func(o printForm) bool { return o.ending == f.ending }) {
				all = append(all, printForm{f.ending, f.make(), false})
			}
		}
	case k.Blocks != nil:
		all = append(all, printForm{".txt", (*printing).cutWords, true})
	}
	return all
}

// documentForm is one form of a document.
type documentForm struct {
	ending string
	write  func(ctx context.Context, d *desk, doc *document.Document) ([]byte, error)
}

var documentForms = []documentForm{
	{".pdf", documentPDF},
	{".html", inWords((*document.Document).HTML)},
	{".txt", inWords(func(doc *document.Document) []byte { return doc.Text(80) })},
	{".md", inWords((*document.Document).Markdown)},
	{".csv", inWords((*document.Document).CSV)},
}

// inWords is a form that is made of the document alone.
func inWords(write func(*document.Document) []byte) func(context.Context, *desk, *document.Document) ([]byte, error) {
	return func(_ context.Context, _ *desk, doc *document.Document) ([]byte, error) { return write(doc), nil }
}

// text is a document in this form; it is told how names of plants are set and
// what paper it is printed on.
func (f documentForm) text(ctx context.Context, d *desk, doc *document.Document) ([]byte, error) {
	size, err := d.paperSize()
	if err != nil {
		return nil, err
	}
	doc.Name, doc.Sheet = label.Name, size
	return f.write(ctx, d, doc)
}

// make makes the document and writes it in this form.
func (f documentForm) make() func(*printing, context.Context) error {
	return func(p *printing, ctx context.Context) error {
		doc, err := p.kind.Make(ctx, p.desk, p.words)
		if err != nil {
			return err
		}
		text, err := f.text(ctx, p.desk, doc)
		if err != nil {
			return err
		}
		if text == nil {
			return stuck("%s has no rows for a table; nothing was written", p.kind.Name)
		}
		return p.putDocument(text)
	}
}

// onScreen is a document as text.
var onScreen = documentForm{write: func(_ context.Context, d *desk, doc *document.Document) ([]byte, error) {
	return doc.Text(d.Width), nil
}}

// documentForm is the form of a document that --to asks for.
func (c *call) documentForm() (documentForm, error) {
	if !c.toFile() {
		return onScreen, nil
	}
	ending := c.ending()
	var all []string
	for _, f := range documentForms {
		if f.ending == ending {
			return f, nil
		}
		all = append(all, f.ending)
	}
	return documentForm{}, c.noForm(all)
}

// printForm is the form that --to asks for of a kind of print.
func (c *call) printForm(k printKind) (printForm, error) {
	if k.Whole != nil && k.Whole(c) {
		k.Blocks = nil
	}
	if !c.toFile() {
		switch {
		case k.Text != nil:
			return printForm{"", (*printing).text, false}, nil
		case k.Make != nil:
			return printForm{"", onScreen.make(), false}, nil
		case k.Blocks != nil:
			return printForm{"", (*printing).cutWords, true}, nil
		}
		return printForm{}, misuse("%s are printed into a file", k.Name).try("blotter print " + k.Name + " --to " + k.Name + ".pdf")
	}
	ending := c.ending()
	var all []string
	for _, f := range k.forms() {
		if f.ending == ending {
			return f, nil
		}
		all = append(all, f.ending)
	}
	return printForm{}, c.noForm(all)
}

// toFile reports whether --to names a file.
func (c *call) toFile() bool { return c.opts.text("to") != "" && c.opts.text("to") != "-" }

// ending is that of the file of --to.
func (c *call) ending() string { return strings.ToLower(filepath.Ext(c.opts.text("to"))) }

// noForm refuses an ending that is none of all.
func (c *call) noForm(all []string) error {
	f := misuse("the ending of --to chooses the form: %s; %q is none of them", strings.Join(all, ", "), filepath.Base(c.opts.text("to")))
	if slices.Contains([]string{".doc", ".docx", ".odt", ".rtf"}, c.ending()) {
		f.try("Nothing is changed by hand between the record and the paper. What is wrong is set right in the record: blotter edit SHEET")
	}
	return f
}

// putDocument puts a document where --to says, and says so.
func (d *desk) putDocument(text []byte) error {
	put, err := d.putPrint(text)
	if err == nil && put {
		d.say("%s, %s bytes.", d.opts.text("to"), thousands(len(text)))
	}
	return err
}

// putPrint puts what was made where --to says; put is whether a file was written.
// One that is there already with the same bytes counts as written before.
func (d *desk) putPrint(text []byte) (put bool, err error) {
	to := d.opts.text("to")
	if !d.toFile() {
		if d.Screen {
			text = bytes.ReplaceAll(text, []byte("\f\n"), nil)
		}
		_, err := d.Out.Write(text)
		return false, err
	}
	file, err := d.mayPut()
	if err != nil {
		return false, err
	}
	switch old, err := os.ReadFile(file); {
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return false, stuck("%v", err)
	case err == nil && bytes.Equal(old, text):
		d.say("%s is there already, the same.", to)
		return false, nil
	case err == nil && !d.opts.on("yes"):
		return false, stuck("%s is there already; nothing was changed", to).try("Another name: --to FILE", "Replace it: add --yes")
	}
	if err := disk.WriteFile(file, text); err != nil {
		return false, stuck("write %s: %v", to, err)
	}
	return true, nil
}

// mayPut is the file of --to, refused where no paper may lie.
func (d *desk) mayPut() (string, error) {
	file := inDir(d.Dir, d.opts.text("to"))
	if err := (&exporting{desk: d}).fitsForExport(file); err != nil {
		return "", misuse("what is printed cannot stand among the ledger's own files").try("Another place: --to ../" + filepath.Base(file))
	}
	info, err := os.Lstat(file)
	switch {
	case err == nil && !info.Mode().IsRegular():
		return "", misuse("%s is a folder, a link or a device, not a file that could be replaced", d.opts.text("to"))
	case errors.Is(err, fs.ErrNotExist):
		if dir, err := os.Stat(filepath.Dir(file)); err != nil || !dir.IsDir() {
			return "", stuck("there is no folder %s", filepath.Dir(file))
		}
	}
	return file, nil
}
