package document

import (
	"bytes"
	"encoding/csv"
)

// CSV is the document's table, cells parted by commas (RFC 4180); nil when it
// has none.
func (d *Document) CSV() []byte {
	if d.Data == nil {
		return nil
	}
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	for _, row := range append([][]string{d.Data.Heads}, d.Data.Rows...) {
		_ = w.Write(row) // a bytes.Buffer takes everything
	}
	w.Flush()
	return b.Bytes()
}
