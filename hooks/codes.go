package hooks

import (
	"blotter/ledger"
	"blotter/ledger/history"
)

// Codes are the rules about entries rather than files, in the order of
// FORMAT.md: the law of opinions, and what the server end adds.
func Codes() []ledger.Rule {
	return []ledger.Rule{
		{Code: history.CodeChanged, Severity: ledger.Error, Meaning: "An entry of an append-only list stands in every child of the commit that has it, unchanged and in the same order; a `Corrects:` trailer lifts this for one number in one commit, and in a merge for what that commit altered."},
		{Code: history.CodeUnmark, Severity: ledger.Error, Meaning: "A mark of sensitivity that was shared stays in the record; `released` ends it."},
		{Code: history.CodeRemoved, Severity: ledger.Error, Meaning: "A record that was shared is withdrawn, not deleted."},
		{Code: history.CodeMoved, Severity: ledger.Error, Meaning: "A plant goes on under another number only by an entry that says so, in a trailer `Renumbered: OLD NEW why` or `Swapped: A B why`, and changes nothing else of it; a merge brings what the other copy changed of it there."},
		{Code: history.CodeLine, Severity: ledger.Error, Meaning: "A line of a file of work/ stands in every child of the commit that has it, as an entry of a record's lists does."},
		{Code: history.CodeHeading, Severity: ledger.Error, Meaning: "What the heading of a file of work/ said stands; a field that said nothing may be filled in, and what changes is a line."},
		{Code: history.CodeWork, Severity: ledger.Error, Meaning: "A file of work/ that was shared is not deleted."},
		{Code: history.CodeUnread, Severity: ledger.Warning, Meaning: "The version before can be read, so that the law can be judged."},
		{Code: CodeCut, Severity: ledger.Error, Meaning: "The main branch of a server is neither deleted nor moved back, and no other branch is while its entries stand nowhere else: what is shared stays."},
		{Code: CodeRelease, Severity: ledger.Error, Meaning: "A release (a tag) that a server has is neither moved nor taken away; a new one leads to a revision and bears its own name."},
		{Code: CodeShallow, Severity: ledger.Error, Meaning: "What is sent to a server joins the history that it has: a copy without the older history gets that first."},
	}
}
