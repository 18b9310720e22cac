package main

import (
	"bytes"
	"context"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"blotter/ledger/gitrepo"
)

// release is one tag and what is amiss with it.
type release struct {
	gitrepo.Release
	vouched gitrepo.Vouched // what can be said of its signature
	first   string          // the day on which this copy first saw it
	faults  []string        // what it is no longer
	right   []string        // what to type
	doubts  []string        // what is no fault and should be known
}

func (r release) bad() bool { return len(r.faults) > 0 }

// seenRelease is what this copy knows of a release from before. That is no
// cache: it cannot be made again.
type seenRelease struct{ id, day string }

// releasesFile is where this copy keeps what each release was when it first
// saw it: name, id, day, parted by blanks.
func (d *desk) releasesFile() string { return filepath.Join(d.repo.StateDir(), "releases") }

func (d *desk) seenReleases() map[string]seenRelease {
	seen := map[string]seenRelease{}
	text, _ := os.ReadFile(d.releasesFile())
	for line := range bytes.Lines(text) {
		if f := strings.Fields(string(line)); len(f) == 3 {
			seen[f[0]] = seenRelease{f[1], f[2]}
		}
	}
	return seen
}

// noteReleases adds releases that were never seen before; what is known of
// others stays.
func (d *desk) noteReleases(seen map[string]seenRelease, all []gitrepo.Release) {
	grown := false
	for _, r := range all {
		if _, ok := seen[r.Name]; !ok {
			seen[r.Name] = seenRelease{r.ID, d.today()}
			grown = true
		}
	}
	if !grown {
		return
	}
	var b bytes.Buffer
	for _, name := range slices.Sorted(maps.Keys(seen)) {
		fmt.Fprintf(&b, "%s %s %s\n", name, seen[name].id, seen[name].day)
	}
	if err := d.keepState(d.releasesFile(), b.Bytes()); err != nil {
		d.tell("what the releases are could not be noted (%v), so a later run cannot tell whether one was moved", err)
	}
}

// lookAtReleases holds every release to what it was.
func (v *verification) lookAtReleases(ctx context.Context) error {
	all, err := v.repo.Releases(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	seen := v.seenReleases()
	for _, r := range all {
		x := release{Release: r, first: seen[r.Name].day}
		if x.Signed {
			if x.vouched, err = v.repo.CheckSignature(ctx, x.ID); err != nil {
				return stuck("%v", err)
			}
		}
		v.judgeRelease(&x, seen[r.Name])
		v.releases = append(v.releases, x)
	}
	v.compareSigners()
	for _, name := range slices.Sorted(maps.Keys(seen)) {
		if !slices.ContainsFunc(all, func(r gitrepo.Release) bool { return r.Name == name }) {
			s := seen[name]
			v.gone = append(v.gone, release{Release: gitrepo.Release{Name: name, ID: s.id}, first: s.day, faults: []string{"is gone; on " + v.shownDate(s.day) + " it was here"},
				right: []string{"git tag " + shellWord(name) + " " + s.id[:min(12, len(s.id))]}})
		}
	}
	v.noteReleases(seen, all)
	return nil
}

// judgeRelease says what a release is no longer.
func (v *verification) judgeRelease(x *release, seen seenRelease) {
	fault := func(right, format string, args ...any) {
		x.faults, x.right = append(x.faults, fmt.Sprintf(format, args...)), append(x.right, right)
	}
	if seen.id != "" && seen.id != x.ID {
		fault("git tag -f "+shellWord(x.Name)+" "+seen.id[:min(12, len(seen.id))], "stands for something else than on %s, when this copy first saw it", v.shownDate(seen.day))
	}
	if x.Called != "" && x.Called != x.Name {
		fault("git tag "+shellWord(x.Called)+" "+x.ID[:12]+"; git tag -d "+shellWord(x.Name), "was made under another name, %s", x.Called)
	}
	switch _, ok := v.view.Place(x.Commit); {
	case x.Commit == "":
		fault("Bring its objects back from a backup; or remove it, if it never was a release: git tag -d "+shellWord(x.Name), "leads to no revision of the ledger")
	case !ok:
		fault("Bring what it stands for back into the ledger: git merge "+shellWord(x.Name), "stands for revision %s, which is no longer part of this ledger", x.Commit[:7])
	}
	v.judgeSignature(x, fault)
}
