package gitrepo

import (
	"bufio"
	"bytes"
	"compress/zlib"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"
	"strconv"
	"strings"
)

// looseOnes reads every object that lies in a file of its own.
func (w *wholing) looseOnes([]string) error {
	v := newVerifying(w.ctx, nil, 0, w.r.width)
	ids := slices.SortedFunc(maps.Keys(w.loose), func(a, b anyID) int { return bytes.Compare(a[:], b[:]) })
	for _, id := range ids {
		if err := w.ctx.Err(); err != nil {
			return err
		}
		got, err := v.looseFile(w.loose[id])
		if err == nil && got != id {
			err = errors.New("holds other bytes than its name says")
		}
		if err != nil {
			w.fault(w.loose[id], hex.EncodeToString(id[:w.r.width]), "%v", err)
		}
		w.found.Anew++
		w.looked(1)
	}
	for id := range v.wanted {
		w.lacking[id] = struct{}{}
	}
	return nil
}

// looseFile reads a loose object: zlib over the kind, a blank, the size, a zero
// byte and the body (gitrepository-layout(5)).
func (v *verifying) looseFile(file string) (anyID, error) {
	f, err := os.Open(file)
	if err != nil {
		return anyID{}, fmt.Errorf("cannot be read: %w", err)
	}
	defer f.Close()
	z, err := zlib.NewReader(bufio.NewReader(f))
	if err != nil {
		return anyID{}, errors.New("is no packed object; it is damaged")
	}
	in := bufio.NewReader(z)
	head, err := in.ReadString(0)
	if err != nil {
		return anyID{}, errors.New("is cut short")
	}
	word, digits, _ := strings.Cut(strings.TrimSuffix(head, "\x00"), " ")
	size, err := strconv.Atoi(digits)
	kind := kindOf(word)
	if kind == 0 || err != nil || size < 0 || size > maxObject {
		return anyID{}, errors.New("does not begin as an object does")
	}
	if kind == packBlob {
		v.begin(kind, size)
		if err := exactly(in, size, v.hash); err != nil {
			return anyID{}, err
		}
		return idFrom(v.hash.Sum(nil)), nil
	}
	v.buf.Reset()
	if err := exactly(in, size, &v.buf); err != nil {
		return anyID{}, err
	}
	return v.took(kind, v.buf.Bytes())
}

// exactly copies size bytes, after which in must end.
func exactly(in *bufio.Reader, size int, to io.Writer) error {
	if n, err := io.CopyN(to, in, int64(size)); err != nil {
		return fmt.Errorf("is damaged after %d bytes of %d", n, size)
	}
	if _, err := in.ReadByte(); err != io.EOF {
		return errors.New("is longer than it says, or damaged at its end")
	}
	return nil
}
