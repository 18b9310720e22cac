package treatment_test

import (
	"fmt"
	"math"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"blotter/ledger/treatment"
)

func oslo(t testing.TB) *time.Location {
	zone, err := time.LoadLocation("Europe/Oslo")
	if err != nil {
		t.Skip("no time zones here: ", err)
	}
	return zone
}

// said is readings as text: time and temperature to a hundredth.
func said(log treatment.Log) string {
	var out []string
	for _, r := range log.Readings {
		out = append(out, fmt.Sprintf("%s %.2f", r.At.Format("2006-01-02 15:04:05"), r.C))
	}
	return strings.Join(out, ", ")
}

// Three readings a quarter of an hour apart on 3 November 2026, as loggers may
// write them.
const three = "2026-11-03 09:45:00 20.00, 2026-11-03 10:00:00 -18.50, 2026-11-03 10:15:00 -30.50"

// doy makes a day of which no figure can be taken for another: 23 November.
func TestLayouts(t *testing.T) {
	const later = "2026-11-23 09:45:00 20.00, 2026-11-23 10:00:00 -18.50, 2026-11-23 10:15:00 -30.50"
	for _, c := range []struct {
		name, file, want string
	}{
		{"ISO, comma", "time,temperature °C\n2026-11-03 09:45,20.0\n2026-11-03 10:00,-18.5\n2026-11-03 10:15,-30.5\n", three},
		{"ISO with T and seconds", "time,°C\n2026-11-03T09:45:00,20.0\n2026-11-03T10:00:00,-18.5\n2026-11-03T10:15:00,-30.5\n", three},
		{"ISO with Z", "time,°C\n2026-11-03T09:45:00Z,20.0\n2026-11-03T10:00:00.000Z,-18.5\n2026-11-03T10:15:00+00:00,-30.5\n", three},
		{"semicolon and decimal comma", "Dato;Temperatur (°C)\r\n03.11.2026 09:45;20,0\r\n03.11.2026 10:00;-18,5\r\n03.11.2026 10:15;-30,5\r\n", three},
		{"two columns", "Nr;Datum;Uhrzeit;Temp [°C]\n1;03.11.2026;09:45:00;20,0\n2;03.11.2026;10:00:00;-18,5\n3;03.11.2026;10:15:00;-30,5\n", three},
		{"tabs, no heading", "2026-11-03\t09:45\t20.0\n2026-11-03\t10:00\t-18.5\n2026-11-03\t10:15\t-30.5\n", three},
		{"blanks", "2026-11-03 09:45   20.0\n2026-11-03 10:00  -18.5\n2026-11-03 10:15  -30.5", three},
		{"bars", "| time | temp C |\n| --- | --- |\n|2026-11-03 09:45|20.0|\n|2026-11-03 10:00|-18.5|\n|2026-11-03 10:15|-30.5|\n", three},
		{"month first, 12 hours, °F", "#,Date Time,\"Temp, °F\"\n1,11/23/26 09:45:00 AM,68.0\n2,11/23/26 10:00:00 AM,-1.3\n3,11/23/26 10:15:00 AM,-22.9\n", later},
		{"am in its own column", "Date,Time,,Temp (C)\n11/23/2026,9:45,AM,20.0\n11/23/2026,10:00,AM,-18.5\n11/23/2026,10:15,AM,-30.5\n", later},
		{"am with blanks", "11/23/2026 9:45 AM 20.0\n11/23/2026 10:00 AM -18.5\n11/23/2026 10:15 AM -30.5\n", later},
		{"day first by its own", "23/11/2026 09:45;20.0\n23/11/2026 10:00;-18.5\n23/11/2026 10:15;-30.5\n", later},
		{"month in letters", "time;temp\n23-Nov-26 09.45;20,0 °C\n23-Nov-26 10.00;-18,5 °C\n23-Nov-26 10.15;-30,5 °C\n", later},
		{"month in letters, American", "time;temp\nNov 23, 2026 9:45 am;20.0\nNov 23, 2026 10:00 am;-18.5\nNov 23, 2026 10:15 am;-30.5\n", later},
		{"weekday and month in Norwegian", "time;temp\nman. 23. november 2026 09:45;20,0\nman. 23. november 2026 10:00;-18,5\nman. 23. november 2026 10:15;-30,5\n", later},
		{"o'clock in Norwegian", "03.11.2026 kl. 09.45;20\n03.11.2026 kl. 10.00;-18,5\n03.11.2026 kl 10.15;-30,5\n", three},
		{"o'clock in German", "03.11.2026 um 09:45 Uhr;20\n03.11.2026 um 10:00 Uhr;-18,5\n03.11.2026, 10:15 Uhr;-30,5\n", three},
		{"seconds since 1970", "device,epoch,celsius\n17,1793699100,20\n17,1793700000,-18.5\n17,1793700900,-30.5\n", three},
		{"thousandths since 1970", "1793699100000\t20\n1793700000000\t-18.5\n1793700900000\t-30.5\n", three},
		{"a device's number that looks like a time", "1793699100,2026-11-03 09:45,20\n1793699100,2026-11-03 10:00,-18.5\n1793699100,2026-11-03 10:15,-30.5\n", three},
		{"sep= before, separator after", "sep=;\nZeitstempel;Messwert;\n2026.11.03 09:45:00;20,0;\n2026.11.03 10:00:00;-18,5;\n2026.11.03 10:15:00;-30,5;\n", three},
		{"limits and lowest beside the highest", "Date,Time,Min °C,Max °C,High limit\n2026-11-03,09:45,19,20,99\n2026-11-03,10:00,-19,-18.5,99\n2026-11-03,10:15,-31,-30.5,99\n", three},
		{"figures alone", "20261103094500,20.0\n20261103100000,-18.5\n20261103101500,-30.5\n", three},
		{"figures alone, time apart", "date,time,temp\n20261103,09:45,20.0\n20261103,10:00,-18.5\n20261103,10:15,-30.5\n", three},
		{"time before date", "time;date;°C\n09:45;2026-11-03;20\n10:00;2026-11-03;-18.5\n10:15;2026-11-03;-30.5\n", three},
		{"everything quoted", "\"time\",\"temp \"\"core\"\"\"\n\"2026-11-03 09:45\",\"20,0\"\n\"2026-11-03 10:00\",\"-18,5\"\n\"2026-11-03 10:15\",\"-30,5\"\n", three},
		{"commas for everything", "time,temperature °C\n2026-11-03 09:45,20,0\n2026-11-03 10:00,-18,5\n2026-11-03 10:15,-30,5\n", three},
		{"minus signs of type setters", "time;°C\n2026-11-03 09:45;20,0\n2026-11-03 10:00;−18,5\n2026-11-03 10:15;–30,5\n", three},
		{"exponents", "time;°C\n2026-11-03 09:45;2.00E+01\n2026-11-03 10:00;-1.85E+01\n2026-11-03 10:15;-3.05e1\n", three},
		{"newest first", "time;°C\n2026-11-03 10:15;-30.5\n2026-11-03 10:00;-18.5\n2026-11-03 09:45;20\n", three},
		{"byte order mark", "\xef\xbb\xbftime;°C\n2026-11-03 09:45;20\n2026-11-03 10:00;-18.5\n2026-11-03 10:15;-30.5\n", three},
		{"CR alone", "time;°C\r2026-11-03 09:45;20\r2026-11-03 10:00;-18.5\r2026-11-03 10:15;-30.5\r", three},
		{"before, between and after", "Logger 7 of Lauvkroken Museum\nInterval: 15 min\nStarted;2026-11-03 09:30\n\nno.;time;temperature\n;;°C\n1;2026-11-03 09:45;20\n2;2026-11-03 10:00;-18.5\n-- logger read out --\nno.;time;temperature\n3;2026-11-03 10:15;-30.5\n\nMinimum;2026-11-03 10:15;-30.5\nMaximum;2026-11-03 09:45;20\nEnd of file\n", three},
		{"units line and other columns", "Date;Time;Temp;Humidity;Battery\ndd.mm.yyyy;hh:mm;°C;%;V\n03.11.2026;09:45;20,0;45;3,1\n03.11.2026;10:00;-18,5;99;3,1\n03.11.2026;10:15;-30,5;99;3,0\n", three},
		{"heading that says the offset", "#,\"Date Time, GMT+01:00\",\"Temp, °C\"\n1,2026-11-03 10:45,20\n2,2026-11-03 11:00,-18.5\n3,2026-11-03 11:15,-30.5\n", three},
		{"missing readings", "time;°C\n2026-11-03 09:45;20\n2026-11-03 09:50;---\n2026-11-03 09:55;NaN\n2026-11-03 10:00;-18.5\n2026-11-03 10:05;\n2026-11-03 10:10\n2026-11-03 10:12;-127\n2026-11-03 10:15;-30.5\n", three},
		{"twice the same moment", "time;°C\n2026-11-03 09:45;19\n2026-11-03 09:45;20\n2026-11-03 10:00;-18.5\n2026-11-03 10:15;-30.5\n2026-11-03 10:15;-31\n", three},
		{"24 o'clock", "time;°C\n2026-11-02 24:00;20\n2026-11-03 00:15;-18.5\n", "2026-11-03 00:00:00 20.00, 2026-11-03 00:15:00 -18.50"},
		{"midnight and noon of 12 hours", "time;°C\n2026-11-03 12:00 AM;20\n2026-11-03 12:00 PM;-18.5\n2026-11-03 11:59 p.m.;-30\n", "2026-11-03 00:00:00 20.00, 2026-11-03 12:00:00 -18.50, 2026-11-03 23:59:00 -30.00"},
		{"year first in two figures", "26-11-03 09:45;20\n26-11-03 23:00;-18.5\n26-11-04 10:15;-30.5\n", "2026-11-03 09:45:00 20.00, 2026-11-03 23:00:00 -18.50, 2026-11-04 10:15:00 -30.50"},
	} {
		log, err := treatment.Read([]byte(c.file), treatment.Options{})
		if err != nil || said(log) != c.want {
			t.Errorf("%s: %v\n%s, not\n%s\n%+v", c.name, err, said(log), c.want, log.Notes)
		}
	}
}

// The same table in other character sets.
func TestCharsets(t *testing.T) {
	file := "Zeit;Temperatur °C\n03.11.2026 09:45;20,0\n03.11.2026 10:00;-18,5\n03.11.2026 10:15;-30,5\n"
	wide := func(mark, little bool) []byte {
		var out []byte
		units := utf16.Encode([]rune(file))
		if mark {
			units = append([]uint16{0xFEFF}, units...)
		}
		for _, u := range units {
			if little {
				out = append(out, byte(u), byte(u>>8))
			} else {
				out = append(out, byte(u>>8), byte(u))
			}
		}
		return out
	}
	for name, c := range map[string]struct {
		data    []byte
		charset string
	}{
		"UTF-16, little end first": {wide(true, true), "UTF-16"}, "UTF-16, big end first": {wide(true, false), "UTF-16"},
		"UTF-16 without its mark": {wide(false, true), "UTF-16"}, "big end first without its mark": {wide(false, false), "UTF-16"},
		"Windows-1252": {[]byte(strings.ReplaceAll(file, "°", "\xb0")), "Windows-1252"}, "UTF-8": {[]byte(file), "UTF-8"},
	} {
		log, err := treatment.Read(c.data, treatment.Options{})
		if err != nil || said(log) != three || log.Charset != c.charset || log.Core[0].Unit != treatment.Celsius {
			t.Errorf("%s: %v %s %s", name, err, log.Charset, said(log))
		}
	}
}

// Orders of day and month: what the log itself settles, and what it does not.
func TestDateOrder(t *testing.T) {
	table := func(dates ...string) []byte {
		var b strings.Builder
		b.WriteString("time;°C\n")
		for i, d := range dates {
			fmt.Fprintf(&b, "%s;%d\n", d, -i)
		}
		return []byte(b.String())
	}
	for _, c := range []struct {
		name  string
		file  []byte
		o     treatment.Order
		first string
		want  string // part of the error
	}{
		{"day above 12", table("12/11/2026 23:00", "13/11/2026 00:00"), "", "2026-11-12", ""},
		{"month first, day above 12", table("11/12/2026 23:00", "11/13/2026 00:00"), "", "2026-11-12", ""},
		{"runs as days", table("03/11/2026 23:00", "04/11/2026 00:00", "05/11/2026 00:00"), "", "2026-11-03", ""},
		{"runs as months", table("11/03/2026 23:00", "11/04/2026 00:00", "11/05/2026 00:00"), "", "2026-11-03", ""},
		{"back over a month's end", table("30/11/2026 23:00", "01/12/2026 00:00"), "", "2026-11-30", ""},
		{"one day, either", table("03/11/2026 09:00", "03/11/2026 10:00"), "", "", "03/11/2026 may be 3 November 2026 or 11 March 2026, and both fit the whole log; say whether it is day first or month first"},
		{"one day, said", table("03/11/2026 09:00", "03/11/2026 10:00"), treatment.MonthFirst, "2026-03-11", ""},
		{"one day, both the same", table("11/11/2026 09:00", "11/11/2026 10:00"), "", "2026-11-11", ""},
		{"points are day first", table("03.11.2026 09:00", "03.11.2026 10:00"), "", "2026-11-03", ""},
		{"points, no such day", table("31.11.2026 09:00", "03.12.2026 10:00"), "", "", "line 2, column 1: 31.11.2026 is no day of the calendar, read day first"},
		{"no order", table("31/31/2026 09:00", "03/12/2026 10:00"), "", "", "31/31/2026 is no day of the calendar, read day first or month first"},
		{"said against the log", table("30/11/2026 09:00", "30/11/2026 10:00"), treatment.MonthFirst, "", "read month first"},
		{"time goes back", table("2026-11-03 09:00", "2026-11-03 12:00", "2026-11-03 10:00", "2026-11-03 14:00"), "", "", "line 4, column 1: time goes back, from 2026-11-03 12:00 to 2026-11-03 10:00; sort the lines"},
		{"a little back", table("2026-11-03 09:00", "2026-11-03 09:10", "2026-11-03 09:05", "2026-11-03 09:20"), "", "", "line 4: time goes back"},
		{"day with a year of two figures, either", table("14-03-26 09:00", "14-03-26 10:00"), "", "", "may be 14 March 2026 or 26 March 2014"},
		{"a year in front, if nothing else will do", table("26/03/30 09:00", "26/03/31 10:00"), "", "2026-03-30", ""},
	} {
		log, err := treatment.Read(c.file, treatment.Options{Order: c.o})
		switch {
		case c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)):
			t.Errorf("%s: %v, not %s", c.name, err, c.want)
		case c.want == "" && (err != nil || log.Readings[0].At.Format("2006-01-02") != c.first):
			t.Errorf("%s: %v, %s, not %s", c.name, err, said(log), c.first)
		}
	}
}

// Several channels: the core by name, by wish, else the warmest.
func TestChannels(t *testing.T) {
	file := func(a, b string) []byte {
		return fmt.Appendf(nil, "time;%s;%s\n2026-11-03 09:45;-20;5\n2026-11-03 10:00;-30;-40\n2026-11-03 10:15;---;-40\n", a, b)
	}
	for _, c := range []struct {
		name, a, b, wanted string
		want               string
		core               int
	}{
		{"the core by name", "Core °C", "Air °C", "", "-20 -30", 1},
		{"the core in Norwegian", "Luft °C", "Kjerne °C", "", "5 -40 -40", 1},
		{"none said: the warmest, and none where one is missing", "Probe 1", "Probe 2", "", "5 -30", 2},
		{"wanted by name", "Probe 1", "Probe 2", "probe 2", "5 -40 -40", 1},
		{"wanted by a part", "Shelf °C", "Bag °C", "bag", "5 -40 -40", 1},
		{"wanted by place", "Probe A", "Probe B", "1", "-20 -30", 1},
		{"no headings of temperature", "upper", "lower", "", "5 -30", 2},
		{"one is no temperature of the load", "Temp °C", "Dew point °C", "", "-20 -30", 1},
		{"another is humidity", "Temp", "RH %", "", "-20 -30", 1},
	} {
		log, err := treatment.Read(file(c.a, c.b), treatment.Options{Channel: c.wanted})
		var got []string
		for _, r := range log.Readings {
			got = append(got, fmt.Sprint(r.C))
		}
		if err != nil || strings.Join(got, " ") != c.want || len(log.Core) != c.core {
			t.Errorf("%s: %v %v, not %s; %+v", c.name, err, got, c.want, log.Notes)
		}
	}
	for _, wanted := range []string{"shelf", "probe"} {
		if _, err := treatment.Read(file("Probe 1", "Probe 2"), treatment.Options{Channel: wanted}); err == nil || !strings.Contains(err.Error(), `there are "Probe 1", "Probe 2"; name one`) {
			t.Errorf("%s: %v", wanted, err)
		}
	}
	// A probe that never reads is no reason to have no readings.
	log, err := treatment.Read([]byte("time;Probe 1;Probe 2\n2026-11-03 09:45;-20;---\n2026-11-03 10:00;-30;---\n"), treatment.Options{})
	if err != nil || said(log) != "2026-11-03 09:45:00 -20.00, 2026-11-03 10:00:00 -30.00" {
		t.Errorf("%v %s", err, said(log))
	}
}

// Units: by heading, by cell, before the table, by option, else the safe one.
func TestUnits(t *testing.T) {
	for _, c := range []struct {
		name, head, cell string
		o                treatment.Unit
		want             float64
	}{
		{"heading °F", "time;Temp (F)", "-22", "", -30},
		{"heading °F, words", "time;temperature fahrenheit", "-4", "", -20},
		{"cell °F", "time;temp", "-22.0 °F", "", -30},
		{"cell F over a heading", "time;temp °C", "-22 F", "", -30},
		{"before the table", "Temperature unit: °F\ntime;temp", "-22", "", -30},
		{"before the table, °C", "Temp. Unit;C\ntime;temp", "-22", "", -22},
		{"by option", "time;temp", "-22", treatment.Fahrenheit, -30},
		{"the file over the option", "time;temp °C", "-22", treatment.Fahrenheit, -22},
		{"none", "time;temp", "-22", "", -22},
		{"a probe called F", "time;Probe F", "-22", "", -22},
		{"a bare letter after temp", "time;Temp_F", "-22", "", -30},
		{"a broken degree sign", "time;Temp (\uFFFDC)", "-22", "", -22},
	} {
		log, err := treatment.Read([]byte(c.head+"\n2026-11-03 09:45;"+c.cell+"\n"), treatment.Options{Unit: c.o})
		if err != nil || len(log.Readings) != 1 || math.Abs(log.Readings[0].C-c.want) > 1e-9 {
			t.Errorf("%s: %v %+v, not %v", c.name, err, log.Readings, c.want)
		}
		if guessed := strings.Contains(fmt.Sprint(log.Notes), "no unit is said; taken as °C"); guessed != (c.name == "none" || c.name == "a probe called F") {
			t.Errorf("%s: %+v", c.name, log.Notes)
		}
	}
}

// Summer time ends on 25 October 2026 at 03:00 and begins on 29 March 2026 at
// 02:00 in Norway.
func TestChangeOfClock(t *testing.T) {
	zone := oslo(t)
	for _, c := range []struct {
		name  string
		times string
		hours float64 // from first to last
		note  string
	}{
		{"autumn, the logger changes", "10-25 01:00, 10-25 02:00, 10-25 02:00, 10-25 03:00, 10-25 04:00", 4, "changed with it"},
		{"autumn, half hours, it changes", "10-25 01:30, 10-25 02:00, 10-25 02:30, 10-25 02:00, 10-25 02:30, 10-25 03:00", 2.5, "changed with it"},
		{"autumn, the logger keeps its time", "10-25 01:00, 10-25 02:00, 10-25 03:00, 10-25 04:00", 3, "kept the time it was set to"},
		{"spring, the logger changes", "03-29 00:00, 03-29 01:00, 03-29 03:00, 03-29 04:00", 3, "changed with it"},
		{"spring, the logger keeps its time", "03-29 00:00, 03-29 01:00, 03-29 02:00, 03-29 03:00", 3, "kept the time it was set to"},
		{"far apart in autumn: shorter if kept", "10-24 12:00, 10-25 12:00", 24, "an hour shorter"},
		{"far apart in spring: shorter if changed", "03-28 12:00, 03-29 12:00", 23, "an hour shorter"},
		{"no change", "11-03 09:00, 11-03 10:00", 1, ""},
	} {
		file := "time;°C\n"
		for at := range strings.SplitSeq(c.times, ", ") {
			file += "2026-" + at + ";-30\n"
		}
		log, err := treatment.Read([]byte(file), treatment.Options{Zone: zone})
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		first, last := log.Readings[0].At, log.Readings[len(log.Readings)-1].At
		if got := last.Sub(first).Hours(); got != c.hours || len(log.Readings) != strings.Count(c.times, ",")+1 {
			t.Errorf("%s: %v h in %d readings, not %v h", c.name, got, len(log.Readings), c.hours)
		}
		if notes := fmt.Sprint(log.Notes); c.note != "" && !strings.Contains(notes, c.note) || c.note == "" && strings.Contains(notes, "clock changed") {
			t.Errorf("%s: %s", c.name, notes)
		}
	}
}

func TestReadRefuses(t *testing.T) {
	for _, c := range []struct{ name, file, want string }{
		{"empty", "", "no line has a date, a time and a temperature; export"},
		{"no table", "Lorem ipsum\ndolor sit amet\n", "no line has a date"},
		{"a date without a time", "2026-11-03;-30\n2026-11-04;-30\n", "no line has a date, a time"},
		{"nothing but missing", "time;°C\n2026-11-03 09:00;---\n2026-11-03 10:00;---\n", "line 2: no row has a temperature"},
		{"words alone", "time;temp\n2026-11-03 09:00;cold\n2026-11-03 10:00;colder\n", "no line has a date"},
		{"a probe that never reads", "time;RH %\n2026-11-03 09:00;n/a\n2026-11-03 10:00;n/a\n", "line 2: no column holds temperatures; give the column the heading"},
		{"commas for everything and no heading", "2026-11-03 09:00,-30,5\n2026-11-03 10:00,-30,4\n", "line 1, column 18: -30,5 may be one figure with a comma or two channels; put a line of headings"},
		{"a broken date between rows", "time;°C\n2026-11-03 09:00;-30\n2026-11-O3 10:00;-30\n2026-11-03 11:00;-30\n", "line 3, column 1: \"2026-11-O3 10:00\" is no date and time as the other lines have it; mend it"},
		{"no unit and below -40", "time;temp\n2026-11-03 09:00;-39\n2026-11-03 10:00;-41\n", "line 3: -41, and nothing says whether °C or °F; below -40 °F is the warmer; write the unit"},
		{"30 February", "time;°C\n2026-02-28 09:00;-30\n2026-02-30 10:00;-30\n", "line 3, column 1: 2026-02-30 is no day"},
		{"a broken time in its column", "n;date;time;°C\n1;2026-11-03;09:00;-30\n2;2026-11-03;1O:00;-30\n3;2026-11-03;11:00;-30\n", "line 3, column 14: \"1O:00\" is no date and time"},
	} {
		_, err := treatment.Read([]byte(c.file), treatment.Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v, not %s", c.name, err, c.want)
		}
	}
}
