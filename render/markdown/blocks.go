package markdown

import (
	"strings"

	"blotter/render/page"
)

func (w *writer) blocks(bs []page.Block) {
	for _, b := range bs {
		w.s("\n")
		w.block(b)
	}
}

func (w *writer) block(b page.Block) {
	switch b := b.(type) {
	case page.Para:
		w.line(b.Parts)
	case page.Passage:
		w.runs(b.Runs)
		w.s("\n")
	case page.Opinions:
		for _, o := range b.List {
			w.opinion(o)
		}
	case page.Fields:
		for _, f := range b.List {
			w.field(f)
		}
	case page.Letters:
		w.letters(b)
	case page.Rows:
		for _, r := range b.List {
			w.row(r)
		}
	case page.Group:
		w.s("### ")
		w.t(string(b.Heading))
		w.s("\n")
		w.blocks(b.Blocks)
	case page.Tally:
		w.tally(b)
	case page.Lines:
		for _, l := range b.List {
			w.s("- ")
			w.line(l)
		}
	case page.Table:
		w.table(b)
	case page.Chart:
		w.chart(b)
	case page.Map:
		w.t(string(b.Sentence))
		w.s("\n")
	case page.Prose:
		w.s(strings.TrimRight(b.Markdown, "\n") + "\n")
	case page.Search: // a form has no twin
		w.b = w.b[:len(w.b)-1]
	}
}

func (w *writer) tally(b page.Tally) {
	for _, l := range b.List {
		w.s("- ")
		w.link(l.Link)
		if l.Note != "" {
			w.s(" ")
			w.t(string(l.Note))
		}
		w.s("\n")
	}
}

// opinion is one item; its lines are parted by line ends, which Markdown
// shows as blanks.
func (w *writer) opinion(o page.Opinion) {
	w.s("- **")
	w.t(string(o.Day) + ", " + string(o.What))
	w.s("** (")
	w.t(string(o.State))
	w.s(")\n")
	if o.Mistake != nil {
		w.s("  ")
		w.line(o.Mistake)
	}
	w.s("  ")
	if len(o.Name.Pieces) > 0 {
		w.name(o.Name)
		w.stop()
		w.s(" ")
	}
	w.parts(o.By)
	w.stop()
	w.s("\n")
	if o.Grounds != "" {
		w.s("  ")
		w.t(string(o.Grounds))
		w.s("\n")
	}
	if len(o.More) > 0 {
		w.s("  ")
		w.line(o.More)
	}
	if len(o.Entered) > 0 || o.Gap != "" {
		w.s("  ")
		w.parts(o.Entered)
		if o.Gap != "" {
			w.t(" " + string(o.Gap))
		}
		w.s("\n")
	}
}

// stop ends a sentence that does not end already.
func (w *writer) stop() {
	if w.b[len(w.b)-1] != '.' {
		w.s(".")
	}
}

func (w *writer) field(f page.Field) {
	w.s("- **")
	w.t(string(f.Name))
	w.s("** ")
	w.runs(f.Words)
	beside := len(f.Words) > 0
	if f.None.Kind != page.Present {
		if beside {
			w.s(" (")
		}
		w.t(f.None.Phrase(w.lang))
		if beside {
			w.s(")")
		}
		beside = true
	}
	for _, r := range f.Readings {
		if beside {
			w.s(" (")
		}
		w.parts(r)
		if beside {
			w.s(")")
		}
		beside = true
	}
	w.s("\n")
}

// letters keeps the line ends of a label by hard breaks.
func (w *writer) letters(l page.Letters) {
	w.t(page.Fill(w.lang.OnSheet, string(l.On)))
	w.s("\n\n")
	first := true
	for line := range strings.Lines(string(l.Text)) {
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		if first {
			w.s("> ")
		} else {
			w.s("\\\n> ")
		}
		w.t(line)
		first = false
	}
	w.s("\n")
	if l.Hand != "" {
		w.s("\n")
		w.t(page.Fill(w.lang.InHand, string(l.Hand)))
		w.s("\n")
	}
}

func (w *writer) row(r page.Row) {
	w.s("- ")
	w.name(r.Name)
	w.parts(r.As)
	w.s(" [")
	w.t(string(r.Number))
	w.s("](")
	w.address(r.To)
	w.s(") ")
	w.t(string(r.Collector))
	w.s("; ")
	w.t(string(r.Date))
	if len(r.Place) > 0 {
		w.s(", ")
		w.parts(r.Place)
	}
	if len(r.Tail) > 0 {
		w.s("; ")
		w.parts(r.Tail)
	}
	w.s("\n")
}

func (w *writer) table(b page.Table) {
	w.t(string(b.Caption))
	w.s("\n\n|")
	for _, h := range b.Head {
		w.s(" ")
		w.t(string(h))
		w.s(" |")
	}
	w.s("\n|")
	for range b.Head {
		w.s(" --- |")
	}
	w.s("\n")
	for _, r := range b.Rows {
		w.s("|")
		for _, c := range r {
			w.s(" ")
			if c.Words != "" {
				w.t(string(c.Words))
			} else {
				w.parts(c.Said)
			}
			w.s(" |")
		}
		w.s("\n")
	}
}

// chart is its sentence and its figures.
func (w *writer) chart(c page.Chart) {
	w.t(string(c.Sentence))
	w.s("\n\n")
	w.t(w.lang.FiguresWord)
	w.s(" (")
	w.t(string(c.Category) + ", " + string(c.Measure))
	w.s("):\n\n")
	for _, b := range c.Bars {
		w.s("- ")
		w.t(b.Label)
		w.s(": ")
		w.t(page.Number(b.N))
		w.s("\n")
	}
}
