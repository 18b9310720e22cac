package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"blotter/ledger"
)

func importCommand() *command {
	return &command{
		Name: "import", Family: famEnter, Synopsis: "FILE",
		Says: "Brings a table into the ledger, one sheet a row: shows what would be made, then asks.",
		Notes: []string{"FILE is CSV, TSV, XLSX or ODS. A mapping says which column feeds which field; --propose writes a first one, and without any the same guess is taken. " +
			"A cell without a field is kept to the letter under import:. Of the same file no row comes twice; an import that was broken off goes on with the rest.",
			"Of a later version of the file, rows are found by the key of its mapping: what changed is shown as was -> is, and corrected only with --changed. " +
				"Words that somebody has since changed in the ledger stay and are listed. A large file is entered in several entries, each whole.",
			"A Darwin Core archive (zip, or a folder with its meta.xml) brings its extensions too: the history of names in order, links of pictures, duplicates. One that export made comes back field by field.",
			"A table whose headings are the paths of fields, and JSON with an object a line, come from blotter export: they are taken to the letter, without a mapping.",
			"A folder of pictures, or one picture: each is tied to the sheet whose number its name or a barcode in it has; who took it, when and under which terms come from the flags or from itself.",
			"A GPX file, or pictures with --positions: each waypoint or photograph is matched to sheets by the number in its name, or by the day when only one place and one locality were visited on it. A match becomes a person's reading of the position of a sheet that has none; a written position is never touched."},
		Examples: []example{
			{"blotter import old-register.csv --propose > map.yaml", "writes a first mapping to look through"},
			{"blotter import old-register.csv --map map.yaml", "shows what would be made, then asks"},
			{"blotter import old-register-2.csv --map map.yaml --changed", "a later version: enters what is new and corrects what changed"},
		},
		Args:  []argument{{"FILE", "the table, archive, GPX file, picture or folder of pictures"}},
		Flags: joinFlags([]*flag{flagMap, flagPropose, flagChanged, flagBatch, flagStrict}, pictureFlags, waypointFlags, enterFlags), Exits: []int{exitFindings},
		Kin: []string{"enter", "check", "undo"}, Complete: "files",
		Run: runImport,
	}
}

// importKind is one kind of thing that can be imported, known by its look.
type importKind struct {
	is  func(file string, info fs.FileInfo) bool
	run func(ctx context.Context, c *call, file string) error
}

// importKinds are tried in turn.
var importKinds = []importKind{
	{func(file string, _ fs.FileInfo) bool { return isArchive(file) }, importArchive},
	{isWorkbook, importWorkbook},
	{areWaypoints, importWaypoints},
	{arePictures, importPictures},
	{isJSON, importJSON},
	{func(_ string, info fs.FileInfo) bool { return info.Mode().IsRegular() }, importText},
}

func runImport(ctx context.Context, c *call) error {
	if len(c.args) != 1 {
		return misuse("which table? One file at a time").try("blotter import old-register.csv")
	}
	file := inDir(c.Dir, c.args[0])
	info, err := os.Stat(file)
	if errors.Is(err, fs.ErrNotExist) {
		return stuck("there is no file %s", file).try("A path with blanks stands in quotes: blotter import \"old register.csv\"")
	}
	if err != nil {
		return stuck("%v", err)
	}
	for _, k := range importKinds {
		if k.is(file, info) {
			return k.run(ctx, c, file)
		}
	}
	return misuse("%s is no plain file", file)
}

// hasEnding reports whether a file's name ends in one of the endings, in
// whatever case.
func hasEnding(file string, endings ...string) bool {
	for _, e := range endings {
		if strings.EqualFold(filepath.Ext(file), e) {
			return true
		}
	}
	return false
}

// readMapping reads the file of --map; nil without one.
func (c *call) readMapping() (*ledger.Mapping, error) {
	name := c.opts.text("map")
	if name == "" {
		return nil, nil
	}
	text, err := os.ReadFile(inDir(c.Dir, name))
	if errors.Is(err, fs.ErrNotExist) {
		return nil, stuck("there is no mapping %s", inDir(c.Dir, name)).try("blotter import " + c.args[0] + " --propose > " + name)
	}
	if err != nil {
		return nil, stuck("%v", err)
	}
	m, fs := ledger.DecodeMapping(name, text)
	if errs, _ := countFindings(fs); errs > 0 {
		findingsView{env: c.env}.show(fs)
		return nil, errFindings
	}
	return m, nil
}

// importer is who signs the readings that an import makes.
func (d *desk) importer() (string, error) {
	author, _, err := d.author()
	if err != nil {
		return "", err
	}
	return author.Name, nil
}
