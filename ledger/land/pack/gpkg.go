package main

import (
	"bufio"
	"encoding/binary"
	"encoding/hex"
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
)

// unit is a first-level unit as the GeoPackage has it.
type unit struct {
	id                                int
	code, name, woeName, woeLabel, gn string
	adm0, gu                          string
	rings                             [][]vertex
	also, names                       []string // settled
}

// vertex is a point in degrees.
type vertex struct{ lon, lat float64 }

// readUnits reads the layer with the program sqlite3; texts and shapes come
// as hexadecimal figures, so that no sign in them can part a line.
func readUnits(file string) ([]*unit, error) {
	const query = `select fid, hex(coalesce(iso_a2,'')), hex(coalesce(name,'')), hex(coalesce(woe_name,'')), hex(coalesce(woe_label,'')),
 hex(coalesce(gn_name,'')), hex(coalesce(adm0_a3,'')), hex(coalesce(gu_a3,'')), hex(geom) from states_provinces where geom is not null order by fid`
	cmd := exec.Command("sqlite3", "-readonly", "-list", "-separator", " ", file, query)
	out, err := cmd.StdoutPipe()
	if err != nil {
		return nil, err
	}
	if err := cmd.Start(); err != nil {
		return nil, err
	}
	var units []*unit
	lines := bufio.NewScanner(out)
	lines.Buffer(nil, 1<<24)
	for lines.Scan() {
		u, err := readUnit(strings.Split(lines.Text(), " "))
		if err != nil {
			return nil, fmt.Errorf("read %s: unit %d: %w", file, len(units)+1, err)
		}
		units = append(units, u)
	}
	if err := lines.Err(); err != nil {
		return nil, err
	}
	return units, cmd.Wait()
}

func readUnit(f []string) (*unit, error) {
	if len(f) != 9 {
		return nil, fmt.Errorf("%d columns, not 9", len(f))
	}
	u := &unit{}
	var err error
	if u.id, err = strconv.Atoi(f[0]); err != nil {
		return nil, err
	}
	for i, to := range []*string{&u.code, &u.name, &u.woeName, &u.woeLabel, &u.gn, &u.adm0, &u.gu} {
		b, err := hex.DecodeString(f[i+1])
		if err != nil {
			return nil, err
		}
		*to = strings.TrimSpace(string(b))
	}
	b, err := hex.DecodeString(f[8])
	if err != nil {
		return nil, err
	}
	u.rings, err = readGeometry(b)
	return u, err
}

// readGeometry reads a GeoPackage geometry: its header, then a polygon or
// multipolygon as Well-Known Binary (OGC 12-128, clause 2.1.3).
func readGeometry(b []byte) ([][]vertex, error) {
	if len(b) < 8 || b[0] != 'G' || b[1] != 'P' {
		return nil, fmt.Errorf("not a GeoPackage geometry")
	}
	envelope := []int{0, 32, 48, 48, 64}
	kind := int(b[3] >> 1 & 7)
	if kind >= len(envelope) {
		return nil, fmt.Errorf("envelope of kind %d", kind)
	}
	w := &wkb{b: b[8+envelope[kind]:]}
	w.geometry()
	return w.rings, w.err
}

// wkb reads Well-Known Binary.
type wkb struct {
	b     []byte
	order binary.ByteOrder
	rings [][]vertex
	err   error
}

func (w *wkb) take(n int) []byte {
	if w.err != nil || len(w.b) < n {
		if w.err == nil {
			w.err = fmt.Errorf("geometry ends early")
		}
		return make([]byte, n)
	}
	out := w.b[:n]
	w.b = w.b[n:]
	return out
}

func (w *wkb) number() int { return int(w.order.Uint32(w.take(4))) }

func (w *wkb) geometry() {
	w.order = binary.BigEndian
	if w.take(1)[0] == 1 {
		w.order = binary.LittleEndian
	}
	switch kind := w.number(); kind {
	case 3: // polygon
		for n := w.number(); n > 0 && w.err == nil; n-- {
			var ring []vertex
			for m := w.number(); m > 0 && w.err == nil; m-- {
				p := w.take(16)
				ring = append(ring, vertex{math.Float64frombits(w.order.Uint64(p)), math.Float64frombits(w.order.Uint64(p[8:]))})
			}
			w.rings = append(w.rings, ring)
		}
	case 6: // multipolygon
		for n := w.number(); n > 0 && w.err == nil; n-- {
			w.geometry()
		}
	default:
		w.err = fmt.Errorf("geometry of kind %d", kind)
	}
}
