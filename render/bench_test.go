package render

import (
	"context"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/reading"
	"blotter/render/html"
	"blotter/render/markdown"
)

func benchSheet(b *testing.B) (*shelf, *job, *reading.Reading, Story) {
	b.Helper()
	in := inputOf(b, demoFiles(b))
	s := newShelf(in)
	jobs, err := s.jobs()
	if err != nil {
		b.Fatal(err)
	}
	for i := range jobs {
		if strings.HasSuffix(jobs[i].name, "LK7-0000415") {
			d, _, err := in.Reading(context.Background(), jobs[i].sheet)
			if err != nil {
				b.Fatal(err)
			}
			st, _ := in.Story(context.Background(), jobs[i].sheet, d.Record)
			return s, &jobs[i], d, st
		}
	}
	b.Fatal("no LK7-0000415")
	return nil, nil, nil, Story{}
}

func BenchmarkModel(b *testing.B) {
	s, j, d, st := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		s.sheetOf(j.sheet, d, nil, st).page()
	}
}

func BenchmarkHTML(b *testing.B) {
	s, j, d, st := benchSheet(b)
	p := s.sheetOf(j.sheet, d, nil, st).page()
	var buf []byte
	b.ReportAllocs()
	for b.Loop() {
		buf = html.Append(buf[:0], s.site, p)
	}
	b.SetBytes(int64(len(buf)))
}

func BenchmarkMarkdown(b *testing.B) {
	s, j, d, st := benchSheet(b)
	p := s.sheetOf(j.sheet, d, nil, st).page()
	var buf []byte
	b.ReportAllocs()
	for b.Loop() {
		buf = markdown.Append(buf[:0], s.site, p)
	}
	b.SetBytes(int64(len(buf)))
}

func BenchmarkReading(b *testing.B) {
	s, _, d, _ := benchSheet(b)
	b.ReportAllocs()
	for b.Loop() {
		reading.Of(d.Record, s.in.Book.Museum.Conventions)
	}
}

func BenchmarkSheetJSON(b *testing.B) {
	s, j, d, st := benchSheet(b)
	x := s.sheetOf(j.sheet, d, nil, st)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := x.json(); err != nil {
			b.Fatal(err)
		}
	}
}

// manyFiles is the demo with n sheets, made by giving its records new numbers.
func manyFiles(t testing.TB, n int) map[string]string {
	base := demoFiles(t)
	out := map[string]string{}
	var records []string
	for _, p := range sorted(base) {
		if strings.HasPrefix(p, "specimens/") {
			records = append(records, p)
		} else {
			out[p] = base[p]
		}
	}
	for i := range n {
		src := records[i%len(records)]
		old := strings.TrimSuffix(filepath.Base(src), ".yaml")
		no := ledger.Number(fmt.Sprintf("LK7-%07d", i+1))
		out[no.Path()] = strings.Replace(base[src], "specimen: "+old, "specimen: "+string(no), 1)
	}
	return out
}
