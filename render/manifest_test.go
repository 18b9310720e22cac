package render

import (
	"slices"
	"strings"
	"testing"
)

// TestState: what a build keeps of its jobs comes back, and nothing that
// belongs to another manifest or is damaged.
func TestState(t *testing.T) {
	key := (&keyer{}).add("a").sum()
	all := map[string]saved{
		"specimens/000/04/LK7-0000482": {key: key, related: true, files: []string{"specimens/000/04/LK7-0000482.html", "specimens/000/04/LK7-0000482.md", "specimens/000/04/LK7-0000482.json"}, images: []string{"images/a.jpg", "data/map/norway.svg"}},
		"specimens/000/04/LK7-0000483": {files: []string{"specimens/000/04/LK7-0000483.html", "specimens/000/04/LK7-0000483-corrections.html"}},
		"data/search-0.json":           {key: key, gone: true, files: []string{"data/search-0.json"}},
		"about/data":                   {files: []string{"about/data.html", "about/data.md"}},
		"nothing":                      {},
	}
	var p packer
	made := map[string]packed{}
	for name, v := range all {
		made[name] = p.pack(name, v)
	}
	manifest := []byte("any")
	state := formatState(manifest, made)
	back := parseState(state, manifest, &packer{})
	if len(back) != len(all) {
		t.Fatalf("%d of %d came back", len(back), len(all))
	}
	for name, v := range all {
		got := back[name]
		files := got.files(name)
		slices.Sort(files)
		slices.Sort(v.files)
		if got.key != v.key || got.related() != v.related || got.gone() != v.gone || !slices.Equal(files, v.files) || !slices.Equal(got.images(), v.images) {
			t.Errorf("%s came back as %+v %q %q", name, got, files, got.images())
		}
	}
	for what, bad := range map[string]string{
		"of another form": strings.Replace(string(state), stateHead, "blotter site state 1 ", 1),
		"with a letter":   strings.Replace(string(state), "\x1fhm\x1f", "\x1fhx\x1f", 1),
		"with a key":      strings.Replace(string(state), key.String(), "x"+key.String()[1:], 1),
		"cut off":         string(state[:len(state)-4]),
	} {
		if bad == string(state) {
			t.Fatalf("%s: not damaged", what)
		}
		if parseState([]byte(bad), manifest, &packer{}) != nil {
			t.Errorf("a state %s was taken", what)
		}
	}
	if parseState(state, []byte("other"), &packer{}) != nil {
		t.Error("a state of another manifest was taken")
	}
}
