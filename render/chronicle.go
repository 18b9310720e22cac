package render

import (
	"context"
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"time"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/disk"
	"blotter/ledger/history"
	"blotter/ledger/opinion"
	"blotter/ledger/public"
	"blotter/ledger/reading"
)

// Chronicle tells the site what the history says of each record: its methods
// are the Story, StoryKey and Changes of an Input.
type Chronicle struct {
	View        *history.View
	Read        history.Read
	Conventions reading.Conventions
	Zone        *time.Location // days are those of the museum
	Cache       *disk.Cache    // nil: every version is read anew
	Stamp       string         // what Read depends on besides the versions
	Full        history.Read   // the versions as they are, to tell that what is withheld was corrected; nil: not told

	commits []Revision  // by place
	ids     []string    // by place: of the commits in the ledger, never shown
	days    []time.Time // by place: midnight of the museum's day
	told    map[ledger.Number]*told
	same    map[[2]string]*Deed // of records entered once, by name and whose opinion
}

// eventsBucket keeps what each record's revisions did, by number.
var eventsBucket = disk.Bucket{Name: "site-events", Version: 5}

// ReadSheet brings the record of an entry as it may be shown; see Input.
type ReadSheet func(context.Context, *book.Entry) (*reading.Reading, *public.Withheld, error)

// NewChronicle makes ready to tell; zone nil is UTC. cite is the id by which
// everybody may cite a commit, "" when by none; nil: by its own.
func NewChronicle(v *history.View, read history.Read, c reading.Conventions, zone *time.Location, cache *disk.Cache, cite func(id string) string) *Chronicle {
	if zone == nil {
		zone = time.UTC
	}
	h := &Chronicle{View: v, Read: read, Conventions: c, Zone: zone, Cache: cache, commits: make([]Revision, v.Len()), ids: make([]string, v.Len()), days: make([]time.Time, v.Len()), told: map[ledger.Number]*told{}}
	for p := range h.commits {
		commit := v.Commit(p)
		h.ids[p] = commit.ID
		h.commits[p] = Revision{ID: commit.ID, By: commit.Author.Name, When: commit.Author.When.In(zone)}
		if cite != nil {
			h.commits[p].ID = cite(commit.ID)
		}
		y, m, d := h.commits[p].When.Date()
		h.days[p] = time.Date(y, m, d, 0, 0, 0, 0, zone)
	}
	h.stamp()
	return h
}

// stamp names each commit within the site by the moment at which it was
// recorded, since its id may be made from words that are withheld.
func (h *Chronicle) stamp() {
	taken := make(map[int64]int, len(h.commits))
	for p := range h.commits {
		rv := &h.commits[p]
		second := rv.When.Unix()
		taken[second]++
		rv.Stamp = rv.When.UTC().Format("20060102-150405")
		if n := taken[second]; n > 1 {
			rv.Stamp += "-" + itoa(n)
		}
	}
}

// Head is the last entry of the view.
func (h *Chronicle) Head() Revision {
	if len(h.commits) == 0 {
		return Revision{}
	}
	return h.commits[len(h.commits)-1]
}

// StoryKey is a text that changes whenever the Story of e does: a Story is
// made from the record and the revisions of it.
func (h *Chronicle) StoryKey(e *book.Entry) string {
	revisions := h.View.OfVersion(e.Number, e.Blob)
	var b strings.Builder
	for _, r := range revisions {
		b.WriteString(h.ids[r.Place])
		if cited := h.commits[r.Place].ID; cited != h.ids[r.Place] {
			b.WriteString("=" + cited)
		}
	}
	return b.String()
}

// revisionsKey is a text that changes whenever the revisions do.
func (h *Chronicle) revisionsKey(revisions []history.Revision) string {
	var b strings.Builder
	for _, r := range revisions {
		b.WriteString(h.ids[r.Place])
	}
	return b.String()
}

// Story is what the history says of e, whose words are r.
func (h *Chronicle) Story(ctx context.Context, e *book.Entry, r *ledger.Record) (Story, error) {
	revisions := h.View.OfVersion(e.Number, e.Blob)
	if len(revisions) == 1 && revisions[0].Blob == e.Blob {
		rv := h.commits[revisions[0].Place]
		return Story{Last: rv, Opinions: slices.Repeat([]Revision{rv}, len(r.Determinations))}, nil
	}
	k := h.told[e.Number]
	if k == nil || k.Blob != e.Blob {
		var err error
		if k, err = h.tell(ctx, e, r); err != nil {
			return Story{}, err
		}
	}
	st := Story{Last: h.at(revisions, k.Last)}
	for _, i := range k.Entered {
		st.Opinions = append(st.Opinions, h.at(revisions, i))
	}
	for _, c := range k.Corrections {
		st.Corrections = append(st.Corrections, Correction{h.at(revisions, c.Revision), c.Field, c.Before, c.After, c.Reason, c.Withheld, c.Decided})
	}
	return st, nil
}

// at is the commit of a record's i-th revision; the zero Revision when i is
// none of them.
func (h *Chronicle) at(revisions []history.Revision, i int) Revision {
	if i < 0 || i >= len(revisions) {
		return Revision{}
	}
	return h.commits[revisions[i].Place]
}

// told is what the revisions of one record did, revisions counted from 0; it
// is kept in the cache.
type told struct {
	Key         string
	Blob        ledger.BlobID // of the version that it ends with
	Events      []toldEvent
	Entered     []int // the revision that entered each determination; -1: none
	Last        int   // the last revision; -1: the version is in none
	Corrections []toldCorrection
}

type toldEvent struct {
	Revision int
	Deed
}

type toldCorrection struct {
	Revision             int
	Field, Before, After string
	Reason               string `json:",omitempty"`
	Withheld             bool   `json:",omitempty"`
	Decided              bool   `json:",omitempty"`
}

// eventsOf is what the revisions of one record did; fresh is what to keep of
// it, nil when it was kept or costs nothing.
func (h *Chronicle) eventsOf(ctx context.Context, e *book.Entry, old []byte, read ReadSheet) (out []placed, fresh []byte, err error) {
	revisions := h.View.OfVersion(e.Number, e.Blob)
	switch len(revisions) {
	case 0:
		return nil, nil, nil
	case 1:
		return []placed{h.place(e, revisions[0].Place, h.entered(e))}, nil, nil
	}
	k := &told{}
	key := h.revisionsKey(revisions) + h.Conventions.Key() + h.Stamp
	if old == nil || json.Unmarshal(old, k) != nil || k.Key != key || k.Blob != e.Blob {
		d, _, err := read(ctx, e)
		if err != nil {
			return nil, nil, err
		}
		if k, err = h.tell(ctx, e, d.Record); err != nil {
			return nil, nil, err
		}
		k.Key = key
		if fresh, err = json.Marshal(k); err != nil {
			return nil, nil, fmt.Errorf("keep events of %s: %w", e.Number, err)
		}
	}
	h.told[e.Number] = k
	for i := range k.Events {
		if v := &k.Events[i]; v.Revision < len(revisions) {
			out = append(out, h.place(e, revisions[v.Revision].Place, &v.Deed))
		}
	}
	return out, fresh, nil
}

// tell reads the versions of a record and says what each did.
func (h *Chronicle) tell(ctx context.Context, e *book.Entry, r *ledger.Record) (*told, error) {
	a, err := h.View.AccountOf(ctx, e.Number, e.Blob, r, h.Conventions, h.Read)
	if err != nil {
		return nil, err
	}
	k := &told{Blob: e.Blob, Last: -1, Entered: slices.Repeat([]int{-1}, len(r.Determinations))}
	revisionAt := map[int]int{-1: -1}
	for i, c := range a.Changes {
		revisionAt[c.Place] = i
	}
	for _, o := range a.Opinions {
		if i, ok := revisionAt[o.Entered]; ok && o.At <= len(k.Entered) {
			k.Entered[o.At-1] = i
		}
	}
	if !a.Pending {
		k.Last = len(a.Changes) - 1
	}
	held := hidden(e)
	var full *history.Account
	if held && h.Full != nil && !a.Pending {
		if full, err = h.fullAccount(ctx, e); err != nil {
			return nil, err
		}
		dropDerived(a, full)
	}
	k.Events = eventsFrom(a, held)
	for i, c := range slices.Backward(a.Changes) {
		if c.Kinds.Has(history.New) || !c.Kinds.Has(history.Corrected) {
			continue
		}
		for _, f := range c.Fields {
			if f.Path != "entry" && f.Before != "" && !strings.HasPrefix(f.Path, "sic.") && !strings.HasPrefix(f.Path, "checked.") {
				k.Corrections = append(k.Corrections, toldCorrection{i, f.Path, f.Before, f.After, reasonOf(c, held), false, f.Decided})
			}
		}
	}
	if full != nil {
		heldChanges(full, a, k)
	}
	return k, nil
}

// eventsFrom is one event a revision. What happened before a record was ready
// to be shown is not told; that it became so counts as new.
func eventsFrom(a *history.Account, held bool) []toldEvent {
	var out []toldEvent
	for i, c := range a.Changes {
		v := toldEvent{Revision: i, Deed: Deed{Was: c.Before, Now: c.After}}
		if ready(c) {
			v.Kind = New
			out = append(out[:0], v)
			continue
		}
		v.Reason = reasonOf(c, held)
		v.By = byOf(a, c.Place)
		switch {
		case c.Kinds.Has(history.New):
			v.Kind = New
		case c.Kinds.Has(history.Redetermined):
			v.Kind = NamedAnew
		case c.Kinds.Has(history.Withdrawn):
			v.Kind = Withdrawn
		case c.Kinds.Has(history.Confirmed), sameName(a, c):
			v.Kind = Agreed
		case c.Kinds.Has(history.Corrected | history.Completed):
			v.Kind = Corrected
			v.Fields = fieldsOf(c)
		default:
			v.Kind = Noted
		}
		out = append(out, v)
	}
	return out
}

// sameName reports whether the change brought a determination with the name
// that stood already: somebody looked and came to the same.
func sameName(a *history.Account, c history.Change) bool {
	for _, o := range a.Opinions {
		g := &a.Reading.Opinions[o.At-1]
		if o.Entered == c.Place && g.Kind == opinion.Det && g.State != opinion.Mistake && slices.Equal(g.Name.Keys, reading.ReadName(c.After).Keys) {
			return true
		}
	}
	return false
}

// ready reports whether the change made a draft or stub ready to be shown.
func ready(c history.Change) bool {
	for _, f := range c.Fields {
		if f.Path == "entry" && f.After == string(ledger.Full) && f.Before != "" {
			return true
		}
	}
	return false
}

// fieldsOf are the fields that a change touched, each list once.
func fieldsOf(c history.Change) []string {
	var out []string
	for _, f := range c.Fields {
		p := f.Path
		if head, _, ok := strings.Cut(p, "."); ok && head != "place" {
			p = head
		}
		if !slices.Contains(out, p) && !staffFields[p] {
			out = append(out, p)
		}
	}
	return out
}

// byOf is who gave the opinion that came with the commit at a place.
func byOf(a *history.Account, place int) string {
	for _, o := range slices.Backward(a.Opinions) {
		g := &a.Reading.Opinions[o.At-1]
		if o.Entered == place && g.State != opinion.Mistake {
			return g.Given.By.Text
		}
	}
	return ""
}
