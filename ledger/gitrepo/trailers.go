package gitrepo

import "strings"

// Trailer is one line "Key: value" at the end of a message.
type Trailer struct{ Key, Value string }

// Trailers are the trailers of a commit message, exactly those that
// `git interpret-trailers --parse` prints under git's default settings:
// those of the last paragraph, if it consists of trailers (or holds one that
// git itself writes and is a quarter trailers), continuation lines joined
// with a space, lines that begin with # left out.
func Trailers(message string) []Trailer {
	if message != "" && !strings.HasSuffix(message, "\n") {
		message += "\n"
	}
	end := trailerEnd(message[:patchStart(message)])
	block := message[trailerStart(message, end):end]
	var lines []string
	joined := false // the last of lines may be continued
	for line := range strings.Lines(block) {
		if joined && isSpace(line[0]) {
			lines[len(lines)-1] += line
			continue
		}
		lines = append(lines, line)
		joined = separator(line) >= 1
	}
	var ts []Trailer
	for _, line := range lines {
		if at := separator(line); at >= 1 && line[0] != '#' {
			ts = append(ts, Trailer{trim(line[:at]), unfold(trim(line[at+1:]))})
		}
	}
	return ts
}

// patchStart is where a line "---" cuts off what is no longer message.
func patchStart(s string) int {
	at := 0
	for line := range strings.Lines(s) {
		if strings.HasPrefix(line, "---") && len(line) > 3 && isSpace(line[3]) {
			return at
		}
		at += len(line)
	}
	return len(s)
}

// cutLine is git's scissors: what follows is no message.
const cutLine = "# ------------------------ >8 ------------------------\n"

// trailerEnd is where the comments, blank lines and old lists of conflicts
// at the end of s begin.
func trailerEnd(s string) int {
	cutoff := len(s)
	if strings.HasPrefix(s, cutLine) {
		cutoff = 0
	} else if i := strings.Index(s, "\n"+cutLine); i >= 0 {
		cutoff = i + 1
	}
	tail, conflicts := 0, false // where the run of such lines began
	for at := 0; at < cutoff; {
		line := lineAt(s, at)
		switch {
		case line[0] == '#' || line[0] == '\n':
			if tail == 0 {
				tail = at
			}
		case strings.HasPrefix(line, "Conflicts:\n"):
			conflicts = true
			if tail == 0 {
				tail = at
			}
		case conflicts && line[0] == '\t':
		default:
			tail, conflicts = 0, false
		}
		at += len(line)
	}
	if tail != 0 {
		return tail
	}
	return cutoff
}

// trailerStart is where the block of trailers that ends at end begins; end
// when there is none. The first paragraph is the title and holds none.
func trailerStart(s string, end int) int {
	title := 0
	for title < end {
		line := lineAt(s, title)
		if line[0] != '#' && trim(line) == "" {
			break
		}
		title += len(line)
	}
	trailers, others, continued, recognized, blankTail := 0, 0, 0, false, true
	for at := lastLine(s, end); at >= title; at = lastLine(s, at) {
		line := lineAt(s, at)
		switch {
		case line[0] == '#':
			others, continued = others+continued, 0
		case trim(line) == "":
			if blankTail {
				continue
			}
			others += continued
			if recognized && trailers*3 >= others || trailers > 0 && others == 0 {
				return at + len(line)
			}
			return end
		case strings.HasPrefix(line, "Signed-off-by: ") || strings.HasPrefix(line, "(cherry picked from commit "):
			trailers, continued, recognized, blankTail = trailers+1, 0, true, false
		case separator(line) >= 1 && !isSpace(line[0]):
			trailers, continued, blankTail = trailers+1, 0, false
		case isSpace(line[0]):
			continued, blankTail = continued+1, false
		default:
			others, continued, blankTail = others+1+continued, 0, false
		}
	}
	return end
}

// lineAt is the line of s that begins at i, with its line feed.
func lineAt(s string, i int) string {
	if n := strings.IndexByte(s[i:], '\n'); n >= 0 {
		return s[i : i+n+1]
	}
	return s[i:]
}

// lastLine is where the last line of s[:end] begins; -1 when there is none.
func lastLine(s string, end int) int {
	if end == 0 {
		return -1
	}
	return strings.LastIndexByte(s[:end-1], '\n') + 1
}

// separator is where the colon of a trailer stands: after letters, digits
// and hyphens, perhaps blanks; -1 when the line is no trailer.
func separator(line string) int {
	blank := false
	for i := 0; i < len(line); i++ {
		c := line[i]
		switch {
		case c == ':':
			return i
		case !blank && ('a' <= c|0x20 && c|0x20 <= 'z' || '0' <= c && c <= '9' || c == '-'):
		case i > 0 && (c == ' ' || c == '\t'):
			blank = true
		default:
			return -1
		}
	}
	return -1
}

// unfold joins continuation lines with one space.
func unfold(s string) string {
	var b strings.Builder
	for {
		line, rest, more := strings.Cut(s, "\n")
		b.WriteString(line)
		if !more {
			return trim(b.String())
		}
		b.WriteByte(' ')
		s = strings.TrimLeft(rest, gitSpace)
	}
}

// gitSpace is what git takes for white space.
const gitSpace = " \t\n\r"

func isSpace(c byte) bool { return strings.IndexByte(gitSpace, c) >= 0 }

func trim(s string) string { return strings.Trim(s, gitSpace) }
