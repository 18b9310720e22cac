package history

import (
	"slices"
	"strings"

	"blotter/ledger"
)

// RenumberedKey names the trailer by which a plant goes on under another
// number: "Renumbered: LK7-0000482 LK7-0001207 the label was stuck on another
// sheet". SwappedKey names the one by which two plants exchange theirs.
const (
	RenumberedKey = "Renumbered"
	SwappedKey    = "Swapped"
)

// Move is what one entry did to a plant's number: until then it bore From,
// since then it bears To. A swap is two moves. From and To may be numbers of
// works.
type Move struct {
	From, To ledger.Number
	Reason   string
	Swap     bool
}

// Moves are the moves that a message tells of, in its order. A trailer without
// two numbers is left out.
func Moves(message string) []Move {
	if !strings.Contains(message, "\n"+RenumberedKey+":") && !strings.Contains(message, "\n"+SwappedKey+":") {
		return nil // nearly every message
	}
	var out []Move
	for _, t := range Trailers(message) {
		swap := t.Key == SwappedKey
		if !swap && t.Key != RenumberedKey {
			continue
		}
		words := strings.Fields(t.Value)
		if len(words) < 2 || strings.EqualFold(words[0], words[1]) {
			continue
		}
		m := Move{ledger.Number(words[0]), ledger.Number(words[1]), strings.Join(words[2:], " "), swap}
		out = append(out, m)
		if swap {
			out = append(out, Move{m.To, m.From, m.Reason, true})
		}
	}
	return out
}

// MovedTo is the move by which a plant left a number.
func MovedTo(moves []Move, from ledger.Number) (Move, bool) {
	i := slices.IndexFunc(moves, func(m Move) bool { return m.From.Key() == from.Key() })
	if i < 0 {
		return Move{}, false
	}
	return moves[i], true
}

// MovedFrom is the move by which a plant got a number.
func MovedFrom(moves []Move, to ledger.Number) (Move, bool) {
	i := slices.IndexFunc(moves, func(m Move) bool { return m.To.Key() == to.Key() })
	if i < 0 {
		return Move{}, false
	}
	return moves[i], true
}

// CodeMoved is the finding of a record that goes on under another number in
// another way than by an entry that says so.
const CodeMoved = "number-moved"

// Retired reports whether a record is what is left of a number whose plant
// goes on under another: a stub of which nothing is said but that, by one
// person or by several.
func Retired(r *ledger.Record) (to ledger.Number, ok bool) {
	if r == nil || r.Entry.Text != string(ledger.Stub) || len(r.Fate) == 0 {
		return "", false
	}
	for _, f := range r.Fate {
		if strings.TrimSpace(f.Is.Text) != "same-as" || !strings.EqualFold(strings.TrimSpace(f.To.Text), strings.TrimSpace(r.Fate[0].To.Text)) {
			return "", false
		}
	}
	for _, kv := range ledger.Flatten(r) {
		if kv.Key != "specimen" && kv.Key != "entry" && !strings.HasPrefix(kv.Key, "fate.") {
			return "", false
		}
	}
	return ledger.Number(strings.TrimSpace(r.Fate[0].To.Text)), true
}

// Plant is the words of a record by which it is known that it says the same of
// the same plant under another number: all but the number, the numbers that it
// names, and the names of its pictures' files.
func Plant(r *ledger.Record) string {
	var b strings.Builder
	for _, kv := range ledger.Flatten(r) {
		top, _, _ := strings.Cut(kv.Key, ".")
		switch {
		case top == "specimen", top == "further_numbers", top == "same_gathering", top == "shares_sheet":
		case top == "images" && (strings.HasSuffix(kv.Key, ".file") || strings.HasSuffix(kv.Key, ".public")):
		case top == "fate" && strings.HasSuffix(kv.Key, ".to"):
		default:
			b.WriteString(kv.Key)
			b.WriteByte(0)
			b.WriteString(kv.Value)
			b.WriteByte(0)
		}
	}
	return b.String()
}

// Distinct reports whether a record says enough of its plant to be told from
// others by it.
func Distinct(r *ledger.Record) bool {
	return r.CollNo.Set() || r.Date.Set() || r.Place.Locality.Set() || len(r.Determinations)+len(r.Images)+len(r.Writings) > 0
}

// JudgeMove holds a move against the versions of both numbers in the one
// parent of the entry that says so, and in the entry: before and after of the
// number that the plant left (from), and of the one that it got (to).
func JudgeMove(m Move, fromOld, fromNew, toOld, toNew Version) []ledger.Finding {
	say := func(n ledger.Number, message string) []ledger.Finding {
		how := "To put a wrongly stuck number right: blotter renumber " + Short(m.From) + " " + Short(m.To) + " --why TEXT"
		if m.Swap {
			how = "To put two wrongly stuck numbers right: blotter swap " + Short(m.From) + " " + Short(m.To) + " --why TEXT"
		}
		return []ledger.Finding{finding(n.Path(), ledger.Error, CodeMoved, 0, "specimen", message, how)}
	}
	if fromOld.Unread || fromNew.Unread || toOld.Unread || toNew.Unread {
		return nil // of what cannot be read nothing can be said here
	}
	switch to, retired := Retired(fromNew.Record); {
	case fromOld.Record == nil:
		return say(m.From, "the message says that its plant goes on as "+string(m.To)+", and there was no record of that number, or it was not touched")
	case toNew.Record == nil:
		return say(m.From, "the message says that its plant goes on as "+string(m.To)+", and there is no such record")
	case Plant(fromOld.Record) != Plant(toNew.Record):
		return say(m.To, "the message says that the plant of "+string(m.From)+" goes on here, and something else was changed with it; that is an entry of its own")
	case !m.Swap && toOld.Record != nil:
		return say(m.To, "the plant of "+string(m.From)+" cannot go on here: the number was another's already")
	case !m.Swap && fromNew.Record != nil && (!retired || to.Key() != m.To.Key()):
		return say(m.From, "its plant goes on as "+string(m.To)+"; of this number nothing may be left but that: entry: stub, and a fate same-as, to: "+string(m.To))
	case m.Swap && toOld.Record == nil:
		return say(m.To, "the message says that two plants exchange their numbers, and before it there was no record of this one")
	}
	return nil
}
