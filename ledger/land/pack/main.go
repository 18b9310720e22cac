// Pack makes units.txt and shapes.bin of package land out of a GeoPackage
// that holds Natural Earth's first-level units (10m admin-1 states and
// provinces) in the layer states_provinces, with the columns iso_a2, name,
// woe_name, woe_label, gn_name, adm0_a3 and gu_a3.
//
//	go run ./ledger/land/pack -o ledger/land FILE.gpkg
//
// It needs the program sqlite3, which reads the GeoPackage, and prints the
// checksum of the file for README.md. The same file always gives the same
// bytes. Nothing else of the project needs this program.
package main

import (
	"crypto/sha256"
	"encoding/hex"
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	dir := flag.String("o", ".", "directory for units.txt and shapes.bin")
	flag.Parse()
	if flag.NArg() != 1 {
		fmt.Fprintln(os.Stderr, "usage: pack [-o DIR] FILE.gpkg")
		os.Exit(2)
	}
	if err := run(flag.Arg(0), *dir); err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

func run(file, dir string) error {
	src, err := os.ReadFile(file)
	if err != nil {
		return err
	}
	sum := sha256.Sum256(src)
	fmt.Printf("%s: %d bytes, sha256 %s\n", filepath.Base(file), len(src), hex.EncodeToString(sum[:]))
	units, err := readUnits(file)
	if err != nil {
		return err
	}
	units = parted(units)
	settle(units)
	shapes, points := encode(units)
	text := list(units)
	fmt.Printf("%d units, %d points; units.txt %d bytes, shapes.bin %d bytes\n", len(units), points, len(text), len(shapes))
	if err := os.WriteFile(filepath.Join(dir, "units.txt"), text, 0o644); err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, "shapes.bin"), shapes, 0o644)
}
