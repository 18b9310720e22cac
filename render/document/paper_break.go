package document

import (
	"unicode"

	"blotter/render/paper"
)

// letterOf is a letter of a word that runs over one or more runs.
type letterOf struct {
	r     rune
	style paper.Style
	width float64
}

// broken puts a space where a word wider than width has to be broken: behind
// the last of / - . , ; : _ @ & = in the second half of a line, else at a
// letter, never before a mark that belongs to the letter before it. Other
// runs stay as they are.
func broken(runs []paper.Run, width float64) []paper.Run {
	if fits(runs, width) {
		return runs
	}
	var out []paper.Run
	var word []paper.Run
	end := func() {
		if paper.Width(word...) > width {
			word = cutUp(word, width)
		}
		out, word = append(out, word...), nil
	}
	for _, r := range runs {
		from := 0
		for i, c := range r.Text {
			if c != ' ' {
				continue
			}
			if r.Keep && paper.Width(r) <= width {
				continue
			}
			word = appendRun(word, r, r.Text[from:i])
			end()
			out = appendRun(out, r, " ")
			from = i + 1
		}
		word = appendRun(word, r, r.Text[from:])
	}
	end()
	return out
}

func appendRun(to []paper.Run, like paper.Run, text string) []paper.Run {
	if text == "" {
		return to
	}
	like.Text = text
	return append(to, like)
}

// fits reports whether no word of the runs is wider than width.
func fits(runs []paper.Run, width float64) bool {
	if paper.Width(runs...) <= width {
		return true
	}
	for _, l := range paper.Set(runs, 0) { // a word a line
		if l.Width > width {
			return false
		}
	}
	return true
}

// cutUp is a word in parts of at most width, a space between them.
func cutUp(word []paper.Run, width float64) []paper.Run {
	var all []letterOf
	for _, r := range word {
		for _, c := range r.Text {
			all = append(all, letterOf{c, r.Style, paper.Width(paper.Run{Style: r.Style, Text: string(c)})})
		}
	}
	var out []paper.Run
	for len(all) > 0 {
		n := cutAt(all, width)
		for _, l := range all[:n] {
			if k := len(out) - 1; k >= 0 && out[k].Style == l.style {
				out[k].Text += string(l.r)
				continue
			}
			out = append(out, paper.Run{Style: l.style, Text: string(l.r)})
		}
		if all = all[n:]; len(all) > 0 {
			out[len(out)-1].Text += " "
		}
	}
	return out
}

// cutAt is how many letters stand on a line of their own.
func cutAt(all []letterOf, width float64) int {
	sum, n, good := 0.0, 0, 0
	for n < len(all) && (n == 0 || sum+all[n].width <= width) {
		sum += all[n].width
		n++
		switch all[n-1].r {
		case '/', '-', '.', ',', ';', ':', '_', '@', '&', '=':
			if sum > width/2 {
				good = n
			}
		}
	}
	switch {
	case n == len(all):
		return n
	case good > 0:
		return good
	}
	for n > 1 && unicode.Is(unicode.Mn, all[n].r) {
		n--
	}
	return n
}
