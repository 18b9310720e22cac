package merge

import (
	"slices"
	"strings"

	"blotter/ledger"
)

// withComments puts the comments that theirs gained since base into text: a
// line of comment above the line that it stands above in theirs, a comment
// behind a value behind that value, and whatever finds no such line, or all of
// them when homes is false, at the head of the record. What looks like a
// comment and is words of a longer value does no harm: the caller compares
// the words.
func withComments(text, base, theirs []byte, homes bool) []byte {
	c := commenter{lines: ledger.CutLines(text), end: lineEnd(text), had: map[string]bool{}, homes: homes}
	for _, l := range slices.Concat(ledger.CutLines(base), ledger.CutLines(text)) {
		_, comment := comment(l)
		c.had[comment] = true
	}
	for _, l := range ledger.CutLines(theirs) {
		c.take(l)
	}
	c.homeless = append(c.homeless, c.waiting...)
	at := 0
	for at < len(c.lines) && strings.HasPrefix(c.lines[at], "#") {
		at++
	}
	if len(c.homeless) > 0 && at > 0 {
		c.lines[at-1] = strings.TrimRight(c.lines[at-1], "\r\n") + c.end
	}
	for i, h := range c.homeless {
		c.homeless[i] = strings.TrimLeft(h, " \t")
	}
	return []byte(strings.Join(slices.Insert(c.lines, at, c.homeless...), ""))
}

// commenter carries comments into the lines of a text.
type commenter struct {
	lines             []string
	end               string
	had               map[string]bool
	homes             bool
	waiting, homeless []string
}

// take looks at the next line of theirs.
func (c *commenter) take(l string) {
	value, remark := comment(l)
	fresh := remark != "" && !c.had[remark]
	if value == "" { // nothing but a comment, or a blank line
		if fresh {
			c.waiting = append(c.waiting, strings.TrimRight(l, "\r\n")+c.end)
		}
		return
	}
	at := -1
	if c.homes && (fresh || len(c.waiting) > 0) {
		at = only(c.lines, value)
	}
	if at < 0 {
		c.homeless = append(c.homeless, c.waiting...)
		if fresh {
			c.homeless = append(c.homeless, remark+c.end)
		}
		c.waiting = nil
		return
	}
	if fresh {
		body := strings.TrimRight(c.lines[at], "\r\n")
		if _, own := comment(body); own == "" {
			c.lines[at] = strings.TrimRight(body, " \t") + "  " + remark + c.lines[at][len(body):]
		} else {
			c.homeless = append(c.homeless, remark+c.end)
		}
	}
	c.lines = slices.Insert(c.lines, at, c.waiting...)
	c.waiting = nil
}

// comment parts a line into its value and its comment, which begins with #
// at the beginning or behind two blanks (FORMAT.md, "Text").
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
