package render

import (
	"blotter/ledger/mids"
	"blotter/render/page"
)

// midsOf is what a page and its data give of MIDS: what is withheld does not
// count.
func (x *sheet) midsOf() mids.Set {
	return mids.OfEntry(x.e, x.in.Book.Museum, x.story.Last.Known())
}

// midsLine says the level and what the next one lacks.
func (x *sheet) midsLine() page.Block {
	set := x.midsOf()
	text := x.lang.MIDSNone
	if level := set.Level(); level >= 0 {
		text = page.Fill(x.lang.MIDSLevel, itoa(level))
	}
	if words := x.midsWords(set.Lacks()); len(words) > 0 {
		text += page.Fill(x.lang.MIDSLacks, itoa(set.Level()+1), x.shelf.list(words))
	}
	return page.Para{Parts: []page.Part{said(text + ".")}}
}

// midsWords are elements in plain words.
func (s *shelf) midsWords(set mids.Set) (words []string) {
	for _, e := range set.Elements() {
		words = append(words, s.lang.MIDS[e.Name])
	}
	return words
}

// midsFigures is how many of the published sheets reach which level.
func (s *shelf) midsFigures() page.Block {
	var counts [mids.MaxLevel + 2]int // from level -1
	for _, e := range s.sheets {
		counts[mids.OfEntry(e, s.in.Book.Museum, true).Level()+1]++
	}
	var parts []string
	for level := mids.MaxLevel; level >= -1; level-- {
		if n := counts[level+1]; n > 0 {
			words := page.Fill(s.lang.MIDSAt, itoa(level), page.Number(n))
			if level < 0 {
				words = page.Fill(s.lang.MIDSBelow, page.Number(n))
			}
			parts = append(parts, words)
		}
	}
	return page.Para{Parts: []page.Part{said(page.Fill(s.lang.MIDSFigures, s.list(parts)))}}
}
