package label

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/paper"
)

// sentence is the words of one field of a record, with what the language puts
// before them.
type sentence struct {
	field string // as the record has it: place.locality
	runs  []paper.Run
	fixed bool   // it begins with a phrase of the language, which takes a capital at the head
	sep   string // what joins it to the one before: ", " or ": "; "": a stop
}

// content is a paragraph of the body before it is set.
type content struct {
	part      string
	alone     string // its name where another of that part stands elsewhere
	sentences []sentence
	gap, in   float64
	size, row float64
	framed    bool
	open      bool // no full stop at its end
	tight     bool // not joined with a neighbour of the same part
}

// set breaks the paragraph into lines.
func (c content) set() para {
	p := para{part: c.part, gap: c.gap, in: c.in, row: c.row, size: c.size, framed: c.framed}
	p.lines = paper.Set(c.runs(), c.width())
	return p
}

func (c content) width() float64 {
	w := Measure - c.in
	if c.framed {
		w -= 4 * framePad
	}
	return w
}

// runs are the sentences joined.
func (c content) runs() []paper.Run {
	var out []paper.Run
	mark := paper.Style{Size: c.size}
	head, end := true, ""
	for i, s := range c.sentences {
		ended := endsWith(end, ".!?…")
		if i > 0 {
			sep := s.sep
			switch {
			case (sep == "" || sep == ". ") && (ended || endsWith(end, ",;:")), sep == ", " && ended:
				sep = " "
			case sep == ". ":
			case sep == "" && (s.fixed || !lower(textOf(s.runs))):
				sep = ". "
			case sep == "":
				sep = "; "
			}
			head = sep == ". " || sep == " " && ended
			out = append(out, paper.Run{Style: mark, Text: sep})
		}
		from := len(out)
		out = append(out, s.runs...)
		if s.fixed && head {
			out[from].Text = upper(out[from].Text)
		}
		end = textOf(s.runs)
	}
	if !c.open && len(out) > 0 && !endsWith(end, ".!?…") {
		out = append(out, paper.Run{Style: mark, Text: "."})
	}
	return out
}

func textOf(runs []paper.Run) string { return paper.Line{Runs: runs}.Text() }

func endsWith(text, marks string) bool {
	r, _ := utf8.DecodeLastRuneInString(text)
	return text != "" && strings.ContainsRune(marks, r)
}

// content are the paragraphs of the body, in the order of the settings.
func (s *setting) content(st step) []content {
	w := &writer{setting: s, step: st, style: paper.Style{Size: st.size}}
	sections := leafTexts(s.set.Sections)
	if !slices.Contains(sections, "caution") {
		sections = append(sections, "caution")
	}
	for _, name := range sections {
		if write := bodySections[name]; write != nil {
			write(w)
		}
		if s.in.Withheld && name == w.placeAt(sections) {
			w.withheld()
		}
	}
	if s.in.Withheld && w.placeAt(sections) == "" {
		w.withheld()
	}
	return w.out
}

// placeAt is the last section that tells the place.
func (w *writer) placeAt(sections []string) string {
	last := ""
	for _, n := range sections {
		if n == "place" || n == "position" {
			last = n
		}
	}
	return last
}

// bodySections write the sections of the body; those of the foot are not
// among them.
var bodySections = map[string]func(*writer){
	"name": (*writer).nameLine, "determination": (*writer).determination,
	"place": (*writer).place, "position": (*writer).position, "origin": (*writer).origin,
	"habitat": (*writer).habitat, "plant": (*writer).plantSelf, "abundance": (*writer).abundance, "remarks": (*writer).remarks,
	"former_herbarium": (*writer).formerHerbarium, "exsiccata": (*writer).exsiccata,
	"further_numbers": (*writer).furtherNumbers, "fieldbook": (*writer).fieldbook, "caution": (*writer).caution,
}

// writer writes the paragraphs of one label at one step.
type writer struct {
	*setting
	step
	style paper.Style
	out   []content
}

// put adds sentences to the paragraph of part: to the one before, when that
// is of the same part, else to a new one.
func (w *writer) put(c content, ss ...sentence) {
	ss = slices.DeleteFunc(ss, func(s sentence) bool { return len(s.runs) == 0 })
	if len(ss) == 0 {
		return
	}
	if c.size == 0 {
		c.size, c.row = w.size, w.row
	}
	if k := len(w.out) - 1; k >= 0 && w.out[k].part == c.part && !c.tight {
		w.out[k].sentences = append(w.out[k].sentences, ss...)
		return
	}
	if c.alone != "" && slices.ContainsFunc(w.out, func(o content) bool { return o.part == c.part }) {
		c.part = c.alone
	}
	c.sentences = ss
	w.out = append(w.out, c)
}

// words is the value of a field as a sentence; none where it has no words or
// words for none.
func (w *writer) words(field string, l ledger.Leaf) sentence {
	if !present(l) {
		return sentence{}
	}
	return sentence{field: field, runs: prose(l.Text, w.style, Measure)}
}

// after is a phrase of the language and a value behind it.
func (w *writer) after(phrase, sep string, s sentence) sentence {
	if len(s.runs) == 0 {
		return s
	}
	s.runs = append([]paper.Run{{Style: w.style, Text: phrase + " "}}, s.runs...)
	s.fixed, s.sep = true, sep
	return s
}

func (w *writer) phrase(field, text, sep string) sentence {
	return sentence{field: field, runs: prose(text, w.style, Measure), fixed: true, sep: sep}
}

// present reports whether a field has words that are not a word for none.
func present(l ledger.Leaf) bool { return reading.AbsenceOf(l.Text) == reading.Present }

func leafTexts(ls []ledger.Leaf) []string {
	out := make([]string, len(ls))
	for i, l := range ls {
		out[i] = l.Text
	}
	return out
}

// bareNumber reports whether words are a figure with at most a sign or a
// circa: what a phrase of the language can be put around.
func bareNumber(text string) bool {
	letters := 0
	digits := false
	for _, r := range text {
		digits = digits || unicode.IsDigit(r)
		if unicode.IsLetter(r) {
			letters++
		}
	}
	return digits && (letters == 0 || strings.HasPrefix(text, "c.") && letters == 1 || strings.HasPrefix(text, "ca") && letters == 2 || strings.HasPrefix(text, "about ") && letters == 5)
}
