package field

import (
	"bytes"
	"fmt"
	"strings"
	"unicode/utf8"

	"blotter/ledger"
)

// Form is a file of gatherings as typed.
type Form struct {
	// Field: it asks what only the field form asks, or begins with the line
	// "form: field". Its words are kept to the letter, its gatherings are
	// drafts, and one with nothing but its number is left out.
	Field      bool
	Gatherings []Gathering
	Unanswered []string // numbers of gatherings that were left out
}

// Gathering is the answers for one plant, those for all of the file among
// them.
type Gathering struct {
	Line   int               // of its number, or where it begins
	Values map[string]string // by path of the field
}

// Fault is a line that is not understood.
type Fault struct {
	Line, Col int // from 1, in characters
	Why       string
}

// Reader is what of a ledger the reading of a form hangs on.
type Reader struct {
	Levels []string // the museum's own words for country, province, district
	// Other is the path of a field that is no question of the form; its error
	// says that there is none, and the nearest.
	Other func(name string) (path string, err error)
	// None is the word for none of a field, for which people type a hyphen.
	None func(path string) string
}

// formLine begins a form as text, and the next one in the same file.
const formLine, formKind = "form", "field"

// Read reads a file of gatherings: first what all have in common, then each
// after a line of hyphens, a QUESTION: ANSWER a line. Without such a line the
// file is one gathering. All faults are given, the first line first.
func (r Reader) Read(src []byte) (Form, []Fault) {
	p := &parse{Reader: r, words: wordsOf(r.Levels), others: map[string]other{}}
	if p.encoding(src) {
		return Form{}, p.faults
	}
	text := strings.TrimPrefix(string(src), "\ufeff")
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	p.begin()
	for i, line := range strings.Split(text, "\n") {
		p.line = i + 1
		p.take(line)
	}
	p.end()
	if len(p.raw) == 0 && len(p.faults) == 0 {
		p.fault(1, "it has no plant; each begins after a line ---")
	}
	p.finish()
	return p.form, p.faults
}

// answer is one answer as typed.
type answer struct {
	value  string
	asked  string // the question as typed
	none   string // the word for none in its language
	number int    // of its line
}

// section is the answers between two lines of hyphens, by slot: the key of a
// question, or the path of another field.
type section map[string]*answer

// parse is one reading under way.
type parse struct {
	Reader
	words  map[string]word
	form   Form
	faults []Fault
	raw    []gathered
	others map[string]other // what Other said

	line       int
	common     section
	own        section // nil while the common part is read
	from       int     // where own begins
	group      string  // "place." within place:
	last       *answer
	lastFailed bool // the line above is a fault, and what goes on with it is none
}

// gathered is one plant before its words are joined.
type gathered struct {
	line     int
	said     section
	answered bool
}

// other is what Reader.Other says of a name.
type other struct {
	path string
	err  error
}

func (p *parse) other(name string) (string, error) {
	o, ok := p.others[name]
	if !ok {
		o.path, o.err = p.Other(name)
		p.others[name] = o
	}
	return o.path, o.err
}

// word is a question as one language asks it.
type word struct {
	q    *Question
	none string
}

// wordsOf are the questions by their words in every language, folded.
func wordsOf(levels []string) map[string]word {
	all := map[string]word{}
	for _, l := range languages {
		for i := range questions {
			w := folded(l.Say(questions[i].Key))
			if _, taken := all[w]; !taken {
				all[w] = word{&questions[i], l.Say(saysNone)}
			}
		}
	}
	for i, level := range placeLevels {
		if i < len(levels) && levels[i] != "" {
			if _, taken := all[folded(levels[i])]; !taken {
				all[folded(levels[i])] = word{questionOf(level), saysNone}
			}
		}
	}
	return all
}

// placeLevels are the questions whose words a museum may choose.
var placeLevels = [...]string{"country", "province", "district"}

func questionOf(key string) *Question {
	for i := range questions {
		if questions[i].Key == key {
			return &questions[i]
		}
	}
	return nil
}

func folded(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), " ")) }

func (p *parse) fault(col int, format string, args ...any) {
	p.faults = append(p.faults, Fault{p.line, col, fmt.Sprintf(format, args...)})
	p.lastFailed = true
}

// encoding finds what was not saved as UTF-8.
func (p *parse) encoding(src []byte) bool {
	p.line = 1
	if bytes.HasPrefix(src, []byte("\xff\xfe")) || bytes.HasPrefix(src, []byte("\xfe\xff")) {
		p.fault(1, "the file is UTF-16; save it as UTF-8")
		return true
	}
	for i, line := range bytes.Split(src, []byte("\n")) {
		p.line = i + 1
		for at := 0; at < len(line); {
			r, n := utf8.DecodeRune(line[at:])
			if r == utf8.RuneError && n == 1 {
				p.fault(utf8.RuneCount(line[:at])+1, "the byte %02X is not UTF-8; save the file as UTF-8, then look at every letter with an accent", line[at])
				return true
			}
			at += n
		}
	}
	return false
}

// begin begins a form: nothing is in common yet.
func (p *parse) begin() { p.common, p.own, p.from, p.group, p.last = section{}, nil, p.line, "", nil }

// take reads one line.
func (p *parse) take(line string) {
	trimmed := strings.TrimSpace(line)
	switch {
	case trimmed == "" || trimmed[0] == '#':
		return
	case len(trimmed) >= 3 && strings.Trim(trimmed, "-") == "":
		if p.own != nil {
			p.close()
		}
		p.own, p.from, p.group, p.last, p.lastFailed = section{}, p.line, "", nil, false
		return
	}
	col := utf8.RuneCountInString(line[:strings.Index(line, trimmed)]) + 1
	for i, r := range trimmed {
		if r < ' ' && r != '\t' || r >= 0x7f && r < 0xa0 {
			p.fault(col+utf8.RuneCountInString(trimmed[:i]), "an invisible control character (U+%04X) stands here; take it out", r)
			return
		}
	}
	indented := line[0] == ' ' || line[0] == '\t'
	if !indented {
		p.group = ""
	}
	key, value, ok := strings.Cut(trimmed, ":")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	if folded(key) == formLine && ok {
		p.formLine(col, value)
		return
	}
	if !ok || indented && p.group == "" && !p.known(key) {
		p.goesOn(trimmed, col, indented, key, ok)
		return
	}
	p.lastFailed = false
	if value == "" && !indented && p.isGroup(key) {
		p.group, p.last = key+".", nil
		return
	}
	p.answer(key, value, col)
}

// formLine begins the next form of the file.
func (p *parse) formLine(col int, value string) {
	if folded(value) != formKind {
		p.fault(col, "form: %q is no form; form: field is the one that can be typed in", value)
		return
	}
	p.end()
	p.form.Field = true
	p.begin()
}

// goesOn adds a line to the answer above it.
func (p *parse) goesOn(trimmed string, col int, indented bool, key string, colon bool) {
	switch {
	case indented && p.lastFailed:
	case indented && p.last != nil:
		p.last.value = strings.TrimSpace(p.last.value + " " + trimmed)
	case colon:
		p.answer(key, "", col) // to say that nobody asks that
	default:
		p.fault(col, "%q is no QUESTION: ANSWER; a line that goes on with an answer begins with a blank", shortened(trimmed))
	}
}

// shortened is words as a message repeats them.
func shortened(s string) string {
	if r := []rune(s); len(r) > 40 {
		return string(r[:40]) + "..."
	}
	return s
}

// known reports whether a question or a field has this name.
func (p *parse) known(key string) bool {
	if _, ok := p.words[folded(key)]; ok {
		return true
	}
	_, err := p.other(key)
	return err == nil
}

func (p *parse) isGroup(key string) bool {
	f, ok := ledger.FieldAt(ledger.RecordKind, key)
	_, asked := p.words[folded(key)]
	return ok && f.Kind == ledger.Group && !asked
}

// answer keeps an answer in its slot.
func (p *parse) answer(key, value string, col int) {
	slot, none := "", saysNone
	w, asked := p.words[folded(key)]
	if asked && p.group == "" {
		slot, none = w.q.Key, w.none
		if _, err := p.other(key); err != nil {
			p.form.Field = true
		}
	} else {
		path, err := p.other(p.group + key)
		if err != nil {
			p.last = nil
			p.fault(col, "%v", err)
			return
		}
		slot = slotOf(path)
	}
	into := p.common
	if p.own != nil {
		into = p.own
	}
	if old := into[slot]; old != nil && old.value != "" && value != "" {
		p.last = nil
		p.fault(col, "%s is answered twice, in line %d too", key, old.number)
		return
	}
	a := &answer{value: value, asked: key, none: none, number: p.line}
	if old := into[slot]; old == nil || value != "" {
		into[slot] = a
	}
	p.last = into[slot]
}

// slotOf is where the answer for a field stands: with the question that asks
// for it, if one does.
func slotOf(path string) string {
	for i := range questions {
		if q := &questions[i]; q.Path == path && (!q.Join || q.leads()) {
			return q.Key
		}
	}
	return path
}

// end closes the last gathering of a form. A form without a line of hyphens
// is one gathering.
func (p *parse) end() {
	if p.own == nil && len(p.common) > 0 && p.form.Field {
		p.own, p.common = p.common, section{}
	}
	if p.own != nil {
		p.close()
	}
}

// close takes the gathering that was read.
func (p *parse) close() {
	g := gathered{line: p.from, said: section{}}
	for slot, a := range p.common {
		g.said[slot] = a
	}
	for slot, a := range p.own {
		if a.value == "" {
			continue
		}
		g.said[slot] = a
		if slot == "number" {
			g.line = a.number
			continue
		}
		q := questionOf(slot)
		g.answered = g.answered || q == nil || !q.Once
	}
	p.raw, p.own = append(p.raw, g), nil
}

// finish joins the words of each gathering, and leaves out those of a field
// form that nobody filled in.
func (p *parse) finish() {
	for _, g := range p.raw {
		if no := g.said["number"]; p.form.Field && !g.answered {
			if no != nil && no.value != "" {
				p.form.Unanswered = append(p.form.Unanswered, no.value)
			}
			continue
		}
		p.form.Gatherings = append(p.form.Gatherings, Gathering{Line: g.line, Values: p.values(g.said)})
	}
}
