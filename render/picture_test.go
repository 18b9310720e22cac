package render

import (
	"bytes"
	"image"
	"image/gif"
	"image/jpeg"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// jpegWithComment is a small JPEG that says something beside what it shows.
func jpegWithComment(t testing.TB, words string) string {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		t.Fatal(err)
	}
	s := b.String()
	return s[:2] + "\xff\xfe" + string([]byte{0, byte(len(words) + 2)}) + words + s[2:]
}

func gifWithComment(t testing.TB) string {
	var b bytes.Buffer
	if err := gif.Encode(&b, image.NewGray(image.Rect(0, 0, 8, 8)), nil); err != nil {
		t.Fatal(err)
	}
	return b.String()
}

// withPictures is the small demo with pictures named in two of its records, of
// which the second is withheld.
func withPictures(t testing.TB) (files map[string]string, open string) {
	files = smallDemo(t)
	const held = "specimens/000/04/LK7-0000465.yaml"
	for _, p := range sorted(files) {
		if strings.HasPrefix(p, "specimens/") && p != held && !strings.Contains(files[p], "images:") && strings.Contains(files[p], "entry: full") {
			open = p
			break
		}
	}
	files[open] += "images:\n  - {file: images/good.jpg}\n  - {file: images/bad.jpg}\n  - {file: images/held.jpg}\n  - {file: images/small.gif}\n"
	files[held] += "images:\n  - {file: images/held.jpg}\n  - {file: images/safe.jpg, safe: yes}\n  - {file: images/safe.gif, safe: yes}\n"
	for _, p := range []string{"good", "held", "safe"} {
		files["images/"+p+".jpg"] = jpegWithComment(t, "60.63858 N")
	}
	files["images/bad.jpg"] = "no picture, but 60.63858 N"
	files["images/small.gif"], files["images/safe.gif"] = gifWithComment(t), gifWithComment(t)
	return files, open
}

func picturesIn(t testing.TB, dir string) (names []string, all map[string]string) {
	all = filesOf(t, dir)
	for f := range all {
		if strings.HasPrefix(f, "images/") {
			names = append(names, f)
		}
	}
	slices.Sort(names)
	return names, all
}

// TestPicturesOfTheSite holds which pictures are on the site and that none
// says more than it shows.
func TestPicturesOfTheSite(t *testing.T) {
	files, open := withPictures(t)
	dir := filepath.Join(t.TempDir(), "site")
	rep, _ := buildInto(t, dir, inputOf(t, files), nil)
	names, all := picturesIn(t, dir)
	if want := []string{"images/good.jpg", "images/safe.jpg", "images/small.gif"}; !slices.Equal(names, want) {
		t.Errorf("pictures %v, want %v", names, want)
	}
	for _, f := range names {
		if strings.Contains(all[f], "60.63858") {
			t.Errorf("%s says where it was taken", f)
		}
	}
	if want := []string{"images/bad.jpg", "images/held.jpg"}; !slices.Equal(rep.Refused, want) {
		t.Errorf("refused %v, want %v", rep.Refused, want)
	}
	number := strings.TrimSuffix(filepath.Base(open), ".yaml")
	for f, text := range all {
		if !strings.HasSuffix(f, ".html") {
			continue
		}
		for _, lost := range []string{`src="../../images/bad.jpg"`, `/held.jpg"`, `/safe.gif"`} {
			if strings.Contains(text, lost) {
				t.Errorf("%s shows %s", f, lost)
			}
		}
		if strings.HasSuffix(f, number+".html") && !strings.Contains(text, "images/good.jpg\"") {
			t.Errorf("%s does not show the good picture", f)
		}
	}
}

// TestPictureMended: a picture that is mended is shown by the next build, one
// that was damaged no longer, as a build from scratch has it.
func TestPictureMended(t *testing.T) {
	files, _ := withPictures(t)
	dir := filepath.Join(t.TempDir(), "site")
	_, state := buildInto(t, dir, inputOf(t, files), nil)
	for _, step := range []struct {
		name, file, bytes string
		refused           []string
	}{
		{"one is mended", "images/bad.jpg", jpegWithComment(t, "x"), []string{"images/held.jpg"}},
		{"nothing changes", "images/bad.jpg", jpegWithComment(t, "x"), []string{"images/held.jpg"}},
		{"one is damaged", "images/safe.jpg", "damaged", []string{"images/held.jpg", "images/safe.jpg"}},
		{"one is gone", "images/good.jpg", "", []string{"images/held.jpg", "images/safe.jpg"}},
		{"one is another", "images/safe.jpg", jpegWithComment(t, "y"), []string{"images/held.jpg"}},
	} {
		if files[step.file] = step.bytes; step.bytes == "" {
			delete(files, step.file)
		}
		var rep Report
		rep, state = buildInto(t, dir, inputOf(t, files), state)
		if !slices.Equal(rep.Refused, step.refused) {
			t.Errorf("%s: refused %v, want %v", step.name, rep.Refused, step.refused)
		}
		fresh := t.TempDir()
		buildInto(t, fresh, inputOf(t, files), nil)
		sameFiles(t, step.name, filesOf(t, dir), filesOf(t, fresh))
	}
}
