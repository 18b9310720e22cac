package merge

import (
	"slices"
	"strings"
)

// withComments puts the comments that theirs gained since base into text: a
// line of comment above the line that it stands above in theirs, a comment
// behind a value behind that value, and whatever finds no such line at the
// end. What looks like a comment and is words of a longer value does no harm:
// the caller compares the words.
func withComments(text, base, theirs []byte) []byte {
	had := map[string]bool{}
	for _, l := range slices.Concat(splitLines(base), splitLines(text)) {
		_, c := comment(l)
		had[c] = true
	}
	lines := splitLines(text)
	end := lineEnd(text)
	var waiting, homeless []string
	for _, l := range splitLines(theirs) {
		value, c := comment(l)
		fresh := c != "" && !had[c]
		if value == "" { // nothing but a comment, or a blank line
			if fresh {
				waiting = append(waiting, strings.TrimRight(l, "\r\n")+end)
			}
			continue
		}
		at := only(lines, value)
		if at < 0 {
			homeless = append(homeless, waiting...)
			if fresh {
				homeless = append(homeless, c+end)
			}
			waiting = nil
			continue
		}
		if fresh {
			body, ending := lines[at], ""
			if n := len(strings.TrimRight(body, "\r\n")); n < len(body) {
				body, ending = body[:n], body[n:]
			}
			if _, own := comment(body); own == "" {
				lines[at] = strings.TrimRight(body, " \t") + "  " + c + ending
			} else {
				homeless = append(homeless, c+end)
			}
		}
		lines = slices.Insert(lines, at, waiting...)
		waiting = nil
	}
	homeless = append(homeless, waiting...)
	if len(homeless) == 0 {
		return []byte(strings.Join(lines, ""))
	}
	if n := len(lines); n > 0 && !strings.HasSuffix(lines[n-1], "\n") && !strings.HasSuffix(lines[n-1], "\r") {
		lines[n-1] += end
	}
	for _, h := range homeless {
		lines = append(lines, strings.TrimLeft(h, " \t"))
	}
	return []byte(strings.Join(lines, ""))
}

// comment parts a line into its value and its comment, which begins with #
// at the beginning or behind two blanks (FORMAT.md, "Comments").
func comment(line string) (value, comment string) {
	l := strings.TrimRight(line, " \t\r\n")
	if strings.HasPrefix(strings.TrimLeft(l, " \t"), "#") {
		return "", strings.TrimLeft(l, " \t")
	}
	if i := strings.LastIndex(l, "  # "); i >= 0 {
		return strings.TrimRight(l[:i], " \t"), strings.TrimLeft(l[i:], " ")
	}
	return l, ""
}

// only is the place of the one line with a value; -1: none or several.
func only(lines []string, value string) int {
	at := -1
	for i, l := range lines {
		if v, _ := comment(l); v == value {
			if at >= 0 {
				return -1
			}
			at = i
		}
	}
	return at
}
