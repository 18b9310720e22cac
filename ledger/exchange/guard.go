package exchange

import "strings"

// Guard makes a cell harmless that a spreadsheet would take for a formula: one
// that begins with =, +, -, @, a tab, a line end or one of the wide forms of those
// signs gets an apostrophe in front, which spreadsheets read as "this is text".
// A number such as -33.92 is no formula and stays as it is. A cell with
// apostrophes before such a sign gets one more, so that Unguard restores every
// cell (the signs: OWASP, "CSV Injection", from memory).
func Guard(cell string) string {
	if guarded(cell) {
		return "'" + cell
	}
	return cell
}

// Unguard takes the apostrophe of Guard off. What begins otherwise, 's-Gravenhage
// too, stays as it is.
func Unguard(cell string) string {
	if rest, ok := strings.CutPrefix(cell, "'"); ok && guarded(rest) {
		return rest
	}
	return cell
}

// guarded reports whether a cell, apostrophes at its beginning left out, begins
// as a formula.
func guarded(cell string) bool {
	bare := strings.TrimLeft(cell, "'")
	if bare == "" || bare[0] > '@' && bare[0] < 0x80 {
		return false
	}
	switch bare[0] {
	case '=', '+', '@', '\t', '\r', '\n':
		return true
	case '-':
		return !plainNumber(bare[1:])
	}
	for _, wide := range []string{"＝", "＋", "－", "＠"} {
		if strings.HasPrefix(bare, wide) {
			return true
		}
	}
	return false
}

// plainNumber reports whether a text is figures with at most one point.
func plainNumber(s string) bool {
	whole, after, point := strings.Cut(s, ".")
	return whole != "" && (!point || after != "") && strings.Trim(whole+after, "0123456789") == ""
}
