package exchange

import (
	"slices"
	"strconv"
	"strings"
	"sync"

	"blotter/ledger"
)

// Columns gathers the fields that the records of a table have, for its
// headings: the dotted paths of FORMAT.md, entries of lists counted from 1
// (determinations.2.by).
type Columns struct {
	at    map[string]int
	heads []string
}

// Add takes in the fields of one record.
func (c *Columns) Add(fields []ledger.KV) {
	if c.at == nil {
		c.at = map[string]int{}
	}
	for _, kv := range fields {
		if _, known := c.at[kv.Key]; !known && kv.Value != "" {
			c.at[kv.Key] = len(c.heads)
			c.heads = append(c.heads, kv.Key)
		}
	}
}

// Sort puts the columns into the order of the field table, and gives them.
func (c *Columns) Sort() []string {
	keys := make(map[string][]int, len(c.heads))
	for _, h := range c.heads {
		keys[h] = orderOf(h)
	}
	slices.SortFunc(c.heads, func(a, b string) int {
		if d := slices.Compare(keys[a], keys[b]); d != 0 {
			return d
		}
		return strings.Compare(a, b)
	})
	for i, h := range c.heads {
		c.at[h] = i
	}
	return c.heads
}

// Row puts the fields of one record into its columns; row is used again when
// it is long enough.
func (c *Columns) Row(row []string, fields []ledger.KV) []string {
	row = slices.Grow(row[:0], len(c.heads))[:len(c.heads)]
	clear(row)
	for _, kv := range fields {
		if at, ok := c.at[kv.Key]; ok {
			row[at] = kv.Value
		}
	}
	return row
}

// fieldOrder is the place of every field in the field table, by its path
// without numbers.
var fieldOrder = sync.OnceValue(func() map[string]int {
	order := map[string]int{}
	for i, f := range ledger.Fields() {
		order[f.Path] = i
	}
	return order
})

// orderOf is a heading as the places of its parts: those of fields in the field
// table, those of entries in their list. A name under import: has none.
func orderOf(head string) []int {
	var out []int
	path := ""
	for part := range strings.SplitSeq(head, ".") {
		if n, err := strconv.Atoi(part); err == nil && n > 0 && path != "" {
			out = append(out, n)
			continue
		}
		if path != "" {
			path += "."
		}
		path += part
		at, ok := fieldOrder()[path]
		if !ok {
			break
		}
		out = append(out, at)
	}
	return out
}
