// Package examples holds the story of the demonstration ledger: an invented
// museum, its first files, the records it gathers and the script of events
// that blotter demo replays into a ledger with a history of real commits.
// demo/README.md says what in it is invented and what is real; the form of the
// script stands at the head of demo/events.txt.
package examples

import (
	"embed"
	"io/fs"
)

//go:embed demo practice
var files embed.FS

// Practice is the folder practice/: ten labels to type, NN.txt, each in three
// parts: its lines, what a record of it is expected to say, why that matters.
func Practice() fs.FS {
	sub, err := fs.Sub(files, "practice")
	if err != nil {
		panic(err) // the path is constant and well formed
	}
	return sub
}

// Demo is the folder demo/: events.txt, museum/ (the files the ledger starts
// with) and gatherings/ (the files that the events bring in). It cannot be
// written.
func Demo() fs.FS {
	sub, err := fs.Sub(files, "demo")
	if err != nil {
		panic(err) // the path is constant and well formed
	}
	return sub
}
