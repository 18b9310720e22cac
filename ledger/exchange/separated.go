package exchange

import (
	"bufio"
	"io"
	"strings"
)

// Separated writes a table as text, each cell guarded (Guard) where a
// spreadsheet would take it for a formula. With commas it is CSV as RFC 4180 has
// it: lines end with CR and LF, a cell that holds a separator, a quote mark or a
// line end stands in quote marks, and a quote mark within it is doubled. With
// tabs the same holds, with the tab as the separator.
type Separated struct {
	w     *bufio.Writer
	comma byte
}

// NewSeparated begins a table. mark writes the mark (EF BB BF) by which some
// spreadsheet programs know that a text is UTF-8.
func NewSeparated(w io.Writer, comma byte, mark bool) *Separated {
	s := &Separated{bufio.NewWriterSize(w, 1<<16), comma}
	if mark {
		_, _ = s.w.WriteString("\xEF\xBB\xBF") // an error stays until Close
	}
	return s
}

// Write writes one row.
func (s *Separated) Write(cells []string) error {
	for i, c := range cells {
		if i > 0 {
			_ = s.w.WriteByte(s.comma)
		}
		c = Guard(c)
		if !s.quoted(c) && (c != "" || len(cells) > 1) {
			_, _ = s.w.WriteString(c)
			continue
		}
		_ = s.w.WriteByte('"')
		_, _ = s.w.WriteString(strings.ReplaceAll(c, `"`, `""`))
		_ = s.w.WriteByte('"')
	}
	_, err := s.w.WriteString("\r\n")
	return err
}

// quoted reports whether a cell needs quote marks.
func (s *Separated) quoted(c string) bool {
	for i := range len(c) {
		if b := c[i]; b == s.comma || b == '"' || b == '\n' || b == '\r' {
			return true
		}
	}
	return false
}

// Close writes what is left.
func (s *Separated) Close() error { return s.w.Flush() }
