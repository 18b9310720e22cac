package main

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"strings"
	"testing"

	"blotter/examples"
	"blotter/ledger"
	"blotter/ledger/places"
	"blotter/render/field"
)

// practiceAnswers are the answers of blotter new that fill these fields.
var practiceAnswers = map[string]string{"determinations.1.name": newNameKey, "determinations.1.by": newBy, "determinations.1.date": newNamed,
	"with.1": "with", "duplicates.1.made": field.MadePath}

// What a model says stands on its label, word for word, but for the words for
// none; each of its fields is one of FORMAT.md; a record of the model agrees,
// and one with another word does not.
func TestPracticeLabels(t *testing.T) {
	labels, err := practiceLabels(examples.Practice())
	if err != nil || len(labels) != 10 {
		t.Fatalf("%d labels, %v", len(labels), err)
	}
	for _, l := range labels {
		text := strings.Join(strings.Fields(l.text("")), " ")
		text = strings.ReplaceAll(text, "~~~~~~~~", "[illegible]")
		answers := map[string]string{}
		for _, row := range l.model {
			best := strings.TrimSpace(strings.Split(row[1], "|")[0])
			if best != "" && best != "s.n." && best != "s.d." && !strings.Contains(text, best) {
				t.Errorf("%s: %s = %q does not stand on the label", l.number, row[0], best)
			}
			if _, ok := ledger.FieldAt(ledger.RecordKind, strings.Replace(row[0], ".1", "", 1)); !ok {
				t.Errorf("%s: no field %s", l.number, row[0])
			}
			key := row[0]
			if k, ok := practiceAnswers[key]; ok {
				key = k
			}
			answers[key] = best
		}
		for path := range l.lessons {
			if !strings.Contains("\n"+modelFields(l), "\n"+path+"\n") {
				t.Errorf("%s: a lesson for %s, which the model does not have", l.number, path)
			}
		}
		r := typedPractice(t, l, answers)
		for _, f := range l.compare(r) {
			if !f.agrees {
				t.Errorf("%s: %s of the model itself differs: %q, %q", l.number, f.path, f.typed, f.best)
			}
		}
		answers["collector"] += "n"
		differ := 0
		for _, f := range l.compare(typedPractice(t, l, answers)) {
			if f.path == "collector" && !f.agrees {
				differ++
			}
		}
		if differ != 1 {
			t.Errorf("%s: another collector is not seen", l.number)
		}
	}
}

// Where the place ends and the habitat begins is a judgement: both ways of
// typing one run of words are as good, but no word may be lost.
func TestPracticeParted(t *testing.T) {
	const whole = "Myrkdalen, on [illegible] stones by the brook"
	for _, row := range []struct {
		whole, locality, habitat string
		want                     bool
	}{
		{whole, "Myrkdalen", "on [illegible] stones by the brook", true},
		{whole, "Myrkdalen", "[illegible] stones by the brook.", true},
		{"limestone scree at Skjervet", "Skjervet", "limestone scree", true},
		{whole, "Myrkdalen", "stones by the brook", false},
		{whole, "Myrkdalen", "on wet stones by the brook", false},
		{whole, "by the brook", "stones", false},
		{whole, "Myrkdalen", "", false},
		{whole, "", whole, false},
		{whole, "Myrkdalen", "Myrkdalen, on [illegible] stones by the brook", false},
	} {
		if got := parted(row.whole, row.locality, row.habitat); got != row.want {
			t.Errorf("%q as %q and %q: %v", row.whole, row.locality, row.habitat, got)
		}
	}
}

func modelFields(l practiceLabel) string {
	var b strings.Builder
	for _, row := range l.model {
		b.WriteString(row[0] + "\n")
	}
	return b.String()
}

// typedPractice is the record that blotter new makes of these answers.
func typedPractice(t *testing.T, l practiceLabel, answers map[string]string) *ledger.Record {
	t.Helper()
	c, err := (&desk{call: &call{}, museum: &ledger.Museum{}}).newRecord(l.number, answers, false)
	if err != nil {
		t.Fatal(err)
	}
	r, found := ledger.Decode(c.path, c.new)
	if errs, _ := countFindings(found); errs > 0 {
		t.Errorf("%s: %v", l.number, found)
	}
	return r
}

func TestNearWords(t *testing.T) {
	for _, c := range []struct{ path, best, typed, want string }{
		{"date", "ca. 1931", "c. 1931", "read as the same"},
		{"date", "ca. 1931", "1931", ""},
		{"place.elevation", "1150 ft", "1150 feet", "read as the same"},
		{"place.elevation", "1150 ft", "1150", ""},
		{"collector", "H. Pellow", "H.Pellow", "only blanks or capitals"},
		{"collector", "H. Pellow", "Helen Pellow", ""},
		{"habitat", "", "meadow", ""},
	} {
		if got := nearWords(c.path, c.best, c.typed); (c.want == "") != (got == "") || !strings.Contains(got, c.want) {
			t.Errorf("%s %q, typed %q: %q, want %q", c.path, c.best, c.typed, got, c.want)
		}
	}
}

// The pictures are well-formed, the same each time, and wide enough for what
// stands on them.
func TestPracticePictures(t *testing.T) {
	labels, err := practiceLabels(examples.Practice())
	if err != nil {
		t.Fatal(err)
	}
	for _, l := range labels {
		svg := l.picture()
		if !bytes.Equal(svg, l.picture()) {
			t.Errorf("%s is drawn otherwise the second time", l.number)
		}
		d := xml.NewDecoder(bytes.NewReader(svg))
		for {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", l.number, err)
			}
		}
		for _, line := range l.lines {
			if line[0] != '/' {
				continue
			}
			for _, it := range byHand(line[1:], 0) {
				if b := it.Box(); b.X < practiceEdge-1 || b.Right() > practiceWidth-practiceEdge+1 {
					t.Errorf("%s: %q goes from %.1f to %.1f mm", l.number, line, b.X, b.Right())
				}
			}
		}
	}
}

// More of the label's own words than the model has are no fault, words of
// one's own are; what a lesson says of feet is what is read in them.
func TestPracticeOwnWords(t *testing.T) {
	labels, err := practiceLabels(examples.Practice())
	if err != nil {
		t.Fatal(err)
	}
	l := labels[0] // Alt. 1150 ft.
	for typed, want := range map[string]bool{"1150 ft": true, "1150 ft.": true, "Alt. 1150 ft.": true, "Alt.  1150 ft": true,
		"1150 feet": false, "350.5 m": false, "351 m": false, "1150": false, "Alt. 1150 ft. Flowers yellow": false} {
		r := typedPractice(t, l, map[string]string{"place.elevation": typed})
		for _, f := range l.compare(r) {
			if f.path == "place.elevation" && f.agrees != want {
				t.Errorf("%q agrees: %v, want %v", typed, f.agrees, want)
			}
		}
	}
	short := typedPractice(t, labels[2], map[string]string{"place.elevation": "900 m"}) // 900 m s.m.
	for _, f := range labels[2].compare(short) {
		if f.path == "place.elevation" && f.agrees {
			t.Error("900 m agrees, though the label has more words")
		}
	}
	r := places.ReadElevation("1150 ft")
	if lesson := l.lessons["place.elevation"]; !strings.Contains(lesson, "1150 ft is "+strings.TrimSuffix(r.String(), " m")+" metres") {
		t.Errorf("read as %v, and the lesson says %q", r, lesson)
	}
}
