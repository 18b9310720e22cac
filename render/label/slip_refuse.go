package label

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"blotter/render/paper"
)

// Codes of refusals of slips and type labels.
const (
	CodeSlipTooLong  = "slip-too-long"       // fits no slip of so many places
	CodeSlipWordWide = "slip-word-wide"      // a word is wider than the line
	CodeSlipLetter   = "slip-letter-lacking" // the typeface lacks a letter
)

// mostPlaces is how many places high anybody would make a slip: the column of
// a sheet.
const mostPlaces = 9

func (s *slip) refuse(code, why, try string) *Refusal {
	return &Refusal{Of: s.in.Number(), Code: code, Why: why, Try: try}
}

// unsettable is why no height would do.
func (s *slip) unsettable() *Refusal {
	look := "blotter edit " + s.in.Record.Specimen.Text
	for _, p := range s.runs() {
		if r, lacks := paper.Lacks(p.runs...); lacks {
			return s.refuse(CodeSlipLetter, fmt.Sprintf("the typeface has no letter %s, in %s", paper.LetterName(r), p.field),
				"If it is a slip of typing: "+look+"   Otherwise write this slip by hand")
		}
		lines := paper.Set(p.runs, Measure)
		if strings.HasSuffix(p.field, ".by") { // beside the number
			number := paper.Width(rightCell("number", s.in.Record.Specimen.Text, paper.Style{Size: slipRight}).runs...)
			lines = paper.Set(p.runs, Measure-number-columnGap)
			p.width = Measure - number - columnGap
		}
		if wide := paper.Overflow(lines, p.width); wide != "" {
			return s.refuse(CodeSlipWordWide, fmt.Sprintf("%s has words, %s, that are wider than their line of %.0f mm", p.field, wide, p.width),
				"Nothing is cut from a slip. Look at the word: "+look)
		}
	}
	return nil
}

// tooLong says what has the most letters, how many lines all of it needs, and
// on how many places it would fit.
func (s *slip) tooLong(parts int) *Refusal {
	field, letters := "", 0
	for _, p := range s.runs() {
		if n := utf8.RuneCountInString(textOf(p.runs)); n > letters {
			field, letters = p.field, n
		}
	}
	had := max(parts, 1)
	why := fmt.Sprintf("%s, %s letters, does not fit a slip of %.0f mm with the rest", field, thousands(letters), float64(had)*SlipHeight)
	n := s.in.Record.Specimen.Text
	for k := had + 1; k <= mostPlaces; k++ {
		if s.fitting(k) != nil {
			return s.refuse(CodeSlipTooLong, why, fmt.Sprintf("Nothing is cut from a slip. Print it %s places high, %.0f mm: blotter print %s %s --parts %d", inWords(k), float64(k)*SlipHeight, s.noun, n, k))
		}
	}
	return s.refuse(CodeSlipTooLong, why, fmt.Sprintf("Nothing is cut from a slip, and %s places are not enough. Leave it out: --except %s", inWords(mostPlaces), n))
}
