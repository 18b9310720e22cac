package reading

import (
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/ledgertest"
	"blotter/ledger/opinion"
)

func decode(t *testing.T, text string) *ledger.Record {
	t.Helper()
	r, fs := ledger.Decode("", []byte(text))
	for _, f := range fs {
		if f.Severity == ledger.Error {
			t.Fatalf("%v", f)
		}
	}
	return r
}

const sheet = `specimen: LK7-0000482
entry: full
collector: Signe Rask
date: 3/4/1934
place:
  country: Norway
  position: 60°42'12"N 6°39'05"W
  gps_accuracy: 8 m
  elevation: 1200 ft
determinations:
  - {name: Ranunculus acris L., by: Signe Rask, date: "1934", from: label}
  - {name: Ranunculus acris cf. subsp. pumilus, by: M. Ostrander, date: 2026-11-02}
  - {name: indet., by: Ove Bannister, date: s.d., mistake: wrong sheet}
types:
  - {status: Isotype, of: Ranunculus pumilus Wahlenb., basis: suspected, by: M. Ostrander, date: 2026-11-02}
read:
  date: {is: 1934-04-03, by: Tiril Aune, date: 2026-01-09}
  position: {is: "60.7034, 6.6512", uncertainty: 40 m, by: Tiril Aune, date: 2026-01-09}
fate:
  - {is: lost, by: Tiril Aune, date: 2020-01-09, why: not in its folder}
  - {is: found, by: Tiril Aune, date: 2021-01-09, why: behind it}
  - {is: destroyed, by: Tiril Aune, date: 2022-01-09, why: beetles}
`

// TestDatedAsCollected: what the label writes twice is read once.
func TestDatedAsCollected(t *testing.T) {
	for _, c := range []struct{ date, det, read, want, why string }{
		{"3/4/1934", `by: Signe Rask, date: 3/4/1934`, "1934-04-03", "3 April 1934", "the collector's own date, settled with it"},
		{"3/4/1934", `by: unsigned, date: 3/4/1934, from: label`, "1934-04-03", "3 April 1934", "the label's date, settled with it"},
		{"1934", `by: Ove Bannister, date: "1934"`, "1934-04-03", "some day in 1934", "another person's year is another writing"},
		{"s.d.", `by: Signe Rask, date: s.d.`, "1934-04-03", "", "no date is no writing: the reading comes from elsewhere"},
		{"3/4/1934", `by: Signe Rask, date: "1934"`, "1934-04-03", "some day in 1934", "other words are another date"},
	} {
		r := decode(t, "specimen: LK7-0000482\nentry: draft\ncollector: Signe Rask\ndate: \""+c.date+"\"\ndeterminations:\n  - {name: Ranunculus acris L., "+c.det+"}\n"+
			"read:\n  date: {is: "+c.read+", by: Tiril Aune, date: 2026-01-09}\n")
		if got := Of(r, Conventions{}).Opinions[0].Date.Read.String(); got != c.want {
			t.Errorf("%s: got %q, want %q", c.why, got, c.want)
		}
		if got := Opinions(r, Conventions{}).Opinions[0].Date.Read.String(); got != c.want {
			t.Errorf("%s, opinions alone: got %q, want %q", c.why, got, c.want)
		}
	}
}

func TestOf(t *testing.T) {
	d := Of(decode(t, sheet), Conventions{TreatedBefore: 1950})
	name, at := d.Current()
	for _, c := range []struct {
		what      string
		got, want any
		reason    string
	}{
		{"date by hand", d.Date.Read.String(), "3 April 1934", "a person's reading goes before the program's"},
		{"date of the words", d.Date.Written.Precision, dates.Ambiguous, "the words can still be read in two ways"},
		{"whose date", d.Date.FromHand(), true, ""},
		{"position", strconv.FormatFloat(d.Position.Lon, 'f', 4, 64), "6.6512", "the person's reading puts it east"},
		{"written position", d.Position.Written.Lon < 0, true, "the words say west"},
		{"uncertainty", d.Position.Radius(), 40.0, "that of the reading, not of the device, and the whole"},
		{"elevation", strconv.FormatFloat(d.Elevation.Metres, 'f', 2, 64), "365.76", "1200 international feet of 0.3048 m"},
		{"current", name.Words, "Ranunculus acris cf. subsp. pumilus", "the newest that is no mistake"},
		{"key", name.Key(), "Ranunculus acris subsp. pumilus", "without qualifier"},
		{"place of the current", at, 1, ""},
		{"state of the mistake", d.Opinions[2].State, opinion.Mistake, ""},
		{"unnamed", d.Opinions[2].Name.Unnamed, true, "indet. names nothing"},
		{"type", d.Types[0].String(), "possible isotype of Ranunculus pumilus Wahlenb.", "suspected reads possible"},
		{"fate", d.Fate, "destroyed", "the last holds"},
		{"treated", d.Cautions, []Caution{{Words: "treated", Assumed: true}}, "older than the museum's year, and nothing said"},
	} {
		if diff := cmp.Diff(c.want, c.got); diff != "" {
			t.Errorf("%s: %s%s", c.what, diff, c.reason)
		}
	}
}

func TestAbsenceOf(t *testing.T) {
	for _, c := range []struct {
		words string
		want  Absence
		near  string
	}{
		{"s.d.", None, ""}, {"S.N.", None, ""}, {"unknown", None, ""}, {"not recorded", None, ""}, {"unsigned", None, ""},
		{"illegible", Illegible, ""}, {"[illegible]", Illegible, ""},
		{"", Untyped, ""}, {"not yet typed", Untyped, ""},
		{"Signe Rask", Present, ""}, {"n.d.", Present, "s.d."}, {"no number", Present, "s.n."}, {"?", Present, "not yet typed"},
		{"[...]", Present, "[illegible]"}, {"Without  date", Present, ""}, {"without date", Present, "s.d."},
	} {
		if got := AbsenceOf(c.words); got != c.want {
			t.Errorf("%q: %v, want %v", c.words, got, c.want)
		}
		if got := NearNone(c.words); got != c.near {
			t.Errorf("%q is near %q, want %q", c.words, got, c.near)
		}
	}
	for words := range wordsForNone {
		if AbsenceOf(words) != wordsForNone[words] {
			t.Errorf("%q is not read as words for none", words)
		}
	}
	for words, want := range nearNone {
		if len(words) > nearNoneLongest || AbsenceOf(want) == Present || AbsenceOf(words) != Present {
			t.Errorf("near words %q for %q", words, want)
		}
	}
}

// TestTypes: a later "not a type" ends what was said about the same name, and
// every status of the field table is known.
func TestTypes(t *testing.T) {
	d := Of(decode(t, sheet[:strings.Index(sheet, "types:")]+`types:
  - {status: isotype, of: Ranunculus pumilus Wahlenb., by: unsigned, date: s.d.}
  - {status: type, of: Ranunculus boreanus, by: unsigned, date: s.d.}
  - {status: not a type, of: Ranunculus pumilus, by: M. Ostrander, date: 2026-11-02}
`), Conventions{})
	var got []bool
	for _, x := range d.Types {
		got = append(got, x.Holds())
	}
	if diff := cmp.Diff([]bool{false, true, false}, got); diff != "" {
		t.Error(diff)
	}
	f, _ := ledger.FieldAt(ledger.RecordKind, "types.status")
	for _, s := range f.Enum {
		if s != notAType && !isTypeStatus(s) {
			t.Errorf("the status %q of the field table is not known", s)
		}
	}
}

// TestReaderForgetsNothing: a Reader gives what Of gives, whatever it read
// before.
func TestReaderForgetsNothing(t *testing.T) {
	for _, c := range []Conventions{{}, {Order: dates.MonthDay}} {
		x := NewReader(c)
		for range 2 {
			for key, r := range corpus(t) {
				if d := cmp.Diff(digest(Of(r, c)), digest(x.Of(r))); d != "" {
					t.Errorf("%s: %s", key, d)
				}
			}
		}
	}
}

// TestTwoDigitYears: the museum's hundred years hold for the label, not for a
// slip of today.
func TestTwoDigitYears(t *testing.T) {
	m := &ledger.Museum{}
	m.Dates.TwoDigitYears.Text = "1850"
	c := ConventionsOf(m)
	d := NewReader(c)
	if got := d.date("14.vii.21", nil, c.Collected()).Read.EDTF(); got != "1921-07-14" {
		t.Error("on a label:", got)
	}
	if got := d.date("14.vii.49", nil, c.Collected()).Read.EDTF(); got != "1949-07-14" {
		t.Error("the last of the hundred years:", got)
	}
	if got := d.date("14.vii.50", nil, c.Collected()).Read.EDTF(); got != "1850-07-14" {
		t.Error("the first of the hundred years:", got)
	}
	if got := d.date("14.vii.21", nil, c.Slips()).Read; got.Precision != dates.Ambiguous {
		t.Error("on a slip:", got)
	}
	if c.Key() == (Conventions{}).Key() {
		t.Error("the key does not tell conventions apart")
	}
}

// digest tells in words what was read of a record.
func digest(d *Reading) []string {
	var out []string
	say := func(what string, words ...string) {
		if s := strings.TrimSpace(strings.Join(words, " ")); s != "" {
			out = append(out, what+" "+s)
		}
	}
	say("date", d.Date.Read.String(), d.Date.Absence.String())
	say("position", d.Position.Read.String(), d.Position.Absence.String())
	if d.Position.Radius() > 0 {
		say("radius", strconv.FormatFloat(d.Position.Radius(), 'f', 1, 64))
	}
	say("elevation", d.Elevation.Read.String(), d.Elevation.Absence.String())
	for i := range d.Opinions {
		o := &d.Opinions[i]
		say("opinion", o.Kind.String(), o.State.String(), strings.Join(o.Name.Keys, " or "), o.Date.Read.String(), o.Date.Absence.String())
	}
	if n, at := d.Current(); n.Words != "" {
		say("current", strconv.Itoa(at), n.Words, n.Key())
	}
	for _, t := range d.Types {
		say("type", t.String())
	}
	say("fate", d.Fate)
	for _, c := range d.Cautions {
		say("caution", c.Words, strconv.FormatBool(c.Assumed))
	}
	return out
}

// TestVersion: a reading that changes asks for another Version.
func TestVersion(t *testing.T) {
	got := map[string]string{}
	for _, c := range []Conventions{{}, {Order: dates.DayMonth, TreatedBefore: 1980}} {
		for key, r := range corpus(t) {
			got[key+" "+c.Key()] = strings.Join(digest(Of(r, c)), "\n")
		}
	}
	ledgertest.Versioned(t, "testdata/readings.txt", Version, got)
}

func corpus(t *testing.T) map[string]*ledger.Record {
	t.Helper()
	out := ledgertest.Corpus(t, "../..")
	out["sheet"] = decode(t, sheet)
	return out
}

// TestCautionOfAge: what may be old counts as treated until somebody tested
// it; the doubt is said.
func TestCautionOfAge(t *testing.T) {
	assumed, perhaps := []Caution{{Words: "treated", Assumed: true}}, []Caution{{Words: "treated", Assumed: true, Perhaps: true}}
	for _, c := range []struct {
		date, cautions string
		before         int
		want           []Caution
		reason         string
	}{
		{"14.vii.1911", "", 1985, assumed, "older than the museum's year"},
		{"14.vii.1985", "", 1985, nil, "of the year itself"},
		{"1980/1990", "", 1985, perhaps, "may be older"},
		{"s.d.", "", 1985, perhaps, "a label without a date"},
		{"\"[illegible]\"", "", 1985, perhaps, "a date that nobody can read"},
		{"some day in spring, I forget", "", 1985, perhaps, "a date that the program cannot read"},
		{"s.d.", "treated, tested", 1985, []Caution{{Words: "treated, tested"}}, "what is known goes before"},
		{"s.d.", "", 0, nil, "the museum assumes nothing"},
	} {
		text := "specimen: LK7-0000482\nentry: draft\ndate: " + c.date + "\n"
		if c.cautions != "" {
			text += "cautions: [\"" + c.cautions + "\"]\n"
		}
		if d := cmp.Diff(c.want, Of(decode(t, text), Conventions{TreatedBefore: c.before}).Cautions); d != "" {
			t.Errorf("%s (%s): %s", c.date, c.reason, d)
		}
	}
}
