package due

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// alarms tell of trap readings after which the cabinets in reach are to be
// inspected: a live insect of the museum's list, or a catch far above the
// trap's own. An incident written down since answers them.
func (l *list) alarms() {
	h := l.w.Habits.Traps
	earlier := map[string][]float64{}
	for _, day := range l.readDays() {
		for _, c := range day {
			why := ""
			for _, insect := range h.Alarm {
				if c.alive[strings.ToLower(insect.Text)] {
					why = insect.Text + " alive"
				}
			}
			if why == "" && tooMany(earlier[c.trap], c.n, figure(h.Deviations, 2), whole(h.Readings, 3)) {
				why = fmt.Sprintf("%g caught, far more than before", c.n)
			}
			earlier[c.trap] = append(earlier[c.trap], c.n)
			if why != "" && !l.answered(c.day) {
				what := strings.TrimSpace("inspect the cabinets in reach of trap "+c.trap) + at(l.f.Work.Place.Text) + ": " + why + ", read " + l.date(c.day)
				l.day(c.day, Inspect, "alarm-"+c.trap+"-"+c.day.String(), what, "blotter incident --place PLACE --insect NAME", nil)
			}
		}
	}
}

// caught is what one trap held on one day.
type caught struct {
	trap  string
	day   dates.Day
	n     float64
	alive map[string]bool // insects in small letters
}

// readDays are the readings, day by day; lines of one trap and day together.
func (l *list) readDays() [][]*caught {
	var out [][]*caught
	for _, e := range l.events {
		if e.Verb != "read" || e.Line.Trap.Text == "" {
			continue
		}
		if n := len(out); n == 0 || out[n-1][0].day != e.Day {
			out = append(out, nil)
		}
		last := &out[len(out)-1]
		i := slices.IndexFunc(*last, func(c *caught) bool { return c.trap == e.Line.Trap.Text })
		if i < 0 {
			i = len(*last)
			*last = append(*last, &caught{trap: e.Line.Trap.Text, day: e.Day, alive: map[string]bool{}})
		}
		c := (*last)[i]
		c.n += float64(e.Caught())
		if e.Line.Alive.Text == "yes" {
			genus, _, _ := strings.Cut(strings.ToLower(e.Line.Insect.Text), " ")
			c.alive[genus] = true
		}
	}
	return out
}

// tooMany reports whether a catch lies more than so many standard deviations
// (n - 1) above the mean of the earlier ones; never with fewer than least of
// them, or than two.
func tooMany(earlier []float64, now, deviations float64, least int) bool {
	if len(earlier) < max(least, 2) {
		return false
	}
	sum, squares := 0.0, 0.0
	for _, v := range earlier {
		sum += v
	}
	mean := sum / float64(len(earlier))
	for _, v := range earlier {
		squares += (v - mean) * (v - mean)
	}
	return now > mean+deviations*math.Sqrt(squares/float64(len(earlier)-1))
}

// answered reports whether an incident was written down, or inspected, since.
func (l *list) answered(since dates.Day) bool {
	return slices.ContainsFunc(l.w.Events(), func(e *work.Event) bool {
		return e.File.Kind.Name == "incident" && e.Day >= since && e.Day <= l.on.Day
	})
}
