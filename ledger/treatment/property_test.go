package treatment_test

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"blotter/ledger/treatment"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

// drawReadings are readings at an even step, over a month's end if long enough.
func drawReadings(t *rapid.T) []treatment.Reading {
	first := time.Date(2026, 11, 1, 0, 0, 0, 0, time.UTC).Add(time.Duration(rapid.IntRange(0, 60*24*60).Draw(t, "start, minutes")) * time.Minute)
	step := time.Duration(rapid.SampledFrom([]int{1, 5, 10, 15, 30, 60, 120}).Draw(t, "step, minutes")) * time.Minute
	out := make([]treatment.Reading, rapid.IntRange(2, 60).Draw(t, "readings"))
	for i := range out {
		out[i] = treatment.Reading{At: first.Add(time.Duration(i) * step), C: math.Round(rapid.Float64Range(-45, 25).Draw(t, "°C")*10) / 10}
	}
	return out
}

// form is a way of writing a table.
type form struct {
	sep, date, clock, point, end, unit string
	apart, numbers, head, fahrenheit   bool
	preamble, foot                     bool
}

func drawForm(t *rapid.T) form {
	flip := func(name string) bool { return rapid.Bool().Draw(t, name) }
	f := form{
		sep:   rapid.SampledFrom([]string{";", "\t", ",", "|"}).Draw(t, "separator"),
		date:  rapid.SampledFrom([]string{"2006-01-02", "02.01.2006", "02.01.06", "2006/01/02", "2 January 2006", "02-Jan-06", "20060102"}).Draw(t, "date"),
		clock: rapid.SampledFrom([]string{"15:04", "15:04:05", "3:04 PM", "03:04:05 pm"}).Draw(t, "clock"),
		point: rapid.SampledFrom([]string{".", ","}).Draw(t, "point"), end: rapid.SampledFrom([]string{"\n", "\r\n", "\r"}).Draw(t, "line end"),
		unit: rapid.SampledFrom([]string{"", " °C", "C"}).Draw(t, "unit in the cell"), apart: flip("date and time apart"), numbers: flip("row numbers"), head: flip("heading"),
		preamble: flip("preamble"), foot: flip("foot"),
	}
	if f.unit == "" {
		f.fahrenheit = flip("°F")
	}
	if f.sep == "," {
		f.point = "."
	}
	f.head = f.head || f.fahrenheit || f.preamble || f.unit == ""
	return f
}

func (f form) write(readings []treatment.Reading) string {
	var b strings.Builder
	line := func(cells ...string) { b.WriteString(strings.Join(cells, f.sep) + f.end) }
	row := func(n int, when string, rest ...string) []string {
		var cells []string
		if f.numbers {
			cells = append(cells, fmt.Sprint(n))
		}
		if f.apart {
			cells = append(cells, strings.Split(when, "~")...)
		} else {
			cells = append(cells, strings.Replace(when, "~", " ", 1))
		}
		return append(cells, rest...)
	}
	if f.preamble {
		line("Logger of the freezer in the cellar")
		line("Serial", "7301")
		line("Started", "2026-10-30 08:00")
		line("")
	}
	if f.head {
		head := row(0, "Date~Time", "Temp °C")
		if f.fahrenheit {
			head[len(head)-1] = "Temp °F"
		}
		if f.numbers {
			head[0] = "No."
		}
		line(head...)
	}
	for i, r := range readings {
		v := r.C
		if f.fahrenheit {
			v = v*1.8 + 32
		}
		line(row(i+1, r.At.Format(f.date+"~"+f.clock), strings.Replace(fmt.Sprintf("%.2f%s", v, f.unit), ".", f.point, 1))...)
	}
	if f.foot {
		line("Lowest", "-30")
		line("End")
	}
	return b.String()
}

// In whatever form a table is written, it reads as the same readings.
func TestAnyFormReadsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		readings, f := drawReadings(t), drawForm(t)
		log, err := treatment.Read([]byte(f.write(readings)), treatment.Options{})
		if err != nil {
			t.Fatalf("%v\n%s", err, f.write(readings))
		}
		same := len(log.Readings) == len(readings)
		for i := 0; same && i < len(readings); i++ {
			same = log.Readings[i].At.Equal(readings[i].At) && math.Abs(log.Readings[i].C-readings[i].C) < 0.006
		}
		if !same {
			t.Fatalf("%+v\n%s\n%s", f, said(log), f.write(readings))
		}
	})
}

// Dates in figures with strokes read right or not at all, never wrong.
func TestStrokesReadRightOrNotAtAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		readings := drawReadings(t)
		for i := range readings {
			readings[i].C = max(readings[i].C, -40)
		}
		format := rapid.SampledFrom([]string{"02/01/2006 15:04", "01/02/2006 15:04", "1/2/06 15:04", "2-1-2006 15:04", "06-01-02 15:04"}).Draw(t, "format")
		var b strings.Builder
		for _, r := range readings {
			fmt.Fprintf(&b, "%s;%g\n", r.At.Format(format), r.C)
		}
		log, err := treatment.Read([]byte(b.String()), treatment.Options{})
		if err != nil {
			if !strings.Contains(err.Error(), "may be") || !strings.Contains(err.Error(), "say whether") {
				t.Fatalf("%v\n%s", err, b.String())
			}
			return
		}
		for i, r := range log.Readings {
			if !r.At.Equal(readings[i].At) {
				t.Fatalf("%v, not %v\n%s", r.At, readings[i].At, b.String())
			}
		}
	})
}

// What Write writes reads again as the same, in any zone.
func TestWriteReadsAgain(t *testing.T) {
	zone := oslo(t)
	rapid.Check(t, func(t *rapid.T) {
		readings := drawReadings(t)
		for i := range readings {
			readings[i].At = readings[i].At.In(zone)
			readings[i].C = rapid.Float64Range(-99, 99).Draw(t, "exact °C")
		}
		log, err := treatment.Read(treatment.Write(readings), treatment.Options{Zone: zone})
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(readings, log.Readings); d != "" {
			t.Error(d)
		}
		if again := treatment.Write(log.Readings); string(again) != string(treatment.Write(readings)) {
			t.Error("written again it is another")
		}
	})
}

// A log that follows the clock of its zone over a year with readings every half
// hour comes back as it was, through both changes.
func TestYearThroughBothChanges(t *testing.T) {
	zone := oslo(t)
	for _, kept := range []bool{false, true} {
		var b strings.Builder
		b.WriteString("time;°C\n")
		first := time.Date(2026, 1, 1, 0, 0, 0, 0, zone)
		_, offset := first.Zone()
		clock := zone
		if kept {
			clock = time.FixedZone("as set", offset)
		}
		const n = 365 * 48
		for i := range n {
			fmt.Fprintf(&b, "%s;-20\n", first.Add(time.Duration(i)*30*time.Minute).In(clock).Format("2006-01-02 15:04"))
		}
		log, err := treatment.Read([]byte(b.String()), treatment.Options{Zone: zone})
		if err != nil || len(log.Readings) != n {
			t.Fatalf("kept %v: %v, %d readings", kept, err, len(log.Readings))
		}
		for i, r := range log.Readings {
			if want := first.Add(time.Duration(i) * 30 * time.Minute); !r.At.Equal(want) {
				t.Fatalf("kept %v: reading %d at %v, not %v", kept, i, r.At, want)
			}
		}
	}
}

// Whatever the file: no panic; readings in order, of plausible temperatures; and
// what was read reads again as itself.
func FuzzRead(f *testing.F) {
	for _, s := range []string{
		"time,temperature °C\n2026-11-03 09:45,20.0\n2026-11-03 10:00,-18.5\n",
		"Nr;Datum;Uhrzeit;Temp [°C];RH %\n1;03.11.2026;09:45:00;20,0;45\n2;03.11.2026;10:00:00;---;99\nMin;03.11.2026;10:00;1\n",
		"#,\"Date Time, GMT+01:00\",\"Temp, °F\"\n1,11/23/26 09:45:00 AM,68.0\n2,11/23/26 10:00:00 AM,\"-1,3\"\n",
		"26-11-03 09:45 AM 20.0\n", "|2026-11-03T10:15:00+01:00|−30,5 °C|", "\xff\xfe2\x000\x00", "20261103094500\t-30\n", "2026-11-03 24:00,-30,5\n",
		"Mon Nov 23, 2026 9h45;2e1\n", "2026-10-25 02:00;1\n2026-10-25 02:00;2\n2026-10-25 02:30;1\n2026-10-25 02:10;1\n",
		"\"2026-11-03 09:45\"\",\";\"-3", "01/02/03 04:05;6\n", strings.Repeat("2026-11-03 09:45;1;", 50),
	} {
		f.Add([]byte(s))
	}
	zone, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		zone = time.UTC
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		log, err := treatment.Read(data, treatment.Options{Zone: zone})
		if err != nil {
			if _, ok := err.(*treatment.LogError); !ok || err.Error() == "" {
				t.Fatalf("%T %v", err, err)
			}
			return
		}
		if len(log.Readings) == 0 || len(log.Readings) > log.Rows {
			t.Fatalf("%d readings of %d rows", len(log.Readings), log.Rows)
		}
		if !slices.IsSortedFunc(log.Readings, func(a, b treatment.Reading) int { return a.At.Compare(b.At) }) {
			t.Fatal("readings are not in order")
		}
		for _, r := range log.Readings {
			if !(math.Abs(r.C) <= 100) {
				t.Fatalf("%v °C", r.C)
			}
		}
		again, err := treatment.Read(treatment.Write(log.Readings), treatment.Options{Zone: zone})
		if err != nil || !cmp.Equal(log.Readings, again.Readings) {
			t.Fatalf("written and read again: %v\n%s", err, cmp.Diff(log.Readings, again.Readings))
		}
		treatment.Judge(log.Readings, nil, standard)
	})
}

func benchmarkRead(b *testing.B, format, head string) {
	const n = 100_000
	var s strings.Builder
	s.WriteString(head)
	at := time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for i := range n {
		s.WriteString(at.Add(time.Duration(i) * 5 * time.Minute).Format(format))
		fmt.Fprintf(&s, ";-%d,%d\n", 20+i%15, i%10)
	}
	data := []byte(s.String())
	b.ResetTimer()
	for b.Loop() {
		if log, err := treatment.Read(data, treatment.Options{}); err != nil || len(log.Readings) != n {
			b.Fatal(err, len(log.Readings))
		}
	}
	b.ReportMetric(float64(n*b.N)/b.Elapsed().Seconds(), "readings/s")
}

func BenchmarkReadISO(b *testing.B) { benchmarkRead(b, "2006-01-02 15:04:05", "time;temp °C\n") }
func BenchmarkReadStrokes(b *testing.B) {
	benchmarkRead(b, "01/02/2006 03:04:05 PM", "time;temp °C\n")
}
func BenchmarkReadLetters(b *testing.B) { benchmarkRead(b, "2-Jan-06 15:04", "time;temp °C\n") }

func BenchmarkJudge(b *testing.B) {
	readings := make([]treatment.Reading, 100_000)
	for i := range readings {
		readings[i] = treatment.Reading{At: start.Add(time.Duration(i) * time.Minute), C: -32 + float64(i%7)}
	}
	b.ResetTimer()
	for b.Loop() {
		treatment.Judge(readings, nil, standard)
	}
	b.ReportMetric(float64(len(readings)*b.N)/b.Elapsed().Seconds(), "readings/s")
}
