package archive

import (
	"archive/zip"
	"bytes"
	"encoding/csv"
	"hash/crc32"
	"io"
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// TestPieces: a member put together from pieces reads as the texts one after
// the other; zip's reader checks length and checksum.
func TestPieces(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		texts := rapid.SliceOfN(rapid.SliceOfN(rapid.Byte(), 0, 3000), 0, 6).Draw(t, "texts")
		var held, out bytes.Buffer
		j, p := Join(&held), &Packer{}
		for _, x := range texts {
			piece, err := p.Pack(x)
			if err == nil {
				err = j.Add(piece)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		w := NewWriter(&out, time.Date(2026, 11, 25, 21, 15, 31, 0, time.UTC))
		if err := w.Put("a/text.csv", j, &held); err != nil {
			t.Fatal(err)
		}
		if err := w.Close(); err != nil {
			t.Fatal(err)
		}
		z, err := zip.NewReader(bytes.NewReader(out.Bytes()), int64(out.Len()))
		if err != nil {
			t.Fatal(err)
		}
		f, err := z.File[0].Open()
		if err != nil {
			t.Fatal(err)
		}
		got, err := io.ReadAll(f)
		if err != nil || !bytes.Equal(got, slices.Concat(texts...)) {
			t.Fatalf("read %d bytes, %v; wanted %d", len(got), err, len(slices.Concat(texts...)))
		}
		if when := z.File[0].Modified; !when.Equal(time.Date(2026, 11, 25, 21, 15, 30, 0, time.UTC)) {
			t.Fatalf("dated %s", when)
		}
	})
}

// TestJoinCRC: the checksum of two texts is that of the whole.
func TestJoinCRC(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, b := rapid.SliceOf(rapid.Byte()).Draw(t, "a"), rapid.SliceOf(rapid.Byte()).Draw(t, "b")
		want := crc32.ChecksumIEEE(slices.Concat(a, b))
		if got := joinCRC(crc32.ChecksumIEEE(a), crc32.ChecksumIEEE(b), int64(len(b))); got != want {
			t.Fatalf("%08x, wanted %08x", got, want)
		}
	})
}

// TestAppendRow: encoding/csv reads the cells that were written; a return is a
// line feed.
func TestAppendRow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		cells := rapid.SliceOfN(rapid.StringMatching(`[a",;\n|' é]{0,6}`), 2, 6).Draw(t, "cells")
		got, err := csv.NewReader(bytes.NewReader(AppendRow(nil, cells))).Read()
		if err != nil || !slices.Equal(got, cells) {
			t.Fatalf("%q, %v; wanted %q", got, err, cells)
		}
	})
	if got := string(AppendRow(nil, []string{"a\r\nb", " c"})); got != "\"a\nb\",\" c\"\n" {
		t.Errorf("%q", got)
	}
}
