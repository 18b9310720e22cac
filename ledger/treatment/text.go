package treatment

import (
	"bytes"
	"encoding/binary"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"golang.org/x/text/encoding/charmap"
)

// decode turns the bytes of a file into text: UTF-8, UTF-16 with or without a
// byte order mark, else Windows-1252. Zero bytes that are no UTF-16 stay and
// are no part of any cell that can be read.
func decode(data []byte) (text, charset string) {
	switch {
	case bytes.HasPrefix(data, []byte("\xef\xbb\xbf")):
		data = data[3:]
	case bytes.HasPrefix(data, []byte("\xff\xfe")):
		return wide(data[2:], binary.LittleEndian), "UTF-16"
	case bytes.HasPrefix(data, []byte("\xfe\xff")):
		return wide(data[2:], binary.BigEndian), "UTF-16"
	default:
		// Figures and separators of UTF-16 have a zero in every other byte.
		head := data[:min(len(data), 512)]
		var zeros [2]int
		for i, b := range head {
			if b == 0 {
				zeros[i%2]++
			}
		}
		switch quarter := len(head) / 4; {
		case len(head) >= 8 && zeros[1] > quarter && zeros[0] == 0:
			return wide(data, binary.LittleEndian), "UTF-16"
		case len(head) >= 8 && zeros[0] > quarter && zeros[1] == 0:
			return wide(data, binary.BigEndian), "UTF-16"
		}
	}
	if utf8.Valid(data) {
		return string(data), "UTF-8"
	}
	out, err := charmap.Windows1252.NewDecoder().Bytes(data)
	if err != nil { // it has a letter, if only U+FFFD, for every byte
		return strings.ToValidUTF8(string(data), "\uFFFD"), "Windows-1252"
	}
	return string(out), "Windows-1252"
}

func wide(data []byte, order binary.ByteOrder) string {
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	return string(utf16.Decode(units))
}

// lines is the lines of a text, ended by LF, CRLF or CR.
func lines(text string) []string {
	out := make([]string, 0, 1+strings.Count(text, "\n"))
	for len(text) > 0 {
		i := strings.IndexAny(text, "\r\n")
		if i < 0 {
			return append(out, text)
		}
		out = append(out, text[:i])
		if strings.HasPrefix(text[i:], "\r\n") {
			i++
		}
		text = text[i+1:]
	}
	return out
}

// mostCells bounds a line: no logger has so many channels.
const mostCells = 500

// blanks stands for any run of blanks as the separator.
const blanks = ' '

// split cuts a line into its cells, trimmed and without quotes, into buf. A
// quote that is not closed goes to the end of the line.
func split(line string, sep byte, buf []string) []string {
	buf = buf[:0]
	if sep == blanks {
		for word := range strings.FieldsSeq(line) {
			if len(buf) == mostCells {
				break
			}
			buf = append(buf, unquote(word))
		}
		return buf
	}
	for len(buf) < mostCells {
		start := strings.TrimLeft(line, " ")
		if strings.HasPrefix(start, `"`) {
			cell, rest := quoted(start[1:])
			buf = append(buf, strings.TrimSpace(cell))
			i := strings.IndexByte(rest, sep)
			if i < 0 {
				return buf
			}
			line = rest[i+1:]
			continue
		}
		i := strings.IndexByte(line, sep)
		if i < 0 {
			return append(buf, strings.TrimSpace(line))
		}
		buf = append(buf, strings.TrimSpace(line[:i]))
		line = line[i+1:]
	}
	return buf
}

// quoted is what stands up to the closing quote, two being one, and the rest.
func quoted(s string) (cell, rest string) {
	for i := 0; i < len(s); i++ {
		if s[i] != '"' {
			continue
		}
		if i+1 < len(s) && s[i+1] == '"' {
			i++
			continue
		}
		return strings.ReplaceAll(s[:i], `""`, `"`), s[i+1:]
	}
	return strings.ReplaceAll(s, `""`, `"`), ""
}

func unquote(s string) string {
	if len(s) >= 2 && s[0] == '"' && s[len(s)-1] == '"' {
		return s[1 : len(s)-1]
	}
	return s
}

// column is where a cell of a line begins, in code points from 1.
func column(line, cell string) int {
	if i := strings.Index(line, cell); i > 0 {
		return 1 + utf8.RuneCountInString(line[:i])
	}
	return 1
}
