// Package mirror makes a public repository from a ledger: the same history,
// commit by commit, in which every version of every record is as everybody may
// see it.
//
// It works by admission. Of a commit's files only records, people.yaml, the
// files of names/ and blotter.yaml are taken; each is decoded, brought through
// ledger/public and written anew, so that no comment, no key and no blank of
// the old file goes along. What cannot be decoded becomes a stub. Messages are
// composed from what changed. Authors are named as the catalogue names them,
// without address. Tags, signatures and other branches stay behind.
//
// A record's class is the strictest that any of its versions and today's
// policy give it, and holds for all versions, whatever numbers its plant bore. The mirror of a ledger is a
// function of its history and today's policy: made bit by bit or at once, with
// git or without, it has the same ids. When what an already mirrored version
// shows would be otherwise now, it is made anew from the root.
package mirror

import (
	"context"
	"fmt"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/ledger/public"
)

// Version is that of the composition; it changes when the same ledger gives
// another mirror.
const Version = 2

// Address stands where git wants an e-mail address. The domain can never be
// anybody's (RFC 2606).
const Address = "address@withheld.invalid"

// Job is one ledger, at one commit, to be mirrored.
type Job struct {
	Source  *gitrepo.Repo
	Tip     string        // the commit of the ledger
	Book    *book.Book    // at Tip
	Loader  *book.Loader  // of Book
	History *history.View // at Tip
	// Kept are states of earlier runs into the same target; which of them holds
	// is found out.
	Kept []*State
}

// Report says what a run did.
type Report struct {
	Commits  int    // in the mirror
	New      int    // of these, written now
	Withheld int    // numbers that are generalised in every version
	Tip      string // of the mirror
	Anew     Reason // why it was made anew from the root
}

// Reason is why a mirror was made anew from the root.
type Reason uint8

const (
	Not       Reason = iota // it was gone on with
	First                   // there was none
	Forgotten               // what earlier runs kept is gone
	Rewritten               // the ledger's history is another
	Stricter                // something that was shown may not be shown any more
	Looser                  // something is shown in another way, and nothing less
	Program                 // this program makes another mirror than the one before
)

// Leaked is the error of a mirror in which withheld words would stand.
type Leaked struct{ Leaks []public.Leak }

func (e *Leaked) Error() string {
	return fmt.Sprintf("mirror: withheld words of %s (%s) in %s", e.Leaks[0].Number, e.Leaks[0].Field, e.Leaks[0].File)
}

// GivesAway is the error of a mirror in which sheets that are not withheld
// would tell where withheld ones grew.
type GivesAway struct{ Neighbours []public.Neighbour }

func (e *GivesAway) Error() string {
	return fmt.Sprintf("mirror: %s would tell where %s grew", e.Neighbours[0].Number, e.Neighbours[0].Of)
}

// Foreign is the error about a target that holds what no run put there.
type Foreign struct{ What string }

func (e *Foreign) Error() string { return "mirror: the target holds " + e.What }

// Make brings the mirror in target up to the job's commit. keep is called with
// the state to keep for the next run, before the branch moves. What is new is
// read back and looked through before that, and on a *Leaked nothing changes.
func (j *Job) Make(ctx context.Context, target *gitrepo.Bare, keep func(*State) error) (*Report, error) {
	ids, old, err := j.standing(ctx, target)
	if err != nil {
		return nil, err
	}
	s, err := j.survey(ctx)
	if err != nil {
		return nil, err
	}
	if list := s.view.Neighbours(); len(list) > 0 {
		return nil, &GivesAway{list}
	}
	p, err := target.NewPack()
	if err != nil {
		return nil, err
	}
	defer p.Close()
	w := &writer{survey: s, target: target, pack: p, state: newState()}
	r := &Report{Withheld: len(s.held)}
	if r.Anew, err = w.goOn(ctx, old, ids); err != nil {
		return nil, err
	}
	if err := w.write(ctx); err != nil {
		return nil, err
	}
	secrets, err := s.secrets(ctx)
	if err != nil {
		return nil, err
	}
	w.state.Secrets = secrets.Key()
	if err := w.verify(ctx, secrets, r.Anew == Not && old.Secrets != w.state.Secrets); err != nil {
		return nil, err
	}
	if r.Anew == Forgotten {
		if id := firstOther(ids, p.Has); id != "" {
			return nil, &Foreign{"objects that are not of this mirror, for example " + id}
		}
	}
	tip, err := target.Tip(ctx)
	if err != nil {
		return nil, err
	}
	r.Commits, r.New, r.Tip = len(w.state.commits), w.written, w.state.Mirror
	if w.written == 0 && tip == w.state.Mirror {
		return r, w.finish(keep, ids, nil)
	}
	if r.Anew != Not {
		ids = nil
	}
	if err := w.finish(keep, ids, p); err != nil {
		return nil, err
	}
	return r, target.Take(ctx, p, tip, w.state.Mirror, r.Anew != Not)
}

// standing looks at the target: its objects, and the state that they are of,
// nil when there is none.
func (j *Job) standing(ctx context.Context, target *gitrepo.Bare) ([]gitrepo.ObjectID, *State, error) {
	if what, err := target.Foreign(); err != nil || what != "" {
		if err == nil {
			err = &Foreign{what}
		}
		return nil, nil, err
	}
	ids, err := target.IDs()
	if err != nil {
		return nil, nil, err
	}
	tip, err := target.Tip(ctx)
	if err != nil {
		return nil, nil, err
	}
	digest := digestOf(ids)
	for _, s := range j.Kept {
		if s.Digest != digest || len(ids) == 0 {
			continue
		}
		if s.Mirror != tip {
			return nil, nil, &Foreign{"a branch that leads elsewhere than the last run left it"}
		}
		return ids, s, nil
	}
	return ids, nil, nil
}

// versionOf names one version of a file: of a record by its number, of another
// file by "/" and its path.
type versionOf struct {
	name string
	blob ledger.BlobID
}
