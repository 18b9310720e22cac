package main

import (
	"context"
	"io/fs"
	"iter"
	"os"
	"path/filepath"

	"blotter/ledger/exchange"
)

// isJSON knows records as export json writes them by their ending.
func isJSON(file string, info fs.FileInfo) bool {
	return info.Mode().IsRegular() && hasEnding(file, ".json", ".jsonl", ".ndjson")
}

func importJSON(ctx context.Context, c *call, file string) error {
	if c.opts.given("map") || c.opts.on("propose") {
		return misuse("a file of JSON says itself which field is which; it needs no mapping")
	}
	d, err := c.desk()
	if err != nil {
		return err
	}
	sum, err := sumFile(file)
	if err != nil {
		return stuck("%v", err)
	}
	name := filepath.Base(file)
	return d.bring(ctx, incoming{
		name: name, noun: "record", numbered: true,
		made: func(context.Context) iter.Seq2[exchange.Made, error] {
			return func(yield func(exchange.Made, error) bool) {
				f, err := os.Open(file)
				if err != nil {
					yield(exchange.Made{}, err)
					return
				}
				defer f.Close()
				for m, err := range exchange.ReadJSON(name, sum, f) {
					if !yield(m, err) {
						return
					}
				}
			}
		},
		said: func(records int) { d.say("%s: %s.", name, count(records, "record")) },
		same: func() error { return sameFile(file, sum) },
	})
}
