package work

import (
	"slices"

	"blotter/ledger"
)

const eventClosed = ledger.EventClosed

// kindsOf are the kinds of work in which a row holds for an event.
func kindsOf(m *move, event string) []string {
	if m.kinds != nil {
		return m.kinds
	}
	var out []string
	for _, k := range ledger.WorkKinds() {
		if event == eventClosed || slices.Contains(k.Events, event) {
			out = append(out, k.Name)
		}
	}
	return out
}
