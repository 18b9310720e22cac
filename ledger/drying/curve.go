package drying

import (
	"fmt"
	"math"
	"slices"

	"blotter/ledger/dates"
	"blotter/ledger/distribution"
)

// Weighing is the mass of a load, or of a plant, at a time.
type Weighing struct {
	Day  float64 // days since the start of the load; 0.5 is noon after a start at midnight
	Mass float64 // grams, net of papers and press
}

// Weighed are the settings of the curve.
type Weighed struct {
	Within       float64 // ready when the mass is within this share above the plateau: 0.02 for 2 %
	Confidence   float64 // of the intervals: 0.95
	Rise         float64 // a rise of mass of more than this share of it is told of: the data support no curve
	PlateauError float64 // the plateau counts as known when half its interval is at most this share of it
	Resolution   float64 // grams, the smallest step of the balance; 0 when not known
}

// Support says whether weighings support a curve, and if not why.
type Support string

// What weighings can say of a load. Only Supported gives a ready date.
const (
	Supported      Support = "supported"
	BadWeighing    Support = "weighing that cannot be"
	TooFew         Support = "too few weighings"
	Rising         Support = "mass rises"
	NoLoss         Support = "no loss of mass"
	StillLinear    Support = "loss does not slow down yet"
	LossBefore     Support = "loss was over before the second weighing"
	PlateauUnknown Support = "plateau not known"
	RateUnknown    Support = "rate not known"
)

// Estimate is a value with its standard error and its interval at the
// confidence of the settings.
type Estimate struct {
	Value, Error float64
	Low, High    float64
}

// Curve is what weighings say: the first-order loss to a plateau
//
//	m(t) = p + (m0 - p) exp(-k (t - t0))
//
// fitted by least squares, t0 being the time of the first weighing. A load that
// loses at a constant rate first, as very wet ones do, does not follow it; the
// Residual shows.
type Curve struct {
	Support Support
	Why     string // in words, also of what is supported
	Number  int    // weighings used
	First   float64
	Last    float64
	Fitted  bool // the estimates below are there, though they may not be supported

	Plateau Estimate // p, grams
	Start   Estimate // m0, grams, at First
	Rate    Estimate // k, per day

	Residual float64  // standard deviation of the weighings around the curve, grams
	Ready    Estimate // days since the start of the load, with a Supported curve alone
}

// Mass is the mass on the fitted curve at a time, in grams; NaN if there is
// none.
func (c Curve) Mass(day float64) float64 {
	if !c.Fitted {
		return math.NaN()
	}
	return c.Plateau.Value + (c.Start.Value-c.Plateau.Value)*math.Exp(-c.Rate.Value*(day-c.First))
}

// ReadyDays is Ready as days of the calendar, each rounded up, for a load
// started on a day; ok is false when there is no ready date. The days lie within
// ten years of the start.
func (c Curve) ReadyDays(start dates.Day) (at, from, to dates.Day, ok bool) {
	if c.Support != Supported {
		return 0, 0, 0, false
	}
	day := func(v float64) dates.Day {
		return start + dates.Day(math.Ceil(min(max(v, 0), longest)))
	}
	return day(c.Ready.Value), day(c.Ready.Low), day(c.Ready.High), true
}

// problem says what of the settings cannot be.
func (s Weighed) problem() string {
	share := func(v float64) bool { return v > 0 && v < 1 }
	switch {
	case !share(s.Within):
		return fmt.Sprintf("within %v of the plateau: write a share between 0 and 1, for example 0.02", s.Within)
	case !share(s.Confidence):
		return fmt.Sprintf("confidence %v: write a share between 0 and 1, for example 0.95", s.Confidence)
	case !share(s.Rise) || !share(s.PlateauError):
		return fmt.Sprintf("rise %v and plateau error %v: write shares between 0 and 1", s.Rise, s.PlateauError)
	case !(s.Resolution >= 0 && s.Resolution < math.Inf(1)):
		return fmt.Sprintf("resolution %v g of the balance", s.Resolution)
	}
	return ""
}

// Fit fits the curve to weighings in any order. It is an error only when the
// settings cannot be; what the weighings cannot say is in Support and Why.
//
// Standard errors are those of the linearized fit with n-3 degrees of freedom,
// intervals use Student's t, and that of the ready date the delta method: the
// error of the three parameters carried over by the derivatives of
//
//	t0 + ln((m0 - p) / (Within p)) / k
//
// A balance that shows steps of Resolution is never believed better than their
// rounding (Resolution/√12).
func Fit(weighings []Weighing, s Weighed) (Curve, error) {
	if why := s.problem(); why != "" {
		return Curve{}, fmt.Errorf("drying curve: %s", why)
	}
	w := slices.Clone(weighings)
	slices.SortStableFunc(w, func(a, b Weighing) int {
		switch {
		case a.Day < b.Day:
			return -1
		case a.Day > b.Day:
			return 1
		}
		return 0
	})
	c := Curve{Number: len(w)}
	if c.Support, c.Why = s.look(w); c.Support != "" {
		return c, nil
	}
	c.First, c.Last = w[0].Day, w[len(w)-1].Day
	span := c.Last - c.First
	t, m := make([]float64, len(w)), make([]float64, len(w))
	for i := range w {
		t[i], m[i] = (w[i].Day-c.First)/span, w[i].Mass
	}
	c.estimate(fitExponential(t, m), span, s)
	return c, nil
}

// look says what can be said before any curve is fitted; "" when one can be.
func (s Weighed) look(w []Weighing) (Support, string) {
	for _, x := range w {
		if !(x.Mass > 0) || x.Mass > 1e9 || !(math.Abs(x.Day) <= longest*10) {
			return BadWeighing, fmt.Sprintf("%v g on day %v: a mass is above 0 and in grams, net of papers and press", x.Mass, x.Day)
		}
	}
	times := 0
	for i := range w {
		if i == 0 || w[i].Day > w[i-1].Day {
			times++
		}
	}
	if times < 4 {
		return TooFew, fmt.Sprintf("weighed at %s, 4 are needed: a curve has three unknowns, and the fourth shows its error", counted(times, "time"))
	}
	least, most := w[0], w[0]
	for _, x := range w {
		if rise := x.Mass - least.Mass; x.Day > least.Day && rise > s.Rise*least.Mass && rise > 2*s.Resolution {
			return Rising, fmt.Sprintf("%s g on day %s, %s g on day %s: the load takes up water, or not the same things were weighed",
				number(least.Mass), number(least.Day), number(x.Mass), number(x.Day))
		}
		if x.Mass < least.Mass {
			least = x
		}
		if x.Mass > most.Mass {
			most = x
		}
	}
	if most.Mass-least.Mass <= max(2*s.Resolution, 1e-9*most.Mass) {
		return NoLoss, fmt.Sprintf("all weighings lie between %s and %s g: dry already, or not drying at all; test by hand", number(least.Mass), number(most.Mass))
	}
	return "", ""
}

func counted(n int, word string) string {
	if n == 1 {
		return "1 " + word
	}
	return fmt.Sprintf("%d %ss", n, word)
}

// number is v with at most four significant figures, as prose has it.
func number(v float64) string {
	if math.Abs(v) >= 1000 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// estimate turns a shape into the curve's estimates and judges them.
func (c *Curve) estimate(f shape, span float64, s Weighed) {
	freedom := float64(c.Number - 3)
	variance := f.rss / freedom
	if rounding := s.Resolution * s.Resolution / 12; variance < rounding {
		variance = rounding
	}
	c.Residual = math.Sqrt(f.rss / freedom)
	q := distribution.StudentQuantile(0.5+s.Confidence/2, freedom)
	one := func(v, varianceOf float64) Estimate {
		e := math.Sqrt(max(varianceOf, 0))
		return Estimate{v, e, v - q*e, v + q*e}
	}
	c.Fitted = f.solved && !f.low && !f.high
	if c.Fitted {
		c.Plateau = one(f.p, variance*f.cov[0][0])
		c.Start = one(f.m0, variance*f.cov[1][1])
		c.Rate = one(f.k/span, variance*f.cov[2][2]/span/span)
	}
	if c.Support, c.Why = c.judge(f, s, variance, q); c.Support != Supported {
		return
	}
	fall := f.m0 - f.p
	target := s.Within * f.p
	if fall <= target {
		c.Ready = Estimate{c.First, 0, c.First, c.First}
		c.Why = fmt.Sprintf("within %s %% of the plateau since the first weighing", number(100*s.Within))
		return
	}
	at := math.Log(fall/target) / f.k
	d := [3]float64{(-1/fall - 1/f.p) / f.k, 1 / (fall * f.k), -at / f.k}
	v := 0.0
	for i := range d {
		for j := range d {
			v += d[i] * d[j] * f.cov[i][j]
		}
	}
	c.Ready = one(c.First+at*span, variance*v*span*span)
	c.Why = fmt.Sprintf("%s g falls to within %s %% of a plateau of %s g", number(f.m0), number(100*s.Within), number(f.p))
	if c.Ready.Value > c.Last+span {
		c.Why += "; the day lies further ahead than the weighings reach back, weigh again before trusting it"
	}
}

// judge says whether the fit supports a ready date.
func (c *Curve) judge(f shape, s Weighed, variance, q float64) (Support, string) {
	percent := number(100 * s.Confidence)
	switch {
	case f.m0 <= f.p:
		return Rising, fmt.Sprintf("the curve that fits best rises from %s g", number(f.m0))
	case f.low || f.line-f.rss <= q*q*variance || f.line <= 1e-18*f.m0*f.m0:
		return StillLinear, "a straight line fits as well as a curve within the scatter of the weighings: no end of the loss can be seen yet; weigh again later"
	case f.high:
		return LossBefore, fmt.Sprintf("all loss was before the second weighing; since then about %s g: dry already, or not drying any more; test by hand", number(f.p))
	case !f.solved:
		return PlateauUnknown, "plateau and rate cannot be told apart by these weighings; weigh again later"
	case c.Plateau.Low <= 0 || c.Plateau.High-c.Plateau.Value > s.PlateauError*c.Plateau.Value:
		return PlateauUnknown, fmt.Sprintf("the plateau lies between %s and %s g (%s %%): too wide for a ready date; weigh again later",
			number(max(c.Plateau.Low, 0)), number(c.Plateau.High), percent)
	case c.Rate.Low <= 0:
		return RateUnknown, fmt.Sprintf("the rate %s a day has an error of %s: it may as well be 0", number(c.Rate.Value), number(c.Rate.Error))
	}
	return Supported, ""
}
