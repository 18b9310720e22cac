package main

import (
	"errors"
	"io/fs"
	"os"
	"strings"

	"blotter/ledger"
)

// editSheets makes the change of each record that ops gives; a record that is
// to stay as it is gives none. The changes are in memory only.
func (d *desk) editSheets(ns []ledger.Number, ops func(*ledger.Record) ([]ledger.Op, error)) ([]fileChange, error) {
	var changes []fileChange
	for _, n := range ns {
		c, err := d.editSheet(n, ops)
		if err != nil {
			return nil, err
		}
		if c.path != "" {
			changes = append(changes, c)
		}
	}
	return changes, nil
}

func (d *desk) editSheet(n ledger.Number, ops func(*ledger.Record) ([]ledger.Op, error)) (fileChange, error) {
	path, src, r, err := d.record(n)
	if err != nil {
		return fileChange{}, err
	}
	list, err := ops(r)
	if err != nil || len(list) == 0 {
		return fileChange{}, err
	}
	out, err := ledger.Edit(src, list...)
	if err != nil {
		return fileChange{}, refusedEdit(n, err)
	}
	return fileChange{path: path, old: src, new: out}, nil
}

// refusedEdit says why a file was not edited, and what to type into it.
func refusedEdit(n ledger.Number, err error) error {
	f := stuck("%s is left as it is: %v", n, err)
	var refused *ledger.RefusedEdit
	if errors.As(err, &refused) && refused.Lines != "" {
		f.try("Write these lines into its file by hand:").try(strings.Split(strings.TrimRight(refused.Lines, "\n"), "\n")...)
	}
	return f.try("blotter edit " + string(n))
}

// record reads the record of n. One that cannot be decoded is not edited.
func (d *desk) record(n ledger.Number) (path string, src []byte, r *ledger.Record, err error) {
	path = d.pathOf(n)
	src, err = d.read(path)
	if err != nil {
		return path, nil, nil, err
	}
	if src == nil {
		return path, nil, nil, misuse("%s is not in this ledger", n)
	}
	r, _ = ledger.Decode(path, src)
	return path, src, r, nil
}

// museumPaths are the paths of the museum's own files in the work tree.
func (d *desk) museumPaths() []string {
	return append([]string{ledger.MuseumFile, ledger.PeopleFile, ledger.PlacesFile, ledger.PublicFile}, d.namePaths()...)
}

// namePaths are the paths of the files of names/, in order. The folder's own
// name is no part of the pattern: it may hold brackets.
func (d *desk) namePaths() []string {
	if d.past != nil {
		return d.past.below(ledger.NamesDir)
	}
	files, _ := fs.Glob(os.DirFS(d.root), ledger.NamesDir+"/*.yaml")
	return files
}
