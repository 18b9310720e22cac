package ledger

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Severity says what a finding does: an Error stops the entry that brings it
// in, a Warning never stops anything.
type Severity uint8

const (
	Warning Severity = iota
	Error
)

func (s Severity) String() string {
	if s == Error {
		return "error"
	}
	return "warning"
}

// Finding is one thing found in the ledger's files: about the collection,
// never about our own work (that is a Go error).
type Finding struct {
	Path     string   // file, relative to the ledger, forward slashes
	Line     int      // from 1; 0: the whole file
	Col      int      // code points from 1; 0: the whole line
	Severity Severity //
	Code     string   // stable short name, for example "date-two-ways"; listed in FORMAT.md
	Field    string   // dotted path of the field, for example "determinations.2.by"; "" for the file
	Message  string   // what is wrong and why it matters: lower case, no full stop at the end, never a withheld value
	Hint     string   // what to type or write, one or more lines; "" if nothing can be done
}

// String is the one-line form: path:line:col: severity: message [code]. A
// path that would break the line, or act on a terminal, is quoted.
func (f Finding) String() string {
	return fmt.Sprintf("%s:%d:%d: %s: %s [%s]", ShownPath(f.Path), max(f.Line, 1), max(f.Col, 1), f.Severity, f.Message, f.Code)
}

// SortFindings puts findings in the order in which they are shown: path,
// line, column, code, message.
func SortFindings(fs []Finding) {
	slices.SortFunc(fs, CompareFindings)
}

// CompareFindings is the order of SortFindings; findings that differ nowhere
// else stand by field and hint.
func CompareFindings(a, b Finding) int {
	return cmp.Or(cmp.Compare(a.Path, b.Path), cmp.Compare(a.Line, b.Line), cmp.Compare(a.Col, b.Col),
		cmp.Compare(a.Code, b.Code), cmp.Compare(a.Message, b.Message), cmp.Compare(a.Field, b.Field), cmp.Compare(a.Hint, b.Hint))
}

// ShownPath is path as it can stand in a line: as it is when all of it can be
// seen, else quoted as in Go.
func ShownPath(path string) string {
	if strings.ContainsFunc(path, func(r rune) bool { return r == utf8.RuneError || !unicode.IsPrint(r) }) {
		return strconv.Quote(path)
	}
	return path
}
