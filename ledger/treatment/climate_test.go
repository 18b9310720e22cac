package treatment_test

import (
	"testing"
	"time"

	"blotter/ledger/treatment"
)

// Worked by hand: readings every 6 hours, band 45 to 55. Outside: 60 at 06:00
// and 57 at 12:00 of the first day, back at 18:00, 12 hours in all; 40 on the
// third. Within 24 hours 60 to 46 is the greatest swing: the 40 is 42 hours
// after the 46. Of the second day the readings from 06:00 on are missing.
func TestClimateOf(t *testing.T) {
	const log = "Time;Temperature °C;Humidity %RH\n2026-05-01 00:00;20.0;50\n2026-05-01 06:00;20.5;60\n2026-05-01 12:00;21.0;57\n2026-05-01 18:00;20.0;48\n" +
		"2026-05-02 00:00;20.0;46\n2026-05-03 18:00;20.0;40\n2026-05-04 00:00;20.0;50\n"
	read, err := treatment.Read([]byte(log), treatment.Options{Humidity: true})
	if err != nil {
		t.Fatal(err)
	}
	if n := len(read.Readings); n != 7 || read.Readings[1].C != 60 {
		t.Fatalf("read %d readings of humidity: %v", n, read.Readings)
	}
	c := treatment.ClimateOf(read.Readings, 45, 55, time.UTC)
	if c.Days != 4 || c.Outside != 2 || c.Swing != 14 || c.Longest.To.Sub(c.Longest.From) != 12*time.Hour || len(c.Missing) != 1 {
		t.Errorf("climate %+v", c)
	}
	if warm, err := treatment.Read([]byte(log), treatment.Options{}); err != nil || warm.Readings[2].C != 21 {
		t.Errorf("temperatures %v, %v", warm.Readings, err)
	}
}
