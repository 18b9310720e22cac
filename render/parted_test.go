package render

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// TestLongLists: of a list longer than a page bears every sheet stands on
// exactly one page of a decade or a year, which links lead to from the page
// that the list belongs to; a page of fewer sheets is as it was.
func TestLongLists(t *testing.T) {
	files := map[string]string{"blotter.yaml": "name: Lauvkroken Museum\ncode: LK7\n"}
	put := func(i int, date string) {
		n := fmt.Sprintf("LK7-%07d", i)
		files[fmt.Sprintf("specimens/%03d/%02d/%s.yaml", i/10000, i/100%100, n)] = "specimen: " + n + "\nentry: full\ncollector: Signe Rask\ncoll_no: " + itoa(i) + "\ndate: " + date + "\nplace:\n  country: Norway\n  province: " + []string{"Vestland", "Troms"}[boolInt(i%500 == 0)] + "\ndeterminations:\n  - name: Carex nigra (L.) Reichard\n    by: Signe Rask\n    date: 2020\n"
	}
	const dense, thin, none = manyRows + 10, 40, 15
	for i := range dense { // one decade with more than a page bears
		put(1+i, fmt.Sprintf("%d-07-01", 1950+i%10))
	}
	for i := range thin {
		put(5001+i, "1871-06-02")
	}
	for i := range none {
		put(6001+i, "not known")
	}
	in := inputOf(t, files)
	in.Look, in.Options.HTMLOnly = nil, true
	dir := t.TempDir()
	buildInto(t, dir, in, nil)
	read := func(page string) string {
		b, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(page)+".html"))
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	row := regexp.MustCompile(`specimens/\d{3}/\d{2}/(LK7-\d{7})\.html`)
	rowsOf := func(pages ...string) map[string]int {
		seen := map[string]int{}
		for _, p := range pages {
			for _, m := range row.FindAllStringSubmatch(read(p), -1) {
				seen[m[1]]++
			}
		}
		return seen
	}
	for _, list := range []string{"places/norway/sheets", "people/signe-rask/collected", "people/signe-rask/named", "names/carex-nigra/now"} {
		holder := read(filepath.Dir(list))
		if n := len(row.FindAllString(holder, -1)); n > maxRows {
			t.Errorf("%s lists %d sheets itself", filepath.Dir(list), n)
		}
		last := filepath.Base(filepath.Dir(list)) + "/" + filepath.Base(list)
		for _, to := range []string{"1870-1879", "1950-1959", "not-known"} {
			if !strings.Contains(holder, last+"/"+to+`.html"`) {
				t.Errorf("%s does not lead to %s", filepath.Dir(list), to)
			}
		}
		pages := []string{list + "/1870-1879", list + "/not-known"}
		for y := 1950; y < 1960; y++ {
			pages = append(pages, list+"/"+itoa(y))
			if !strings.Contains(read(list+"/1950-1959"), itoa(y)+`.html"`) {
				t.Errorf("the decade of %s does not lead to %d", list, y)
			}
		}
		seen := rowsOf(pages...)
		if len(seen) != dense+thin+none {
			t.Errorf("%s: %d of %d sheets stand on its pages", list, len(seen), dense+thin+none)
		}
		for n, times := range seen {
			if times != 1 {
				t.Errorf("%s: %s stands there %d times", list, n, times)
				break
			}
		}
	}
	if n := len(rowsOf("places/norway/troms")); n != 4 {
		t.Errorf("4 sheets are from Troms, its page lists %d: %v", n, rowsOf("places/norway/troms"))
	}
	if _, err := os.Stat(filepath.Join(dir, "places/norway/troms/sheets")); err == nil {
		t.Error("a short list has pages of its own")
	}
}

// TestLongYears: the sheets of a year longer than a page bears, and those of
// no known day, are parted by their numbers; each stands once, and a page of a
// decade leads down to it in steps.
func TestLongYears(t *testing.T) {
	files := map[string]string{"blotter.yaml": "name: Lauvkroken Museum\ncode: LK7\n"}
	put := func(i int, date string) {
		n := fmt.Sprintf("LK7-%07d", i)
		files[fmt.Sprintf("specimens/%03d/%02d/%s.yaml", i/10000, i/100%100, n)] = "specimen: " + n + "\nentry: full\ncollector: Signe Rask\ndate: " + date + "\nplace: {country: Norway}\n"
	}
	const each = manyRows + 100 // numbers 1 to 2100, 3001 to 5100
	for i := range each {
		put(1+i, "1950-07-01")
		put(3001+i, "not known")
	}
	in := inputOf(t, files)
	in.Look, in.Options.HTMLOnly = nil, true
	dir := t.TempDir()
	buildInto(t, dir, in, nil)
	row := regexp.MustCompile(`specimens/\d{3}/\d{2}/(LK7-\d{7})\.html`)
	read := func(page string) string {
		b, err := os.ReadFile(filepath.Join(dir, filepath.FromSlash(page)+".html"))
		if err != nil {
			t.Fatal(err)
		}
		return string(b)
	}
	for _, c := range []struct {
		holders []string
		parts   map[string]int
	}{
		{[]string{"years/1950"}, map[string]int{"years/1950/sheets/1950-numbers-0-1999": 1999, "years/1950/sheets/1950-numbers-2000-3999": 101}},
		{[]string{"years/not-known"}, map[string]int{"years/not-known/sheets/not-known-numbers-2000-3999": 999, "years/not-known/sheets/not-known-numbers-4000-5999": 1101}},
		{[]string{"places/norway", "places/norway/sheets/1950-1959", "places/norway/sheets/1950"},
			map[string]int{"places/norway/sheets/1950-numbers-0-1999": 1999, "places/norway/sheets/1950-numbers-2000-3999": 101}},
		{[]string{"places/norway", "places/norway/sheets/not-known"},
			map[string]int{"places/norway/sheets/not-known-numbers-2000-3999": 999, "places/norway/sheets/not-known-numbers-4000-5999": 1101}},
	} {
		last := c.holders[len(c.holders)-1]
		for _, h := range c.holders {
			if n := len(row.FindAllString(read(h), -1)); n > 0 {
				t.Errorf("%s lists %d sheets itself", h, n)
			}
		}
		for part, want := range c.parts {
			if !strings.Contains(read(last), filepath.Base(part)+`.html"`) {
				t.Errorf("%s does not lead to %s", last, part)
			}
			text := read(part)
			if n := len(row.FindAllString(text, -1)); n != want {
				t.Errorf("%s lists %d sheets, not %d", part, n, want)
			}
			for _, h := range c.holders {
				if !strings.Contains(text, filepath.Base(h)+`.html"`) {
					t.Errorf("%s does not lead back to %s", part, h)
				}
			}
		}
	}
}
