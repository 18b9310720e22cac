package darwincore

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"blotter/ledger"
	"blotter/ledger/archive"
)

// oraclePath is a path among the data that no one here wrote.
func oraclePath(t testing.TB, name string) string {
	t.Helper()
	root := os.Getenv("BLOTTER_ORACLES")
	if root == "" {
		root = filepath.Join("..", "..", "..", "shared", "oracles")
	}
	p := filepath.Join(root, name)
	if _, err := os.Stat(p); err != nil {
		t.Skipf("the data to test against is not here: %v", err)
	}
	return p
}

func inOptions() InOptions {
	return InOptions{Code: "LK7", Prefix: "LK7-"}
}

// arrived is one row of an archive and what became of it.
type arrived struct {
	star *archive.Star
	rec  *ledger.Record
}

// bringIn reads a whole archive.
func bringIn(t testing.TB, path string, o InOptions) (*In, []arrived) {
	t.Helper()
	a, err := archive.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer a.Close()
	in, err := NewIn(a, o)
	if err != nil {
		t.Fatal(err)
	}
	var out []arrived
	for s, err := range a.Stars(context.Background(), t.TempDir()) {
		if err != nil {
			t.Fatal(err)
		}
		rec, why := in.Record(s)
		if rec == nil {
			t.Fatalf("line %d: %s", s.Line.Line, why)
		}
		out = append(out, arrived{s, rec})
	}
	return in, out
}

// The archive of the oracles: 327 specimens, 335 identifications (CC0 and CC
// BY rows; the extension's rows were cut at 60 letters by whoever made it).
func TestOracleArchive(t *testing.T) {
	path := oraclePath(t, "archive")
	in, all := bringIn(t, path, inOptions())
	rows, dets, extra, filed := 0, 0, 0, 0
	for _, x := range all {
		rows += len(x.star.Extensions[0])
		dets += len(x.rec.Determinations)
		if x.rec.FiledUnder.Name.Set() {
			filed++
		}
		// The extension's rows are the first determinations, in their order.
		for i, line := range x.star.Extensions[0] {
			r := newInRow(in.exts[0], line.Cells)
			d := x.rec.Determinations[i]
			want := r.peek("scientificName")
			if a := r.peek("scientificNameAuthorship"); a != "" {
				want += " " + a
			}
			if d.Name.Text != want || d.By.Text != orElse(r.peek("identifiedBy"), "unsigned") || d.Date.Text != orElse(r.peek("dateIdentified"), "s.d.") || d.Why.Text != r.peek("identificationRemarks") || d.Source.Text != r.peek("identificationReferences") {
				t.Errorf("id %s: determination %d is %+v, want %q", x.star.ID, i+1, d, line.Cells)
			}
		}
		if n := len(x.rec.Determinations) - len(x.star.Extensions[0]); n > 0 {
			extra += n
		}
		cellsKept(t, in, x)
		comesBack(t, x.rec)
	}
	if len(all) != 327 || rows != 335 {
		t.Errorf("%d core rows, %d identifications; want 327 and 335", len(all), rows)
	}
	// Three rows have no row of the extension, one says another person than its
	// row. In four the last row of the extension is not the name that the core
	// says holds: a genus alone, undated, behind a dated species, or a mere
	// "original identification".
	if dets != 339 || extra != 4 || filed != 4 {
		t.Errorf("%d determinations, %d of them the core's own, %d filed otherwise; want 339, 4, 4", dets, extra, filed)
	}
}

// cellsKept finds every cell of a row and of its extensions again in the
// record.
func cellsKept(t *testing.T, in *In, x arrived) {
	t.Helper()
	var b strings.Builder
	for _, kv := range ledger.Flatten(x.rec) {
		b.WriteString(kv.Value + "\n")
	}
	all := b.String()
	all += strings.ReplaceAll(all, " aff. ", " ") // a qualifier stands within the name
	look := func(c *inColumns, cells []string) {
		for i, cell := range cells {
			if cell = strings.TrimSpace(cell); !strings.Contains(all, cell) {
				t.Errorf("id %s: %s %q is nowhere in its record\n%s", x.star.ID, c.heads[i], cell, all)
			}
		}
	}
	look(in.core, x.star.Cells)
	for i, rows := range x.star.Extensions {
		for _, line := range rows {
			look(in.exts[i], line.Cells)
		}
	}
}

// comesBack reports a record whose file has other words.
func comesBack(t *testing.T, rec *ledger.Record) {
	t.Helper()
	if !rec.Specimen.Set() {
		rec.Specimen = ledger.Leaf{Text: "LK7-0000001"}
	}
	rec.Path = ledger.Number(rec.Specimen.Text).Path()
	text := ledger.Encode(rec)
	back, fs := ledger.Decode(rec.Path, text)
	for _, f := range fs {
		if f.Severity == ledger.Error {
			t.Errorf("%v\n%s", f, text)
		}
	}
	if got, want := fmt.Sprint(ledger.Flatten(back)), fmt.Sprint(ledger.Flatten(rec)); got != want {
		t.Errorf("words changed on the way\n got %v\nwant %v", got, want)
	}
}

// tryIn reads the one row of an archive; nil when it cannot be read.
func tryIn(t *testing.T, path string) *arrived {
	t.Helper()
	a, err := archive.Open(path)
	if err != nil {
		return nil
	}
	defer a.Close()
	in, err := NewIn(a, inOptions())
	if err != nil {
		return nil
	}
	for s, err := range a.Stars(context.Background(), t.TempDir()) {
		if err != nil {
			return nil
		}
		rec, _ := in.Record(s)
		if rec == nil {
			return nil
		}
		return &arrived{s, rec}
	}
	return nil
}
