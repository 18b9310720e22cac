package hooks

import (
	"context"
	"slices"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
)

// BeforeCommit judges what is staged, as pre-commit and pre-merge-commit must:
// the content of the index that git names.
func (b Bench) BeforeCommit(ctx context.Context) (Verdict, error) {
	head, staged, err := b.staged(ctx)
	if err != nil {
		return Verdict{}, err
	}
	return b.Contents(ctx, head, b.Repo.Index(), staged)
}

// Message judges the message with what is staged, as commit-msg must: no
// opinion that was entered may be altered or lost, unless the message corrects
// it.
func (b Bench) Message(ctx context.Context, message string) (Verdict, error) {
	head, staged, err := b.staged(ctx)
	if err != nil {
		return Verdict{}, err
	}
	return b.message(ctx, head, staged, message)
}

// BeforeEntry is BeforeCommit and Message at once, where the message is known
// before git asks for it.
func (b Bench) BeforeEntry(ctx context.Context, message string) (contents, law Verdict, err error) {
	head, staged, err := b.staged(ctx)
	if err == nil {
		contents, err = b.Contents(ctx, head, b.Repo.Index(), staged)
	}
	if err == nil {
		law, err = b.message(ctx, head, staged, message)
	}
	return contents, law, err
}

func (b Bench) message(ctx context.Context, head string, staged []ledger.Change, message string) (Verdict, error) {
	parents := []string{}
	if head != "" {
		parents = append(parents, head)
	}
	merging, err := b.Repo.MergeHeads()
	if err != nil {
		return Verdict{}, err
	}
	parents = append(parents, merging...)
	return b.laws(ctx, parents, b.Repo.Index(), staged, message)
}

// Entry judges what a command is about to enter: a version of the ledger, what
// it has otherwise than HEAD, and the message. Where no hook runs, as without
// the git program, this is the hook.
func (b Bench) Entry(ctx context.Context, after ledger.Source, changes []ledger.Change, message string) (Verdict, error) {
	head, err := b.head(ctx)
	if err != nil {
		return Verdict{}, err
	}
	v, err := b.Contents(ctx, head, after, changes)
	if err != nil || head == "" {
		return v, err
	}
	w, err := b.laws(ctx, []string{head}, after, changes, message)
	v.join(w)
	return v, err
}

// Propose is the message that prepare-commit-msg offers: what is staged, in
// the trade's words, with a trailer for each record; "" when nothing of the
// ledger is staged.
func (b Bench) Propose(ctx context.Context) (string, error) {
	head, staged, err := b.staged(ctx)
	if err != nil || len(staged) == 0 {
		return "", err
	}
	before, err := b.at(ctx, head)
	if err != nil {
		return "", err
	}
	changes, others, err := recordChanges(ctx, before, b.Repo.Index(), staged)
	if err != nil {
		return "", err
	}
	works, others, err := workChanges(ctx, before, b.Repo.Index(), staged, others)
	if err != nil {
		return "", err
	}
	return history.Describe(changes, works, others), nil
}

func (b Bench) staged(ctx context.Context) (head string, changes []ledger.Change, err error) {
	if head, err = b.head(ctx); err != nil {
		return "", nil, err
	}
	list, err := b.Repo.Staged(ctx)
	return head, changesOf(list), err
}

func (b Bench) at(ctx context.Context, commit string) (ledger.Source, error) {
	if commit == "" {
		return nothing{}, nil
	}
	return b.Repo.At(ctx, commit)
}

func changesOf(list []gitrepo.Change) []ledger.Change {
	out := make([]ledger.Change, len(list))
	for i, c := range list {
		out[i] = ledger.Change{Path: c.Path, Old: c.Old, New: c.New, Link: c.Link}
	}
	return out
}

// recordChanges pairs the records among changed files by their numbers, so
// that one which moved to another folder is one change; other files are
// listed by path.
func recordChanges(ctx context.Context, before, after ledger.Source, changes []ledger.Change) (records []history.RecordChange, others []string, err error) {
	at := map[string]int{}
	for _, c := range changes {
		number, ok := ledger.NumberOfPath(c.Path)
		if !ok {
			others = append(others, c.Path)
			continue
		}
		i, seen := at[number.Key()]
		if !seen {
			i = len(records)
			at[number.Key()] = i
			records = append(records, history.RecordChange{Number: number})
		}
		if c.Old != "" {
			if records[i].Old, err = decode(ctx, before, c.Path, c.Old); err != nil {
				return nil, nil, err
			}
		}
		if c.New != "" {
			if records[i].New, err = decode(ctx, after, c.Path, c.New); err != nil {
				return nil, nil, err
			}
		}
	}
	slices.Sort(others)
	return records, others, nil
}

// decode reads one record of a version of the ledger.
func decode(ctx context.Context, src ledger.Source, path string, blob ledger.BlobID) (*ledger.Record, error) {
	content, err := src.Read(ctx, ledger.File{Path: path, Blob: blob, Size: -1})
	if err != nil {
		return nil, err
	}
	r, _ := ledger.Decode(path, content)
	return r, nil
}
