package ledger

import (
	"regexp"
	"testing"

	"gopkg.in/yaml.v3"
)

// uncommented is the sample as most records are: no comment behind a value.
var uncommented = regexp.MustCompile(` {2,}#.*`).ReplaceAllString(sample, "")

// BenchmarkNode is the floor: the YAML library to its nodes and nothing else.
func BenchmarkNode(b *testing.B) {
	src := []byte(uncommented)
	b.ReportAllocs()
	for b.Loop() {
		var n yaml.Node
		if err := yaml.Unmarshal(src, &n); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecode(b *testing.B) {
	src := []byte(uncommented)
	b.ReportAllocs()
	for b.Loop() {
		if _, fs := Decode(samplePath, src); len(fs) > 0 {
			b.Fatal(fs)
		}
	}
}

func BenchmarkEncode(b *testing.B) {
	r, _ := Decode(samplePath, []byte(sample))
	b.ReportAllocs()
	for b.Loop() {
		Encode(r)
	}
}

func BenchmarkFlatten(b *testing.B) {
	r, _ := Decode(samplePath, []byte(sample))
	b.ReportAllocs()
	for b.Loop() {
		Flatten(r)
	}
}

func BenchmarkEdit(b *testing.B) {
	src := []byte(sample)
	for b.Loop() {
		if _, err := Edit(src, Set("place.elevation", "350 m")); err != nil {
			b.Fatal(err)
		}
	}
}
