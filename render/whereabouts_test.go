package render

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestPositionSaysWhatIsMissing keeps the words of a label apart from the
// words for none: a datum that nobody wrote down is no part of the position,
// and a position that only a person found is not one that waits to be typed.
func TestPositionSaysWhatIsMissing(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "site")
	buildInto(t, dir, inputOf(t, demoFiles(t)), nil)
	pages := filesOf(t, dir)
	for number, want := range map[string]string{
		"0000043": "- **Position** 32V LN 747 142, ED50 (read as 60.543° N, 6.715° E (WGS 84), ± 180 m)\n",
		"0000045": "- **Position** 32V LN 578 239 (read as 60.626° N, 6.402° E, ± 440 m) (datum: none on the label)\n",
		"0000036": "- **Position** 60°47' N., 24°13' Ø Ferro (could not be read) (datum: none on the label) (read by Tiril Aune as 60.783, 6.55, ± 2 km, from ",
		"0000042": "- **Position** read by Tiril Aune as 60.690, 6.695, ± 2.5 km, from map 1:50 000, ",
	} {
		if md := pages["specimens/000/00/LK7-"+number+".md"]; !strings.Contains(md, want) {
			t.Errorf("LK7-%s does not say %q:\n%s", number, want, md)
		}
	}
}
