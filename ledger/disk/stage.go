package disk

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"path"
	"slices"
	"sync"
)

// Stage gathers changed files of a tree under temporary names, so that they
// come into force together once all of them are known to be good. It may be
// written to from several goroutines. Like WriteSite it does not wait for the
// disk.
type Stage struct {
	t    *Tree
	mu   sync.Mutex
	text [][]byte // a note on each file, in blocks
	list []staged // the notes, as far as Release or Discard has them
	read staged   // where the notes begin that list does not have
}

// staged is one file that waits under a temporary name in its own folder.
type staged struct{ block, at uint32 } // where its note stands in text

// noteBlock is how many bytes of notes stand together. A million sheets have
// three million files: as bytes their notes take a quarter of what strings do.
const noteBlock = 1 << 20

// noteHead is what stands in a note before the path: its length, and the
// digits of the temporary name.
const noteHead = 4 + tempDigits

// note keeps the path of a file and its temporary name. The caller holds mu.
func (s *Stage) note(file, temp string) {
	last := len(s.text) - 1
	if last < 0 || len(s.text[last])+noteHead+len(file) > cap(s.text[last]) {
		s.text = append(s.text, make([]byte, 0, max(noteBlock, noteHead+len(file))))
		last++
	}
	b := binary.LittleEndian.AppendUint32(s.text[last], uint32(len(file)))
	b = append(b, temp[len(tempHead):len(tempHead)+tempDigits]...)
	s.text[last] = append(b, file...)
}

// noted is what a note keeps; file holds until the note is forgotten.
func (s *Stage) noted(f staged) (file []byte, temp string) {
	return s.path(f), tempHead + string(s.text[f.block][f.at+4:f.at+noteHead]) + tempTail
}

func (s *Stage) path(f staged) []byte {
	b := s.text[f.block][f.at:]
	return b[noteHead : noteHead+binary.LittleEndian.Uint32(b)]
}

// waiting brings into list all files that wait. The caller holds mu.
func (s *Stage) waiting() {
	for ; int(s.read.block) < len(s.text); s.read = (staged{s.read.block + 1, 0}) {
		b := s.text[s.read.block]
		for int(s.read.at) < len(b) {
			s.list = append(s.list, s.read)
			s.read.at += noteHead + binary.LittleEndian.Uint32(b[s.read.at:])
		}
		if int(s.read.block) == len(s.text)-1 {
			return // more may come in this one
		}
	}
}

// Stage begins an empty stage of the tree.
func (t *Tree) Stage() *Stage { return &Stage{t: t} }

// Write keeps data for file; the file itself stays as it is until Release. A
// file that holds data already is left alone, and changed is false. Missing
// folders are made.
func (s *Stage) Write(file string, data []byte) (changed bool, err error) {
	if same, err := s.t.holds(file, data); same || err != nil {
		return false, err
	}
	dir, err := s.t.take(path.Dir(file), true)
	if err != nil {
		return false, fmt.Errorf("write %s: %w", file, err)
	}
	defer s.t.give(dir)
	temp, err := writeTemp(dir.Root, path.Base(file), file, data, false)
	if err != nil {
		dir.Remove(temp)
		return false, fmt.Errorf("write %s: %w", file, err)
	}
	s.mu.Lock()
	s.note(file, temp)
	s.mu.Unlock()
	return true, nil
}

// Release puts every file in its place, in order of path. After an error
// those that are not yet in their place still wait.
func (s *Stage) Release() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.waiting()
	slices.SortFunc(s.list, func(a, b staged) int {
		return bytes.Compare(s.path(a), s.path(b))
	})
	for i, f := range s.list {
		file, temp := s.noted(f)
		if err := s.place(string(file), temp); err != nil {
			s.list = s.list[i:]
			return fmt.Errorf("write %s: %w", file, err)
		}
	}
	s.forget()
	return nil
}

func (s *Stage) place(file, temp string) error {
	dir, err := s.t.take(path.Dir(file), true)
	if err != nil {
		return err
	}
	defer s.t.give(dir)
	return rename(dir.Root, temp, path.Base(file), file)
}

// Discard removes what still waits, and the folders that this leaves empty.
// The first error is returned, after all were tried.
func (s *Stage) Discard() error {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.waiting()
	var first error
	for _, f := range s.list {
		file, temp := s.noted(f)
		if err := s.t.Remove(path.Join(path.Dir(string(file)), temp)); err != nil && first == nil {
			first = err
		}
	}
	s.forget()
	return first
}

// forget drops the notes: nothing waits any more. The caller holds mu.
func (s *Stage) forget() { s.text, s.list, s.read = nil, nil, staged{} }
