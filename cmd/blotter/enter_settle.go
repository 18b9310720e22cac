package main

import (
	"context"
	"errors"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/gitrepo"
	"blotter/ledger/history"
	"blotter/ledger/merge"
)

// settlePending asks about the readings that stand in files which wait to be
// entered; again says that some were decided.
func (d *desk) settlePending(ctx context.Context, changes []fileChange) (again bool, err error) {
	if !d.Asks || d.opts.on("dry-run") {
		return false, nil
	}
	var a *asker
	for _, c := range changes {
		if _, two := ledger.ReadMarks(c.new); !two {
			continue
		}
		if a == nil {
			a = d.asker()
		}
		if _, err := d.settleFile(ctx, a, c.path); err != nil {
			return again, err
		}
		again = true
	}
	return again, nil
}

// settleMerge is for enter while another git program is in the middle of
// bringing two copies together: it asks what that left to a person, and ends
// what is then complete.
func (d *desk) settleMerge(ctx context.Context, doing string) error {
	files, err := d.leftToDecide(ctx)
	if errors.Is(err, gitrepo.ErrNoProgram) {
		return begunWithGit(doing, "until then nothing else is entered")
	}
	if err != nil {
		return stuck("%v", err)
	}
	var a *asker
	if d.Asks {
		a = d.asker()
	}
	var open, done []string
	for _, f := range files {
		path, inside := strings.CutPrefix(f, d.repo.Prefix())
		if !inside {
			open = append(open, f)
			continue
		}
		left, err := d.settleFile(ctx, a, path)
		if err != nil {
			return err
		}
		if _, two := d.twoReadings(path); left > 0 || two {
			open = append(open, sheetOrPath(path))
		} else {
			done = append(done, f)
		}
	}
	if len(open) > 0 {
		return begunWithGit(doing, "nobody has decided yet between two readings: "+strings.Join(open, ", ")).
			try("At a terminal blotter enter asks which is right. Or: blotter set SHEET FIELD=VALUE, or blotter edit SHEET; then blotter enter")
	}
	if doing == "merge" { // hooks refused what it made, and somebody mended that
		mended, err := d.repo.MendedInMerge(ctx)
		if err != nil {
			return stuck("%v", err)
		}
		for _, f := range mended {
			if strings.HasPrefix(f, d.repo.Prefix()) && !slices.Contains(done, f) {
				done = append(done, f)
			}
		}
	}
	if err := d.mayEndMerge(done); err != nil {
		return err
	}
	return d.endMerge(ctx, doing, done)
}

// endMerge tells git what is decided and, where it brings two copies together,
// ends that.
func (d *desk) endMerge(ctx context.Context, doing string, done []string) error {
	var author, committer history.Person
	var err error
	if doing == "merge" {
		if author, committer, err = d.recorder(ctx); err != nil {
			return err
		}
	}
	unlock, err := d.lock(ctx)
	if err != nil {
		return err
	}
	defer unlock()
	if len(done) > 0 {
		if err := d.repo.Settled(ctx, done); err != nil {
			return stuck("%v", err)
		}
	}
	if doing != "merge" {
		return begunWithGit(doing, "everything is decided")
	}
	trailers, err := d.decisionsIn(ctx, done)
	if err != nil {
		return err
	}
	id, err := d.repo.EndMerge(ctx, author, committer, trailers)
	if err != nil {
		return stuck("not entered; your files stay as typed: %v", err)
	}
	d.say("Both versions are brought together, revision %s.", id[:7])
	return nil
}

// decisionsIn are the trailers of what was decided in sheets that git left to a
// person: of every field of which both copies said something else.
func (d *desk) decisionsIn(ctx context.Context, files []string) (lines []string, err error) {
	sides, err := d.repo.Sides(ctx, files)
	if err != nil {
		return nil, stuck("%v", err)
	}
	for _, c := range sides {
		path := strings.TrimPrefix(c.Path, d.repo.Prefix())
		n, ok := ledger.NumberOfPath(path)
		if !ok {
			continue
		}
		_, open, err := merge.Record(path, c.Base, c.Ours, c.Theirs)
		if err != nil {
			continue // not read as a record: nobody knows which field
		}
		for _, o := range open {
			if o.Path != "" {
				lines = append(lines, history.Decision{Number: n, Field: o.Path}.Trailer())
			}
		}
	}
	return slices.Compact(lines), nil
}

// leftToDecide lists the files that were left to a person: those that git
// holds open, and those in which two readings stand or stood.
func (d *desk) leftToDecide(ctx context.Context) ([]string, error) {
	files, changed, err := d.repo.Unsettled(ctx)
	if err != nil {
		return nil, err
	}
	for _, f := range changed {
		path, inside := strings.CutPrefix(f, d.repo.Prefix())
		if !inside || slices.Contains(files, f) {
			continue
		}
		_, two := d.twoReadings(path)
		if staged, err := d.repo.StagedText(ctx, f); err == nil && !two {
			_, two = ledger.ReadMarks(staged) // taken as it stood, and decided since
		}
		if two {
			files = append(files, f)
		}
	}
	return files, nil
}

// mayEndMerge looks for errors in files that were just decided.
func (d *desk) mayEndMerge(files []string) error {
	var found []ledger.Finding
	for _, f := range files {
		path := strings.TrimPrefix(f, d.repo.Prefix())
		src, err := d.read(path)
		if err != nil {
			continue // decided by taking it away
		}
		for _, x := range ledger.CheckFile(path, src) {
			if x.Severity == ledger.Error {
				found = append(found, x)
			}
		}
	}
	if len(found) == 0 {
		return nil
	}
	findingsView{env: d.env}.show(found)
	return errFindings
}
