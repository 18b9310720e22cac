package gitrepo

import (
	"context"
	"encoding/binary"
	"errors"
	"fmt"
	"strings"

	"blotter/ledger/disk"
	"blotter/ledger/history"
)

// savedHistory is where the index of the log is kept: one segment for each
// time it grew. What it holds of a commit never changes, so an index with more
// commits than asked for is as good; the View sees what the tip sees.
var savedHistory = disk.Bucket{Name: "history", Version: history.SavedVersion}

// mostSegments is how many segments are kept before they become one.
const mostSegments = 24

// History is the history as commit tip knows it; "" is before the first
// commit. What the cache (which may be nil) has not yet is read from the log
// and kept there.
func (r *Repo) History(ctx context.Context, cache *disk.Cache, tip string) (*history.View, error) {
	cut, err := r.Missing()
	if err != nil {
		return nil, err
	}
	index, saved := r.savedHistory(cache, cut)
	if tip == "" || index.Has(tip) {
		return viewAt(index, tip, cut)
	}
	before := index.Mark()
	err = r.Log(ctx, []string{tip}, saved.tips, func(c history.Commit) error { return index.Add(c) })
	if err != nil {
		return nil, fmt.Errorf("read the history: %w", err)
	}
	saved.keep(cache, index, before, tip)
	return viewAt(index, tip, cut)
}

func viewAt(index *history.Index, tip string, cut []string) (*history.View, error) {
	v, err := index.At(tip)
	if err == nil {
		v.Cut(cut)
	}
	return v, err
}

// saved is what the cache said of earlier passes.
type saved struct {
	prefix   string
	segments int
	tips     []string // every commit that is not below another in the index
}

func (s saved) key(segment int) []byte {
	return binary.BigEndian.AppendUint32([]byte(s.prefix+"\x00segment "), uint32(segment))
}

func (s saved) tipsKey() []byte { return []byte(s.prefix + "\x00tips") }

// savedHistory loads the index that the cache holds; an empty one when there
// is none, or it is damaged. A commit at which the history is cut stands in it
// without its parents, so each list of cuts has an index of its own.
func (r *Repo) savedHistory(cache *disk.Cache, cut []string) (*history.Index, saved) {
	s := saved{prefix: strings.Join(append([]string{r.Prefix()}, cut...), "\x00")}
	var segments [][]byte
	var index *history.Index
	var err error
	cache.View(savedHistory, func(get func(key []byte) []byte) {
		segments, s.segments, s.tips = nil, 0, strings.Fields(string(get(s.tipsKey())))
		for {
			segment := get(s.key(s.segments))
			if len(segment) == 0 {
				break
			}
			segments = append(segments, segment)
			s.segments++
		}
		index, err = history.Load(segments...)
	})
	if err == nil {
		for _, tip := range s.tips {
			if !index.Has(tip) {
				err = errors.New("a tip is missing")
			}
		}
	}
	if err != nil {
		index, _ = history.Load()
		s.segments, s.tips = 0, nil
	}
	return index, s
}

// keep saves what the index gained since a mark, or, when there are many
// pieces, the whole in one.
func (s saved) keep(cache *disk.Cache, index *history.Index, before history.Mark, tip string) {
	tips := []string{tip}
	if len(s.tips) < mostSegments {
		tips = append(tips, s.tips...)
	}
	at := s.segments
	if at >= mostSegments {
		at, before = 0, history.Mark{}
	}
	entries := []disk.Entry{
		{Key: s.key(at), Value: index.Segment(before)},
		{Key: s.tipsKey(), Value: []byte(strings.Join(tips, " "))},
	}
	for old := at + 1; old <= s.segments; old++ {
		entries = append(entries, disk.Entry{Key: s.key(old)}) // an empty segment ends the list
	}
	cache.Put(savedHistory, entries)
}
