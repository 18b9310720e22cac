package history

import (
	"strings"

	"blotter/ledger"
)

// Trailer is one line of the block of trailers that ends a commit's message.
type Trailer struct{ Key, Value string }

// CorrectsKey names the trailer that lifts the law of opinions for one number
// in one commit: "Corrects: LK7-0000482 label says 348".
const CorrectsKey = "Corrects"

// Correction is one Corrects trailer.
type Correction struct {
	Number ledger.Number
	Reason string
}

// Corrections are the Corrects trailers of a message, in its order. A trailer
// without a number is left out.
func Corrections(message string) []Correction {
	var out []Correction
	for _, t := range Trailers(message) {
		if !strings.EqualFold(t.Key, CorrectsKey) {
			continue
		}
		number, reason, _ := strings.Cut(t.Value, " ")
		if number = strings.TrimRight(number, ",:;"); number != "" {
			out = append(out, Correction{ledger.Number(number), strings.TrimSpace(reason)})
		}
	}
	return out
}

// correctionOf finds the correction of a number; numbers differ never by case
// alone.
func correctionOf(cs []Correction, n ledger.Number) (Correction, bool) {
	for _, c := range cs {
		if c.Number.Key() == n.Key() {
			return c, true
		}
	}
	return Correction{}, false
}

// Trailers reads a message as `git interpret-trailers --parse` does, with no
// trailer configured (source: git's own manual of that command, and its
// behaviour in the test beside this file).
func Trailers(message string) []Trailer {
	message, _, _ = strings.Cut(message, "\x00")
	lines := trailerBlock(splitLines(withoutTail(message)))
	var out []Trailer
	open := false // the line before can be continued
	for _, l := range lines {
		if open && isSpace(l[0]) {
			if n := len(out) - 1; n >= 0 {
				out[n].Value += l
			}
			continue
		}
		at := separator(l)
		open = at >= 1
		if open {
			out = append(out, Trailer{l[:at], l[at+1:]})
		}
	}
	kept := out[:0]
	for _, t := range out {
		if t.Key[0] != '#' {
			kept = append(kept, Trailer{strings.TrimRight(t.Key, " \t\n\v\f\r"), unfold(t.Value)})
		}
	}
	return kept
}

// withoutTail cuts a patch, git's scissors line and the comments and blank
// lines at the end.
func withoutTail(m string) string {
	at := 0
	for _, l := range splitLines(m) {
		if rest, ok := strings.CutPrefix(l, "---"); ok && rest != "" && isSpace(rest[0]) {
			m = m[:at]
			break
		}
		at += len(l)
	}
	const scissors = "# ------------------------ >8 ------------------------\n"
	if strings.HasPrefix(m, scissors) {
		return ""
	}
	if i := strings.Index(m, "\n"+scissors); i >= 0 {
		m = m[:i+1]
	}
	end, at, conflicts := 0, 0, false
	for _, l := range splitLines(m) {
		switch {
		case l[0] == '#' || l[0] == '\n':
			if end == 0 {
				end = at
			}
		case strings.HasPrefix(l, "Conflicts:\n"):
			conflicts = true
			if end == 0 {
				end = at
			}
		case conflicts && l[0] == '\t':
		case end != 0:
			end, conflicts = 0, false
		}
		at += len(l)
	}
	if end != 0 {
		return m[:end]
	}
	return m
}

// splitLines cuts s behind each line feed; no part is empty.
func splitLines(s string) []string {
	var out []string
	for s != "" {
		n := strings.IndexByte(s, '\n') + 1
		if n == 0 {
			n = len(s)
		}
		out = append(out, s[:n])
		s = s[n:]
	}
	return out
}

// trailerBlock is the last paragraph of a message, when it is not the first
// and consists of trailers, or holds one of git's own and not more than three
// other lines for each trailer.
func trailerBlock(lines []string) []string {
	title := 0
	for title < len(lines) && (lines[title][0] == '#' || !isBlank(lines[title])) {
		title++
	}
	trailers, others, maybe := 0, 0, 0 // maybe: lines that continue a trailer, if one stands above
	onlyBlank, gits := true, false
	for i := len(lines) - 1; i >= title; i-- {
		l := lines[i]
		switch {
		case l[0] == '#':
			others, maybe = others+maybe, 0
		case isBlank(l):
			if onlyBlank {
				continue
			}
			others += maybe
			if gits && trailers*3 >= others || trailers > 0 && others == 0 {
				return lines[i+1:]
			}
			return nil
		default:
			onlyBlank = false
			git := strings.HasPrefix(l, "Signed-off-by: ") || strings.HasPrefix(l, "(cherry picked from commit ")
			switch {
			case git || separator(l) >= 1 && !isSpace(l[0]):
				trailers, maybe, gits = trailers+1, 0, gits || git
			case isSpace(l[0]):
				maybe++
			default:
				others, maybe = others+1+maybe, 0
			}
		}
	}
	return nil
}

// separator is where the colon of a trailer stands; -1: the line is none.
func separator(l string) int {
	blank := false
	for i := range len(l) {
		switch c := l[i]; {
		case c == ':':
			return i
		case !blank && (c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-'):
		case i > 0 && (c == ' ' || c == '\t'):
			blank = true
		default:
			return -1
		}
	}
	return -1
}

func unfold(v string) string {
	var b strings.Builder
	for i := 0; i < len(v); i++ {
		if v[i] != '\n' {
			b.WriteByte(v[i])
			continue
		}
		for i+1 < len(v) && isSpace(v[i+1]) {
			i++
		}
		b.WriteByte(' ')
	}
	return strings.Trim(b.String(), " \t\n\v\f\r")
}

// isSpace is C's isspace in the C locale, without \v and \f as in git.
func isSpace(c byte) bool { return c == ' ' || c == '\t' || c == '\n' || c == '\r' }

func isBlank(l string) bool { return strings.Trim(l, " \t\n\r") == "" }
