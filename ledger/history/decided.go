package history

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// DecidedKey names the trailer of a merge by which a person decided between
// what two copies said of one field: "Decided: LK7-0000482 place.elevation".
const DecidedKey = "Decided"

// Decision is one Decided trailer.
type Decision struct {
	Number ledger.Number
	Field  string // by its path, for example place.elevation
}

// Trailer is the line of a message that tells of a decision.
func (d Decision) Trailer() string { return DecidedKey + ": " + string(d.Number) + " " + d.Field }

// Decisions are the Decided trailers of a message, in its order. One without a
// number and a field is left out.
func Decisions(message string) []Decision {
	if !strings.Contains(message, "\n"+DecidedKey+":") {
		return nil // nearly every message
	}
	var out []Decision
	for _, t := range Trailers(message) {
		if words := strings.Fields(t.Value); t.Key == DecidedKey && len(words) == 2 {
			out = append(out, Decision{ledger.Number(words[0]), words[1]})
		}
	}
	return out
}

// decided adds what was decided between the parents of a merge: the words that
// one of them had, and those that stand.
func (c *Change) decided(parents []Version, now Version, decisions []Decision, reader *reading.Reader) {
	if len(decisions) == 0 || len(parents) < 2 || now.Record == nil || now.Unread {
		return
	}
	about := func(path string) bool {
		return slices.ContainsFunc(decisions, func(d Decision) bool {
			return d.Number.Key() == c.Number.Key() && (path == d.Field || strings.HasPrefix(path, d.Field+"."))
		})
	}
	for _, p := range parents {
		if p.Record == nil || p.Unread {
			continue
		}
		for _, f := range diffGroups(p.known(reader).fields(), now.known(reader).fields()) {
			if !about(f.Path) || slices.ContainsFunc(c.Fields, func(x FieldChange) bool { return x.Path == f.Path }) {
				continue
			}
			c.Fields = append(c.Fields, f)
			c.Kinds |= kindOfField(f)
		}
	}
	for i := range c.Fields {
		c.Fields[i].Decided = about(c.Fields[i].Path)
	}
}
