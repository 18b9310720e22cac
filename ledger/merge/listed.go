package merge

import (
	"bytes"
	"slices"
	"strings"
)

// Listed merges two versions of one of the museum's own files (people.yaml,
// places.yaml, names/, blotter.yaml): heading by heading, and in a list entry
// by entry, an entry being known by its first line. What one side added,
// altered or took out is so in the result, though both did so in neighbouring
// lines; ok is false when both altered one entry in two ways, and then nothing
// is merged. base is empty when the file was added on both sides. The result
// is the same from either side, but for the order of what both added in one
// place.
func Listed(base, ours, theirs []byte) (merged []byte, ok bool) {
	b, okB := partsOf(base)
	o, okO := partsOf(ours)
	t, okT := partsOf(theirs)
	if !okB || !okO || !okT {
		return nil, false
	}
	var out []part
	for _, p := range o.list {
		text, keep, ok := b.choose(o, t, p.key)
		if !ok {
			return nil, false
		}
		if keep {
			out = append(out, part{p.key, text})
		}
	}
	for i, p := range t.list {
		if _, mine := o.at[p.key]; mine {
			continue
		}
		text, keep, ok := b.choose(o, t, p.key)
		if !ok {
			return nil, false
		}
		if keep {
			out = slices.Insert(out, placeFor(out, t.list[:i], t, p.key), part{p.key, text})
		}
	}
	var all bytes.Buffer
	for i, p := range out {
		if i > 0 && all.Len() > 0 && all.Bytes()[all.Len()-1] != '\n' {
			all.WriteByte('\n')
		}
		all.WriteString(p.text)
	}
	return all.Bytes(), true
}

// placeFor is where a part of the other side belongs: after what stands before
// it there, among what both added in that place in order of their first lines.
func placeFor(out, before []part, t parts, key string) int {
	at := 0
	for _, p := range slices.Backward(before) {
		if i := slices.IndexFunc(out, func(x part) bool { return x.key == p.key }); i >= 0 {
			at = i + 1
			break
		}
	}
	for at < len(out) {
		if _, theirs := t.at[out[at].key]; theirs || section(out[at].key) != section(key) || out[at].key > key {
			break
		}
		at++
	}
	return at
}

// part is a piece of the file: its head, the line of a heading, or an entry of
// a list.
type part struct{ key, text string }

// section is the heading that a part stands under.
func section(key string) string {
	s, _, _ := strings.Cut(key, "\n")
	return s
}

type parts struct {
	list []part
	at   map[string]string
}

// choose is the text of a part in the result; keep is false when it is gone.
func (b parts) choose(o, t parts, key string) (text string, keep, ok bool) {
	was, inBase := b.at[key]
	mine, inOurs := o.at[key]
	other, inTheirs := t.at[key]
	switch {
	case inOurs == inTheirs && sameLines(mine, other):
		return mine, inOurs, true
	case inBase == inTheirs && sameLines(was, other):
		return mine, inOurs, true
	case inBase == inOurs && sameLines(was, mine):
		return other, inTheirs, true
	case inOurs && inTheirs && !inBase && holds(mine, other):
		return mine, true, true
	case inOurs && inTheirs && !inBase && holds(other, mine):
		return other, true, true
	}
	return "", false, false
}

func sameLines(a, b string) bool { return strings.TrimRight(a, "\r\n") == strings.TrimRight(b, "\r\n") }

// holds reports whether all lines of b stand in a, in their order.
func holds(a, b string) bool {
	lines := strings.Split(strings.TrimRight(b, "\r\n"), "\n")
	for line := range strings.SplitSeq(a, "\n") {
		if len(lines) > 0 && strings.TrimRight(line, "\r") == strings.TrimRight(lines[0], "\r") {
			lines = lines[1:]
		}
	}
	return len(lines) == 0
}

// partsOf cuts a file into its parts; false when two of them cannot be told
// apart.
func partsOf(src []byte) (parts, bool) {
	p := parts{at: map[string]string{}}
	var text strings.Builder
	head, key, indent := "", "", -1
	sound := true
	end := func() {
		if text.Len() > 0 {
			if _, twice := p.at[key]; twice {
				sound = false
			}
			p.at[key] = text.String()
			p.list = append(p.list, part{key, text.String()})
			text.Reset()
		}
	}
	for line := range strings.Lines(string(src)) {
		bare := strings.TrimLeft(line, " ")
		in := len(line) - len(bare)
		switch {
		case in == 0 && heading(line) != "":
			end()
			head, indent = heading(line), -1
			key = head
		case head != "" && strings.HasPrefix(bare, "- ") && (indent < 0 || in == indent):
			end()
			indent = in
			key = head + "\n" + strings.TrimSpace(bare)
		}
		text.WriteString(line)
	}
	end()
	return p, sound
}

// heading is the word of a line like "people:" or "name: Lauvkroken Museum".
func heading(line string) string {
	word, _, ok := strings.Cut(line, ":")
	if !ok || word == "" || strings.ContainsAny(word, " #\t\"'-[{") {
		return ""
	}
	return word
}
