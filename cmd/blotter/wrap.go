package main

import (
	"strings"

	"github.com/rivo/uniseg"
)

// columns is how many terminal columns s takes.
func columns(s string) int { return uniseg.StringWidth(s) }

// pad fills s with blanks to w columns; a longer s stays as it is.
func pad(s string, w int) string {
	if n := w - columns(s); n > 0 {
		return s + strings.Repeat(" ", n)
	}
	return s
}

// wrap breaks s at blanks so that no line is wider than width, where one word
// is not wider by itself. Lines after the first begin with indent. Line ends
// in s stay.
func wrap(s string, width int, indent string) string {
	var b strings.Builder
	used := 0
	for i, para := range strings.Split(s, "\n") {
		if i > 0 {
			b.WriteString("\n" + indent)
			used = columns(indent)
		}
		for j, word := range strings.Split(para, " ") {
			w := columns(word)
			if j > 0 && used+1+w > width {
				b.WriteString("\n" + indent)
				used = columns(indent)
			} else if j > 0 {
				b.WriteByte(' ')
				used++
			}
			b.WriteString(word)
			used += w
		}
	}
	return b.String()
}

// hang is left followed by text wrapped in the column where left ends.
func hang(left, text string, width int) string {
	w := columns(left)
	wrapped := wrap(text, max(width-w, 20), "")
	return left + strings.ReplaceAll(wrapped, "\n", "\n"+strings.Repeat(" ", w))
}
