package ledger

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

func TestBinary(t *testing.T) {
	for name, src := range map[string]string{
		"sample": sample,
		"empty":  "specimen: A1\n",
		"import": "specimen: A1\nimport:\n  Stem count: 3 or 4\n  x:\nwith: []\n",
		"bad":    "specimen: [A]\nwith:\n-\n- x\n",
	} {
		r, _ := Decode("specimens/other/A1.yaml", []byte(src))
		b, err := r.MarshalBinary()
		if err != nil {
			t.Fatal(err)
		}
		var got Record
		if err := got.UnmarshalBinary(b); err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if d := cmp.Diff(r, &got); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		for i := range b {
			if err := got.UnmarshalBinary(b[:i]); err == nil {
				t.Errorf("%s: cut at %d of %d is taken", name, i, len(b))
			}
			hurt := append([]byte(nil), b...)
			hurt[i] ^= 0x55
			got.UnmarshalBinary(hurt) // must not panic nor allocate without bound
		}
	}
}

func BenchmarkUnmarshalBinary(b *testing.B) {
	r, _ := Decode(samplePath, []byte(sample))
	data, _ := r.MarshalBinary()
	b.ReportAllocs()
	for b.Loop() {
		var r Record
		if r.UnmarshalBinary(data) != nil {
			b.Fatal("not read")
		}
	}
}
