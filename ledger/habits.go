package ledger

import (
	_ "embed"
	"reflect"
	"sync"
)

// Habits are the figures of the museum's work as blotter.yaml writes them:
// how long plants dry, what a freezer must do, how long loans run. None of
// them is a truth: a museum that says nothing has those of standard.yaml,
// each with its source beside it, and may write its own over them.
type Habits struct {
	Loans      Loans           `yaml:"loans"`
	Drying     Drying          `yaml:"drying"`
	Treatment  Treatment       `yaml:"treatment"`
	Traps      Traps           `yaml:"traps"`
	Sampling   Sampling        `yaml:"sampling"`
	Collecting Collecting      `yaml:"collecting"`
	Reporting  Reporting       `yaml:"reporting"`
	Climate    Climate         `yaml:"climate"`
	Filing     FilingHabits    `yaml:"filing"`
	Inventory  InventoryHabits `yaml:"inventory"`
	Review     Reviewing       `yaml:"review"`
	Salvage    Salvaging       `yaml:"salvage"`
	Mounting   Mounting        `yaml:"mounting"`
	Pressing   Pressing        `yaml:"pressing"`
	Labels     Labels          `yaml:"labels"`
	Slips      Slips           `yaml:"slips"`
	Exsiccatae []IssuedSeries  `yaml:"exsiccatae"`
	Covers     Covers          `yaml:"covers"`
	Packets    Packets         `yaml:"packets"`
	Strips     Strips          `yaml:"strips"`
	Printing   Printing        `yaml:"printing"`
}

// Loans are the museum's habits of lending.
type Loans struct {
	Months     Leaf   `yaml:"months"`      // how long a loan runs
	TypeMonths Leaf   `yaml:"type_months"` // how long one with types runs
	Remind     []Leaf `yaml:"remind"`      // days before the due day
	Overdue    []Leaf `yaml:"overdue"`     // days after it
	Keep       Leaf   `yaml:"keep"`        // sheets of a species that stay in the house
	Packing    []Leaf `yaml:"packing"`     // how a parcel is packed, a sentence an entry
	Terms      []Leaf `yaml:"terms"`       // on which loans are made, a sentence an entry
	Answer     Leaf   `yaml:"answer"`      // days until a request is answered
	Word       Leaf   `yaml:"word"`        // days until the other side has said that a parcel came
	Named      Leaf   `yaml:"named"`       // days until the opinions on what came back are taken up
}

//go:embed standard.yaml
var standardFile []byte

// StandardText is standard.yaml: every figure with its source as a comment.
func StandardText() []byte { return standardFile }

var standard = sync.OnceValue(func() *Museum {
	m, found := DecodeMuseum(MuseumFile, standardFile)
	for _, f := range found {
		if f.Code != "field-missing" {
			panic("ledger: standard.yaml: " + f.String())
		}
	}
	return m
})

// WithStandard is the habits of m, with those of standard.yaml where m says
// nothing. In a list of entries those of m stand first; an entry of the
// standard whose first field has the same words as one of m is left out.
func WithStandard(m *Museum) Habits {
	h := m.Habits
	fillIn(reflect.ValueOf(&h).Elem(), reflect.ValueOf(standard().Habits))
	return h
}

// fillIn takes from std what own does not have.
func fillIn(own, std reflect.Value) {
	leaf := reflect.TypeOf(Leaf{})
	switch {
	case own.Type() == leaf:
		if own.Field(0).Len() == 0 {
			own.Set(std)
		}
	case own.Kind() == reflect.Struct:
		for i := range own.NumField() {
			fillIn(own.Field(i), std.Field(i))
		}
	case own.Kind() == reflect.Slice && own.Type().Elem() == leaf:
		if own.Len() == 0 {
			own.Set(std)
		}
	case own.Kind() == reflect.Slice:
		own.Set(joined(own, std))
	}
}

// joined is own's entries, then those of std that own has no namesake of.
func joined(own, std reflect.Value) reflect.Value {
	all := reflect.MakeSlice(own.Type(), 0, own.Len()+std.Len())
	named := map[string]bool{}
	name := func(e reflect.Value) string { return e.Field(0).Field(0).String() }
	for i := range own.Len() {
		all = reflect.Append(all, own.Index(i))
		named[name(own.Index(i))] = true
	}
	for i := range std.Len() {
		if !named[name(std.Index(i))] {
			all = reflect.Append(all, std.Index(i))
		}
	}
	return all
}
