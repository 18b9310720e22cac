package treatment

import (
	"slices"
	"strings"
	"time"
)

// humidities begin or stand in headings of relative humidity, in lower case.
var humidities = []string{"humid", "rh", "%", "fukt", "fugt", "feucht", "vocht", "humedad", "umid"}

// humidity is the first column of relative humidity; nil when there is none.
func (l layout) humidity(names []string) []Channel {
	for i, name := range names {
		low := strings.ToLower(name)
		if i == l.date || i == l.clock || i == l.half || has(low, []string{"dew", "abs", "limit", "batt"}) || !has(low, humidities) {
			continue
		}
		return []Channel{{Name: name, Unit: Celsius, column: i, live: true}}
	}
	return nil
}

// Stretch is a time from one reading to another.
type Stretch struct{ From, To time.Time }

// Climate is what readings of a room say against a band.
type Climate struct {
	Days, Outside int     // days with readings; those with one or more outside the band
	Longest       Stretch // outside without a break: to the first reading that is back, or the last
	Swing         float64 // greatest less least within 24 hours
	Missing       []Stretch
}

// ClimateOf compares readings in order of time with a band; days are those of
// the zone. A stretch is missing when it is longer than twice the middle step
// of the readings: own judgement, no source.
func ClimateOf(rs []Reading, low, high float64, zone *time.Location) Climate {
	var c Climate
	if len(rs) == 0 {
		return c
	}
	gap := 2 * middleStep(rs)
	days := map[string]bool{}
	var out Stretch
	var least, most []int // readings of the last 24 hours that may be the extremes
	for i, r := range rs {
		broken := i > 0 && gap > 0 && r.At.Sub(rs[i-1].At) > gap
		if broken {
			c.Missing = append(c.Missing, Stretch{rs[i-1].At, r.At})
			out = Stretch{}
		}
		outside := r.C < low || r.C > high
		day := r.At.In(zone).Format(time.DateOnly)
		days[day] = days[day] || outside
		if outside && out.From.IsZero() {
			out.From = r.At
		}
		if out.To = r.At; !out.From.IsZero() && out.To.Sub(out.From) >= c.Longest.To.Sub(c.Longest.From) {
			c.Longest = out
		}
		if !outside {
			out = Stretch{}
		}
		least = window(least, rs, i, func(old, now float64) bool { return old >= now })
		most = window(most, rs, i, func(old, now float64) bool { return old <= now })
		c.Swing = max(c.Swing, rs[most[0]].C-rs[least[0]].C)
	}
	for _, outside := range days {
		c.Days++
		if outside {
			c.Outside++
		}
	}
	return c
}

// window adds a reading to those of the last 24 hours, without those that it
// outdoes.
func window(have []int, rs []Reading, i int, outdone func(old, now float64) bool) []int {
	for len(have) > 0 && outdone(rs[have[len(have)-1]].C, rs[i].C) {
		have = have[:len(have)-1]
	}
	have = append(have, i)
	for rs[i].At.Sub(rs[have[0]].At) > 24*time.Hour {
		have = have[1:]
	}
	return have
}

func middleStep(rs []Reading) time.Duration {
	var steps []time.Duration
	for i := 1; i < len(rs); i++ {
		steps = append(steps, rs[i].At.Sub(rs[i-1].At))
	}
	if len(steps) == 0 {
		return 0
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}
