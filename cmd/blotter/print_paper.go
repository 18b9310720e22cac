package main

import (
	"context"

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
	Of ledger.Number // the record whose words it bears; "" none
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
)
