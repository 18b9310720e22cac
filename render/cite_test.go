package render

import (
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/render/page"
)

// TestJSONText reads back by encoding/json what member writes.
func TestJSONText(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		v := rapid.String().Draw(t, "value")
		b := append(jsonText{}, `{"a":""`...)
		b.member("b", v)
		b = append(b, '}')
		var got map[string]string
		if err := json.Unmarshal(b, &got); err != nil {
			t.Fatalf("%q: %v", b, err)
		}
		if got["b"] != page.Visible(v) {
			t.Fatalf("%q is read as %q", v, got["b"])
		}
	})
}
