package render

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// TestSiteFiles holds the table of files to plain maps, one a fact.
func TestSiteFiles(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		old, present, sums := map[string]string{}, map[string]bool{}, map[string]string{}
		path := rapid.Custom(func(t *rapid.T) string {
			return fmt.Sprintf("a/%d%s", rapid.IntRange(0, 12).Draw(t, "n"), rapid.SampledFrom([]string{"", ".html", ".md", ".json", ".html.md", ".h", "-1.md"}).Draw(t, "end"))
		})
		sum := rapid.Custom(func(t *rapid.T) string { return sumOf([]byte{rapid.Byte().Draw(t, "b") % 4}) })
		before := siteFiles{}
		for p, s := range rapid.MapOf(path, sum).Draw(t, "before") {
			old[p] = s
			before.makes(p, s)
		}
		files := siteFiles{}
		files.read(before.manifest())
		t.Repeat(map[string]func(*rapid.T){
			"found": func(t *rapid.T) {
				p := path.Draw(t, "path")
				present[p] = true
				files.found(p)
			},
			"makes": func(t *rapid.T) {
				p, s := path.Draw(t, "path"), sum.Draw(t, "sum")
				_, twice := sums[p]
				got := files.makes(p, s)
				if got.was() != old[p] || got.present() != present[p] || got.is&inBuild != 0 != twice {
					t.Fatalf("%s before: %+v; want %q, %v, %v", p, got, old[p], present[p], twice)
				}
				sums[p] = s
			},
			"stays": func(t *rapid.T) {
				p := path.Draw(t, "path")
				if old[p] != "" {
					sums[p] = old[p]
					files.stays(p)
				}
			},
			"unmade": func(t *rapid.T) {
				p := path.Draw(t, "path")
				delete(sums, p)
				files.unmade(p)
			},
			"": func(t *rapid.T) {
				var gone []string
				for p := range old {
					if _, ok := sums[p]; !ok && present[p] {
						gone = append(gone, p)
					}
				}
				slices.Sort(gone)
				want := manifestHead
				for _, p := range slices.Sorted(maps.Keys(sums)) {
					want += sums[p] + " " + p + "\n"
				}
				if got := string(files.manifest()); got != want {
					t.Fatalf("manifest %q, want %q", got, want)
				}
				if !slices.Equal(files.gone(), gone) || files.same() != maps.Equal(old, sums) || files.made != len(sums) || files.there != len(present) {
					t.Fatalf("gone %q, want %q; same %v; %d made, %d there", files.gone(), gone, files.same(), files.made, files.there)
				}
			},
		})
	})
}
