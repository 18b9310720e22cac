package geodesy

import (
	"bufio"
	"bytes"
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
)

// outside runs a program of others over lines; the test skips when it is not
// installed, and fails then in CI.
func outside(t *testing.T, lines []string, program string, args ...string) []string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("%s is not installed", program)
		}
		t.Skipf("%s is not installed (Debian geographiclib-tools, proj-bin)", program)
	}
	cmd := exec.Command(path, args...)
	cmd.Stdin = strings.NewReader(strings.Join(lines, "\n") + "\n")
	out, err := cmd.Output() // some lines may be refused: then the status is 1
	if err != nil && len(out) == 0 {
		t.Fatalf("%s: %v", program, err)
	}
	var got []string
	for s := bufio.NewScanner(bytes.NewReader(out)); s.Scan(); {
		got = append(got, s.Text())
	}
	if len(got) != len(lines) {
		t.Fatalf("%s: %d lines for %d", program, len(got), len(lines))
	}
	return got
}

func numbers(t *testing.T, s string) []float64 {
	t.Helper()
	var out []float64
	for _, f := range strings.Fields(s) {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			t.Fatalf("%q: %v", s, err)
		}
		out = append(out, v)
	}
	return out
}

func bearingsApart(a, b float64) float64 { return math.Abs(turn(a - b)) }

// Against GeodSolve of GeographicLib, everywhere and at every distance.
func TestInverseOfGeographicLib(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var pairs [][4]float64
	for range 2000 {
		pairs = append(pairs, [4]float64{r.Float64()*180 - 90, r.Float64()*360 - 180, r.Float64()*180 - 90, r.Float64()*360 - 180})
		lat, lon := r.Float64()*170-85, r.Float64()*360-180
		pairs = append(pairs, [4]float64{lat, lon, lat + r.Float64()*0.2 - 0.1, lon + r.Float64()*0.2 - 0.1})
		pairs = append(pairs, [4]float64{lat, lon, -lat + r.Float64() - 0.5, turn(lon + 179.5 + r.Float64())})
	}
	pairs = append(pairs, [4]float64{0, 0, 0.5, 179.7}, [4]float64{0, 0, 0, 180}, [4]float64{0, 0, 0, 179.9}, [4]float64{90, 0, -90, 0}, [4]float64{30, 0, -30, 180},
		[4]float64{90, 0, 60, 6}, [4]float64{60, 6, 90, 12}, [4]float64{0, 179.5, 0, -179.5}, [4]float64{0, 0, 0, 10})
	lines := make([]string, len(pairs))
	for i, p := range pairs {
		lines[i] = fmt.Sprintf("%.12f %.12f %.12f %.12f", p[0], p[1], p[2], p[3])
	}
	worst := 0.0
	for i, s := range outside(t, lines, "GeodSolve", "-i", "-p", "9") {
		want, p := numbers(t, s), pairs[i]
		got, bearing := Inverse(p[0], p[1], p[2], p[3])
		worst = max(worst, math.Abs(got-want[2]))
		tol := 1e-4
		if want[2] > 19.8e6 {
			tol = 1e-3
		}
		if math.Abs(got-want[2]) > tol {
			t.Errorf("%s: %.6f m, GeodSolve %s", lines[i], got, s)
		}
		if want[2] < 19e6 && want[2] > 1 && bearingsApart(bearing, want[0]) > 1e-6 && math.Abs(p[0]) < 90 {
			t.Errorf("%s: bearing %.8f, GeodSolve %s", lines[i], bearing, s)
		}
	}
	t.Logf("worst %.2g m of %d", worst, len(pairs))
}

func TestDestinationOfGeographicLib(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	var lines []string
	var in [][4]float64
	for i := range 4000 {
		p := [4]float64{r.Float64()*179.8 - 89.9, r.Float64()*360 - 180, r.Float64() * 360, math.Pow(10, 1+float64(i%7)*r.Float64())}
		in = append(in, p)
		lines = append(lines, fmt.Sprintf("%.12f %.12f %.12f %.9f", p[0], p[1], p[2], p[3]))
	}
	for i, s := range outside(t, lines, "GeodSolve", "-p", "9") {
		want, p := numbers(t, s), in[i]
		lat, lon := Destination(p[0], p[1], p[2], p[3])
		if d := Distance(lat, lon, want[0], want[1]); d > 1e-4 {
			t.Errorf("%s: %.9f %.9f, GeodSolve %s: %g m", lines[i], lat, lon, s, d)
		}
	}
}

func TestInverseKept(t *testing.T) {
	for _, c := range []struct {
		name                   string
		lat1, lon1, lat2, lon2 float64
		metres, bearing        float64
	}{
		{"JFK to Changi: manual page of GeodSolve, printed to a metre and a tenth of a second", 40 + 38./60 + 23./3600, -(73 + 46./60 + 44./3600), 1 + 21./60 + 33./3600, 103 + 59./60 + 22./3600, 15347628, 3 + 18./60 + 29.9/3600},
		{"40.6 -73.8 51.6 -0.5, GeodSolve 2.1.2 run here", 40.6, -73.8, 51.6, -0.5, 5551759.400319, 51.19888284558},
		{"a quarter of the equator", 0, 0, 0, 90, 6378137 * math.Pi / 2, 90},
		{"a degree north at the equator, GeodSolve 2.1.2 run here", 0, 0, 1, 0, 110574.389, 0},
	} {
		m, b := Inverse(c.lat1, c.lon1, c.lat2, c.lon2)
		if math.Abs(m-c.metres) > 0.5 || math.Abs(b-c.bearing) > 2e-5 {
			t.Errorf("%s: %.4f m, bearing %.6f; want %.4f, %.6f", c.name, m, b, c.metres, c.bearing)
		}
		if lat, lon := Destination(c.lat1, c.lon1, b, m); Distance(lat, lon, c.lat2, c.lon2) > 1e-4 {
			t.Errorf("%s: back at %.9f %.9f", c.name, lat, lon)
		}
	}
}

func BenchmarkInverse(b *testing.B) {
	for i := 0; b.Loop(); i++ {
		Inverse(60.7, 6.6, 60.6, 6.4+float64(i%10)/100)
	}
}
