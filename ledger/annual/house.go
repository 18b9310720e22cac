package annual

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"
	"time"
)

// traps is what the traps caught in the year, by trap and insect, and by trap
// and month.
func (c *count) traps() Section {
	s := Section{Key: "traps", Title: "Insect traps"}
	caught, reads := map[string]int{}, 0
	monthly := map[string]Row{}
	for _, e := range c.Works.Events() {
		if e.File.Kind.Name != "traps" || e.Verb != "read" || !c.within(e.Day) {
			continue
		}
		reads++
		if n := e.Caught(); n > 0 {
			y, m, _ := e.Day.Date()
			trap := joinSet(", ", e.File.Work.Place.Text, e.Line.Trap.Text)
			key := fmt.Sprintf("month.%04d-%02d.%s", y, m, trap)
			monthly[key] = Row{Key: key, Label: fmt.Sprintf("%s %d: %s", time.Month(m), y, trap), N: monthly[key].N + n}
			caught[joinSet(", ", e.File.Work.Place.Text, e.Line.Trap.Text, e.Line.Insect.Text, e.Line.Stage.Text)] += n
		}
	}
	if reads == 0 {
		return s
	}
	s.Rows = []Row{{Key: "reads", Label: "readings", N: reads}}
	for what, n := range caught {
		s.Rows = append(s.Rows, Row{Key: "caught." + what, Label: what, N: n})
	}
	slices.SortFunc(s.Rows[1:], func(a, b Row) int { return cmp.Or(b.N-a.N, strings.Compare(a.Label, b.Label)) })
	for _, key := range slices.Sorted(maps.Keys(monthly)) {
		s.Rows = append(s.Rows, monthly[key])
	}
	return s
}

func joinSet(sep string, words ...string) string {
	return strings.Join(slices.DeleteFunc(words, func(w string) bool { return w == "" }), sep)
}

// series is the readings of one kind at one place.
type series struct {
	n, out   int
	sum      float64
	min, max float64
}

func (s *series) add(v, low, high float64) {
	if s.n == 0 {
		s.min, s.max = v, v
	}
	s.n, s.sum, s.min, s.max = s.n+1, s.sum+v, math.Min(s.min, v), math.Max(s.max, v)
	if v < low || v > high {
		s.out++
	}
}

// climate is the readings written as lines, place by place, with how many lay outside
// the museum's band.
func (c *count) climate() Section {
	h := c.Works.Habits.Climate
	s := Section{Key: "climate", Title: "Climate", Notes: []string{
		"Readings written into the ledger. The band is that of blotter.yaml (habits: climate), or of ledger/standard.yaml with its source."}}
	places := map[string]*[2]series{}
	for _, e := range c.Works.Events() {
		if e.File.Kind.Name != "climate" || e.Verb != "measured" || !c.within(e.Day) {
			continue
		}
		at := cmp.Or(e.File.Work.Place.Text, string(e.File.Number))
		if places[at] == nil {
			places[at] = &[2]series{}
		}
		if v, ok := leading(e.Line.Temperature.Text); ok {
			places[at][0].add(v, figure(h.TemperatureMin.Text), figure(h.TemperatureMax.Text))
		}
		if v, ok := leading(e.Line.Humidity.Text); ok {
			places[at][1].add(v, figure(h.HumidityMin.Text), figure(h.HumidityMax.Text))
		}
	}
	var names []string
	for at := range places {
		names = append(names, at)
	}
	slices.Sort(names)
	for _, at := range names {
		for i, what := range []struct{ key, unit string }{{"temperature", "°C"}, {"humidity", "%"}} {
			v := &places[at][i]
			if v.n == 0 {
				continue
			}
			s.Rows = append(s.Rows,
				Row{Key: what.key + "." + at, Label: at + ": " + what.key + ", " + strconv.Itoa(v.n) + " readings", N: v.n,
					Words: fmt.Sprintf("%s to %s, mean %s %s", short(v.min), short(v.max), short(v.sum/float64(v.n)), what.unit)},
				Row{Key: what.key + ".out." + at, Label: at + ": " + what.key + " outside the band", N: v.out, Of: v.n})
		}
	}
	return s
}

func short(v float64) string { return strconv.FormatFloat(math.Round(v*10)/10, 'f', -1, 64) }

// leading is the figure at the head of words such as -30 °C or 48 %.
func leading(words string) (float64, bool) {
	words = strings.Replace(strings.TrimSpace(words), "−", "-", 1)
	end := 0
	for end < len(words) && strings.IndexByte("+-.,0123456789", words[end]) >= 0 {
		end++
	}
	v, err := strconv.ParseFloat(strings.Replace(words[:end], ",", ".", 1), 64)
	return v, err == nil
}
