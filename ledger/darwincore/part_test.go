package darwincore_test

import (
	"bytes"
	"context"
	"os"
	"testing"

	"blotter/ledger/darwincore"
)

// TestKeptParts: an archive put together from parts that were kept is that
// made from nothing, byte for byte; a damaged part is made anew, and so is one
// that has not been looked through.
func TestKeptParts(t *testing.T) {
	w := newWorld(t, "", twoSheets())
	want := w.archive()
	kept := map[string][]byte{}
	look := &looker{known: map[string]bool{}}
	write := func() ([]byte, int) {
		var out bytes.Buffer
		done, err := darwincore.WriteArchive(t.Context(), &out, darwincore.Input{Dataset: w.data, Look: look,
			Scratch: func() (darwincore.Scratch, error) { return os.CreateTemp(t.TempDir(), "") },
			Keep:    func(g darwincore.Group, part []byte) { kept[g.Name] = part },
			Groups: func(yield func(darwincore.Group) bool) {
				yield(darwincore.Group{Name: "000/04", Stamp: "1", Kept: kept["000/04"], Sheets: func(context.Context) ([]*darwincore.Sheet, error) {
					var list []*darwincore.Sheet
					for s, err := range w.sheets() {
						if err != nil {
							return nil, err
						}
						list = append(list, s)
					}
					return list, nil
				}})
			}})
		if err != nil {
			t.Fatal(err)
		}
		return out.Bytes(), done.Made
	}
	for _, c := range []struct {
		why    string
		before func()
		made   int
	}{
		{"nothing is kept", func() {}, 1},
		{"it is kept and has been looked through", func() {}, 0},
		{"it has not been looked through", func() { clear(look.known) }, 1},
		{"it is damaged", func() { kept["000/04"] = kept["000/04"][:20] }, 1},
	} {
		c.before()
		got, made := write()
		if !bytes.Equal(got, want) || made != c.made {
			t.Errorf("%s: the same bytes is %t, %d groups made, wanted %d", c.why, bytes.Equal(got, want), made, c.made)
		}
	}
}

// looker knows what it has seen.
type looker struct{ known map[string]bool }

func (l *looker) Known(_, sum string) bool           { return l.known[sum] }
func (l *looker) ScanSum(_, sum string, text []byte) { l.known[sum] = true }
