package ledger

import "testing"

// TestFileNameFault: Microsoft, "Naming Files, Paths, and Namespaces".
func TestFileNameFault(t *testing.T) {
	for _, c := range []struct {
		path   string
		fault  bool
		reason string
	}{
		{"pages/about.md", false, "a plain name"},
		{"pages/Åse Ødegård.md", false, "letters and blanks within are names everywhere"},
		{"names/Ranunculaceae.yaml", false, "a family"},
		{".gitattributes", false, "begins with a dot, which is allowed"},
		{"pages/con.md", true, "a device, with any ending"},
		{"pages/CON", true, "in any case"},
		{"aux/about.md", true, "a folder too"},
		{"names/aux.yaml", true, "a device"},
		{"images/com1.jpg", true, "a device"},
		{"images/com¹.jpg", true, "superscript figures count too"},
		{"pages/nul .md", true, "blanks before the ending do not help"},
		{"images/com0.jpg", false, "only 1 to 9 are kept in the published list"},
		{"images/comet.jpg", false, "only begins so"},
		{"images/LK7-0000482: front.jpg", true, "a colon"},
		{"pages/what?.md", true, "a question mark"},
		{`pages\about.md`, true, "a backslash parts folders there"},
		{"pages/about.", true, "a dot at the end"},
		{"pages /about.md", true, "a blank at the end of a folder"},
		{"pages/a\tb.md", true, "a control character"},
	} {
		if got := FileNameFault(c.path); (got != "") != c.fault {
			t.Errorf("%q: %q, want a fault: %v: %s", c.path, got, c.fault, c.reason)
		}
	}
}
