package check

import (
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

// short is a number as people type it: its figures without leading zeros,
// or the whole number when it has none.
func short(n ledger.Number) string {
	if v, ok := n.Serial(); ok {
		return strconv.FormatUint(v, 10)
	}
	return string(n)
}

// numberOf is the short number of a record as read.
func numberOf(d *reading.Reading) string {
	if n, ok := ledger.NumberOfPath(d.Record.Path); ok {
		return short(n)
	}
	return short(ledger.Number(d.Record.Specimen.Text))
}

// accept is the line that lets a finding stand.
func accept(number, code string) string {
	return "If it is so: blotter accept " + number + " " + code + " --why TEXT"
}

// set is the command that puts a value into a field.
func set(number, field, value string) string {
	return "blotter set " + number + " " + field + "=" + quoted(value) + " --why TEXT"
}

// quoted is a value as a shell takes it for one word.
func quoted(s string) string {
	plain := func(r rune) bool {
		return r == '-' || r == '.' || r == ',' || r == ':' || r == '/' || r == '_' || r == '+' ||
			'0' <= r && r <= '9' || 'a' <= r && r <= 'z' || 'A' <= r && r <= 'Z'
	}
	if s != "" && strings.IndexFunc(s, func(r rune) bool { return !plain(r) }) < 0 {
		return s
	}
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, `$`, `\$`, "`", "\\`").Replace(s) + `"`
}

// lines joins the lines of a hint.
func lines(ls ...string) string { return strings.Join(ls, "\n") }

// hidden reports whether a record's values may not be repeated in a message.
func hidden(d *reading.Reading) bool { return book.MarkedSensitive(d.Record.Sensitive) }

// or joins alternatives: "3 April 1934 or 4 March 1934".
func or(ss []string) string {
	if len(ss) < 2 {
		return strings.Join(ss, "")
	}
	return strings.Join(ss[:len(ss)-1], ", ") + " or " + ss[len(ss)-1]
}

// nth is the dotted path of a field of an entry of a list, counted from 0.
func nth(list string, i int, field string) string {
	p := list + "." + strconv.Itoa(i+1)
	if field != "" {
		p += "." + field
	}
	return p
}

// figure is a threshold as people write it.
func figure(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
