package field

import (
	"strconv"
	"strings"
)

// Sheet is what is printed ahead on a form.
type Sheet struct {
	Museum    string
	Collector string   // empty: a line to write on
	Numbers   []string // one a gathering; an empty one leaves a line to write on
	Levels    []string // the museum's own words for country, province, district; empty: the form's
	OneIn     int      // plants to be seen for each that is taken; 0: nothing is said
	Language  Language
}

// word is how the sheet asks a question.
func (s *Sheet) word(q *Question) string {
	for i, level := range placeLevels {
		if level == q.Key && i < len(s.Levels) && s.Levels[i] != "" {
			return s.Levels[i]
		}
	}
	return s.Language.Say(q.Key)
}

// textWidth is how wide the comments of the form as text are.
const textWidth = 96

// Text is the blank form as plain text, to be filled in with any editor and
// read by Reader.Read.
func (s Sheet) Text() []byte {
	var b strings.Builder
	say := s.Language.Say
	for _, words := range []string{saysHead, saysNoneIs, saysTyped} {
		comment(&b, say(words))
	}
	b.WriteString(formLine + ": " + formKind + "\n\n")
	comment(&b, say(saysCommon))
	for i := range questions {
		if q := &questions[i]; q.Once {
			v := ""
			if q.Key == "collector" {
				v = s.Collector
			}
			s.line(&b, q, v)
		}
	}
	for at, no := range s.Numbers {
		b.WriteString("\n---\n")
		framed := false
		for i := range questions {
			q := &questions[i]
			if q.Once {
				continue
			}
			if q.Drying && !framed {
				comment(&b, say(saysDrying)+": "+say(saysDryingIt))
			}
			framed = q.Drying
			v := ""
			if q.Key == "number" {
				v = no
			}
			if at == 0 {
				s.hint(&b, q)
			}
			s.line(&b, q, v)
		}
	}
	return []byte(b.String())
}

func (s *Sheet) line(b *strings.Builder, q *Question, v string) {
	b.WriteString(strings.TrimRight(s.word(q)+": "+v, " ") + "\n")
}

// hint says which words a question offers, and how many plants may be taken.
func (s *Sheet) hint(b *strings.Builder, q *Question) {
	var all []string
	for _, t := range q.Ticks {
		all = append(all, s.Language.Say(t.Says))
	}
	switch {
	case len(all) > 0:
		comment(b, s.word(q)+", "+s.Language.Say(saysTick)+" "+strings.Join(all, ", "))
	case q.Path == "taken" && s.OneIn > 0:
		comment(b, s.word(q)+": "+s.taking())
	}
}

// taking says how many plants may be taken.
func (s *Sheet) taking() string {
	return strings.ReplaceAll(s.Language.Say(saysTaken), "{1}", strconv.Itoa(s.OneIn))
}

// comment writes words as lines that the reader passes over.
func comment(b *strings.Builder, words string) {
	line := "#"
	for _, w := range strings.Fields(words) {
		if len(line)+1+len(w) > textWidth && line != "#" {
			b.WriteString(line + "\n")
			line = "#"
		}
		line += " " + w
	}
	b.WriteString(line + "\n")
}
