package annual

import (
	"fmt"
	"strconv"

	"blotter/ledger/book"
	"blotter/ledger/mids"
	"blotter/ledger/names"
	"blotter/ledger/reading"
)

// lack is what waits and how complete the records are, of the specimens that
// are here at the end.
type lack struct {
	all                                   int
	unmounted, untreated, unnamed, drafts int
	imaged, georeferenced, toSpecies      int
	radius                                [len(radii) + 2]int // classes of uncertainty; the last: none
}

// radii are the upper ends of the classes of uncertainty in metres: Chapman &
// Wieczorek, Georeferencing Best Practices, 2020, chapter 6.
var radii = [...]float64{100, 1000, 2000, 5000, 10000}

var radiusWords = [len(radii)]string{"within 100 m", "over 100 to 1,000 m", "over 1,000 to 2,000 m", "over 2,000 to 5,000 m", "over 5,000 to 10,000 m"}

func (l *lack) add(e *book.Entry, s stay) {
	l.all++
	// One that no work brought in was mounted and filed before the ledger.
	if s.way != before && s.way != noLot {
		if _, ok := s.end.Has("mounted"); !ok {
			l.unmounted++
		}
		if _, ok := s.end.Has("treated"); !ok {
			l.untreated++
		}
	}
	l.unnamed += one(e.Name == "" || reading.AbsenceOf(e.Name) != reading.Present)
	l.drafts += one(e.Stage != "full")
	l.imaged += one(e.Flags.Has(book.Imaged))
	l.georeferenced += one(e.Positioned && e.Uncertainty > 0)
	l.toSpecies += one(isSpecies(e.NameKey))
	if !e.Positioned || e.Uncertainty <= 0 {
		l.radius[len(radii)+1]++
		return
	}
	for i, top := range radii {
		if e.Uncertainty <= top {
			l.radius[i]++
			return
		}
	}
	l.radius[len(radii)]++
}

// isSpecies reports whether a canonical name reaches a species or below.
func isSpecies(key string) bool {
	if key == "" {
		return false
	}
	n, err := names.Read(key)
	return err == nil && n.Rank >= names.Species
}

// waiting is what is still to be done, with the hours that it takes at the
// museum's own rates.
func (c *count) waiting() Section {
	l, h := &c.lack, c.Works.Habits.Reporting
	s := Section{Key: "waiting", Title: "What waits", Notes: []string{
		"A specimen that was here before the ledger counts as mounted and treated. Hours are reckoned by the rates in blotter.yaml (habits: reporting), or by those of ledger/standard.yaml with their sources."}}
	s.Rows = []Row{{Key: "unmounted", Label: "not mounted", N: l.unmounted, Of: l.all}}
	if c.Works.Habits.Treatment.IsNeeded() {
		s.Rows = append(s.Rows, Row{Key: "untreated", Label: "not treated against insects", N: l.untreated, Of: l.all})
	}
	s.Rows = append(s.Rows, Row{Key: "unnamed", Label: "not named", N: l.unnamed, Of: l.all}, Row{Key: "drafts", Label: "not yet typed in full", N: l.drafts, Of: l.all},
		Row{Key: "missing", Label: "missing at the last look", N: c.missing, Of: l.all})
	if rate := figure(h.MountPerHour.Text); rate > 0 {
		s.Rows = append(s.Rows, Row{Key: "hours.mounting", Label: "hours to mount them, at " + h.MountPerHour.Text + " an hour", N: l.unmounted, Words: hours(float64(l.unmounted) / rate)})
	}
	if minutes := figure(h.EntryMinutes.Text); minutes > 0 {
		s.Rows = append(s.Rows, Row{Key: "hours.typing", Label: "hours to type them, at " + h.EntryMinutes.Text + " minutes each", N: l.drafts, Words: hours(float64(l.drafts) * minutes / 60)})
	}
	return s
}

func figure(words string) float64 {
	v, err := strconv.ParseFloat(words, 64)
	if err != nil {
		return 0
	}
	return v
}

func hours(h float64) string { return strconv.FormatFloat(h, 'f', 1, 64) + " h" }

// complete is the shares of the specimens that are here at the end.
func (c *count) complete() Section {
	l := &c.lack
	s := Section{Key: "complete", Title: "How complete the records are", Notes: []string{"Of the specimens that are here at the end, by what their records say in this revision. What they said then: report the year with --at."}}
	s.Rows = []Row{
		{Key: "imaged", Label: "with a picture", N: l.imaged, Of: l.all},
		{Key: "georeferenced", Label: "with a position and its uncertainty", N: l.georeferenced, Of: l.all},
		{Key: "species", Label: "named to the species or below", N: l.toSpecies, Of: l.all},
	}
	for i, n := range l.radius {
		label, key := "position not known, or not how far it may be off", "radius.none"
		switch {
		case i == 0:
			label, key = "position "+radiusWords[0], "radius.100"
		case i < len(radii):
			label, key = radiusWords[i], fmt.Sprintf("radius.%g", radii[i])
		case i == len(radii):
			label, key = "over 10,000 m", "radius.more"
		}
		s.Rows = append(s.Rows, Row{Key: key, Label: label, N: n, Of: l.all})
	}
	return s
}

// levels is how digital they are, by MIDS.
func (c *count) levels() Section {
	s := Section{Key: "mids", Title: "How digital they are, by MIDS (draft)", Notes: []string{"By what the records say in this revision, too."}}
	for level := mids.MaxLevel; level >= -1; level-- {
		label := "level " + strconv.Itoa(level)
		if level < 0 {
			label = "below level 0"
		}
		s.Rows = append(s.Rows, Row{Key: "level." + strconv.Itoa(level), Label: label, N: c.midsAt[level+1], Of: c.lack.all})
	}
	return s
}

// kinds keeps specimens, sheets and gatherings apart.
func (c *count) kinds() Section {
	open, closed := c.holdings.sums()
	return Section{Key: "kinds", Title: "Specimens, sheets, gatherings",
		Notes: []string{"A specimen is a number; a sheet is a board, of which a specimen may have two, or none when it is a packet or a jar; a gathering is a collector's number."},
		Rows: []Row{
			{Key: "specimens.opening", Label: "specimens, opening", N: open}, {Key: "specimens", Label: "specimens, closing", N: closed},
			{Key: "sheets.opening", Label: "sheets, opening", N: c.sheets[0]}, {Key: "sheets", Label: "sheets, closing", N: c.sheets[1]},
			{Key: "gatherings.opening", Label: "gatherings, opening", N: len(c.gathered[0])}, {Key: "gatherings", Label: "gatherings, closing", N: len(c.gathered[1])},
			{Key: "teaching", Label: "teaching and student material, not among these", N: c.teaching},
			{Key: "last", Label: "highest number among them", Words: c.lastSaid},
		}}
}

func (h holdings) sums() (opening, closing int) {
	for _, b := range h {
		opening, closing = opening+b.opening, closing+b.closing
	}
	return opening, closing
}
