package drying_test

import (
	"fmt"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"blotter/ledger/dates"
	"blotter/ledger/drying"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"
)

// standard reads the figures of SETTINGS.md.
func standard(t testing.TB) drying.Settings {
	t.Helper()
	data, err := os.ReadFile("SETTINGS.md")
	if err != nil {
		t.Fatal(err)
	}
	number := func(s string) int {
		n, err := strconv.Atoi(s)
		if err != nil {
			t.Fatal(err)
		}
		return n
	}
	s := drying.Settings{Keeping: drying.Keeping{Turn: []int{1, 2}, Keeps: 90, LitreFrom: 150, LitreTo: 200, Cautions: []string{"alcohol burns"}}}
	for line := range strings.Lines(string(data)) {
		cells := strings.Split(strings.Trim(strings.TrimSpace(line), "|"), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		switch {
		case len(cells) == 8 && slices.Contains(drying.Kinds(), drying.Kind(cells[0])):
			from, to, _ := strings.Cut(cells[6], "-")
			s.Rows = append(s.Rows, drying.Row{Kind: drying.Kind(cells[0]), Method: drying.Method(cells[1]), Papers: drying.Papers{Daily: number(cells[2]), Then: number(cells[3])},
				Test: number(cells[4]), Earliest: number(cells[5]), From: number(from), To: number(to), ByHand: []string{"brittle"}, Cautions: []string{"caution of " + cells[0]}, Prepare: []string{"as " + cells[0]}})
		case len(cells) == 4 && slices.Contains(drying.Weathers(), drying.Weather(cells[1])):
			f, err := strconv.ParseFloat(cells[2], 64)
			if err != nil {
				t.Fatal(err)
			}
			s.Weather = append(s.Weather, drying.Factor{Method: drying.Method(cells[0]), Weather: drying.Weather(cells[1]), Factor: f})
		}
	}
	if len(s.Rows) != 18 || len(s.Weather) != 6 {
		t.Fatalf("%d rows and %d factors in SETTINGS.md", len(s.Rows), len(s.Weather))
	}
	if p := s.Problems(); len(p) > 0 {
		t.Fatal(p)
	}
	return s
}

var pressed = dates.DayOf(2026, 7, 14)

// Common practice, no source: one or two days is the first day to test a thin
// herb by hand, never its usual ready date; most plants want several days;
// woody ones and cacti more than a week.
func TestStandardFiguresAreCommonPractice(t *testing.T) {
	s := standard(t)
	for _, r := range s.Rows {
		c, err := s.Calendar(drying.Load{Kind: r.Kind, Method: r.Method, Start: pressed})
		if err != nil {
			t.Fatal(err)
		}
		test, _ := c.Find(drying.TestByHand)
		early, _ := c.Find(drying.EarliestDry)
		usual, _ := c.Find(drying.UsuallyDry)
		name := fmt.Sprintf("%s, %s", r.Kind, r.Method)
		if r.Kind == drying.ThinHerb && test.Count != 1 && test.Count != 2 {
			t.Errorf("%s: first tested on day %d, not 1 or 2", name, test.Count)
		}
		if usual.Count <= 2 || early.Count <= 2 || usual.Count <= test.Count {
			t.Errorf("%s: tested on day %d, ready on day %d, usually from day %d: several days are wanted", name, test.Count, early.Count, usual.Count)
		}
		if (r.Kind == drying.Woody || r.Kind == drying.Succulent) && (early.Count <= 7 || usual.Count <= 7) {
			t.Errorf("%s: ready on day %d, usually from day %d: more than a week is wanted", name, early.Count, usual.Count)
		}
		if r.Method == drying.Unheated {
			for day := 1; day <= 4; day++ { // Trans. NZ Inst. 27, 1894: at least every 24 h for the first 4 days
				if len(c.Papers(pressed+dates.Day(day), pressed+dates.Day(day))) != 1 {
					t.Errorf("%s: papers not changed on day %d", name, day)
				}
			}
		}
	}
}

func words(c drying.Calendar) []string {
	var out []string
	for _, s := range c.Steps {
		out = append(out, s.Day.String()+" "+s.Words())
	}
	return out
}

// A calendar worked out by hand from the figures of SETTINGS.md.
func TestCalendarByHand(t *testing.T) {
	c, err := standard(t).Calendar(drying.Load{Kind: drying.ThinHerb, Method: drying.Unheated, Start: dates.DayOf(2026, 12, 28)})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{
		"2026-12-29 change the papers (day 1)",
		"2026-12-30 change the papers (day 2)",
		"2026-12-30 first test by hand (day 2)",
		"2026-12-31 change the papers (day 3)",
		"2027-01-01 change the papers (day 4)",
		"2027-01-01 may be ready from now on (day 4); test by hand",
		"2027-01-03 change the papers (day 6)",
		"2027-01-03 usually ready, days 6 to 8; test by hand",
		"2027-01-05 change the papers (day 8)",
	}
	if d := cmp.Diff(want, words(c)); d != "" {
		t.Error(d)
	}
	if u, _ := c.Find(drying.UsuallyDry); u.Until != dates.DayOf(2027, 1, 5) {
		t.Errorf("usually ready until %s", u.Until)
	}
	// A load that is not dry on day 8 has its papers changed on.
	if d := cmp.Diff([]dates.Day{dates.DayOf(2027, 1, 7), dates.DayOf(2027, 1, 9)}, c.Papers(dates.DayOf(2027, 1, 6), dates.DayOf(2027, 1, 10))); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([3][]string{{"as thin herb"}, {"brittle"}, {"caution of thin herb"}}, [3][]string{c.Prepare, c.ByHand, c.Cautions}); d != "" {
		t.Error(d)
	}
}

func TestCalendarInHumidWeather(t *testing.T) {
	c, err := standard(t).Calendar(drying.Load{Kind: drying.ThinHerb, Method: drying.Unheated, Weather: drying.Humid, Start: pressed})
	if err != nil {
		t.Fatal(err)
	}
	// x 1.5: daily papers to day 6, tested on day 3, ready on 6, usually 9 to 12.
	var days []int
	for _, s := range c.Steps {
		if s.What == drying.ChangePapers {
			days = append(days, s.Count)
		}
	}
	test, _ := c.Find(drying.TestByHand)
	early, _ := c.Find(drying.EarliestDry)
	usual, _ := c.Find(drying.UsuallyDry)
	if d := cmp.Diff([]int{1, 2, 3, 4, 5, 6, 8, 10, 12}, days); d != "" || test.Count != 3 || early.Count != 6 || usual.Count != 9 || usual.CountTo != 12 {
		t.Error(d, test, early, usual)
	}
}

func TestCalendarOfAlcohol(t *testing.T) {
	s := standard(t)
	bag := drying.Load{Kind: drying.Aquatic, Method: drying.Alcohol, Start: pressed}
	c, err := s.Calendar(bag)
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"2026-07-15 turn the bag (day 1)", "2026-07-16 turn the bag (day 2)", "2026-10-12 open the bag and dry at the latest (kept 90 days)"}
	if d := cmp.Diff(want, words(c)); d != "" {
		t.Error(d)
	}
	if got := c.Papers(pressed, pressed+30); got != nil || !slices.Contains(c.Cautions, "alcohol burns") {
		t.Errorf("papers of a closed bag: %v; cautions %v", got, c.Cautions)
	}
	bag.Opened, bag.OpenedOn, bag.Then = true, pressed+40, drying.WarmAir
	c, err = s.Calendar(bag)
	if err != nil {
		t.Fatal(err)
	}
	if test, ok := c.Find(drying.TestByHand); !ok || test.Day != pressed+41 || test.Count != 1 {
		t.Errorf("opened: first test %+v", test)
	}
	if _, ok := c.Find(drying.TurnBag); ok || !slices.Contains(c.Cautions, "alcohol burns") || !slices.Contains(c.Cautions, "caution of aquatic") {
		t.Errorf("opened: %v, cautions %v", words(c), c.Cautions)
	}
	for name, l := range map[string]drying.Load{
		"opened before it was closed": {Kind: drying.Aquatic, Method: drying.Alcohol, Start: pressed, Opened: true, OpenedOn: pressed - 1, Then: drying.WarmAir},
		"dried by alcohol":            {Kind: drying.Aquatic, Method: drying.Alcohol, Start: pressed, Opened: true, OpenedOn: pressed, Then: drying.Alcohol},
		"no method afterwards":        {Kind: drying.Aquatic, Method: drying.Alcohol, Start: pressed, Opened: true, OpenedOn: pressed},
		"no such kind":                {Kind: "moss", Method: drying.Alcohol, Start: pressed},
		"no such kind pressed":        {Kind: "moss", Method: drying.WarmAir, Start: pressed},
		"no such method":              {Kind: drying.Fern, Method: "oven", Start: pressed},
		"no such weather":             {Kind: drying.Fern, Method: drying.WarmAir, Weather: "fog", Start: pressed},
	} {
		if _, err := s.Calendar(l); err == nil {
			t.Errorf("%s: no error", name)
		}
	}
}

// Steps rise by day, the first test is never after the earliest day nor that
// after the usual ones, worse weather never hastens anything.
func TestCalendarHolds(t *testing.T) {
	s := standard(t)
	rapid.Check(t, func(t *rapid.T) {
		kind := rapid.SampledFrom(drying.Kinds()).Draw(t, "kind")
		method := rapid.SampledFrom([]drying.Method{drying.Unheated, drying.WarmAir}).Draw(t, "method")
		start := dates.Day(rapid.IntRange(-100000, 100000).Draw(t, "start"))
		before := map[drying.What]int{}
		for _, w := range drying.Weathers() {
			c, err := s.Calendar(drying.Load{Kind: kind, Method: method, Weather: w, Start: start})
			if err != nil {
				t.Fatal(err)
			}
			if !slices.IsSortedFunc(c.Steps, func(a, b drying.Step) int { return int(a.Day - b.Day) }) {
				t.Errorf("not sorted: %v", words(c))
			}
			last := 0
			for _, what := range []drying.What{drying.TestByHand, drying.EarliestDry, drying.UsuallyDry} {
				step, ok := c.Find(what)
				if !ok || step.Count < last || step.Count < before[what] || step.Day != start+dates.Day(step.Count) {
					t.Errorf("%s %s %s: %s on day %d after %d, in better weather %d", kind, method, w, what, step.Count, last, before[what])
				}
				last, before[what] = step.Count, step.Count
			}
		}
	})
}

func TestProblemsOfSettings(t *testing.T) {
	ok := drying.Row{Kind: drying.Fern, Method: drying.WarmAir, Test: 1, Earliest: 2, From: 3, To: 4, ByHand: []string{"brittle"}}
	change := func(f func(*drying.Row)) []drying.Row { r := ok; f(&r); return []drying.Row{r} }
	for want, s := range map[string]drying.Settings{
		"stands twice":               {Rows: []drying.Row{ok, ok}},
		"no such kind":               {Rows: change(func(r *drying.Row) { r.Kind = "moss" })},
		"no such method":             {Rows: change(func(r *drying.Row) { r.Method = "oven" })},
		"before day 1":               {Rows: change(func(r *drying.Row) { r.Test = 0 })},
		"before the first test":      {Rows: change(func(r *drying.Row) { r.Test = 3 })},
		"these must rise":            {Rows: change(func(r *drying.Row) { r.To = 2 })},
		"more than ten years":        {Rows: change(func(r *drying.Row) { r.To = 99999 })},
		"below 0":                    {Rows: change(func(r *drying.Row) { r.Papers.Then = -1 })},
		"nothing to test":            {Rows: change(func(r *drying.Row) { r.ByHand = nil })},
		"no such method or weather":  {Weather: []drying.Factor{{Method: drying.WarmAir, Weather: "fog", Factor: 1}}},
		"factor 0":                   {Weather: []drying.Factor{{Method: drying.WarmAir, Weather: drying.Dry}}},
		"day of turning":             {Keeping: drying.Keeping{Turn: []int{3}, Keeps: 2}},
		"stack that a litre serves:": {Keeping: drying.Keeping{LitreFrom: 2, LitreTo: 1}},
	} {
		got := s.Problems()
		if len(got) != 1 || !strings.Contains(got[0], want) {
			t.Errorf("%q: %q", want, got)
		}
		if len(s.Rows) == 1 {
			r := s.Rows[0]
			if _, err := s.Calendar(drying.Load{Kind: r.Kind, Method: r.Method, Start: pressed}); err == nil {
				t.Errorf("%q: a calendar all the same", want)
			}
		}
	}
	if got := (drying.Settings{Rows: []drying.Row{ok, {Kind: drying.Fern, Method: drying.Alcohol}}}).Problems(); len(got) > 0 {
		t.Errorf("good settings: %q", got)
	}
}

func TestLateAndGlue(t *testing.T) {
	waits := []drying.Wait{{Kept: "bag", Days: 1}, {Kept: "fridge", Days: 3}}
	for _, c := range []struct {
		kept  string
		days  int
		asked bool
	}{{"bag", 1, false}, {"bag", 2, true}, {"fridge", 3, false}, {"fridge", 4, true}, {"", 30, false}} {
		if got := drying.Late(pressed, pressed+dates.Day(c.days), c.kept, waits); (got != "") != c.asked {
			t.Errorf("%+v: %q", c, got)
		}
	}
	at := time.Date(2026, 11, 4, 15, 30, 0, 0, time.UTC)
	if got := (drying.Glue{Hours: 24}).Dry(at); !got.Equal(at.Add(24 * time.Hour)) {
		t.Errorf("glue dry at %v", got)
	}
	for hours, days := range map[float64]dates.Day{24: 1, 0.5: 1, 36: 2, 0: 0, -3: 0} {
		if got := (drying.Glue{Hours: hours}).DryOn(pressed); got != pressed+days {
			t.Errorf("%v h: dry on %s, not %s", hours, got, pressed+days)
		}
	}
}
