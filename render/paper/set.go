package paper

import (
	"math"
	"strings"
)

// Line is one line of a paragraph.
type Line struct {
	Runs  []Run
	Width float64
}

// word is what stays together, with the space that follows it.
type word struct {
	runs  []Run
	width float64
	space Run // before the next word; its width counts only within a line
	gap   float64
}

// Set breaks the runs into as few lines of at most width millimetres as there
// can be, and of those ways takes the one whose lines are the most even. It
// breaks at spaces alone, never in a run that is to be kept, never at a
// no-break space; a space that is a kept run of its own holds its neighbours
// together. A word that is wider than the line stands on one of its own:
// Overflow finds it.
func Set(runs []Run, width float64) []Line {
	words := split(runs)
	if len(words) == 0 {
		return nil
	}
	n := len(words)
	fewest, cost, next := make([]int, n+1), make([]float64, n+1), make([]int, n)
	for i := n - 1; i >= 0; i-- {
		fewest[i] = math.MaxInt
		w := 0.0
		for j := i; j < n; j++ {
			if j > i {
				w += words[j-1].gap
			}
			w += words[j].width
			if j > i && w > width+epsilon {
				break
			}
			lines, short := fewest[j+1]+1, max(width-w, 0)
			c := cost[j+1] + short*short
			if j+1 == n {
				c = 0 // the last line may be short
			}
			if lines < fewest[i] || lines == fewest[i] && c < cost[i]-epsilon {
				fewest[i], cost[i], next[i] = lines, c, j+1
			}
		}
	}
	var out []Line
	for i := 0; i < n; i = next[i] {
		out = append(out, joined(words[i:next[i]]))
	}
	return out
}

// epsilon is less than any paper can show, in millimetres.
const epsilon = 1e-6

// Overflow is the first line wider than width; "" when there is none.
func Overflow(lines []Line, width float64) string {
	for _, l := range lines {
		if l.Width > width+epsilon {
			return l.Text()
		}
	}
	return ""
}

// Text is the words of the line.
func (l Line) Text() string {
	var b strings.Builder
	for _, r := range l.Runs {
		b.WriteString(r.Text)
	}
	return b.String()
}

// TextOf is the words of all lines, one space between two lines.
func TextOf(lines []Line) string {
	var all []string
	for _, l := range lines {
		all = append(all, l.Text())
	}
	return strings.Join(all, " ")
}

// split cuts the runs into words at the spaces where a line may end.
func split(runs []Run) []word {
	var out []word
	var cur word
	end := func(space Run) {
		if len(cur.runs) > 0 {
			cur.width, cur.space, cur.gap = Width(cur.runs...), space, Width(space)
			out = append(out, cur)
		}
		cur = word{}
	}
	for _, r := range runs {
		if r.Keep && r.Text == " " { // it holds both sides together
			if len(cur.runs) > 0 {
				cur.runs = append(cur.runs, r)
			}
			continue
		}
		if r.Keep {
			lead := strings.HasPrefix(r.Text, " ")
			tail := len(r.Text) > 1 && strings.HasSuffix(r.Text, " ")
			space := Run{Style: r.Style, Text: " "}
			if lead {
				end(space)
			}
			r.Text = strings.Trim(r.Text, " ")
			if r.Text != "" {
				cur.runs = append(cur.runs, r)
			}
			if tail {
				end(space)
			}
			continue
		}
		for i, piece := range strings.Split(r.Text, " ") {
			if i > 0 {
				end(Run{Style: r.Style, Text: " "})
			}
			if piece != "" {
				p := r
				p.Text = piece
				cur.runs = append(cur.runs, p)
			}
		}
	}
	end(Run{})
	return out
}

// joined is one line of words; neighbours of one style become one run.
func joined(words []word) Line {
	var l Line
	add := func(r Run) {
		r.Keep = false
		if k := len(l.Runs) - 1; k >= 0 && l.Runs[k].Style == r.Style {
			l.Runs[k].Text += r.Text
			return
		}
		l.Runs = append(l.Runs, r)
	}
	for i, w := range words {
		if i > 0 {
			add(words[i-1].space)
		}
		for _, r := range w.runs {
			add(r)
		}
	}
	l.Width = Width(l.Runs...)
	return l
}
