package paper

import (
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// fixedEm is one em of a font at its own scale.
func fixedEm(em sfnt.Units) fixed.Int26_6 { return fixed.Int26_6(em) << 6 }
