package dates

import "strings"

// level2 says which form of EDTF level 2 (Library of Congress 2019) a text has;
// "" when it has none. Levels 0 and 1 are read, level 2 is not.
func level2(text string) string {
	if len(text) < 5 || strings.Trim(text, "0123456789X?~%-./[]{},SEY ") != "" {
		return ""
	}
	first, last := text[0], text[len(text)-1]
	switch {
	case (first == '[' && last == ']' || first == '{' && last == '}') && (strings.Contains(text, ",") || strings.Contains(text, "..")):
		return "a set of dates"
	case strings.Trim(text, "0123456789-SY") == "" && strings.Count(text, "S") == 1 && isDigit(last):
		return "a year with its significant figures"
	case first == 'Y' && strings.Trim(text[1:], "0123456789-ES") == "" && strings.Contains(text, "E"):
		return "a year with an exponent"
	case len(text) == 7 && text[4] == '-' && strings.Trim(text, "0123456789-") == "" && text[5:] >= "25" && text[5:] <= "41":
		return "a quarter, a third or a half of a year"
	case unknownBeforeKnown(text):
		return "figures not known before known ones"
	}
	return ""
}

func notLevel2(form string) Reading {
	return unread("date-unread", form+" is EDTF level 2, which is not read; levels 0 and 1 are, for example 1987-07~ or 1667/1672")
}

// unknownBeforeKnown reports whether text is a date of the form of ISO 8601-1
// in which an X stands before a figure: 156X-12-25.
func unknownBeforeKnown(text string) bool {
	if len(text) != 7 && len(text) != 10 {
		return false
	}
	x, after := false, false
	for i := range len(text) {
		c := text[i]
		switch {
		case i == 4 || i == 7:
			if c != '-' {
				return false
			}
		case c == 'X':
			x = true
		case !isDigit(c):
			return false
		default:
			after = after || x
		}
	}
	return after
}

// innerMarks reports whether the marks ? ~ % of a date in EDTF stand beside a
// part of it, as in 2004-06?-11, which is level 2.
func innerMarks(text string) bool {
	at := strings.IndexAny(text, "?~%")
	if at < 0 || strings.IndexByte(text, '-') < 0 || strings.Trim(text, "0123456789?~%-/") != "" {
		return false
	}
	left, right, _ := strings.Cut(text, "/")
	if !midMark(left) && !midMark(right) {
		return false
	}
	bare := strings.NewReplacer("?", "", "~", "", "%", "").Replace(text)
	_, ok := readISO(bare)
	return ok
}

// midMark reports whether a mark stands before the end of s.
func midMark(s string) bool {
	i := strings.IndexAny(s, "?~%")
	return i >= 0 && i < len(s)-1
}
