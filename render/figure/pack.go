//go:build ignore

// Pack makes land.bin.gz from countries-50m.json of the npm package
// world-atlas: go run pack.go FILE. What the file holds is said in LAND.md.
package main

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"encoding/json"
	"log"
	"math"
	"os"
)

type topology struct {
	Transform struct{ Scale, Translate [2]float64 }
	Arcs      [][][2]int
	Objects   struct {
		Countries struct {
			Geometries []struct {
				Type string
				Arcs json.RawMessage
			}
		}
	}
}

const perDegree = 500

func main() {
	raw, err := os.ReadFile(os.Args[1])
	if err != nil {
		log.Fatal(err)
	}
	var t topology
	if err := json.Unmarshal(raw, &t); err != nil {
		log.Fatal(err)
	}
	var out bytes.Buffer
	put := func(v int) { out.Write(binary.AppendVarint(nil, int64(v))) }
	put(len(t.Arcs))
	for _, arc := range t.Arcs {
		put(len(arc))
		x, y, px, py := 0, 0, 0, 0
		for _, d := range arc {
			x, y = x+d[0], y+d[1]
			qx := int(math.Round((float64(x)*t.Transform.Scale[0] + t.Transform.Translate[0]) * perDegree))
			qy := int(math.Round((float64(y)*t.Transform.Scale[1] + t.Transform.Translate[1]) * perDegree))
			put(qx - px)
			put(qy - py)
			px, py = qx, qy
		}
	}
	var rings [][]int
	for _, g := range t.Objects.Countries.Geometries {
		var polygons [][][]int
		switch g.Type {
		case "Polygon":
			var p [][]int
			if err := json.Unmarshal(g.Arcs, &p); err != nil {
				log.Fatal(err)
			}
			polygons = append(polygons, p)
		case "MultiPolygon":
			if err := json.Unmarshal(g.Arcs, &polygons); err != nil {
				log.Fatal(err)
			}
		}
		for _, p := range polygons {
			rings = append(rings, p...)
		}
	}
	put(len(rings))
	for _, r := range rings {
		put(len(r))
		for _, a := range r {
			put(a)
		}
	}
	f, err := os.Create("land.bin.gz")
	if err != nil {
		log.Fatal(err)
	}
	z, _ := gzip.NewWriterLevel(f, gzip.BestCompression)
	z.Write(out.Bytes())
	if err := z.Close(); err != nil {
		log.Fatal(err)
	}
	if err := f.Close(); err != nil {
		log.Fatal(err)
	}
}
