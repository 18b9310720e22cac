package disk

import (
	"errors"
	"os"
	"path/filepath"
	"testing"
)

// TestExchange: a file that a person wrote meanwhile is left as it is.
func TestExchange(t *testing.T) {
	text := func(s string) []byte {
		if s == "-" {
			return nil
		}
		return []byte(s)
	}
	cases := []struct {
		why                    string
		stands, was, data, got string // "-" is no file
		overtaken              bool
	}{
		{"as it was", "old", "old", "new", "new", false},
		{"a file that was not there", "-", "-", "new", "new", false},
		{"it goes as it was", "old", "old", "-", "-", false},
		{"it is gone already", "-", "-", "-", "-", false},
		{"empty is not missing", "", "", "new", "new", false},
		{"edited meanwhile", "edited", "old", "new", "edited", true},
		{"made meanwhile", "edited", "-", "new", "edited", true},
		{"removed meanwhile", "-", "old", "new", "-", true},
		{"it is to go, and was edited", "edited", "old", "-", "edited", true},
		{"empty meanwhile", "", "-", "new", "", true},
	}
	for _, c := range cases {
		dir := t.TempDir()
		file := filepath.Join(dir, "a", "b.yaml")
		if c.stands != "-" {
			if err := errors.Join(os.Mkdir(filepath.Dir(file), 0o777), os.WriteFile(file, []byte(c.stands), 0o666)); err != nil {
				t.Fatal(err)
			}
		}
		tree, err := OpenTree(dir)
		if err != nil {
			t.Fatal(err)
		}
		err = tree.Exchange("a/b.yaml", text(c.was), text(c.data))
		tree.Close()
		if errors.Is(err, ErrOvertaken) != c.overtaken || err != nil && !c.overtaken {
			t.Errorf("%s: %v", c.why, err)
		}
		got, err := os.ReadFile(file)
		if err != nil {
			got = []byte("-")
		}
		if string(got) != c.got {
			t.Errorf("%s: %q, want %q", c.why, got, c.got)
		}
		if left, _ := filepath.Glob(filepath.Join(dir, "a", ".blotter-*")); len(left) > 0 {
			t.Errorf("%s: left behind: %v", c.why, left)
		}
	}
}
