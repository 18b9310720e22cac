package ledger

import (
	"bytes"
	"strings"
)

// Tidy mends the form of a file and leaves its words: line ends become LF, a
// byte order mark goes, tabs that indent become blanks, values that a reader
// of YAML could bend get quotes, the file ends with a newline, and a record
// or a work begins with the editor line for its path. What it cannot mend stays and is
// among the findings, which are those of the mended file. A file whose words
// would change is returned as it is.
func Tidy(path string, src []byte) ([]byte, []Finding) {
	kind, ok := KindOf(path)
	if !ok || len(src) > MaxFile {
		return bytes.Clone(src), CheckFile(path, src)
	}
	out := bytes.TrimPrefix(src, []byte("\uFEFF"))
	out = bytes.ReplaceAll(out, []byte("\r\n"), []byte("\n"))
	out = bytes.ReplaceAll(out, []byte("\r"), []byte("\n"))
	if len(out) > 0 && out[len(out)-1] != '\n' {
		out = append(bytes.Clone(out), '\n')
	}
	if _, err := parse(out); err != nil {
		out = untab(out)
	}
	out = requote(path, out)
	if kind == RecordKind || kind == WorkFileKind {
		out = editorHead(path, out)
	}
	if !sameWords(src, out) {
		out = bytes.Clone(src)
	}
	return out, CheckFile(path, out)
}

// sameWords reports whether two files have the same words; a file that cannot
// be read has none to lose.
func sameWords(a, b []byte) bool {
	rootA, errA := parse(a)
	rootB, errB := parse(b)
	if errA != nil || errB != nil {
		return errA != nil
	}
	treeA, errA := treeOf(rootA)
	treeB, errB := treeOf(rootB)
	if errA != nil || errB != nil {
		return (errA == nil) == (errB == nil)
	}
	return treeA.equal(treeB)
}

// untab puts two blanks for each tab that indents, if the file can be read then.
func untab(src []byte) []byte {
	var out []byte
	for line := range bytes.Lines(src) {
		body := bytes.TrimLeft(line, " \t")
		out = append(out, bytes.ReplaceAll(line[:len(line)-len(body)], []byte("\t"), []byte("  "))...)
		out = append(out, body...)
	}
	if _, err := parse(out); err != nil {
		return src
	}
	return out
}

// requote puts quotes around every value of the code value-unquoted.
func requote(path string, src []byte) []byte {
	found := CheckFile(path, src)
	lines := newLines(src)
	for i := len(found) - 1; i >= 0; i-- {
		f := found[i]
		if f.Code != "value-unquoted" {
			continue
		}
		at := lines.offset(f.Line, f.Col)
		end := at
		for end < len(src) && strings.IndexByte(" \t\n,]}", src[end]) < 0 && (src[end] != ':' || end+1 < len(src) && src[end+1] != ' ' && src[end+1] != '\n') {
			end++
		}
		// A moment in time holds a blank before its hour.
		if rest := src[end:]; len(rest) > 0 && rest[0] == ' ' && implicit(string(src[at:end])) == "" {
			for end < len(src) && strings.IndexByte("\n,]}#", src[end]) < 0 {
				end++
			}
			end = at + len(bytes.TrimRight(src[at:end], " \t"))
		}
		src = append(append(append(src[:at:at], '"'), append(bytes.Clone(src[at:end]), '"')...), src[end:]...)
	}
	return src
}

// editorHead puts the editor line at the head, in the place of another one.
func editorHead(path string, src []byte) []byte {
	want := EditorLine(path)
	at := 0
	for line := range bytes.Lines(src) {
		if line[0] != '#' {
			break
		}
		if bytes.HasPrefix(line, []byte(editorMark)) {
			return append(append(append(src[:at:at], want...), '\n'), src[at+len(line):]...)
		}
		at += len(line)
	}
	return append([]byte(want+"\n"), src...)
}
