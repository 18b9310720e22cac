package ledgertest

import (
	"context"
	"testing"

	"blotter/ledger"
)

func TestMapSource(t *testing.T) {
	src := MapSource(map[string]string{"b": "two", "a": "one"})
	files, err := src.Files(context.Background())
	if err != nil || len(files) != 2 || files[0].Path != "a" || files[0].Size != 3 {
		t.Fatalf("files: %v %v", files, err)
	}
	// "one" as git hash-object prints it.
	if want := ledger.BlobID("43dd47ea691c90a5fa7827892c70241913351963"); files[0].Blob != want {
		t.Errorf("blob %s, want %s", files[0].Blob, want)
	}
	if b, err := src.Read(context.Background(), files[1]); string(b) != "two" || err != nil {
		t.Errorf("read: %q %v", b, err)
	}
	if _, err := src.Read(context.Background(), ledger.File{Path: "c"}); err == nil {
		t.Error("a file that is not there was read")
	}
}
