package book_test

import (
	"context"
	"fmt"
	"path/filepath"
	"testing"

	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/ledgertest"
)

// BenchmarkLoadMuseum is names/ with 2,000 names in 100 families.
func BenchmarkLoadMuseum(b *testing.B) {
	files := map[string]string{"blotter.yaml": museumFile}
	for f := range 100 {
		text := fmt.Sprintf("family: Family%daceae\nnames:\n", f)
		for n := range 20 {
			text += fmt.Sprintf("  - name: Genus%c%c epithet%c%c L.\n    source: regional flora, 2nd ed.\n    date: 2020-01-01\n    native: native\n", 'a'+f%26, 'a'+f/26, 'a'+n%26, 'a'+n%7)
		}
		files[fmt.Sprintf("names/Family%daceae.yaml", f)] = text
	}
	src := ledgertest.MapSource(files)
	list, err := src.Files(context.Background())
	if err != nil {
		b.Fatal(err)
	}
	kept := disk.NewCache(filepath.Join(b.TempDir(), "cache"))
	for name, cache := range map[string]*disk.Cache{"scratch": nil, "kept": kept} {
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				if _, err := book.LoadMuseum(context.Background(), src, list, cache); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
