package treatment

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
)

// Channel is a column of temperatures.
type Channel struct {
	Name string // its heading, or "column 3"
	Unit Unit   // of its heading or cells

	column int
	live   bool // some reading in it
}

// Words in headings, in lower case: of something else than the temperature of
// the load, whatever else the heading says; of something else unless it speaks
// of temperature too; of temperature; of the core.
var (
	notTemperature = []string{"humid", "%", "rh ", " rh", "rh(", "dew", "taupunkt", "duggpunkt", "dagg", "fukt", "fugt", "feucht", "vocht", "humedad", "umid", "batt", "volt", "pressure", "hpa", "lux", "light",
		"event", "alarm", "limit", "grense", "grenze", "set point", "setpoint", "setpunkt", "serial", "status", "co2", "latitude", "longitude", "kinetic", "mkt"}
	hardly        = []string{"index", "record", "marker", "count", "no.", "nr.", "sample", "door", "elapsed", "comment", "note", "kommentar", "bemerk", "signal", "rssi"}
	isTemperature = []string{"temp", "celsius", "fahrenheit", "°", "º", "℃", "℉", "probe", "føler", "fühler", "sonde", "thermo", "lämpö", "deg"}
	isCore        = []string{"core", "kern", "kjerne", "kärn", "centre", "center", "coeur", "cœur", "núcleo", "nucleo", "cuore"}
)

// whole are headings that name something else only when they are all of it.
var whole = []string{"#", "no", "nr", "id", "rh", "n", "lp.", "num", "number", "date", "time", "ch", "row"}

func has(s string, words []string) bool {
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(s, w) })
}

// wild is beyond every temperature, in °F as well: the number of a device, or a
// probe's fault.
const wild = 250

// channels are the columns of a table that may hold the temperature, from a
// sample of its rows.
func (l layout) channels(sample [][]string, names []string) []Channel {
	width := len(names)
	figures, gaps := make([]int, width), make([]int, width)
	found := make([]Unit, width)
	for _, cells := range sample {
		for i, cell := range cells {
			if i >= width {
				break
			}
			switch v, u, kind := temperature(cell); {
			case kind == figure && math.Abs(v) <= wild:
				figures[i]++
				if u != Unsaid {
					found[i] = u
				}
			case kind != other:
				gaps[i]++
			}
		}
	}
	var named, all []Channel
	for i, name := range names {
		low := strings.ToLower(name)
		temp := has(low, isTemperature) || has(low, isCore) || unitIn(name) != Unsaid
		if i == l.date || i == l.clock || i == l.half || slices.Contains(whole, low) || has(low, notTemperature) || !temp && has(low, hardly) {
			continue
		}
		// A column of which half is neither figure nor missing holds something else.
		if figures[i] == 0 && !(temp && gaps[i] > 0) || 2*(figures[i]+gaps[i]) < len(sample) || name == "" && l.numbers(sample, i) {
			continue
		}
		c := Channel{Name: name, Unit: unitIn(name), column: i, live: figures[i] > 0}
		if c.Name == "" {
			c.Name = fmt.Sprintf("column %d", i+1)
		}
		if c.Unit == Unsaid {
			c.Unit = found[i]
		}
		all = append(all, c)
		if temp {
			named = append(named, c)
		}
	}
	if len(named) > 0 {
		return named
	}
	return all
}

// numbers reports whether a column before the time counts the rows.
func (l layout) numbers(sample [][]string, i int) bool {
	if i > l.date {
		return false
	}
	last := 0
	for row, cells := range sample {
		if i >= len(cells) {
			return false
		}
		n, err := strconv.Atoi(cells[i])
		if err != nil || row > 0 && n != last+1 && n != last-1 {
			return false
		}
		last = n
	}
	return true
}

// choose is the channels that count, and what is to be said of the choice: the
// one wanted, else the one whose heading speaks of the core, else all, of which
// the warmest is taken at each moment.
func choose(all []Channel, wanted string) (chosen []Channel, why string, err error) {
	names := make([]string, len(all))
	for i, c := range all {
		names[i] = strconv.Quote(c.Name)
	}
	list := strings.Join(names, ", ")
	if wanted = strings.ToLower(strings.TrimSpace(wanted)); wanted != "" {
		var part []Channel
		for i, c := range all {
			low := strings.ToLower(c.Name)
			if low == wanted || wanted == strconv.Itoa(i+1) {
				return []Channel{c}, fmt.Sprintf("channel %q, as wanted", c.Name), nil
			}
			if strings.Contains(low, wanted) {
				part = append(part, c)
			}
		}
		if len(part) == 1 {
			return part, fmt.Sprintf("channel %q, as wanted", part[0].Name), nil
		}
		return nil, "", fmt.Errorf("%d channels are called %q; there are %s", len(part), wanted, list)
	}
	if len(all) == 1 {
		return all, fmt.Sprintf("one channel, %s", list), nil
	}
	var core []Channel
	for _, c := range all {
		if has(strings.ToLower(c.Name), isCore) {
			core = append(core, c)
		}
	}
	if len(core) == 1 {
		return core, fmt.Sprintf("channel %q, by its name the core; the others are not used", core[0].Name), nil
	}
	if len(core) > 1 {
		return core, fmt.Sprintf("%d channels of the core, at each moment the warmest", len(core)), nil
	}
	return all, fmt.Sprintf("%d channels, none said to be the core, so at each moment the warmest of %s", len(all), list), nil
}
