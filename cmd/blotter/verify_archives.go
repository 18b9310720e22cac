package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger/gitrepo"
)

var flagArchive = &flag{Name: "archive", Value: "FILE", Many: true, Help: "look only at the releases, and whether FILE is one of those that went out with them"}

// sought is a file that is asked about: is it what went out?
type sought struct {
	gitrepo.Archive
	file string    // as typed
	with []wentOut // the releases that name these very bytes
	like []wentOut // those that name others under its name
}

// wentOut is a file and the release that names it.
type wentOut struct {
	release release
	gitrepo.Archive
}

// lookAtArchives proves of files whether they went out with a release, and the
// releases themselves.
func (v *verification) lookAtArchives(ctx context.Context, files []string) (err error) {
	for _, f := range files {
		s := sought{file: f}
		if s.Archive, err = v.archive(ctx, f); err != nil {
			return err
		}
		v.archives = append(v.archives, s)
	}
	if v.tip, err = v.head(ctx); err != nil {
		return err
	}
	if v.tip == "" {
		return stuck("nothing has been entered yet, so nothing was released")
	}
	if v.view, err = v.repo.History(ctx, v.cache(), v.tip); err != nil {
		return stuck("%v", err)
	}
	if err := v.lookAtReleases(ctx); err != nil {
		return err
	}
	for i := range v.archives {
		v.archives[i].seek(v.releases)
	}
	return nil
}

// seek finds the releases that a file went out with, or came near to it.
func (s *sought) seek(all []release) {
	for _, r := range all {
		for _, a := range r.Archives {
			switch {
			case a.Sum == s.Sum && a.Size == s.Size:
				s.with = append(s.with, wentOut{r, a})
			case strings.EqualFold(a.Name, s.Name):
				s.like = append(s.like, wentOut{r, a})
			}
		}
	}
}

// tellArchives tells of the files that are asked about, and of the releases.
func (v *verification) tellArchives() {
	for _, s := range v.archives {
		v.tellSought(s)
	}
	v.tellReleases()
	if !v.opts.on("quiet") {
		v.countReleases(v.goodReleases())
	}
	if v.broken() {
		v.sumFaults(nil)
	}
}

// tellSought tells what a file is that is asked about.
func (v *verification) tellSought(s sought) {
	for _, w := range s.with {
		v.say("%s", wrap(s.file+" is what went out with release "+v.releaseWords(w)+".", v.Width, "  "))
		if w.release.bad() {
			v.say("%s", wrap("That release is no longer what it was, so what it says of files proves nothing.", v.Width, "  "))
		}
	}
	if len(s.with) > 0 {
		return
	}
	v.say("%s", wrap(s.file+" is not a file that went out with a release:", v.Width, "  "))
	v.tellArchive("", s.Archive)
	for _, w := range s.like {
		v.say("%s", wrap("Another went out with release "+v.releaseWords(w)+":", v.Width, "  "))
		v.tellArchive("", w.Archive)
	}
}

// releaseWords say which release, of when, by whom, and under which name it
// names a file.
func (v *verification) releaseWords(w wentOut) string {
	r := w.release
	return r.Name + ", " + joinNonEmpty(", ", dayWord(r.By.When, v.zone), r.By.Name, v.signedBy(r), "as "+w.Archive.Name)
}

// signedBy are the words for a signature that fits.
func (v *verification) signedBy(r release) string {
	if r.Signed && r.vouched.Signature == gitrepo.SignatureGood {
		return joinNonEmpty(" ", "signed", prefixWord("by", r.vouched.Who))
	}
	return ""
}

func (v *verification) goodReleases() []release {
	return slices.DeleteFunc(slices.Clone(v.releases), release.bad)
}

// countReleases says how many releases hold, and who vouches for them.
func (v *verification) countReleases(good []release) {
	if len(good) > 0 {
		v.say("%s", wrap(count(len(good), "release")+", each what it was"+v.signedWords()+".", v.Width, "  "))
	}
}

// sumReleases say which releases hold, and what went out with each.
func (v *verification) sumReleases() {
	good := v.goodReleases()
	v.countReleases(good)
	told := false
	for _, r := range good {
		for _, a := range r.Archives {
			if !told {
				v.say("What went out with them:")
			}
			told = true
			v.tellArchive(r.Name+"  ", a)
		}
	}
}

// tellArchive tells a file that goes out: its checksum stands on a line of its
// own, where it is whole on the narrowest screen.
func (e *env) tellArchive(before string, a gitrepo.Archive) {
	e.say("  %s%s, %s bytes", before, a.Name, thousands(int(a.Size)))
	e.say("    sha256 %s", a.Sum)
}

// archivesInJSON is what verify --archive found, for programs.
type archivesInJSON struct {
	Holds    bool            `json:"holds"`
	Revision string          `json:"revision"`
	Releases []releaseInJSON `json:"releases"`
	Archives []soughtInJSON  `json:"archives"`
}

type archiveInJSON struct {
	File string `json:"file"`
	Sum  string `json:"sha256"`
	Size int64  `json:"bytes"`
}

type soughtInJSON struct {
	archiveInJSON
	With []string     `json:"releases"`
	Like []likeInJSON `json:"of_that_name"`
}

type likeInJSON struct {
	Release string `json:"release"`
	archiveInJSON
}

func filesInJSON(all []gitrepo.Archive) []archiveInJSON {
	out := []archiveInJSON{}
	for _, a := range all {
		out = append(out, archiveInJSON{a.Name, a.Sum, a.Size})
	}
	return out
}

func (v *verification) archivesInJSON() archivesInJSON {
	out := archivesInJSON{Holds: !v.broken(), Revision: v.tip, Releases: v.releasesInJSON()}
	for _, s := range v.archives {
		x := soughtInJSON{archiveInJSON: archiveInJSON{s.file, s.Sum, s.Size}, With: []string{}, Like: []likeInJSON{}}
		for _, w := range s.with {
			x.With = append(x.With, w.release.Name)
		}
		for _, w := range s.like {
			x.Like = append(x.Like, likeInJSON{w.release.Name, archiveInJSON{w.Archive.Name, w.Sum, w.Size}})
		}
		x.With = slices.Compact(x.With)
		out.Archives = append(out.Archives, x)
	}
	return out
}
