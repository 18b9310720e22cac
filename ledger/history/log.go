// Package history turns commits into the scientific history of records: the
// chain of determinations, the changes field by field, the broken promises.
// It is pure: gitrepo brings the Log, a reader brings the records.
package history

import (
	"time"

	"blotter/ledger"
)

// Commit is one revision of the whole ledger.
type Commit struct {
	ID        string   // full hexadecimal id
	Parents   []string // first parent first
	Author    Person   // who recorded it
	Committer Person
	Message   string // whole message, trailers included
	Touches   []Touch
}

// Person is a name and address as git keeps them, with the moment.
type Person struct {
	Name, Email string
	When        time.Time // with the zone it was written in
}

// Touch says that a commit is a revision of one file: its content differs
// from that of every parent (so a clean merge touches nothing), or a person
// decided in it between what the parents said of a record (Decisions).
type Touch struct {
	Path string          // in the new version; for a removal, the path removed
	Blob ledger.BlobID   // "" when removed
	Olds []ledger.BlobID // content in each parent, "" where absent; found by base name for records, whatever the folder
}

// Subject is the first line of the message.
func (c Commit) Subject() string {
	for i := range len(c.Message) {
		if c.Message[i] == '\n' {
			return c.Message[:i]
		}
	}
	return c.Message
}

// ShortID is the first seven figures of the commit's id, as shown to people.
func (c Commit) ShortID() string { return c.ID[:min(7, len(c.ID))] }

// Entered is who recorded the commit, on what day by the zone it was recorded
// in, and its short id: "Signe Rask, 16 July 2025, 0c41d7e".
func (c Commit) Entered() string {
	return c.Author.Name + ", " + c.Author.When.Format("2 January 2006") + ", " + c.ShortID()
}
