package reading

import (
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
)

// Conventions are the museum's habits that a reading depends on, and nothing
// else of blotter.yaml.
type Conventions struct {
	Order         dates.Order // how 3/4/1934 is to be taken
	TwoDigitYears int         // the first of the hundred years in which years of two figures lie on labels; 0: not said
	TreatedBefore int         // sheets gathered before this year are assumed to be treated with poison; 0: no assumption
}

// ConventionsOf takes them from blotter.yaml; a value that cannot be read
// counts as not given (Decode has a finding for it).
func ConventionsOf(m *ledger.Museum) Conventions {
	o := dates.OptionsOf(m.Dates.Order.Text, m.Dates.TwoDigitYears.Text)
	c := Conventions{Order: o.Order, TwoDigitYears: o.FirstYear}
	if y, err := strconv.Atoi(strings.TrimSpace(m.Treated.Text)); err == nil && y > 0 {
		c.TreatedBefore = y
	}
	return c
}

// Slips are the conventions for the dates of slips, acts and readings, which
// may be of today: years of two figures stay open.
func (c Conventions) Slips() dates.Options { return dates.Options{Order: c.Order} }

// Collected are the conventions for a date of collecting.
func (c Conventions) Collected() dates.Options {
	o := dates.Options{Order: c.Order}
	if c.TwoDigitYears > 0 {
		o.FirstYear, o.LastYear = c.TwoDigitYears, c.TwoDigitYears+99
	}
	return o
}

// Key is a text that differs whenever the conventions do.
func (c Conventions) Key() string {
	return fmt.Sprintf("order=%d years=%d treated=%d", c.Order, c.TwoDigitYears, c.TreatedBefore)
}
