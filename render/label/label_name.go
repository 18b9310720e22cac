package label

import (
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// chosen is the name that stands on a label and who gave it.
type chosen struct {
	words string                // "" when the plant is not named
	given *ledger.Determination // who named it so; nil: nobody is told
	as    string                // the name that they gave, when a publication has changed it since

	authors, family string // of names/; "": not known there, or the words have their own
}

// choose takes the name by the settings, or that of the day asked for.
func (s *setting) choose() chosen {
	c := s.chooseWords()
	c.family = s.in.Family
	if s.in.Known == nil || c.words == "" {
		return c
	}
	authors, family := s.in.Known(c.words)
	if family != "" {
		c.family = family
	}
	if s.set.Authors.Text != "written" && !s.in.HasOwnLabel() {
		c.authors = authors
	}
	return c
}

func (s *setting) chooseWords() chosen {
	switch {
	case s.in.On != 0:
		return s.onDay(s.in.On)
	case s.set.Name.Text == "current":
		return current(s.in.Reading)
	}
	return collected(s.in.Reading)
}

// current is the opinion that stands, whatever cover the sheet lies in.
func current(d *reading.Reading) chosen {
	chain := reading.WithoutFiling(d)
	if chain.Current < 0 {
		return chosen{}
	}
	g := d.Opinions[chain.Current].Given
	c := chosen{words: g.Name.Text, given: g}
	if d.Opinions[chain.Current].Kind == opinion.NameChange {
		c.given = nil
		if chain.Opinion >= 0 && chain.Opinion != chain.Current {
			c.given = d.Opinions[chain.Opinion].Given
			c.as = c.given.Name.Text
		}
	}
	return c
}

// collected is the name as determined at collection: that of the label, else
// the oldest of the whole plant.
func collected(d *reading.Reading) chosen {
	var oldest *ledger.Determination
	for _, i := range d.Chain.Order {
		o := d.Opinions[i]
		if o.Kind != opinion.Det || o.State == opinion.Mistake || o.State == opinion.Aside || opinion.IsAdmixture(o.Given.Part.Text) {
			continue
		}
		if o.Given.From.Text == "label" {
			return chosen{words: o.Given.Name.Text, given: o.Given}
		}
		if oldest == nil {
			oldest = o.Given
		}
	}
	if oldest == nil {
		return chosen{}
	}
	return chosen{words: oldest.Name.Text, given: oldest}
}

// onDay is the name that stood at the end of a day: opinions that may be
// younger do not count, undated ones do.
func (s *setting) onDay(day dates.Day) chosen {
	r := *s.in.Record
	r.Determinations = nil
	for i, o := range s.in.Reading.Opinions {
		if !o.Date.Known || o.Date.Last <= day {
			r.Determinations = append(r.Determinations, s.in.Record.Determinations[i])
		}
	}
	return current(reading.Opinions(&r, reading.ConventionsOf(s.in.Museum)))
}

// shownName is the words of the name line: "indet." where there is no name.
func (s *setting) shownName() string {
	if s.name.words != "" {
		return strings.TrimSpace(s.name.words + " " + s.name.authors)
	}
	return strings.TrimSpace(s.name.family + " " + s.lang.Indet)
}

// transcript is the heading of a label for a sheet that has one of its own:
// an added one never stands in its place. "" for new material.
func (s *setting) transcript() string {
	if !s.in.HasOwnLabel() || s.in.Issued != nil {
		return ""
	}
	head := s.lang.Transcript
	if d := s.in.Reading.Date; d.Known && d.First.Year() == d.Last.Year() {
		head = Fill(s.lang.TranscriptOf, itoa(d.First.Year()))
	}
	switch {
	case s.in.Typist != "" && s.in.Typed != 0:
		head += ", " + Fill(s.lang.TypedBy, s.in.Typist, itoa(s.in.Typed))
	case s.in.Typed != 0:
		head += ", " + Fill(s.lang.TypedIn, itoa(s.in.Typed))
	}
	return head
}

// HasOwnLabel reports whether the sheet bears an older label: the record has
// its words among the writings, or has a name from it and was gathered before
// the year from which material counts as new (the label of new material is the
// one that is being printed).
func (in *Input) HasOwnLabel() bool {
	for _, w := range in.Record.Writings {
		if strings.Contains(strings.ToLower(w.OnSheet.Text), "label") {
			return true
		}
	}
	if in.isNew() {
		return false
	}
	for _, d := range in.Record.Determinations {
		if d.From.Text == "label" {
			return true
		}
	}
	return false
}

// isNew reports whether the plant was surely gathered in or after the year
// from which the museum is strict.
func (in *Input) isNew() bool {
	d := in.Reading.Date
	return d.Known && d.First.Year() >= int(number(in.Habits.Labels.StrictFrom, 2000))
}
