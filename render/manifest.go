package render

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"strings"
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
	key     string
	related bool     // shows which other sheets are published
	gone    bool     // not in the sitemap
	files   []string // written, without those of the images
	images  []string // shown
}

// The state is kept under the git dir, never published: a head line with the
// manifest's hash, then one line a job, its parts divided by U+001F.
const stateHead = "blotter site state 1 "

func formatState(manifest []byte, made map[string]saved) []byte {
	var b bytes.Buffer
	b.Grow(len(made) * 128)
	b.WriteString(stateHead + sumOf(manifest) + "\n")
	for _, name := range sorted(made) {
		v := made[name]
		flags := ""
		if v.related {
			flags += "r"
		}
		if v.gone {
			flags += "g"
		}
		for i, part := range []string{name, v.key, flags, strings.Join(v.files, "\x1e"), strings.Join(v.images, "\x1e")} {
			if i > 0 {
				b.WriteByte(0x1f)
			}
			b.WriteString(part)
		}
		b.WriteByte('\n')
	}
	return b.Bytes()
}

// parseState reads the state that belongs to a manifest; nil when it belongs
// to another or cannot be read.
func parseState(state, manifest []byte) map[string]saved {
	text, ok := strings.CutPrefix(string(state), stateHead+sumOf(manifest)+"\n")
	if !ok {
		return nil
	}
	out := make(map[string]saved, len(text)/128)
	for line := range strings.Lines(text) {
		p := strings.Split(strings.TrimSuffix(line, "\n"), "\x1f")
		if len(p) != 5 {
			return nil
		}
		out[p[0]] = saved{key: p[1], related: strings.Contains(p[2], "r"), gone: strings.Contains(p[2], "g"), files: parts(p[3]), images: parts(p[4])}
	}
	return out
}

func parts(s string) []string {
	if s == "" {
		return nil
	}
	return strings.Split(s, "\x1e")
}
