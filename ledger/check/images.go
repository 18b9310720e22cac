package check

import (
	"path"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/book"
	"blotter/ledger/reading"
)

var imageRules = []Rule{
	{Code: "image-path", Severity: ledger.Error,
		Says: "A picture is a file below images/, a web address, or the address (file:///) of a file outside the ledger.",
		Why:  "A path out of images/ could publish a file of the computer that was never meant to be seen.",
		One:  imagePath},
	{Code: "image-missing", Severity: ledger.Warning,
		Says:  "A picture that a record names is in the ledger.",
		Why:   "Its page would show an empty frame.",
		Asked: func(a *Around) bool { return a.Has != nil },
		Join:  imageMissing},
	{Code: "image-changed", Severity: ledger.Warning,
		Says:  "A picture is the one whose checksum the record keeps.",
		Why:   "Another picture may have been put in its place, or the file was damaged. It reads every picture that has a checksum, so it is looked for only by blotter check --code image-changed.",
		Asked: func(a *Around) bool { return a.Sum != nil },
		Join:  imageChanged},
}

func imagePath(d *reading.Reading, say say) {
	for i, im := range d.Record.Images {
		for _, f := range []struct {
			l     ledger.Leaf
			field string
		}{{im.File, "file"}, {im.Public, "public"}} {
			if f.l.Set() && !book.IsAddress(f.l.Text) && !insideImages(f.l.Text) {
				say(at(f.l, nth("images", i, f.field)), words{"leads out of images/, the one folder that pictures are taken from",
					"Move the picture there and write, for example: " + f.field + ": images/" + string(d.Record.Specimen.Text) + ".jpg"})
			}
		}
	}
}

// insideImages reports whether p is a plain path below images/.
func insideImages(p string) bool {
	return strings.HasPrefix(p, ledger.ImagesDir+"/") && path.Clean(p) == p && !strings.ContainsAny(p, `\:`)
}

func imageMissing(e *book.Entry, a *Around, say say) {
	for _, p := range e.Images {
		if insideImages(p) && !a.Has(p) {
			say(place{line: int(e.Lines.Images), field: "images"}, words{"the picture " + p + " is not in the ledger",
				"Put the file there, or mend its name. " + accept(short(e.Number), "image-missing")})
		}
	}
}

func imageChanged(e *book.Entry, a *Around, say say) {
	for _, s := range e.Sums {
		if !insideImages(s.File) {
			continue
		}
		if sum := a.Sum(s.File); sum != "" && sum != s.Sum {
			say(place{line: int(s.Line), col: int(s.Col), field: "images"}, words{"the picture " + s.File + " is another than when this was written",
				"Bring the right file back; if the new one is right, write: checksum: " + sum})
		}
	}
}

// Pictures are the findings of image-changed alone, of a whole ledger: sum
// gives the checksum of a picture, "" when it is not to be had. What somebody
// let stand is left out.
func Pictures(b *book.Book, sum func(path string) string) []ledger.Finding {
	rule := &imageRules[len(imageRules)-1]
	around := &Around{Sum: sum}
	var out []ledger.Finding
	for e := range b.All() {
		if len(e.Sums) == 0 || slices.ContainsFunc(e.Sic, func(s book.Sic) bool { return s.Code == rule.Code }) {
			continue
		}
		imageChanged(e, around, func(p place, w words) { out = append(out, rule.finding(e.Path, p, w)) })
	}
	return out
}
