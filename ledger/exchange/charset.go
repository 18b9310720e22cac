package exchange

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"golang.org/x/text/encoding"
	"golang.org/x/text/encoding/charmap"
	"golang.org/x/text/transform"
)

// charsets are the encodings that a mapping may name, besides utf-8, utf-16
// and mixed.
var charsets = map[string]encoding.Encoding{
	"windows-1250": charmap.Windows1250,
	"windows-1251": charmap.Windows1251,
	"windows-1252": charmap.Windows1252,
	"windows-1257": charmap.Windows1257,
	"iso-8859-1":   charmap.ISO8859_1,
	"iso-8859-2":   charmap.ISO8859_2,
	"iso-8859-15":  charmap.ISO8859_15,
	"macintosh":    charmap.Macintosh,
	"cp437":        charmap.CodePage437,
	"cp850":        charmap.CodePage850,
	"cp865":        charmap.CodePage865,
}

// charset settles in which encoding a file is read; wanted is the mapping's
// word, "" for none. An error says which line is not in it and what to do.
func (l *look) charset(wanted string) (string, error) {
	if l.zero.is() {
		return "", fmt.Errorf("%s: a zero byte; it is not a table saved as text, or was damaged", l.zero)
	}
	if l.wide != "" {
		if wanted != "" && wanted != "utf-16" {
			return "", fmt.Errorf("it is UTF-16, though the mapping says encoding: %s", wanted)
		}
		return "utf-16", nil
	}
	switch wanted {
	case "utf-16":
		return "", fmt.Errorf("it is not UTF-16, though the mapping says so")
	case "":
		return l.guessCharset()
	case "utf-8":
		if l.firstBad.is() {
			return "", fmt.Errorf("%s: the byte %02X is not UTF-8 (%s)", l.firstBad, l.firstBad.b, l.lines())
		}
	case "windows-1252":
		if l.outside.is() {
			return "", fmt.Errorf("%s: the byte %02X has no letter in Windows-1252", l.outside, l.outside.b)
		}
	}
	return wanted, nil
}

func (l *look) guessCharset() (string, error) {
	switch {
	case !l.firstBad.is():
		return "utf-8", nil
	case l.letters > 0:
		return "", fmt.Errorf("%s: the byte %02X is not UTF-8, though other lines of the file are (%s). As Windows-1252 the line reads %q. "+
			"Save the table anew as UTF-8, or write `encoding: mixed` into the mapping: such lines are then read as Windows-1252", l.firstBad, l.firstBad.b, l.lines(), clip(l.badLine))
	case l.outside.is():
		return "", fmt.Errorf("%s: the byte %02X is neither UTF-8 nor Windows-1252; write into the mapping which it is, for example `encoding: macintosh` or `encoding: cp850`", l.outside, l.outside.b)
	}
	return "windows-1252", nil
}

func (l *look) lines() string {
	if l.foreign == 1 {
		return "this line only"
	}
	return fmt.Sprintf("%d lines in all", l.foreign)
}

// clip cuts long words for a message.
func clip(s string) string {
	r := []rune(s)
	if len(r) <= 60 {
		return s
	}
	return string(r[:60]) + " ..."
}

// decoded is narrow text in UTF-8.
func decoded(r io.Reader, charset string) io.Reader {
	if enc, ok := charsets[charset]; ok {
		return transform.NewReader(r, enc.NewDecoder())
	}
	return r
}

// fromWindows reads a line that is not UTF-8 as Windows-1252.
func fromWindows(s string) string {
	if utf8.ValidString(s) {
		return s
	}
	out, err := charmap.Windows1252.NewDecoder().String(s)
	if err != nil {
		return strings.ToValidUTF8(s, "\ufffd")
	}
	return out
}
