package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger/gitrepo"
)

// releases brings together what both copies released: those of the other copy
// come here, and those of this copy that it lacks are found (lacks). A release
// is what it was for ever: where two bear one name both stay, and that is told.
// A plain mark without a maker and a text is nobody's release, and is not sent.
func (s *sharing) releases(ctx context.Context) error {
	theirs, err := s.repo.ReleasesOf(ctx, s.other)
	if err != nil {
		return stuck("%v", err)
	}
	ours, err := s.repo.Releases(ctx)
	if err != nil {
		return stuck("%v", err)
	}
	s.lacks = nil
	here := map[string]string{}
	var differ []string
	for _, t := range ours {
		here[t.Name] = t.ID
		has, there := theirs[t.Name]
		switch {
		case there && has.ID != t.ID:
			differ = append(differ, t.Name)
		case there || t.Called != t.Name || t.Commit == "":
		default:
			in, err := s.repo.IsAncestor(ctx, t.Commit, s.ours)
			if err != nil {
				return stuck("%v", err)
			}
			if in {
				s.lacks = append(s.lacks, t.Name)
			}
		}
	}
	if len(differ) > 0 {
		s.tell("%s", wrap(plural(len(differ), "The release ", "The releases ")+strings.Join(differ, ", ")+
			plural(len(differ), " is", " are")+" another here than in the other copy. What was released stays, so both are left as they are; whoever made the later one gives it a name of its own.", s.Width, ""))
	}
	return s.takeReleases(ctx, theirs, here)
}

// takeReleases keeps the releases of the other copy that are new here.
func (s *sharing) takeReleases(ctx context.Context, theirs map[string]gitrepo.Release, here map[string]string) error {
	var fresh []string
	for name, t := range theirs {
		if here[name] == "" && t.Commit != "" && (t.Called == "" || t.Called == name) {
			fresh = append(fresh, name)
		}
	}
	slices.Sort(fresh)
	if len(fresh) == 0 {
		return nil
	}
	said := "Received: "
	if s.opts.on("dry-run") {
		said = "To be received: "
	} else {
		for _, name := range fresh {
			if err := s.repo.TakeRelease(ctx, theirs[name]); err != nil {
				return stuck("%v", err)
			}
		}
	}
	s.say("%s", wrap(said+releaseWords(fresh)+".", s.Width, ""))
	return nil
}

// releaseWords are some releases in words: "the release 2026".
func releaseWords(names []string) string {
	if len(names) > fewNumbers {
		return count(len(names), "release")
	}
	return plural(len(names), "the release ", "the releases ") + strings.Join(names, ", ")
}
