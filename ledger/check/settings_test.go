package check_test

import (
	"reflect"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"blotter/ledger"
	"blotter/ledger/check"
	"blotter/ledger/dates"
)

// standard is what holds where a museum says nothing.
var standard = check.Standard()

// TestSettingsStandard: every threshold stands in the three places by one
// name, and what FORMAT.md says is its default is its default.
func TestSettingsStandard(t *testing.T) {
	var yaml strings.Builder
	yaml.WriteString("format: \"1\"\nname: Lauvkroken Museum\ncode: LK7\nchecks:\n")
	given := reflect.TypeFor[ledger.Checks]()
	for i := range given.NumField() {
		f := given.Field(i)
		if _, ok := reflect.TypeFor[check.Settings]().FieldByName(f.Name); !ok {
			t.Errorf("Settings lacks %s", f.Name)
		}
		row, ok := ledger.FieldAt(ledger.MuseumKind, "checks."+f.Tag.Get("yaml"))
		if !ok || !strings.Contains(row.Meaning, "Without it "+row.Example+".") {
			t.Errorf("the row of %s does not say its default: %+v", f.Name, row)
		}
		yaml.WriteString("  " + row.Key() + ": \"" + row.Example + "\"\n")
	}
	if n := reflect.TypeFor[check.Settings]().NumField(); n != given.NumField()+1 { // and OneIn, a habit
		t.Errorf("%d settings, %d fields", n, given.NumField())
	}
	m, fs := ledger.DecodeMuseum(ledger.MuseumFile, []byte(yaml.String()))
	if len(fs) > 0 {
		t.Error(fs)
	}
	if d := cmp.Diff(standard, check.SettingsOf(m)); d != "" {
		t.Errorf("what FORMAT.md calls the defaults are not: %s", d)
	}
	if d := cmp.Diff(standard, check.SettingsOf(&ledger.Museum{})); d != "" {
		t.Error(d)
	}
}

// TestSettingsKey: every setting changes the key under which judged records
// are kept.
func TestSettingsKey(t *testing.T) {
	seen := map[string]string{standard.Key(): "none"}
	for i := range reflect.TypeFor[check.Settings]().NumField() {
		s := check.Standard()
		switch p := reflect.ValueOf(&s).Elem().Field(i).Addr().Interface().(type) {
		case *float64:
			*p++
		case *dates.Day:
			*p++
		default:
			t.Fatalf("a setting of another kind: %T", p)
		}
		name := reflect.TypeFor[check.Settings]().Field(i).Name
		if old, ok := seen[s.Key()]; ok {
			t.Errorf("%s and %s have one key", name, old)
		}
		seen[s.Key()] = name
	}
}

// TestSettingsOf: what cannot be read counts as not given.
func TestSettingsOf(t *testing.T) {
	for _, c := range []struct {
		yaml   string
		change func(*check.Settings)
		code   string
	}{
		{"{speed: 20}", func(s *check.Settings) { s.Speed = 20 }, ""},
		{`{elevation_min: "-5.5"}`, func(s *check.Settings) { s.ElevationMin = -5.5 }, ""},
		{"{names_from: 1867-09-01}", func(s *check.Settings) { s.NamesFrom = dates.DayOf(1867, 9, 1) }, ""},
		{"{speed: fast}", func(*check.Settings) {}, "value-shape"},
		{"{sped: 20}", func(*check.Settings) {}, "field-unknown"},
	} {
		m, fs := ledger.DecodeMuseum(ledger.MuseumFile, []byte("format: \"1\"\nname: M\ncode: LK7\nchecks: "+c.yaml+"\n"))
		want := check.Standard()
		c.change(&want)
		if d := cmp.Diff(want, check.SettingsOf(m)); d != "" {
			t.Errorf("%s: %s", c.yaml, d)
		}
		if got := ""; len(fs) > 0 {
			if got = fs[0].Code; got != c.code {
				t.Errorf("%s: %v", c.yaml, fs)
			}
		} else if c.code != "" {
			t.Errorf("%s: no finding", c.yaml)
		}
	}
}
