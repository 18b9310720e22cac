package drying

import (
	"fmt"
	"math"
	"time"

	"blotter/ledger/dates"
)

// Wait is how long plants may wait between the field and the press, in days.
type Wait struct {
	Kept string // in words: "bag", "fridge"
	Days int
}

// Late asks, in words, about plants pressed later after collecting than they
// keep that way; "" when there is nothing to ask. Without a wait for how they
// were kept nothing is asked.
func Late(collected, pressed dates.Day, kept string, waits []Wait) string {
	for _, w := range waits {
		days := int64(pressed - collected)
		if w.Kept == kept && days > int64(w.Days) {
			return fmt.Sprintf("collected %s, pressed %s: %d days in the %s, where they keep for %d; are they sound?", collected, pressed, days, kept, w.Days)
		}
	}
	return ""
}

// Glue is how long glued sheets lie under weight beneath waxed paper.
type Glue struct {
	Hours float64
}

// Dry is when the weights may be lifted from sheets glued at a time.
func (g Glue) Dry(glued time.Time) time.Time {
	return glued.Add(time.Duration(min(max(g.Hours, 0), 24*longest) * float64(time.Hour)))
}

// DryOn is the day on which the weights may be lifted from sheets glued on a
// day whose hour nobody wrote down: the hours rounded up to whole days, so that
// 24 h is the same hour of the next day.
func (g Glue) DryOn(glued dates.Day) dates.Day {
	return glued + dates.Day(math.Ceil(min(max(g.Hours, 0), 24*longest)/24))
}
