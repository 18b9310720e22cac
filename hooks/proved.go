package hooks

import (
	"encoding/json"
	"slices"
	"strings"

	"blotter/ledger/disk"
	"blotter/ledger/reading"
)

// proofVersion changes when the laws, or the words of what breaks them, do.
const proofVersion = 2

// provedEntries keeps what was proved. A version of the readers is a version
// of this, since what is judged is what they read.
var provedEntries = disk.Bucket{Name: "proved", Version: proofVersion<<16 | reading.Version}

// proved is what the cache says: that every entry up to Tip was judged, and
// which broke a promise.
type proved struct {
	Tip      string
	Breaches []Breach
	has      func(id string) bool
}

func (p proved) proved(id string) bool { return p.has != nil && p.has(id) }

// proofKey names the ledger: where it lies, and where its history is cut.
func (w *walk) proofKey() ([]byte, error) {
	cut, err := w.Repo.Missing()
	slices.Sort(cut)
	return []byte(strings.Join(append([]string{"up to", w.Repo.Prefix()}, cut...), "\x00")), err
}

// kept is what earlier walks proved.
func (w *walk) kept() (p proved, err error) {
	key, err := w.proofKey()
	if err != nil {
		return proved{}, err
	}
	text := w.Cache.Get(provedEntries, key)
	if text == nil || json.Unmarshal(text, &p) != nil || p.Tip == "" {
		return proved{}, nil
	}
	before, err := w.view.As(p.Tip)
	if err != nil {
		return proved{}, nil // that entry was taken back and its objects are gone
	}
	p.has = func(id string) bool { _, ok := before.Place(id); return ok }
	return p, nil
}

func (w *walk) keep(tip string, found []Breach) {
	key, err := w.proofKey()
	if err != nil {
		return
	}
	text, err := json.Marshal(proved{Tip: tip, Breaches: found})
	if err == nil {
		w.Cache.Put(provedEntries, []disk.Entry{{Key: key, Value: text}})
	}
}
