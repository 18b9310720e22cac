package hooks

import (
	"os"
	"path/filepath"
)

// proofCases are small histories, with what each breaks.
var proofCases = []struct {
	name   string
	tell   func(h *teller)
	want   string // codes of what is broken, ! before what stands again
	reason string
}{
	{"added", func(h *teller) { h.put(1, "a"); h.enter("1"); h.put(1, "ab"); h.enter("2") }, "", "a new opinion is no harm"},
	{"older slip", func(h *teller) { h.put(1, "b"); h.enter("1"); h.put(1, "ab"); h.enter("2") }, "opinion-changed", "its date is written anew by the slip before it here"},
	{"gone", func(h *teller) { h.put(1, "ab"); h.enter("1"); h.put(1, "a"); h.enter("2") }, "opinion-changed", ""},
	{"gone, and put back", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.put(1, "a")
		h.enter("2")
		h.put(1, "abc")
		h.enter("3")
	}, "!opinion-changed", "what stands again is told as such"},
	{"corrected", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.put(1, "a")
		h.enter("2\n\nCorrects: LK7-0000001 slip of another sheet")
	}, "", "a correction is on record"},
	{"corrected of another", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.put(1, "a")
		h.enter("2\n\nCorrects: LK7-0000002 slip of another sheet")
	}, "opinion-changed", "a trailer is for one number"},
	{"record removed", func(h *teller) {
		h.put(1, "a")
		h.put(2, "a")
		h.enter("1")
		h.git("rm", "-q", h.path(1))
		h.enter("2")
	}, "record-removed", ""},
	{"record removed and another in its place", func(h *teller) {
		h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Signe Rask\n")
		h.enter("1")
		h.git("rm", "-q", h.path(1))
		h.enter("2\n\nCorrects: LK7-0000001 never was a sheet")
		h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Ove Bannister\n")
		h.enter("3")
	}, "number-used", "a number is one plant for ever"},
	{"broken and mended between", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.write(1, "determinations: [\n")
		h.enter("2")
		h.put(1, "a")
		h.enter("3")
	}, "opinion-changed", "no version shows both, the law sees over it"},
	{"broken and mended whole", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.write(1, "determinations: [\n")
		h.enter("2")
		h.put(1, "abc")
		h.enter("3")
	}, "", "nothing was lost"},
	{"unread from the first", func(h *teller) { h.write(1, "determinations: [\n"); h.enter("1"); h.put(1, "a"); h.enter("2") }, "parent-unread", "said, and no fault"},
	{"merge keeps both", func(h *teller) {
		h.put(1, "a")
		h.enter("1")
		h.aside(func() { h.put(2, "x"); h.enter("2") })
		h.put(1, "ab")
		h.enter("3")
		h.git("merge", "-q", "--no-edit", "side")
	}, "", ""},
	{"merge drops the other side", func(h *teller) {
		h.put(1, "a")
		h.enter("1")
		h.aside(func() { h.put(1, "ac"); h.enter("2") })
		h.put(3, "ab")
		h.enter("3")
		h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
	}, "opinion-changed", "equal to one parent, so no change of its own: the other's opinion is gone"},
	{"merge drops the other side's sheet", func(h *teller) {
		h.put(1, "a")
		h.enter("1")
		h.aside(func() { h.put(2, "x"); h.enter("2") })
		h.put(3, "ab")
		h.enter("3")
		h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
	}, "record-removed", ""},
	{"merge of a correction", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.aside(func() { h.put(1, "a"); h.enter("2\n\nCorrects: LK7-0000001 slip of another sheet") })
		h.put(2, "x")
		h.enter("3")
		h.git("merge", "-q", "--no-edit", "side")
	}, "", "corrected on one side need not be corrected again"},
	{"renumbered and told", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.enter("2" + h.move(1, 3, true))
	}, "", "the plant goes on as 3, of 1 the stub is left"},
	{"renumbered and told, nothing left", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.enter("2" + h.move(1, 3, false))
	}, "", "the number was nobody else's yet"},
	{"swapped and told", func(h *teller) {
		h.put(1, "ab")
		h.put(2, "c")
		h.enter("1")
		h.enter("2" + h.move(1, 2, false))
		h.enter("3" + h.move(2, 1, false))
	}, "", "there and back"},
	{"swapped and not told", func(h *teller) {
		h.put(1, "ab")
		h.put(2, "c")
		h.enter("1")
		h.move(1, 2, false)
		h.enter("2")
	}, "opinion-changed number-moved opinion-changed opinion-changed", "each number lost its opinions"},
	{"renumbered and not told", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.move(1, 3, true)
		h.enter("2")
	}, "opinion-changed opinion-changed number-moved", ""},
	{"told and not so", func(h *teller) {
		h.put(1, "ab")
		h.put(2, "c")
		h.enter("1")
		h.put(3, "x")
		h.enter("2\n\nRenumbered: LK7-0000001 LK7-0000003 stuck")
	}, "number-moved", "another plant bears the new number"},
	{"an opinion gone while it was renumbered", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		message := "2" + h.move(1, 3, true)
		h.put(3, "a")
		h.enter(message)
	}, "opinion-changed opinion-changed number-moved", "a move is no cover for a change"},
	{"gone, renumbered, and put back there", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		h.put(1, "a")
		h.enter("2")
		h.enter("3" + h.move(1, 3, true))
		h.put(3, "ab")
		h.enter("4")
	}, "!opinion-changed", "what stands again is looked for under the number that the plant bears then"},
	{"renumbered on one side, determined on the other", func(h *teller) {
		h.put(1, "a")
		h.enter("1")
		h.aside(func() { h.enter("2" + h.move(1, 3, true)) })
		h.put(1, "ab")
		h.enter("3")
		h.enter("4" + h.move(1, 3, true))
		h.git("merge", "-q", "-s", "ours", "--no-edit", "side")
	}, "", "the move done on both sides loses nothing"},
	{"the number of a plant that went on, given again", func(h *teller) {
		h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Signe Rask\n")
		h.enter("1")
		h.enter("2" + h.move(1, 3, false))
		h.write(1, "specimen: LK7-0000001\nentry: draft\ncollector: Ove Bannister\n")
		h.enter("3")
	}, "", "it was this copy's alone when it was given up"},
	{"merge of a correction drops the other side's opinion", func(h *teller) {
		h.apart("ab", "a", correct1, "abc", "")
		h.joined("a", "4")
	}, "opinion-changed", "a correction on one side excuses what that side changed, not what the other said meanwhile"},
	{"merge of a correction keeps the other side's opinion", func(h *teller) {
		h.apart("ab", "a", correct1, "abc", "")
		h.joined("ac", "4")
	}, "", ""},
	{"merge drops what the other side entered, whoever corrects the number", func(h *teller) {
		h.apart("ab", "abc", "", "a", correct1)
		h.joined("a", "4")
	}, "opinion-changed", "the same, the correction being on the line joined into"},
	{"merge that corrects itself", func(h *teller) {
		h.apart("ab", "a", correct1, "abc", "")
		h.joined("a", "4"+correct1)
	}, "", "its own message tells it"},
	{"one opinion corrected on both sides", func(h *teller) {
		h.apart("ab", "ac", correct1, "ad", correct1)
		h.joined("ae", "4")
	}, "", "a third reading, which a person decided on"},
	{"one opinion corrected on one side alone", func(h *teller) {
		h.apart("ab", "ac", correct1, "abd", "")
		h.joined("acd", "4")
	}, "", ""},
	{"the same typed on both sides, and the slip in it mended on one", func(h *teller) {
		h.say(1, "a")
		h.enter("1")
		h.aside(func() { h.say(1, "ab"); h.enter("2"); h.say(1, "ac"); h.enter("3" + correct1) })
		h.say(1, "ab")
		h.enter("4")
		h.joined("ac", "5")
	}, "", "what was corrected away there need not stand because it was typed here too"},
	{"two orders of the same opinions", func(h *teller) {
		h.apart("a", "abc", "", "acb", "")
		h.joined("abc", "4")
	}, "", "one order stands"},
	{"an order that nobody had", func(h *teller) {
		h.apart("ab", "abc", "", "abd", "")
		h.joined("bacd", "4")
	}, "opinion-changed opinion-changed", "against either side"},
	{"record removed by a correction, with the other side's opinion", func(h *teller) {
		h.say(1, "a")
		h.enter("1")
		h.aside(func() { h.git("rm", "-q", h.path(1)); h.enter("2" + correct1) })
		h.say(1, "ab")
		h.enter("3")
		h.git("merge", "-q", "--no-commit", "-s", "ours", "side")
		h.git("rm", "-q", h.path(1))
		h.enter("4")
	}, "record-removed", "the opinion given meanwhile is gone with it"},
	{"work: heading corrected on one side, a line of the other dropped", func(h *teller) {
		h.loanApart("sent")
	}, "line-changed", ""},
	{"work: heading corrected on one side, a line added on the other", func(h *teller) {
		h.loanApart("sent", "reminded")
	}, "", "the heading is told again by nobody"},
	{"moved to another folder", func(h *teller) {
		h.put(1, "ab")
		h.enter("1")
		os.MkdirAll(filepath.Join(h.dir, "specimens/other"), 0o777)
		h.git("mv", h.path(1), "specimens/other/LK7-0000001.yaml")
		h.enter("2")
	}, "", "a record is its number, whatever its folder"},
}
