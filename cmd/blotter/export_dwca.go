package main

import (
	"context"
	"strings"

	"blotter/ledger/darwincore"
)

// exportArchive writes a Darwin Core archive.
func exportArchive(ctx context.Context, x *exporting) error {
	done, err := darwincore.WriteArchive(ctx, x.Out, darwincore.Input{Dataset: x.Data, Sheets: x.Sheets(ctx), Scratch: x.Scratch})
	if err != nil {
		return err
	}
	var words []string
	for _, k := range darwincore.Kinds()[1:] {
		if n := done.Rows[k.Name]; n > 0 {
			words = append(words, count(n, k.Noun))
		}
	}
	x.Said = strings.Join(words, ", ") + "."
	if len(words) == 0 {
		x.Said = ""
	}
	return nil
}
