package hooks

import (
	"context"
	"errors"
	"slices"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// subject is what the laws are about: one record or one work, through all its
// versions.
type subject struct {
	path   string
	number ledger.Number // of a record
	work   ledger.WorkNumber
}

func subjectOf(path string) subject {
	s := subject{path: path}
	if n, ok := ledger.NumberOfPath(path); ok {
		s.number = n
	} else if n, ok := ledger.WorkNumberOfPath(path); ok {
		s.work = n
	}
	return s
}

// name is its number.
func (s subject) name() ledger.Number {
	if s.number != "" {
		return s.number
	}
	return ledger.Number(s.work)
}

// as is the subject as it goes on under another number.
func (s subject) as(n ledger.Number) subject {
	if s.number != "" {
		return subject{path: n.Path(), number: n}
	}
	return subject{path: ledger.WorkNumber(n).Path(), work: ledger.WorkNumber(n)}
}

// version is one version of a subject; neither: it is not there.
type version struct {
	record *ledger.Record
	job    *ledger.Work
	broken bool // there is a file, but its text cannot be read
}

// document is what a version holds; nil: nothing.
func (v version) document() ledger.Document {
	switch {
	case v.record != nil:
		return v.record
	case v.job != nil:
		return v.job
	}
	return nil
}

// revisions are its versions in a history, oldest first.
func (s subject) revisions(view *history.View) []history.Revision {
	if s.number != "" {
		return view.Of(s.number)
	}
	return view.OfFile(s.path)
}

// since are its versions after a place of a history, oldest first, under
// whatever numbers it goes on.
func (s subject) since(view *history.View, place int) []history.Revision {
	if s.number == "" {
		return slices.DeleteFunc(view.OfFile(s.path), func(r history.Revision) bool { return r.Place <= place })
	}
	later, _ := view.After(s.number, place)
	return later
}

// version reads the version that a blob holds; "" is none.
func (s subject) version(ctx context.Context, repo *gitrepo.Repo, blob ledger.BlobID) (version, error) {
	if blob == "" {
		return version{}, nil
	}
	content, err := repo.Stored().Read(ctx, ledger.File{Path: s.path, Blob: blob, Size: -1})
	if errors.Is(err, ledger.ErrLarge) {
		return version{broken: true}, nil
	}
	if err != nil {
		return version{}, err
	}
	if s.number != "" {
		r, found := ledger.Decode(s.path, content)
		return version{record: r, broken: history.Unreadable(found)}, nil
	}
	j, found := ledger.DecodeWork(s.path, content)
	return version{job: j, broken: history.Unreadable(found)}, nil
}

// blobAt is the version that a commit has, whatever folder it lies in; "" is
// none.
func (b Bench) blobAt(ctx context.Context, s subject, commit string) (ledger.BlobID, error) {
	blob, err := b.Repo.BlobAt(ctx, commit, s.path)
	if err != nil || blob != "" || s.number == "" {
		return blob, err
	}
	err = b.Repo.Walk(ctx, commit, func(path string, at ledger.BlobID) {
		if n, ok := ledger.NumberOfPath(path); ok && n.Key() == s.number.Key() {
			blob = at
		}
	})
	return blob, err
}

func (b Bench) versionAt(ctx context.Context, s subject, commit string) (version, error) {
	blob, err := b.blobAt(ctx, s, commit)
	if err != nil {
		return version{}, err
	}
	return s.version(ctx, b.Repo, blob)
}

// judge holds one version to an earlier one by the law.
func (s subject) judge(old, now version, corrections []history.Correction) []ledger.Finding {
	if s.number != "" {
		return history.Judge(s.number, []history.Version{{Record: old.record, Unread: old.broken}}, history.Version{Record: now.record, Unread: now.broken}, corrections)
	}
	return history.JudgeWork(s.work, []history.WorkVersion{{Work: old.job, Unread: old.broken}}, history.WorkVersion{Work: now.job, Unread: now.broken}, corrections)
}
