package history

import (
	"context"
	"slices"
	"testing"

	"blotter/ledger"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// told lines up what an account says of each opinion, oldest first: what
// happened, its place in the record, and the commit that entered it, from 1.
func lines(v *View, a *Account) (happened []string, at, commits []int) {
	for _, o := range a.Opinions {
		happened = append(happened, o.Happened.String())
		at = append(at, o.At)
		k := 0
		if o.Entered >= 0 {
			for i := 1; hexID('c', i) != v.Commit(o.Entered).ID; i++ {
				k = i
			}
			k++
		}
		commits = append(commits, k)
	}
	return
}

func TestAccount(t *testing.T) {
	older := "determinations:\n  - {name: Ranunculus repens, by: X, date: v.1930, from: slip}\n" + acris[len("determinations:\n"):]
	corrected := "determinations:\n  - {name: Ranunculus acris L., by: Signe Rask, date: 2025-07-15, from: label}\n"
	cases := []struct {
		name, reason string
		steps        []string
		happened     []string
		at, commits  []int
	}{
		{"label then named", "each by the commit that brought it", []string{acris, acris + pumilus}, []string{"on the label", "named anew"}, []int{1, 2}, []int{1, 2}},
		{"other work between", "a correction enters no opinion", []string{acris, "habitat: meadow\n" + acris, "habitat: meadow\n" + acris + pumilus + conf},
			[]string{"on the label", "named anew", "agrees"}, []int{1, 2, 3}, []int{1, 3, 3}},
		{"older slip", "inserted before what stood", []string{acris, older}, []string{"named", "on the label"}, []int{1, 2}, []int{2, 1}},
		{"corrected opinion", "a slip of the pen keeps its entry", []string{acris, corrected}, []string{"on the label"}, []int{1}, []int{1}},
		{"unread between", "the commit that mended it entered nothing", []string{acris, unread, acris + pumilus}, []string{"on the label", "named anew"}, []int{1, 2}, []int{1, 3}},
		{"reverted and back", "gone and come again", []string{acris + pumilus, acris, acris + pumilus}, []string{"on the label", "named anew"}, []int{1, 2}, []int{1, 3}},
		{"removed and new", "another record of that number", []string{acris, "", acris + pumilus}, []string{"on the label", "named anew"}, []int{1, 2}, []int{3, 3}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			s := newTale(t)
			for _, body := range c.steps {
				s.step("step", body)
			}
			v, a := s.account()
			happened, at, commits := lines(v, a)
			if !slices.Equal(happened, c.happened) || !slices.Equal(at, c.at) || !slices.Equal(commits, c.commits) || a.Pending {
				t.Errorf("%q at %v by %v, want %q at %v by %v (%s)", happened, at, commits, c.happened, c.at, c.commits, c.reason)
			}
			if len(a.Changes) != len(c.steps) {
				t.Errorf("%d changes for %d revisions", len(a.Changes), len(c.steps))
			}
		})
	}
}

// An opinion that came by a branch was entered there, whichever parent the
// merge names first.
func TestAccountMerge(t *testing.T) {
	for _, first := range []bool{true, false} {
		s := newTale(t)
		base := s.step("Add", acris)
		a := s.step("Agree", acris+conf, base)
		b := s.step("Determine", acris+pumilus, base)
		parents := []string{a, b}
		if !first {
			parents = []string{b, a}
		}
		s.step("Merge", acris+pumilus+conf, parents...)
		v, account := s.account()
		_, at, commits := lines(v, account)
		if !slices.Equal(at, []int{1, 2, 3}) || !slices.Equal(commits, []int{1, 3, 2}) {
			t.Errorf("at %v by %v", at, commits)
		}
		if k := account.Changes[3].Kinds; k != 0 {
			t.Errorf("the merge itself did %v", k)
		}
	}
}

func TestAccountPending(t *testing.T) {
	s := newTale(t)
	s.step("Add", acris)
	s.head = s.blob(acris + pumilus)
	v, a := s.account()
	if _, at, commits := lines(v, a); !a.Pending || !slices.Equal(at, []int{1, 2}) || !slices.Equal(commits, []int{1, 0}) {
		t.Errorf("pending %v at %v by %v", a.Pending, at, commits)
	}
	if a.Opinions[0].State != opinion.Earlier || a.Opinions[1].State != opinion.Stands {
		t.Errorf("states %v %v", a.Opinions[0].State, a.Opinions[1].State)
	}
}

// The edge of a shallow clone enters nothing that it cannot know of: its own
// first commit shows the whole record as new, and the view says that it is
// incomplete.
func TestAccountShallow(t *testing.T) {
	s := newTale(t)
	s.step("Determine", acris+pumilus)
	x := Index{}
	c := view(t, &s.x, s.tip).Commit(0)
	c.Parents = []string{hexID('c', 99)}
	c.Touches = []Touch{{Path: "specimens/000/04/LK7-0000482.yaml", Blob: s.head, Olds: []ledger.BlobID{ledger.BlobID(hexID('b', 7))}}}
	if err := x.Add(c); err != nil {
		t.Fatal(err)
	}
	s.versions[ledger.BlobID(hexID('b', 7))] = Version{Record: specimen(t, acris)}
	v := view(t, &x, c.ID)
	a, err := v.AccountOf(context.Background(), "LK7-0000482", s.head, s.versions[s.head].Record, reading.Conventions{}, s.read)
	if err != nil || !v.Incomplete() {
		t.Fatal(err, v.Incomplete())
	}
	if a.Opinions[0].Entered != -1 || a.Opinions[1].Entered != 0 {
		t.Errorf("entered %d and %d, want not known and the commit", a.Opinions[0].Entered, a.Opinions[1].Entered)
	}
}

func TestEnteredWords(t *testing.T) {
	s := newTale(t)
	s.step("Add", acris)
	if got := view(t, &s.x, s.tip).Commit(0).Entered(); got != "Tiril Aune, 1 July 2025, c000000" {
		t.Error(got)
	}
}
