package main

import (
	"fmt"
	"strings"

	"blotter/ledger/dates"
	"blotter/ledger/drying"
	"blotter/ledger/work/due"
)

// pressOut is a load of the press as JSON: its calendar, what its weighings
// say, how it is stacked.
type pressOut struct {
	Problem  string     `json:"problem,omitempty"` // why there is no calendar
	Steps    []stepOut  `json:"steps"`
	Test     []string   `json:"test_by_hand,omitempty"`
	Cautions []string   `json:"cautions,omitempty"`
	Curve    *curveOut  `json:"curve,omitempty"`
	Stack    []stackOut `json:"stack,omitempty"`
	Lies     string     `json:"stack_order,omitempty"`
}

type stepOut struct {
	Day   string `json:"day"`
	Until string `json:"until,omitempty"`
	What  string `json:"what"`
	State string `json:"state"`
}

// curveOut is the drying curve. Its figures are there when one could be
// fitted, Ready when the weighings support it.
type curveOut struct {
	Support   string       `json:"support"`
	Why       string       `json:"why"`
	Weighings int          `json:"weighings"`
	Plateau   *estimateOut `json:"plateau_g,omitempty"`
	Rate      *estimateOut `json:"rate_per_day,omitempty"`
	Residual  *float64     `json:"residual_g,omitempty"`
	Ready     string       `json:"ready,omitempty"`
	From      string       `json:"ready_from,omitempty"`
	To        string       `json:"ready_to,omitempty"`
}

type estimateOut struct {
	Value float64 `json:"value"`
	Error float64 `json:"standard_error"`
}

type stackOut struct {
	Item  string `json:"item"`
	Count int    `json:"count"`
}

// press is what a load of the press is known to be; nil for other works.
func (v *workView) press() *pressOut {
	if k := v.file.Kind.Name; k != "press" && k != "drying" {
		return nil
	}
	p := due.ReadPress(v.works, v.file, v.on)
	out := &pressOut{Problem: p.Problem, Steps: []stepOut{}, Test: p.Calendar.ByHand, Cautions: p.Calendar.Cautions}
	for _, s := range p.Calendar.Steps {
		x := stepOut{Day: s.Day.String(), What: s.Words(), State: v.stepState(p, s)}
		if s.Until > s.Day {
			x.Until = s.Until.String()
		}
		out.Steps = append(out.Steps, x)
	}
	if len(p.Weighings) > 0 && p.Curve.Support != "" {
		out.Curve = curveOf(p)
	}
	if build, counts, plants, ok := due.Stack(p); ok {
		for _, q := range counts {
			out.Stack = append(out.Stack, stackOut{string(q.Item), q.Count})
		}
		out.Lies = liesAs(build, plants)
	}
	return out
}

// stepState is what became of a step of the calendar by the day that is shown.
func (v *workView) stepState(p due.Press, s drying.Step) string {
	verbs := map[drying.What][]string{drying.ChangePapers: {"papers"}, drying.TurnBag: {"turned"}, drying.OpenBag: {"drying"}, drying.TestByHand: {"tested"}}[s.What]
	for _, e := range v.file.Events {
		for _, verb := range verbs {
			late := s.What == drying.TestByHand || s.What == drying.OpenBag // a day after it does as well
			if e.Verb == verb && e.Day <= v.on && (e.Day == s.Day || late && e.Day > s.Day) {
				return "done " + dayAndMonth(e.Day)
			}
		}
	}
	switch {
	case !v.works.Open(v.file, v.on) && (s.Day > p.Load.Start):
		if s.Day > v.on || len(verbs) == 0 {
			return "no longer needed"
		}
		return "no line of it"
	case len(verbs) == 0 && v.on < s.Day:
		return "to come"
	case len(verbs) == 0:
		return "reached"
	case s.Day == v.on:
		return "today"
	case s.Day > v.on:
		return "to come"
	}
	return "no line of it"
}

func curveOf(p due.Press) *curveOut {
	c := p.Curve
	out := &curveOut{Support: string(c.Support), Why: c.Why, Weighings: len(p.Weighings)}
	if c.Fitted {
		residual := c.Residual
		out.Plateau, out.Rate, out.Residual = &estimateOut{c.Plateau.Value, c.Plateau.Error}, &estimateOut{c.Rate.Value, c.Rate.Error}, &residual
	}
	if at, from, to, ok := c.ReadyDays(p.Load.Start); ok {
		out.Ready, out.From, out.To = at.String(), from.String(), to.String()
	}
	return out
}

// liesAs is the order of a stack from the bottom, in words; of more than two
// plants as far as it takes to see how it goes on.
func liesAs(b drying.Build, plants int) string {
	var names []string
	for l := range b.Layers(plants) {
		name := string(l.Item)
		if l.Item == drying.Fold {
			name += " with plant " + itoa(l.Plant)
		}
		names = append(names, name)
	}
	for i, name := range names {
		if plants > 2 && strings.HasSuffix(name, " with plant 2") {
			return strings.Join(names[:i+1], ", ") + ", and so on to plant " + itoa(plants) + ", on top " + names[len(names)-1]
		}
	}
	return strings.Join(names, ", ")
}

// showPress tells of a load of the press.
func (v *workView) showPress(p *pressOut) {
	if p == nil {
		return
	}
	if p.Problem != "" {
		v.desk.say("%s", wrap(sentence("No calendar: "+p.Problem), v.desk.Width, ""))
	}
	if len(p.Steps) > 0 {
		v.desk.say("Calendar:")
		var rows [][]string
		for i, s := range due.ReadPress(v.works, v.file, v.on).Calendar.Steps {
			day := dates.Short(s.Day)
			if s.Until > s.Day {
				day += " to " + dates.Short(s.Until)
			}
			rows = append(rows, []string{day, p.Steps[i].What, p.Steps[i].State})
		}
		v.desk.table("  ", rows)
	}
	if len(p.Test) > 0 {
		v.desk.say("%s", wrap(sentence("Test by hand: "+strings.Join(p.Test, "; ")), v.desk.Width, ""))
	}
	if c := p.Curve; c != nil {
		v.desk.say("%s", wrap(v.curveWords(c), v.desk.Width, ""))
	}
	if len(p.Stack) > 0 {
		var parts []string
		for _, s := range p.Stack {
			parts = append(parts, count(s.Count, s.Item))
		}
		v.desk.say("%s", wrap(sentence("Stack: "+andJoin(parts)+". From the bottom: "+p.Lies), v.desk.Width, ""))
	}
	if len(p.Cautions) > 0 {
		v.desk.say("%s", wrap("Caution: "+sentence(strings.Join(p.Cautions, "; "))+" "+ownRules, v.desk.Width, ""))
	}
}

// curveWords is the drying curve in a few sentences.
func (v *workView) curveWords(c *curveOut) string {
	words := "Weighings: " + itoa(c.Weighings) + "."
	if c.Plateau != nil {
		words += fmt.Sprintf(" Curve fitted: dry at %.1f g ± %.1f, loss %.2f ± %.2f a day, weighings %.1f g off it.", c.Plateau.Value, c.Plateau.Error, c.Rate.Value, c.Rate.Error, *c.Residual)
	}
	if c.Ready == "" {
		return words + " " + sentence("No ready day from them: "+c.Why)
	}
	return words + " " + sentence(fmt.Sprintf("Ready about %s (%s to %s): %s; test by hand all the same", v.desk.shownDate(c.Ready), v.desk.shownDate(c.From), v.desk.shownDate(c.To), c.Why))
}
