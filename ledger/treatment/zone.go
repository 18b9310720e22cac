package treatment

import (
	"slices"
	"time"
)

// moments are the instants, in seconds since 1970, of times on a clock in the
// order in which they were read, and what is to be said of it. bad is the first
// that goes back, or -1.
//
// A clock either follows the zone's summer time or, as most loggers' do, keeps
// the offset that it was set to. When the offset changes within the log, the
// steps between readings show which: the way that leaves them even is taken, and
// where both do, the one that makes the log shorter.
func moments(walls []int64, zone *time.Location) (at []int64, note string, bad int) {
	f := follow(walls, zone)
	fixed := make([]int64, len(walls))
	offset := walls[0] - f.at[0]
	differ := false
	for i, w := range walls {
		fixed[i] = w - offset
		differ = differ || fixed[i] != f.at[i]
	}
	if !differ {
		return f.at, "", backwards(f.at)
	}
	const kept, followed = "the clock changed within the log; by its steps the logger kept the time it was set to", "the clock changed within the log; by its steps the logger changed with it"
	backFixed, backFollowed := backwards(fixed), backwards(f.at)
	switch {
	case (f.none || backFollowed >= 0) && backFixed < 0:
		return fixed, kept, -1
	case backFixed >= 0:
		return f.at, followed, backFollowed
	}
	a, b := uneven(fixed, f.at), uneven(f.at, fixed)
	switch {
	case a < b:
		return fixed, kept, -1
	case b < a:
		return f.at, followed, -1
	case f.at[len(walls)-1]-f.at[0] < fixed[len(walls)-1]-fixed[0]:
		return f.at, "the clock changed within the log; nothing shows whether the logger changed with it, taken as if it had, which makes the log an hour shorter", -1
	}
	return fixed, "the clock changed within the log; nothing shows whether the logger changed with it, taken as if it had not, which makes the log an hour shorter", -1
}

// followed are instants of a clock that follows its zone.
type followed struct {
	at   []int64
	none bool // some time never was: it lies in the hour that is left out in spring
}

func follow(walls []int64, zone *time.Location) followed {
	f := followed{at: make([]int64, len(walls))}
	// Between lo and hi the offset is one and no change is near.
	var offset, lo, hi int64
	usual := int64(-1)
	for i, w := range walls {
		if i == 0 || w < lo || w >= hi {
			before, after := offsetAt(zone, w-86400), offsetAt(zone, w+86400)
			if before != after {
				if usual < 0 {
					usual = median(walls)
				}
				f.at[i], f.none = f.one(w, before, after, i, usual, zone)
				lo, hi = 0, 0
				continue
			}
			offset = before
			start, end := time.Unix(w-offset, 0).In(zone).ZoneBounds()
			lo, hi = w-1, w+1<<40
			if !start.IsZero() {
				lo = start.Unix() + offset + 86400
			}
			if !end.IsZero() {
				hi = end.Unix() + offset - 86400
			}
		}
		f.at[i] = w - offset
	}
	return f
}

// one is the instant of a time near a change of offset.
func (f *followed) one(w, before, after int64, i int, usual int64, zone *time.Location) (int64, bool) {
	early, late := w-before, w-after
	isEarly, isLate := instantOffset(zone, early) == before, instantOffset(zone, late) == after
	switch {
	case isEarly && isLate && early != late: // it was twice; an hourly log has it twice the same
		if i > 0 && (early < f.at[i-1] || early == f.at[i-1] && usual >= 3000) {
			return late, f.none
		}
		return early, f.none
	case isEarly:
		return early, f.none
	case isLate:
		return late, f.none
	}
	return early, true
}

func instantOffset(zone *time.Location, unix int64) int64 {
	_, offset := time.Unix(unix, 0).In(zone).Zone()
	return int64(offset)
}

// offsetAt is the offset around a time on the clock.
func offsetAt(zone *time.Location, wall int64) int64 {
	return instantOffset(zone, wall-instantOffset(zone, wall))
}

// backwards is the first instant that lies before the one before it; -1.
func backwards(at []int64) int {
	for i := 1; i < len(at); i++ {
		if at[i] < at[i-1] {
			return i
		}
	}
	return -1
}

// uneven is by how much those steps of at that are others in the other reading
// differ from a usual step.
func uneven(at, other []int64) int64 {
	usual := median(at)
	var sum int64
	for i := 1; i < len(at); i++ {
		if step := at[i] - at[i-1]; step != other[i]-other[i-1] {
			sum += max(step-usual, usual-step)
		}
	}
	return sum
}

// median is the usual step.
func median(at []int64) int64 {
	if len(at) < 2 {
		return 0
	}
	steps := make([]int64, len(at)-1)
	for i := range steps {
		steps[i] = at[i+1] - at[i]
	}
	slices.Sort(steps)
	return steps[len(steps)/2]
}
