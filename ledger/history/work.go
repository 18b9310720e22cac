package history

import (
	"slices"
	"strconv"

	"blotter/ledger"
)

// Codes of the findings of JudgeWork.
const (
	CodeLine    = "line-changed"    // a line of a work was altered or removed
	CodeHeading = "heading-changed" // what the heading of a work said was altered or removed
	CodeWork    = "work-removed"    // the file of an entered work is gone
)

const linesField = "lines"

// WorkVersion is one version of a file of work/: nil where the commit has no
// such file or its text cannot be read at all.
type WorkVersion struct {
	Work   *ledger.Work
	Unread bool // there is a file, but its text cannot be read
	Joined bool // of a child: it has several parents (BrokenJoined)

	Elsewhere *Elsewhere // of a parent of several: what the others' lines corrected; nil: nothing
}

// JudgeWork holds one commit's version of a work against those of the
// commit's parents, as Judge does a record: its lines stand unchanged and in
// the same order, what its heading said stands. A field of the heading that
// said nothing may be filled in. A Corrects trailer of its number lifts this.
func JudgeWork(n ledger.WorkNumber, parents []WorkVersion, child WorkVersion, corrections []Correction) []ledger.Finding {
	if _, ok := correctionOf(corrections, ledger.Number(n)); ok {
		return nil
	}
	path := n.Path()
	var out []ledger.Finding
	for _, p := range parents {
		switch {
		case p.Unread:
			out = append(out, finding(path, ledger.Warning, CodeUnread, 0, "",
				"the version before this one could not be read, so its lines were not compared with these", "Look at them: blotter history "+string(n)))
		case p.Work == nil || child.Unread:
		case child.Work == nil && p.Elsewhere.excusesRecord(p.Work):
		case child.Work == nil:
			out = append(out, finding(path, ledger.Error, CodeWork, 0, "",
				"the file was taken away; work that was once entered keeps its file, and its number is never used again",
				"Put the file back. Lines that should not be there: blotter set "+string(n)+" lines.1.mistake=REASON --why TEXT"))
		default:
			broken := Broken
			if child.Joined {
				broken = p.Elsewhere.broken
			}
			for _, b := range broken(ledger.Lists(p.Work), ledger.Lists(child.Work)) {
				out = append(out, b.finding(CodeLine, string(n), path, false))
			}
			for _, h := range headingsBroken(p.Work, child.Work, child.Joined) {
				if !p.Elsewhere.excuses(h.key()) {
					out = append(out, h.finding(n, path, child.Work))
				}
			}
		}
	}
	ledger.SortFindings(out)
	return slices.CompactFunc(out, func(a, b ledger.Finding) bool { return a == b }) // the same against both parents
}

// headingBreak is what the heading of a work said and says no more.
type headingBreak struct{ path, field, was, now string }

func (h headingBreak) key() string { return "heading\x00" + h.field + "\x00" + h.was }

// headingsBroken finds what the heading of a work said and says no more; of a
// list the entries that are gone. joined compares as in BrokenJoined.
func headingsBroken(old, now *ledger.Work, joined bool) []headingBreak {
	same := ledger.Entry.Equal
	if joined {
		same = func(a, b ledger.Entry) bool { return Plainly(a).Equal(Plainly(b)) }
	}
	words := func(s string) ledger.Entry { return ledger.Entry{Fields: []ledger.KV{{Value: s}}} }
	is := map[string]FieldList{}
	for _, f := range GroupOf(now) {
		is[f.Path] = f
	}
	var out []headingBreak
	for _, f := range GroupOf(old) {
		got := is[f.Path]
		switch {
		case f.Path == linesField:
		case !f.List && !same(words(f.Value), words(got.Value)):
			out = append(out, headingBreak{f.Path, f.Path, f.Value, got.Value})
		case f.List:
			for i, e := range f.Entries {
				if !slices.ContainsFunc(got.Entries, func(x ledger.Entry) bool { return same(e, x) }) {
					out = append(out, headingBreak{f.Path + "." + strconv.Itoa(i+1), f.Path, EntryWords(e), ""})
				}
			}
		}
	}
	return out
}

func (h headingBreak) finding(n ledger.WorkNumber, path string, now *ledger.Work) ledger.Finding {
	message := h.path + " said " + h.was + ", now " + h.now
	if h.now == "" {
		message = h.path + " said " + h.was + ", which is gone"
	}
	return finding(path, ledger.Error, CodeHeading, int32(ledger.LineOf(now, h.field)), h.path, message+"; the heading holds for all lines",
		"What changed since is a line: blotter log "+string(n)+" EVENT\nTyped wrongly: blotter set "+string(n)+" "+h.field+"="+quoteWord(h.now)+` --why "typed wrongly; paper seen"`)
}

// WorkChange is one work before and after an entry.
type WorkChange struct {
	Number   ledger.WorkNumber
	Old, New *ledger.Work // nil: not there
}

// WorkKey names the trailer that says what was done to one work:
// "Work: loan-2026-004 sent".
const WorkKey = "Work"

// WordOfWork says what an entry does to a work: opened, the event of the line
// that came, corrected, filled in, removed.
func WordOfWork(c WorkChange) string {
	switch {
	case c.Old == nil && c.New == nil:
		return ""
	case c.Old == nil:
		return "opened"
	case c.New == nil:
		return "removed"
	}
	word, lines := "", len(c.New.Lines)-len(c.Old.Lines)
	if lists, before := ledger.Lists(c.New)[0], ledger.Lists(c.Old)[0]; lines > 0 {
		for _, p := range Align(before.Entries, lists.Entries) {
			if p.Old < 0 {
				word = lists.Entries[p.New].Get("event")
			}
		}
	}
	switch {
	case lines > 1:
		return strconv.Itoa(lines) + " lines"
	case word != "":
		return word
	}
	return "corrected"
}
