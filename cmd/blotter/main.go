// Blotter is a specimen ledger for a herbarium: one plain-text file a
// specimen, checked when it is entered, every opinion on its name kept, and
// published as a static catalogue.
//
// This package turns arguments into options and options into calls of the
// packages below it. It alone prints, exits, and reads the clock and the
// environment. One file holds one command; commands.go lists them.
package main

import "os"

func main() {
	collectLate()
	os.Exit(start(os.Args, osEnv()))
}
