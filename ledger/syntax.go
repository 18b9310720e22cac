package ledger

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"
)

// explain puts into plain words why a file is not YAML. It looks for the
// faults that labels bring with them, line by line; what it does not know is
// reported with the parser's text at the first line the parser may mean.
func (d *decoder) explain(err error) {
	if d.lines == nil {
		d.lines = newLines(d.src)
	}
	if d.tabLine > 0 {
		d.add("text-tab", d.tabLine, d.tabCol, "", "the line is indented with a tab, which YAML does not count", fmt.Sprintf("Put two blanks for each step in line %d; blotter tidy does it for all", d.tabLine))
		return
	}
	x := &explainer{d: d, src: string(d.src)}
	before := len(d.found)
	for x.n = 1; x.n <= len(d.lines.from) && !x.stop && !d.full(); x.n++ {
		x.line(d.lines.text(x.n))
	}
	if len(d.found) > before {
		for _, f := range d.found[before:] {
			if f.Severity == Error {
				return
			}
		}
	}
	line, text := yamlError(err)
	d.add("yaml-syntax", line, 1, "", "the YAML reader stops near this line: "+text, "Look at this line and the one before it: a blank after each colon, the same number of blanks before fields of one group, quotes in pairs")
}

var yamlLine = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^yaml: (?:line ([0-9]+): )?(.*)$`) })

// yamlError takes the line and the text out of an error of the YAML library.
func yamlError(err error) (line int, text string) {
	for e := errors.Unwrap(err); e != nil; e = errors.Unwrap(e) {
		err = e
	}
	m := yamlLine().FindStringSubmatch(strings.ReplaceAll(err.Error(), "\n", " "))
	if m == nil {
		return 1, "it cannot be read"
	}
	line, _ = strconv.Atoi(m[1])
	return max(line, 1), m[2]
}

// explainer reads a file line by line, as far as lines can be read that way.
type explainer struct {
	d      *decoder
	src    string
	n      int   // line at hand
	stop   bool  // what follows cannot be read line by line
	block  int   // indent of the field whose block scalar goes on; -1 within none
	within bool  // a block scalar goes on
	cols   []int // columns, from 0, of the fields that the line at hand stands under
	plain  bool  // the last field has a plain value, which may go on
	open   bool  // the last field has no value yet: what follows may stand deeper
}

var (
	fieldStart = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^("[^"]*"|'[^']*'|[^\s"'\[\]{}#&*!|>%@,-][^:#]*?|-[^\s:#][^:#]*?)\s*:(\s+|$)`)
	})
	noBlank     = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^([a-z_]+):(\S.*)$`) })
	blockHeader = sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(`^[|>][-+0-9]{0,2}(\s+#.*)?$`) })
)

func (x *explainer) line(text string) {
	rest := strings.TrimLeft(text, " ")
	indent := len(text) - len(rest)
	if strings.TrimSpace(rest) == "" {
		return
	}
	if x.within {
		if indent > x.block {
			return
		}
		x.within = false
	}
	if rest[0] == '#' || strings.HasPrefix(text, "---") {
		return
	}
	item := false
	for strings.HasPrefix(rest, "- ") {
		x.under(indent)
		cut := strings.TrimLeft(rest[1:], " ")
		indent += len(rest) - len(cut)
		rest, item = cut, true
	}
	if rest == "-" || rest == "" {
		x.open = true
		return
	}
	m := fieldStart().FindStringSubmatchIndex(rest)
	if m == nil {
		x.noField(rest, indent, item)
		return
	}
	if !x.stands(indent, item) {
		x.stop = true
		return
	}
	x.plain, x.open = false, false
	x.value(rest[m[2]:m[3]], rest[m[1]:], indent, indent+m[1])
}

// under forgets the fields that stand deeper than col.
func (x *explainer) under(col int) {
	for len(x.cols) > 0 && x.cols[len(x.cols)-1] > col {
		x.cols = x.cols[:len(x.cols)-1]
	}
}

// stands reports whether a field at col stands in line with those above it.
func (x *explainer) stands(col int, item bool) bool {
	top := -1
	if n := len(x.cols); n > 0 {
		top = x.cols[n-1]
	}
	switch {
	case item || top < 0 || col > top && x.open:
		x.cols = append(x.cols, col)
		return true
	case col > top:
		x.fault("yaml-syntax", col, "this field stands deeper than the one before, which has a value already", "Put the same number of blanks before both")
		return false
	}
	x.under(col)
	if n := len(x.cols); n == 0 || x.cols[n-1] != col {
		x.fault("yaml-syntax", col, "this field stands in line with none of the fields above it", "Put as many blanks before it as before the other fields of its group")
		return false
	}
	return true
}

// deeper reports whether col is deeper than the last field.
func (x *explainer) deeper(col int) bool {
	return len(x.cols) == 0 || col > x.cols[len(x.cols)-1]
}

// noField looks at a line without a field name: words that go on, an entry of
// a list, or a slip.
func (x *explainer) noField(rest string, indent int, item bool) {
	switch m := noBlank().FindStringSubmatch(rest); {
	case item:
		x.value("", rest, indent, indent)
	case x.plain && x.deeper(indent):
	case m != nil:
		x.fault("yaml-syntax", indent, "a blank is missing after the colon", "Put a blank after the colon: "+m[1]+": "+quote(m[2], blockPlace))
		x.stop = true
	default:
		x.fault("yaml-syntax", indent, "this line has no field name followed by a colon and a blank", "If its words belong to the line before, put them behind it; else write the field's name before them")
		x.stop = true
	}
}

// value looks at the words of a field, which begin at column col (from 0).
func (x *explainer) value(key, v string, indent, col int) {
	whole := strings.TrimRight(v, " \t")
	if whole == "" || whole[0] == '#' {
		x.open = true
		return
	}
	fix := func(s string) string {
		if key == "" {
			return "- " + quoted(s)
		}
		return key + ": " + quoted(s)
	}
	switch c := whole[0]; {
	case c == '"' || c == '\'':
		x.quotes(whole, col, fix)
	case c == '[' || c == '{':
		x.brackets(whole, col, fix)
	case (c == '|' || c == '>') && blockHeader().MatchString(whole):
		x.within, x.block = true, indent
		if key == "" {
			x.block = indent - 1
		}
	case c == '&' || c == '*':
		x.fault("yaml-anchor", col, "the word after & or * is a mark for the YAML reader", "If the sign belongs to the words, put them in quotes: "+fix(whole))
	case c == '!':
		x.fault("yaml-tag", col, "the word after ! is an order to the YAML reader", "If the sign belongs to the words, put them in quotes: "+fix(whole))
	case strings.IndexByte("|>%@`,]}", c) >= 0, whole == "-", strings.HasPrefix(whole, "- "), strings.HasPrefix(whole, "? "), strings.HasPrefix(whole, ": "):
		x.fault("yaml-sign", col, "a value may not begin with "+whole[:1]+" outside quotes", "Put the words in quotes: "+fix(whole))
	default:
		x.plain = true
		words := whole
		if i := strings.Index(words, " #"); i >= 0 {
			words = strings.TrimRight(words[:i], " ")
		}
		if i := strings.Index(words, ": "); i >= 0 || strings.HasSuffix(words, ":") {
			x.fault("yaml-colon", col+max(i, 0), "a colon within the words ends the field's name a second time", "Put the words in quotes: "+fix(whole))
		}
	}
}

// ends finds where a value in quotes or brackets ends, if it does before the
// next line that begins with a field. It gives the words behind it on its last
// line, and makes that line the line at hand.
func (x *explainer) ends(col int, end func(string) int, field func(string) bool) (behind string, ok bool) {
	from := x.d.lines.from[x.n-1] + col
	n := end(x.src[from:])
	if n == 0 {
		return "", false
	}
	last := x.n
	for last < len(x.d.lines.from) && x.d.lines.from[last] < from+n {
		last++
		if field(x.d.lines.text(last)) {
			return "", false
		}
	}
	x.n = last
	text := x.d.lines.text(last)
	return text[min(from+n-x.d.lines.from[last-1], len(text)):], true
}

// harmless reports whether words behind a value are none or a comment.
func harmless(behind string) bool {
	words := strings.TrimLeft(behind, " \t")
	return words == "" || words[0] == '#' && len(words) < len(behind)
}

// quotes looks at a value in quotes.
func (x *explainer) quotes(v string, col int, fix func(string) string) {
	first := x.n
	behind, ok := x.ends(col, quoteEnd, func(line string) bool { return fieldStart().MatchString(strings.TrimLeft(line, " -")) })
	switch {
	case !ok:
		x.fault("yaml-quote", col, "the quotation mark is not closed", "Close it at the end of the words: "+v+v[:1]+"   or, if it belongs to the label: "+fix(v))
		x.stop = true
	case harmless(behind):
	case x.n > first:
		x.fault("yaml-quote", 0, "words follow the closing quotation mark in this line, and YAML takes the value to end there", "Take the quotation mark out, or close it after the last word")
	default:
		x.fault("yaml-quote", col, "words follow the closing quotation mark, and YAML takes the value to end there", quoteHint(v, fix))
	}
}

// quoteHint says how a value is written whose closing quotation mark stands
// within its words.
func quoteHint(v string, fix func(string) string) string {
	n := quoteEnd(v)
	if n == 0 || strings.ContainsAny(v[n:], v[:1]+`\#`) {
		return "Put all of it in quotes: " + fix(v)
	}
	return "Close it at the end of the words: " + v[:n-1] + strings.TrimRight(v[n:], " \t\r") + v[:1] + "   or, if the marks belong to the label: " + fix(v)
}

// quoteEnd is the offset after the quotation mark that closes the one at the
// beginning of v; 0 when none does.
func quoteEnd(v string) int {
	for i := 1; i < len(v); i++ {
		switch {
		case v[0] == '"' && v[i] == '\\':
			i++
		case v[i] != v[0]:
		case v[0] == '\'' && i+1 < len(v) && v[i+1] == '\'':
			i++
		default:
			return i + 1
		}
	}
	return 0
}

// brackets looks at a value that begins with [ or {.
func (x *explainer) brackets(v string, col int, fix func(string) string) {
	first := x.n
	behind, ok := x.ends(col, bracketEnd, func(line string) bool { return line != "" && line[0] != ' ' && fieldStart().MatchString(line) })
	cut := strings.Index(v, " #")
	switch {
	case ok && first == x.n && cut >= 0 && cut < len(v)-len(strings.TrimLeft(behind, " \t")):
		x.fault("value-cut", col+cut+1, "every reader of YAML drops the words from # on, the closing bracket with them", "Put the entry that holds # in quotes, for example: [\"Camp #4\", Voss]")
	case !ok:
		x.fault("yaml-sign", col, "the bracket "+v[:1]+" is not closed", "If it belongs to the words: "+fix(v)+"   If it begins a list: close it")
		x.stop = true
	case !harmless(behind):
		x.fault("yaml-sign", min(col, len(x.d.lines.text(x.n))), "words follow the closing bracket, and YAML takes the value to end there", "If the brackets belong to the words: "+fix(v))
	}
}

// bracketEnd is the offset after the bracket that closes the one at the
// beginning of v; 0 when none does.
func bracketEnd(v string) int {
	depth := 0
	for i := 0; i < len(v); i++ {
		switch c := v[i]; {
		case c == '[' || c == '{':
			depth++
		case c == ']' || c == '}':
			if depth--; depth == 0 {
				return i + 1
			}
		case (c == '"' || c == '\'') && strings.IndexByte("[{,: \n", v[i-1]) >= 0:
			n := quoteEnd(v[i:])
			if n == 0 {
				return 0
			}
			i += n - 1
		}
	}
	return 0
}

func (x *explainer) fault(code string, col int, message, hint string) {
	text := x.d.lines.text(x.n)
	x.d.add(code, x.n, utf8.RuneCountInString(text[:min(col, len(text))])+1, "", message, hint)
}

// tooDeep reports whether brackets are nested so deeply that the parser is
// spared the file. Brackets in words are counted too, so the bound is far
// above what the format needs and far below what hurts.
func tooDeep(src []byte) bool {
	depth := 0
	for _, c := range src {
		switch c {
		case '[', '{':
			if depth++; depth > 200 {
				return true
			}
		case ']', '}':
			depth = max(depth-1, 0)
		}
	}
	return false
}
