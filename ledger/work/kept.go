package work

import (
	"context"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
)

// LoadKept is Load with a cache of what was decoded before; nil: none.
func LoadKept(ctx context.Context, src ledger.Source, b *book.Book, c *disk.Cache) (*Works, error) {
	return Load(ctx, src, b)
}
