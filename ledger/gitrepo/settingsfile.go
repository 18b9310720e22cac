package gitrepo

import (
	"fmt"
	"strings"
)

// parseSettings calls yield for every setting of a settings file, in order
// (git-config(1), "Syntax"). key is "section.key" or "section.subsection.key".
func parseSettings(b []byte, yield func(key, value string) error) error {
	text := strings.ReplaceAll(strings.TrimPrefix(string(b), "\ufeff"), "\r\n", "\n")
	section := ""
	for line := 1; text != ""; line++ {
		text = strings.TrimLeft(text, " \t")
		switch {
		case text == "":
			return nil
		case text[0] == '\n':
			text = text[1:]
		case text[0] == '#' || text[0] == ';':
			_, text, _ = strings.Cut(text, "\n")
		case text[0] == '[':
			var ok bool
			if section, text, ok = settingSection(text); !ok {
				return fmt.Errorf("read git's settings: line %d: a section without its closing bracket", line)
			}
			line--
		default:
			n := strings.IndexFunc(text, func(c rune) bool {
				return c != '-' && (c < '0' || c > '9') && (c|0x20 < 'a' || c|0x20 > 'z')
			})
			if n == 0 || section == "" {
				return fmt.Errorf("read git's settings: line %d: neither a section nor a key", line)
			}
			if n < 0 {
				n = len(text)
			}
			key := section + "." + strings.ToLower(text[:n])
			value, rest, more := settingValue(strings.TrimLeft(text[n:], " \t"))
			text, line = rest, line+more
			if err := yield(key, value); err != nil {
				return err
			}
		}
	}
	return nil
}

// settingSection reads "[section]" or "[section "sub"]".
func settingSection(text string) (section, rest string, ok bool) {
	var sub strings.Builder
	quoted, had := false, false
	name := ""
	for i := 1; i < len(text) && text[i] != '\n'; i++ {
		c := text[i]
		switch {
		case quoted && c == '\\' && i+1 < len(text):
			i++
			sub.WriteByte(text[i])
		case c == '"':
			quoted, had = !quoted, true
		case quoted:
			sub.WriteByte(c)
		case c == ']':
			name = strings.ToLower(strings.TrimSpace(name))
			if had {
				name += "." + sub.String()
			}
			return name, text[i+1:], name != ""
		default:
			name += string(c)
		}
	}
	return "", "", false
}

// settingValue reads what follows a key up to the end of the line; more is
// the number of further lines that a backslash joined to it.
func settingValue(text string) (value, rest string, more int) {
	body, ok := strings.CutPrefix(text, "=")
	if !ok {
		_, rest, _ = strings.Cut(text, "\n")
		return "true", rest, 0
	}
	body = strings.TrimLeft(body, " \t")
	var b strings.Builder
	keep := 0 // length up to the last character that is not a trailing blank
	quoted := false
	i := 0
loop:
	for ; i < len(body); i++ {
		c := body[i]
		switch {
		case c == '\n':
			break loop
		case c == '\\' && i+1 < len(body):
			i++
			switch body[i] {
			case '\n':
				more++
				continue
			case 'n':
				b.WriteByte('\n')
			case 't':
				b.WriteByte('\t')
			case 'b':
				b.WriteByte('\b')
			default:
				b.WriteByte(body[i])
			}
			keep = b.Len()
		case c == '"':
			quoted = !quoted
		case !quoted && (c == '#' || c == ';'):
			for i < len(body) && body[i] != '\n' {
				i++
			}
			break loop
		default:
			b.WriteByte(c)
			if quoted || c != ' ' && c != '\t' {
				keep = b.Len()
			}
		}
	}
	return b.String()[:keep], strings.TrimPrefix(body[i:], "\n"), more
}
