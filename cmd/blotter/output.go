package main

import (
	"encoding/json"
	"fmt"
	"strings"
	"unicode"
)

// say prints one line of the result.
func (e *env) say(format string, args ...any) { fmt.Fprintf(e.Out, format+"\n", args...) }

// tell prints one line beside the result.
func (e *env) tell(format string, args ...any) { fmt.Fprintf(e.Err, format+"\n", args...) }

// next prints what to type next, for a person at a terminal only.
func (e *env) next(format string, args ...any) {
	if e.Screen {
		fmt.Fprintf(e.Err, "Next: "+format+"\n", args...)
	}
}

// shellWord is s as a shell takes it for one word.
func shellWord(s string) string {
	if s != "" && strings.IndexFunc(s, func(r rune) bool { return unicode.IsSpace(r) || strings.ContainsRune("\"'`$&|;<>()*?[]#!{}", r) }) < 0 {
		return s
	}
	return `"` + strings.NewReplacer(`"`, `\"`, "$", `\$`, "`", "\\`").Replace(s) + `"`
}

// printJSON prints v as one object in one line.
func (e *env) printJSON(v any) error {
	enc := json.NewEncoder(e.Out)
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// table prints rows in columns with two blanks between them; the last column
// is wrapped below itself.
func (e *env) table(indent string, rows [][]string) { e.tableOf(indent, widthsOf(rows), rows) }

// widthsOf are the widths of all columns but the last, so that several tables
// can stand below each other.
func widthsOf(tables ...[][]string) []int {
	var widths []int
	for _, rows := range tables {
		for _, row := range rows {
			for i, cell := range row[:max(len(row)-1, 0)] {
				if i == len(widths) {
					widths = append(widths, 0)
				}
				widths[i] = max(widths[i], columns(cell))
			}
		}
	}
	return widths
}

func (e *env) tableOf(indent string, widths []int, rows [][]string) {
	for _, row := range rows {
		var b strings.Builder
		b.WriteString(indent)
		for i, cell := range row[:max(len(row)-1, 0)] {
			b.WriteString(pad(cell, widths[i]) + "  ")
		}
		last := ""
		if len(row) > 0 {
			last = row[len(row)-1]
		}
		fmt.Fprintln(e.Out, strings.TrimRight(hang(b.String(), last, e.Width), " "))
	}
}

// count is n with its noun, the plural made by adding s.
func count(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	if strings.HasSuffix(noun, "try") || noun == "inventory" {
		return thousands(n) + " " + strings.TrimSuffix(noun, "y") + "ies"
	}
	for _, end := range []string{"ss", "x", "sh", "ch"} {
		if strings.HasSuffix(noun, end) {
			return thousands(n) + " " + noun + "es"
		}
	}
	return thousands(n) + " " + noun + "s"
}

// thousands writes n with commas between groups of three digits.
func thousands(n int) string {
	if n < 0 {
		return "-" + thousands(-n)
	}
	s := fmt.Sprint(n)
	for i := len(s) - 3; i > 0; i -= 3 {
		s = s[:i] + "," + s[i:]
	}
	return s
}
