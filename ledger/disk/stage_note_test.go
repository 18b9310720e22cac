package disk

import (
	"fmt"
	"strings"
	"testing"
)

// TestNotes: what a stage keeps of its files comes back whole, over more than
// one block, and though some of it was looked at before the rest came.
func TestNotes(t *testing.T) {
	s := &Stage{}
	name := func(i int) (file, temp string) {
		return fmt.Sprintf("a/%d%s", i, strings.Repeat("é", i%7*20)), fmt.Sprintf("%s%0*x%s", tempHead, tempDigits, uint64(i)<<40+1, tempTail)
	}
	const first, all = 12345, 30000
	for i := range all {
		if i == first {
			s.waiting()
		}
		s.note(name(i))
	}
	long := strings.Repeat("x", noteBlock+1) + "/y"
	_, temp := name(1)
	s.note(long, temp)
	s.waiting()
	if len(s.list) != all+1 || len(s.text) < 3 {
		t.Fatalf("%d of %d are there, in %d blocks", len(s.list), all+1, len(s.text))
	}
	for i, f := range s.list[:all] {
		file, temp := s.noted(f)
		if wantFile, wantTemp := name(i); string(file) != wantFile || temp != wantTemp {
			t.Fatalf("the %d. is %s, %s", i, file, temp)
		}
	}
	if file, _ := s.noted(s.list[all]); string(file) != long {
		t.Error("a path longer than a block is lost")
	}
}
