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
	TreatedBefore int         // sheets gathered before this year are assumed to be treated with poison; 0: no assumption
}

// ConventionsOf takes them from blotter.yaml; a value that cannot be read
// counts as not given (Decode has a finding for it).
func ConventionsOf(m *ledger.Museum) Conventions {
	c := Conventions{Order: dates.OrderOf(m.Dates.Order.Text)}
	if y, err := strconv.Atoi(strings.TrimSpace(m.Treated.Text)); err == nil && y > 0 {
		c.TreatedBefore = y
	}
	return c
}

// Key is a text that differs whenever the conventions do.
func (c Conventions) Key() string {
	return fmt.Sprintf("order=%d treated=%d", c.Order, c.TreatedBefore)
}
