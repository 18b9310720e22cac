package history

import (
	"fmt"
	"testing"
)

// TestTable holds the table to a map, while it grows past its size and when it
// is made of a whole column.
func TestTable(t *testing.T) {
	var texts [][]byte
	text := func(place uint32) []byte { return texts[place] }
	grown, known := newTable(0, text), map[string]uint32{}
	for i := range 3000 {
		texts = append(texts, fmt.Appendf(nil, "LK7-%07d", i*i))
		grown.grow()
		known[string(texts[i])] = uint32(i)
	}
	for name, table := range map[string]*table{"grown": grown, "made": newTable(len(texts), text)} {
		for key, want := range known {
			if got, ok := table.find(key); !ok || got != want {
				t.Fatalf("%s: %s is at %d, %t; want %d", name, key, got, ok, want)
			}
		}
		for i := range 3000 {
			if got, ok := table.find(fmt.Sprint("none", i)); ok {
				t.Fatalf("%s: what is not there is at %d", name, got)
			}
		}
		if _, ok := table.find(""); ok {
			t.Errorf("%s: nothing is there", name)
		}
	}
}
