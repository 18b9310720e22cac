package ledger

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// fileMaker writes a record in the many ways of many writers. Every line of a
// value and every comment holds a mark of its own, v12x or c12x, so that a
// test can say what became of it.
type fileMaker struct {
	t     *rapid.T
	b     strings.Builder
	marks int
}

func (m *fileMaker) chance(of int) bool { return rapid.IntRange(0, 99).Draw(m.t, "chance") < of }

func (m *fileMaker) mark(kind string) string {
	m.marks++
	return fmt.Sprintf("%s%dx", kind, m.marks)
}

func (m *fileMaker) line(s string) { m.b.WriteString(s + "\n") }

// comments writes blank lines and comment lines, now and then.
func (m *fileMaker) comments(indent string) {
	if m.chance(10) {
		m.line("")
	}
	if m.chance(15) {
		m.line(indent + "# " + m.mark("c"))
	}
}

func (m *fileMaker) tail() string {
	if m.chance(20) {
		return strings.Repeat(" ", rapid.IntRange(2, 5).Draw(m.t, "blanks")) + "# " + m.mark("c")
	}
	return ""
}

// words writes a value behind what stands on the line already; inner is the
// indent of its further lines.
func (m *fileMaker) words(before, inner string) {
	v := m.mark("v")
	switch rapid.SampledFrom([]string{"plain", "plain", "plain", "single", "double", "folded", "literal", "strip", "keep", "greater", "digit", "quotedlines", "null"}).Draw(m.t, "style") {
	case "plain":
		m.line(before + " " + v + " grønn eng, 5 m" + m.tail())
	case "single":
		m.line(before + " '" + v + ": it''s'" + m.tail())
	case "double":
		m.line(before + ` "` + v + `: \"a\" # é"` + m.tail())
	case "folded":
		m.line(before + " " + v)
		m.line(inner + v + " more" + m.tail())
	case "literal":
		m.line(before + " |" + m.tail())
		m.line(inner + v)
		m.line("")
		m.line(inner + "  # " + v)
	case "strip":
		m.line(before + " |-" + m.tail())
		m.line(inner + v)
	case "keep":
		m.line(before + " |+")
		m.line(inner + v)
		m.line("")
	case "greater":
		m.line(before + " >")
		m.line(inner + v)
		m.line(inner + v)
		m.line("")
	case "digit":
		m.line(before + " |1-")
		m.line(inner + v)
	case "quotedlines":
		m.line(before + ` "` + v)
		m.line(inner + v + `"` + m.tail())
	case "null":
		m.line(before + m.tail())
	}
}

// entries writes a list of groups in lines or in brackets.
func (m *fileMaker) entries(key string, fields []string) {
	n := rapid.IntRange(0, 3).Draw(m.t, "entries")
	if n == 0 {
		m.line(key + ": []" + m.tail())
		return
	}
	if m.chance(25) {
		var items []string
		for range n {
			items = append(items, "{"+fields[0]+": "+m.mark("v")+", "+fields[1]+": '"+m.mark("v")+"'}")
		}
		m.line(key + ": [" + strings.Join(items, ", ") + "]" + m.tail())
		return
	}
	m.line(key + ":" + m.tail())
	indent := strings.Repeat(" ", rapid.SampledFrom([]int{0, 2, 4}).Draw(m.t, "indent"))
	gap := strings.Repeat(" ", rapid.IntRange(1, 3).Draw(m.t, "gap"))
	for range n {
		first := true
		inner := indent + " " + gap
		for _, f := range fields {
			if !first && m.chance(50) {
				continue
			}
			before := inner + f + ":"
			if first {
				before = indent + "-" + gap + f + ":"
			}
			first = false
			m.words(before, inner+"  ")
		}
		m.comments(inner)
	}
}

func (m *fileMaker) file() string {
	m.comments("")
	m.line("specimen: LK7-1")
	for _, f := range []string{"collector", "with", "coll_no", "date", "place", "habitat", "determinations", "types", "remarks"} {
		if m.chance(35) {
			continue
		}
		m.comments("")
		switch f {
		case "with":
			switch rapid.IntRange(0, 2).Draw(m.t, "list") {
			case 0:
				m.line("with: [" + m.mark("v") + ", " + m.mark("v") + " ]" + m.tail())
			case 1:
				m.line("with:" + m.tail())
				m.words("  -", "    ")
				m.line("  - " + m.mark("v"))
			default:
				m.line("with: []")
			}
		case "place":
			switch rapid.IntRange(0, 2).Draw(m.t, "group") {
			case 0:
				m.line("place: {country: " + m.mark("v") + ", datum: \"" + m.mark("v") + "\"}" + m.tail())
			case 1:
				m.line("place:" + m.tail())
				for _, k := range []string{"country", "locality", "elevation"} {
					if m.chance(70) {
						m.comments("   ")
						m.words("   "+k+":", "     ")
					}
				}
			default:
				m.line("place: {}")
			}
		case "determinations":
			m.entries(f, []string{"name", "by", "why"})
		case "types":
			m.entries(f, []string{"status", "of"})
		default:
			m.words(f+":", "  ")
		}
	}
	s := m.b.String()
	if m.chance(15) {
		s = strings.TrimRight(s, "\n")
	}
	if m.chance(20) {
		s = strings.ReplaceAll(s, "\n", "\r\n")
	}
	return s
}

func (m *fileMaker) op() Op {
	path := rapid.SampledFrom([]string{"collector", "date", "place.country", "place.locality", "place.elevation", "habitat", "remarks",
		"read.date.is", "with.1", "with.2", "determinations.1.by", "determinations.2.why", "types.1.of", "fieldbook.page"}).Draw(m.t, "path")
	value := rapid.SampledFrom([]string{"new words", "12", "a: b", "# c", `60°42'12"N`, "one\ntwo", "[x]", "no", "it's \"so\" \\"}).Draw(m.t, "value")
	list := rapid.SampledFrom([]string{"determinations", "types"}).Draw(m.t, "list")
	entry := []KV{{"name", value}, {"by", "B"}}
	if list == "types" {
		entry = []KV{{"status", "isotype"}, {"of", value}}
	}
	switch rapid.IntRange(0, 6).Draw(m.t, "verb") {
	case 0:
		return Remove(path)
	case 1:
		return Append(list, entry...)
	case 2:
		return Insert(list, rapid.IntRange(1, 3).Draw(m.t, "at"), entry...)
	case 3:
		return Append("with", KV{"", value})
	case 4:
		return SetList("with", "A", value)
	}
	return Set(path, value)
}

var marks = regexp.MustCompile(`[vc]\d+x`)

// TestEditElsewhere: whatever an edit does, every comment and every line of
// another value survives byte for byte and in order; an edit that adds only
// inserts.
func TestEditElsewhere(t *testing.T) {
	made, refused := 0, map[string]int{}
	rapid.Check(t, func(t *rapid.T) {
		m := &fileMaker{t: t}
		src := m.file()
		if _, err := parse([]byte(src)); err != nil {
			t.Fatalf("the test's own file is bad: %v\n%s", err, src)
		}
		op := m.op()
		out, err := Edit([]byte(src), op)
		var r *RefusedEdit
		if errors.As(err, &r) {
			refused[r.Why]++
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		made++
		checkElsewhere(t, src, string(out), op)
	})
	// Some files cannot be changed safely, such as one that ends in a block
	// scalar without a newline; they must be few.
	if n := refused[errShape.Error()]; n*20 > made {
		t.Errorf("made %d, refused %v", made, refused)
	}
}

func checkElsewhere(t *rapid.T, src, out string, op Op) {
	gone := map[string]bool{}
	for _, kv := range leaves(t, src) {
		touched := kv.Key == op.path || op.verb != insertEntry && strings.HasPrefix(kv.Key, op.path+".")
		if touched {
			for _, mark := range marks.FindAllString(kv.Value, -1) {
				gone[mark] = true
			}
		}
	}
	kept := func(s string) []string {
		return slices.DeleteFunc(marks.FindAllString(s, -1), func(m string) bool { return gone[m] })
	}
	want, got := kept(src), kept(out)
	if op.verb == remove {
		// A comment on a line that goes, goes too.
		want = slices.DeleteFunc(want, func(m string) bool { return m[0] == 'c' && !slices.Contains(got, m) })
	}
	if !slices.Equal(want, got) {
		t.Fatalf("%+v %v: marks %v became %v\n%s\n---\n%s", op, op.value, want, got, src, out)
	}
	lines := strings.SplitAfter(out, "\n")
	for _, line := range strings.SplitAfter(src, "\n") {
		if found := marks.FindAllString(line, -1); strings.ContainsAny(line, "[{") || len(found) == 0 || slices.ContainsFunc(found, func(m string) bool { return gone[m] }) {
			continue
		}
		if !slices.Contains(lines, line) && !ownLine(line, op) && !strings.HasSuffix(src, line) && op.verb != remove {
			t.Fatalf("%+v: the line %q is gone or altered\n%s\n---\n%s", op, line, src, out)
		}
	}
	pre := 0
	for pre < len(src) && pre < len(out) && src[pre] == out[pre] {
		pre++
	}
	post := 0
	for post < len(src)-pre && post < len(out)-pre && src[len(src)-1-post] == out[len(out)-1-post] {
		post++
	}
	// Empty brackets give way to lines; a comment behind them moves up.
	middle := strings.TrimLeft(strings.TrimPrefix(strings.TrimLeft(src[pre:len(src)-post], " "), "[]"), " ")
	if op.verb == insertEntry && !strings.Contains(out[pre:len(out)-post], middle) {
		t.Fatalf("%+v: adding took %q away\n%s\n---\n%s", op, middle, src, out)
	}
}

// ownLine reports whether a line may be the first one of the field that an op
// changes: a block's sign or an empty value, with a comment behind it.
func ownLine(line string, op Op) bool {
	key := op.path[strings.LastIndexByte(op.path, '.')+1:] + ":"
	line = strings.TrimLeft(line, " -")
	return op.verb != insertEntry && (strings.HasPrefix(line, key) || strings.HasPrefix(op.path, "with") && strings.ContainsAny(line[:1], "#|>"))
}

// leaves are the paths and words of a file, those of no field of ours too.
func leaves(t interface{ Fatal(...any) }, src string) []KV {
	root, err := parse([]byte(src))
	if err != nil {
		t.Fatal(err)
	}
	tr, err := treeOf(root)
	if err != nil {
		t.Fatal(err)
	}
	var out []KV
	var walk func(t *tree, path string)
	walk = func(t *tree, path string) {
		if t == nil {
			return
		}
		if t.kind == Text {
			out = append(out, KV{path, t.text})
		}
		for i, c := range t.items {
			key := fmt.Sprint(i + 1)
			if t.kind == Group {
				key = t.keys[i]
			}
			walk(c, strings.TrimPrefix(path+"."+key, "."))
		}
	}
	walk(tr, "")
	return out
}
