package main

import (
	"bytes"
	"encoding/csv"

	"blotter/ledger/disk"
)

// writeRows writes a table of the rows that each gives, and says how many.
func writeRows(file string, heads []string, each func(yield func([]string))) (int, error) {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	if err := w.Write(heads); err != nil {
		return 0, stuck("write %s: %v", file, err)
	}
	n := 0
	var failed error
	each(func(row []string) {
		n++
		if err := w.Write(row); err != nil && failed == nil {
			failed = err
		}
	})
	w.Flush()
	if failed == nil {
		failed = w.Error()
	}
	if failed == nil {
		failed = disk.WriteFile(file, b.Bytes())
	}
	if failed != nil {
		return 0, stuck("write %s: %v", file, failed)
	}
	return n, nil
}
