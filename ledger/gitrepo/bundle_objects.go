package gitrepo

import (
	"bytes"
	"cmp"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
)

// one reads the object that comes next.
func (v *verifying) one(in *farReader) error {
	row, i := bundleRow{at: in.at}, int32(len(v.rows))
	kind, size, err := readPackHead(in)
	if err != nil {
		return err
	}
	switch kind {
	case packOfsDelta:
		back, err := readBack(in)
		if err != nil {
			return err
		}
		row.delta, row.base = true, row.at-back
	case packRefDelta:
		var id anyID
		if _, err := io.ReadFull(in, id[:v.width]); err != nil {
			return err
		}
		row.delta = true
		v.byID[id] = append(v.byID[id], i)
	}
	switch {
	case row.delta:
		err = v.difference(in, &row, size)
	case packKinds[kind] == "":
		return fmt.Errorf("kind %d is not known", kind)
	default:
		row.kind = kind
		err = v.written(in, &row, size)
	}
	if err != nil {
		return err
	}
	if row.kind != 0 {
		v.places[row.id] = i
	}
	v.rows = append(v.rows, row)
	return nil
}

// written reads an object that is written whole. A large file passes through.
func (v *verifying) written(in *farReader, row *bundleRow, size int) (err error) {
	if row.kind == packBlob && size > v.lately.largest() {
		v.begin(row.kind, size)
		if err := v.inflate(in, size, v.hash); err != nil {
			return err
		}
		row.id = idFrom(v.hash.Sum(nil))
		v.lately.skip()
		return nil
	}
	v.buf.Reset()
	if err := v.inflate(in, size, &v.buf); err != nil {
		return err
	}
	row.id, err = v.took(row.kind, v.buf.Bytes())
	v.lately.put(v.buf.Bytes())
	return err
}

// difference reads a difference, and carries it out if what it is from was
// read lately, as in git's own packs, where what differs little lies together;
// otherwise it is left to differences.
func (v *verifying) difference(in *farReader, row *bundleRow, size int) (err error) {
	base, ok := v.baseLately(row)
	if !ok || size > v.lately.largest() {
		v.lately.skip()
		return v.inflate(in, size, io.Discard)
	}
	v.buf.Reset()
	if err := v.inflate(in, size, &v.buf); err != nil {
		return err
	}
	if v.carry, err = undeltaInto(v.carry[:0], v.lately.get(base), v.buf.Bytes()); err != nil {
		return err
	}
	row.kind = v.rows[base].kind
	row.id, err = v.took(row.kind, v.carry)
	v.lately.put(v.carry)
	return err
}

// baseLately is what a difference is from, by place in rows, if its body is
// still at hand.
func (v *verifying) baseLately(row *bundleRow) (int, bool) {
	if row.base == 0 {
		return 0, false
	}
	j, ok := v.rowAt(row.base)
	return j, ok && v.rows[j].kind != 0 && v.lately.get(j) != nil
}

// rowAt is the object that lies at a place of the file, by place in rows.
func (v *verifying) rowAt(at int64) (int, bool) {
	return slices.BinarySearchFunc(v.rows, at, func(r bundleRow, at int64) int { return cmp.Compare(r.at, at) })
}

// begin begins the hash of an object.
func (v *verifying) begin(kind uint8, size int) {
	v.hash.Reset()
	v.hash.Write(strconv.AppendInt(append([]byte(packKinds[kind]), ' '), int64(size), 10))
	v.hash.Write([]byte{0})
}

// inflate unpacks exactly size bytes from in, checksum and all.
func (v *verifying) inflate(in io.Reader, size int, to io.Writer) error {
	if size > maxObject || size < 0 {
		return errors.New("it is larger than can be read")
	}
	if err := v.next(in); err != nil {
		return err
	}
	if n, err := io.CopyN(to, v.z, int64(size)); err != nil {
		return fmt.Errorf("%d bytes of %d: %w", n, size, err)
	}
	return v.ended()
}

// took is the id of an object; what it leads to is wanted.
func (v *verifying) took(kind uint8, body []byte) (anyID, error) {
	v.begin(kind, len(body))
	v.hash.Write(body)
	id := idFrom(v.hash.Sum(nil))
	want := func(words string) error {
		raw, err := hex.DecodeString(words)
		if err != nil || len(raw) != v.width {
			return fmt.Errorf("%q is no id", words)
		}
		v.wanted[idFrom(raw)] = struct{}{}
		return nil
	}
	switch kind {
	case packTag:
		return id, want(headerValue(body, "object"))
	case packCommit:
		for line := range bytes.Lines(body) {
			key, words, _ := strings.Cut(strings.TrimSuffix(string(line), "\n"), " ")
			if key != "tree" && key != "parent" {
				break
			}
			if err := want(words); err != nil {
				return id, err
			}
		}
	case packTree:
		for rest := body; len(rest) > 0; {
			sp, nul := bytes.IndexByte(rest, ' '), bytes.IndexByte(rest, 0)
			if sp < 0 || nul < sp || len(rest) < nul+1+v.width {
				return id, errTree
			}
			mode, name, below := rest[:sp], rest[sp+1:nul], rest[nul+1:nul+1+v.width]
			rest = rest[nul+1+v.width:]
			if v.stray == "" && !plainName(name) && strayName(string(name)) {
				v.stray = string(name)
			}
			if string(mode) != modeModule {
				v.wanted[idFrom(below)] = struct{}{}
			}
		}
	}
	return id, nil
}

// plainName reports, without looking twice, that a name is no stray one: that of
// a record or a folder of ours mostly.
func plainName(name []byte) bool {
	if len(name) == 0 || name[0] == '.' || name[0]|0x20 == 'g' {
		return false
	}
	for _, c := range name {
		if c >= 0x80 || c == '/' || c == filepath.Separator {
			return false
		}
	}
	return true
}

// strayName reports whether an entry of a tree so named could write outside
// its folder, or into git's own, on any system.
func strayName(name string) bool {
	if name == "" || name == "." || name == ".." || strings.Contains(name, "/") || strings.ContainsRune(name, filepath.Separator) {
		return true
	}
	// Some file systems leave these out of a name: blanks and dots at its end,
	// a stream after a colon, characters without width.
	plain := strings.Map(func(r rune) rune {
		if r >= 0x200b && r <= 0x200f || r >= 0x202a && r <= 0x202e || r >= 0x206a && r <= 0x206f || r == 0xfeff {
			return -1
		}
		return r
	}, strings.ToLower(name))
	plain, _, _ = strings.Cut(plain, ":")
	plain = strings.TrimRight(plain, " .")
	return plain == ".git" || plain == "git~1"
}
