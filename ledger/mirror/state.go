package mirror

import (
	"bytes"
	"crypto/sha256"
	"encoding/gob"
	"encoding/hex"
	"fmt"
	"iter"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/gitrepo"
	"blotter/ledger/public"
)

// State is what a run keeps for the next one, under the git folder of the
// ledger: without it the next makes the same mirror from the root. It is not
// for the public.
type State struct {
	Version int
	Source  string // the ledger's commit that was mirrored
	Mirror  string // what it became
	Digest  [32]byte
	Secrets string            // what was looked for
	People  map[string]string // names of authors as they stand in the mirror
	Classes map[string]public.Class

	// In columns: commits of the ledger and what they became, in order of id.
	Sources []string
	Mirrors []gitrepo.ObjectID
	Trees   []gitrepo.ObjectID
	// Versions, what they depended on, and what they became.
	Names []string
	Blobs []string
	Keys  []uint64
	Files []gitrepo.ObjectID

	commits  map[string]made
	versions map[versionOf]file
}

// made is what a commit became.
type made struct{ commit, tree gitrepo.ObjectID }

// file is what a version became; key is of what that depended on.
type file struct {
	id  gitrepo.ObjectID
	key uint64
}

func newState() *State {
	return &State{Version: Version, People: map[string]string{}, Classes: map[string]public.Class{}, commits: map[string]made{}, versions: map[versionOf]file{}}
}

// Encode is the state as bytes.
func (s *State) Encode() ([]byte, error) {
	c := *s
	ids := make([]string, 0, len(s.commits))
	for id := range s.commits {
		ids = append(ids, id)
	}
	slices.Sort(ids)
	for _, id := range ids {
		raw, err := hex.DecodeString(id)
		if err != nil {
			return nil, fmt.Errorf("keep mirror: %w", err)
		}
		m := s.commits[id]
		c.Sources, c.Mirrors, c.Trees = append(c.Sources, string(raw)), append(c.Mirrors, m.commit), append(c.Trees, m.tree)
	}
	vs := make([]versionOf, 0, len(s.versions))
	for v := range s.versions {
		vs = append(vs, v)
	}
	slices.SortFunc(vs, compareVersions)
	for _, v := range vs {
		f := s.versions[v]
		c.Names, c.Blobs = append(c.Names, v.name), append(c.Blobs, string(v.blob))
		c.Keys, c.Files = append(c.Keys, f.key), append(c.Files, f.id)
	}
	var b bytes.Buffer
	if err := gob.NewEncoder(&b).Encode(&c); err != nil {
		return nil, fmt.Errorf("keep mirror: %w", err)
	}
	sum := sha256.Sum256(b.Bytes())
	return append(b.Bytes(), sum[:]...), nil
}

func compareVersions(a, b versionOf) int {
	if c := strings.Compare(a.name, b.name); c != 0 {
		return c
	}
	return strings.Compare(string(a.blob), string(b.blob))
}

// DecodeState reads what Encode wrote; nil when it is damaged or of another
// form.
func DecodeState(b []byte) *State {
	if len(b) < sha256.Size {
		return nil
	}
	body := b[:len(b)-sha256.Size]
	if sum := sha256.Sum256(body); !bytes.Equal(sum[:], b[len(body):]) {
		return nil
	}
	s := &State{}
	if gob.NewDecoder(bytes.NewReader(body)).Decode(s) != nil {
		return nil
	}
	if len(s.Sources) != len(s.Mirrors) || len(s.Sources) != len(s.Trees) || len(s.Names) != len(s.Blobs) || len(s.Names) != len(s.Keys) || len(s.Names) != len(s.Files) {
		return nil
	}
	s.commits = make(map[string]made, len(s.Sources))
	for i, raw := range s.Sources {
		s.commits[hex.EncodeToString([]byte(raw))] = made{s.Mirrors[i], s.Trees[i]}
	}
	s.versions = make(map[versionOf]file, len(s.Names))
	for i := range s.Names {
		s.versions[versionOf{s.Names[i], ledger.BlobID(s.Blobs[i])}] = file{s.Files[i], s.Keys[i]}
	}
	s.Sources, s.Mirrors, s.Trees, s.Names, s.Blobs, s.Keys, s.Files = nil, nil, nil, nil, nil, nil, nil
	return s
}

// Commit is what a commit of the ledger became; "" when it is in no mirror.
func (s *State) Commit(id string) string {
	if m, ok := s.commits[id]; ok {
		return m.commit.Hex()
	}
	return ""
}

// Cited reports whether its commits may still be cited in public: nothing that
// it shows is withheld now. all is the ledger's entries of today.
func (s *State) Cited(all iter.Seq[*book.Entry], view *public.View) bool {
	if s.Version != Version {
		return false
	}
	shown := make(map[string]bool, len(s.versions))
	for v := range s.versions {
		if v.name[0] != '/' {
			shown[ledger.Number(v.name).Key()] = true
		}
	}
	for e := range all {
		if n := e.Number.Key(); shown[n] && view.Class(e.Number) > s.Classes[n] {
			return false
		}
	}
	return true
}

// digestOf names a set of objects.
func digestOf(ids []gitrepo.ObjectID) [32]byte {
	h := sha256.New()
	for i := range ids {
		h.Write(ids[i][:])
	}
	return [32]byte(h.Sum(nil))
}

// Len is the number of commits in the mirror.
func (s *State) Len() int { return len(s.commits) }
