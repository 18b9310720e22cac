package work

import (
	"fmt"
	"strconv"
	"strings"
)

// shownThings is how many things a message names before it counts the rest.
const shownThings = 3

// listed names things: LK7-0000482, LK7-0000483 and 4 more.
func (c *checking) listed(of *some) string {
	var names []string
	for i, id := range of.first {
		if i == shownThings && of.n > shownThings+1 {
			return strings.Join(names, ", ") + " and " + strconv.Itoa(of.n-i) + " more"
		}
		names = append(names, c.w.thing(id).String())
	}
	return strings.Join(names, ", ")
}

func count(n int, one string) string {
	if n == 1 {
		return "1 " + one
	}
	return strconv.Itoa(n) + " " + one + "s"
}

// hints are what to do, where it is more than saying why.
var hints = map[string]string{
	codeUntreated: "If they were treated: blotter open freezer, or write the run's file with its own dates. If not: why: TEXT on this line",
	codeReturned:  "If they were treated: blotter open freezer, or write the run's file with its own dates. If not: why: TEXT on this line",
	codeOnLoan:    "If they are back: a line returned in the loan. If they are not, another sheet was meant. Or why: TEXT on this line",
	codeSentTwice: "If they came back between: a line returned in the first loan. Or why: TEXT on this line",
	codeTwoPlaces: "A line of the first work that lets them go, with its date. Or why: TEXT on this line",
	codeMissing:   "If it was found: a line found before this one, in the inventory or the shelf. Or why: TEXT on this line",
	codeTypePost:  "Say how it went: method: registered, courier or by hand, or its number: on this line. Or why: TEXT",
	codeTypeLong:  "Ask it back: blotter log LOAN recalled. If it may stay: a line extended with why: TEXT",
	codeFewer:     "A line returned or lost for what is still out. Or why: TEXT on this line",
	codeLotCount:  "Count the box again: a further line counted, discarded or distributed. Or why: TEXT on the line closed",
	codeTwoLots:   "Mark the wrong line: mistake: TEXT. Or why: TEXT on this line",
	codeCount:     "If the sheets are right: count: is mended by a further line. Or why: TEXT on this line",
	codeUnknown:   "Look at the number. If the sheet has it: blotter new NUMBER makes its record. Or why: TEXT on this line",
	codeUnread:    "A gathering is a collector and a number: Signe Rask 1311, or a span 1311..1320; a count is 120 folds",
	codeBackwards: "If the date is right: why: TEXT on this line. If it is a slip: mistake: TEXT here, and the line again with the right one",
	codeNoDate:    "A day, a month or a year, as on a label or 2026-11-03, with the time of day behind it where it matters",
	codeToCome:    "If the date is a slip: mistake: TEXT on this line, and the line again with the right one. Or why: TEXT",
	codeEarlyEnd:  "If the date is a slip: mistake: TEXT on this line, and the line again with the right one. Or why: TEXT",
	codeNoWork:    "blotter show work lists them all",
}

// words are the message of what is told of some things of one line.
func (c *checking) words(k told) string {
	all := c.of[k]
	who := c.listed(all)
	is, has := "is", "has"
	if all.n > 1 {
		is, has = "are", "have"
	}
	switch k.code {
	case codeUntreated:
		return fmt.Sprintf("%s %s filed, and no treatment against insects is recorded; one untreated sheet infests a cabinet", who, is)
	case codeReturned:
		return fmt.Sprintf("%s %s filed without treatment since coming from another house", who, is)
	case codeNotDry:
		return fmt.Sprintf("%s %s mounted before the press let go of it dry", who, is)
	case codeSentTwice:
		return fmt.Sprintf("%s %s sent a second time: %s", who, is, k.where())
	case codeEarly:
		return fmt.Sprintf("%s: %s, before it was collected", who, k.e.Verb)
	case codePressed:
		return fmt.Sprintf("%s %s pressed %s after collecting, when most plants have spoiled", who, is, k.than)
	case codeReceived:
		return fmt.Sprintf("%s %s received only after being %s", who, is, k.than)
	case codeTypePost:
		return fmt.Sprintf("%s %s a type, and the line does not say that it went registered, by courier or by hand", who, is)
	case codeTwoLots:
		return fmt.Sprintf("%s %s accessioned in %s as well", who, is, k.than)
	case codeUnknown:
		return fmt.Sprintf("%s %s no record, so nothing says what was moved", who, has)
	case codeTypeLong:
		return fmt.Sprintf("%s %s a type on loan for longer than %s", who, is, k.than)
	}
	return fmt.Sprintf("%s: %s, and it is %s", who, k.e.Verb, k.where())
}
