package history

import (
	"context"
	"fmt"
	"testing"
	"time"

	"blotter/ledger"
	"blotter/ledger/reading"
)

// specimen decodes a record of number LK7-0000482 from the lines below its head.
func specimen(t testing.TB, body string) *ledger.Record {
	t.Helper()
	r, fs := ledger.Decode("specimens/000/04/LK7-0000482.yaml", []byte("specimen: LK7-0000482\nentry: draft\n"+body))
	for _, f := range fs {
		if f.Severity == ledger.Error {
			t.Fatalf("test record: %v", f)
		}
	}
	return r
}

// tale is a history of LK7-0000482 in the making; each step is one commit.
type tale struct {
	t        testing.TB
	x        Index
	tip      string
	versions map[ledger.BlobID]Version
	head     ledger.BlobID
	n        int
}

const unread = "cannot be read" // stands for a text that is no YAML

func newTale(t testing.TB) *tale {
	return &tale{t: t, versions: map[ledger.BlobID]Version{}}
}

func (s *tale) read(_ context.Context, _ ledger.Number, id ledger.BlobID) (Version, error) {
	v, ok := s.versions[id]
	if !ok {
		return v, fmt.Errorf("no version %s", id)
	}
	return v, nil
}

// step commits a version of the record on top of parents (none given: the
// last step) and returns the commit's id.
func (s *tale) step(message, body string, parents ...string) string {
	s.t.Helper()
	if len(parents) == 0 && s.tip != "" {
		parents = []string{s.tip}
	}
	s.n++
	id := hexID('c', s.n)
	when := time.Date(2025, 7, s.n, 12, 0, 0, 0, time.UTC)
	c := Commit{ID: id, Parents: parents, Message: message, Author: Person{"Tiril Aune", "t@example.org", when}, Committer: Person{"Tiril Aune", "t@example.org", when}}
	touch := Touch{Path: "specimens/000/04/LK7-0000482.yaml", Blob: s.blob(body)}
	for _, p := range parents {
		touch.Olds = append(touch.Olds, s.at(p))
	}
	c.Touches = []Touch{touch}
	if err := s.x.Add(c); err != nil {
		s.t.Fatal(err)
	}
	s.tip, s.head = id, touch.Blob
	return id
}

func (s *tale) blob(body string) ledger.BlobID {
	if body == "" {
		return ""
	}
	id := ledger.BlobOf([]byte(body))
	if body == unread {
		s.versions[id] = Version{Unread: true}
	} else {
		s.versions[id] = Version{Record: specimen(s.t, body)}
	}
	return id
}

// at is the record's content at a commit; every commit of a tale touches it.
func (s *tale) at(commit string) ledger.BlobID {
	v := view(s.t, &s.x, commit)
	r, ok := v.At(v.Len()-1, "LK7-0000482")
	if !ok {
		s.t.Fatalf("%s does not touch the record", commit)
	}
	return r.Blob
}

func (s *tale) account() (*View, *Account) {
	v := view(s.t, &s.x, s.tip)
	a, err := v.AccountOf(context.Background(), "LK7-0000482", s.head, s.versions[s.head].Record, reading.Conventions{}, s.read)
	if err != nil {
		s.t.Fatal(err)
	}
	return v, a
}
