package main

import "testing"

// TestWhoEnters: what is typed for name and address stands in every entry for
// good, so what can be neither is asked once more.
func TestWhoEnters(t *testing.T) {
	for _, c := range []struct {
		words         string
		name, address bool
		reason        string
	}{
		{"Tiril Aune", true, false, "a name"},
		{"Åse Ødegård", true, false, "letters of any language"},
		{"Tiril", true, false, "one name is a name"},
		{"tiril@lauvkroken.example", false, true, "an address"},
		{"tiril@localhost", false, true, "an address within a house"},
		{"", false, false, "Enter alone, and nothing was known"},
		{"y", true, false, "a letter may be one: nobody can tell"},
		{"12", false, false, "a name has letters"},
		{"Tiril <t@x>", false, false, "git takes these signs out of a name"},
		{"tiril@", false, false, "no host"},
		{"@lauvkroken.example", false, false, "nobody there"},
		{"tiril@a@b", false, false, "two"},
		{"tiril aune@lauvkroken.example", false, false, "a blank"},
	} {
		if got := unfitName(c.words) == ""; got != c.name {
			t.Errorf("%q as a name: %v, want %v: %s", c.words, got, c.name, c.reason)
		}
		if got := unfitAddress(c.words) == ""; got != c.address {
			t.Errorf("%q as an address: %v, want %v: %s", c.words, got, c.address, c.reason)
		}
	}
}
