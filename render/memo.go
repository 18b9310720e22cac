package render

import (
	"sync"

	"blotter/ledger"
	"blotter/render/page"
)

// memo keeps what the same words give again and again: a name set, a person
// found, a slug.
type memo struct {
	names  *table[page.Name]
	people *table[shownPerson]
	slugs  *table[string]
}

type shownPerson struct {
	name   string
	listed *ledger.Person
}

func newMemo() memo {
	return memo{newTable[page.Name](), newTable[shownPerson](), newTable[string]()}
}

func (s *shelf) slug(words string) string {
	return s.memo.slugs.get(words, func() string { return page.Slug(words) })
}

// maxMemo bounds a table: words beyond it are worked out each time.
const maxMemo = 1 << 18

// table is a map that several goroutines fill.
type table[V any] struct {
	mu sync.RWMutex
	m  map[string]V
}

func newTable[V any]() *table[V] { return &table[V]{m: map[string]V{}} }

func (t *table[V]) get(key string, make func() V) V {
	t.mu.RLock()
	v, ok := t.m[key]
	t.mu.RUnlock()
	if ok {
		return v
	}
	v = make()
	t.mu.Lock()
	if len(t.m) < maxMemo {
		t.m[key] = v
	}
	t.mu.Unlock()
	return v
}
