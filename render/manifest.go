package render

import (
	"bytes"
	"cmp"
	"crypto/sha256"
	"encoding/hex"
	"slices"
	"strings"
	"sync"
)

// sumOf is a short hash of a file's bytes: enough to see a change, not meant
// against an enemy.
func sumOf(data []byte) string {
	h := sha256.Sum256(data)
	return hex.EncodeToString(h[:sumLen])
}

// saved is what a build made of one job: with the same key the same files
// come out, and they need not be made again.
type saved struct {
	key     pageKey
	related bool     // shows which other sheets are published
	gone    bool     // not in the sitemap
	files   []string // written, without those of the images
	images  []string // shown
}

// packed is saved in little room, of a job whose name is known: a million
// sheets have a job each.
type packed struct {
	key   pageKey
	facts packedFacts
	more  *packedMore // nil: nothing more
}

// packedFacts are the first bits for the files that are the job's name and one
// of pageEnds, then the rest.
type packedFacts uint8

const (
	packedRelated packedFacts = 1 << (len(pageEnds) + iota)
	packedGone
)

// packedMore is what few jobs have, or many have alike.
type packedMore struct{ files, images []string }

// packer packs, with one packedMore for all that have the same, of so many as
// maxMemo. It may be used by several goroutines.
type packer struct {
	mu   sync.Mutex
	more map[string]*packedMore
}

func (p *packer) pack(name string, v saved) packed {
	out := packed{key: v.key}
	if v.related {
		out.facts |= packedRelated
	}
	if v.gone {
		out.facts |= packedGone
	}
	var others []string
	for _, f := range v.files {
		base, k := cutEnd(f)
		if k < 0 || base != name {
			others = append(others, f)
		} else {
			out.facts |= 1 << k
		}
	}
	if len(others)+len(v.images) == 0 {
		return out
	}
	key := strings.Join(others, "\x1e") + "\x1f" + strings.Join(v.images, "\x1e")
	p.mu.Lock()
	defer p.mu.Unlock()
	if out.more = p.more[key]; out.more == nil {
		if p.more == nil {
			p.more = map[string]*packedMore{}
		}
		out.more = &packedMore{others, slices.Clone(v.images)}
		if len(p.more) < maxMemo {
			p.more[key] = out.more
		}
	}
	return out
}

// files are those of the job of a name.
func (p packed) files(name string) []string {
	var out []string
	for k, end := range pageEnds {
		if p.facts&(1<<k) != 0 {
			out = append(out, name+end)
		}
	}
	if p.more != nil {
		out = append(out, p.more.files...)
	}
	return out
}

func (p packed) images() []string {
	if p.more == nil {
		return nil
	}
	return p.more.images
}

func (p packed) related() bool { return p.facts&packedRelated != 0 }
func (p packed) gone() bool    { return p.facts&packedGone != 0 }

// The state is kept under the git dir, never published: a head line with the
// manifest's hash, then one line a job, its parts divided by U+001F.
const stateHead = "blotter site state 2 "

// The letters of packedFacts, from the first bit on: HTML, Markdown, JSON.
const stateLetters = "hmjrg"

func formatState(manifest []byte, made map[string]packed) []byte {
	var b bytes.Buffer
	b.Grow(len(made) * 96)
	b.WriteString(stateHead + sumOf(manifest) + "\n")
	for _, name := range sorted(made) {
		v := made[name]
		b.WriteString(name)
		b.WriteByte(0x1f)
		b.WriteString(v.key.String())
		b.WriteByte(0x1f)
		for i := range stateLetters {
			if v.facts&(1<<i) != 0 {
				b.WriteByte(stateLetters[i])
			}
		}
		more := cmp.Or(v.more, &packedMore{})
		for _, list := range [][]string{more.files, more.images} {
			b.WriteByte(0x1f)
			for i, f := range list {
				if i > 0 {
					b.WriteByte(0x1e)
				}
				b.WriteString(f)
			}
		}
		b.WriteByte('\n')
	}
	return b.Bytes()
}

// parseState reads the state that belongs to a manifest; nil when it belongs
// to another or cannot be read.
func parseState(state, manifest []byte, p *packer) map[string]packed {
	list, ok := bytes.CutPrefix(state, []byte(stateHead+sumOf(manifest)+"\n"))
	if !ok {
		return nil
	}
	out := make(map[string]packed, bytes.Count(list, []byte{'\n'}))
	for line := range bytes.Lines(list) {
		l := strings.Split(strings.TrimSuffix(string(line), "\n"), "\x1f")
		if len(l) != 5 {
			return nil
		}
		key, ok := parseKey(l[1])
		if !ok {
			return nil
		}
		v := p.pack(l[0], saved{key: key, files: parts(l[3]), images: parts(l[4])})
		for _, c := range l[2] {
			i := strings.IndexRune(stateLetters, c)
			if i < 0 {
				return nil
			}
			v.facts |= 1 << i
		}
		out[strings.Clone(l[0])] = v
	}
	return out
}

func parts(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "\x1e")
}
