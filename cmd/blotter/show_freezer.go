package main

import (
	"context"
	"fmt"
	"path"
	"strings"
	"time"

	"blotter/ledger/treatment"
	"blotter/ledger/work/due"
)

// freezerOut is a run of the freezer as JSON: its profile, what is still to
// come, what its log shows. Times are the museum's.
type freezerOut struct {
	Problem  string      `json:"problem,omitempty"` // why there is no profile
	Profile  *profileOut `json:"profile,omitempty"`
	Plan     []planOut   `json:"plan"`
	Log      *logOut     `json:"log,omitempty"`
	Unread   []string    `json:"log_not_read,omitempty"`
	Cautions []string    `json:"cautions,omitempty"`
}

type profileOut struct {
	Name     string  `json:"name"`
	SetPoint float64 `json:"set_point_c"`
	Hours    float64 `json:"hours"`
	Cycles   int     `json:"cycles"`
	Between  float64 `json:"hours_between,omitempty"`
	Closed   float64 `json:"hours_closed,omitempty"`
}

type planOut struct {
	From string `json:"from"`
	What string `json:"what"`
}

// logOut is what the log of a run shows, held to the profile.
type logOut struct {
	Verdict    string         `json:"verdict"`
	Reason     string         `json:"reason"`
	Readings   int            `json:"readings"`
	Longest    *runOut        `json:"longest_at_or_below,omitempty"`
	Reached    string         `json:"reached,omitempty"`
	Coldest    *float64       `json:"coldest_c,omitempty"`
	Gaps       []runOut       `json:"gaps,omitempty"`
	Excursions []excursionOut `json:"excursions,omitempty"`
}

type runOut struct {
	From  string  `json:"from"`
	To    string  `json:"to"`
	Hours float64 `json:"hours"`
}

type excursionOut struct {
	runOut
	Peak   float64 `json:"peak_c"`
	Passed bool    `json:"let_pass"`
}

// freezer is what a run of the freezer is known to be; nil for other works.
func (v *workView) freezer(ctx context.Context) (*freezerOut, error) {
	if v.file.Kind.Name != "freezer" {
		return nil, nil
	}
	r := due.ReadFreezer(v.works, v.file, v.on, v.desk.zone)
	out := &freezerOut{Problem: r.Problem, Plan: []planOut{}}
	if r.Problem != "" {
		return out, nil
	}
	p := r.Profile
	out.Profile = &profileOut{p.Name, p.SetPoint, p.Hours, max(p.Cycles, 1), p.Between, p.Closed}
	for _, c := range treatment.Cautions(treatment.Freezing, p) {
		out.Cautions = append(out.Cautions, c.Words)
	}
	for _, s := range p.Plan(r.Stays...) {
		if !r.Opened {
			out.Plan = append(out.Plan, planOut{v.moment(s.At), s.Words(p)})
		}
	}
	readings, err := v.logged(ctx, out)
	if err != nil || len(r.Stays) == 0 {
		return out, err
	}
	if len(readings) > 0 || r.Out != nil {
		out.Log = v.logOf(treatment.Judge(readings, r.Stays, p))
	}
	return out, nil
}

func (v *workView) moment(t time.Time) string { return t.In(v.desk.zone).Format("2006-01-02 15:04") }

// logged are the readings of all logger's tables that lines up to the day
// name. What cannot be read is told of.
func (v *workView) logged(ctx context.Context, out *freezerOut) ([]treatment.Reading, error) {
	var all []treatment.Reading
	for _, e := range v.file.Events {
		name := path.Base(e.Line.File.Text)
		if e.Day > v.on || !strings.HasSuffix(name, ".csv") && !strings.HasSuffix(name, ".txt") {
			continue
		}
		b, err := v.beside(ctx, path.Join(path.Dir(v.file.Path), name))
		if err != nil {
			return nil, err
		}
		if b == nil {
			out.Unread = append(out.Unread, name+": there is no such file")
			continue
		}
		log, err := treatment.Read(b, treatment.Options{Zone: v.desk.zone})
		if err != nil {
			out.Unread = append(out.Unread, name+": "+err.Error())
			continue
		}
		all = append(all, log.Readings...)
	}
	return all, nil
}

// beside is a file beside a work, of the ledger that is shown; nil when there
// is none.
func (v *workView) beside(ctx context.Context, name string) ([]byte, error) {
	rev := v.desk.opts.text("at")
	if rev == "" {
		return v.desk.read(name)
	}
	id, err := v.desk.revision(ctx, rev)
	if err != nil {
		return nil, err
	}
	src, err := v.desk.repo.At(ctx, id)
	if err != nil {
		return nil, stuck("%v", err)
	}
	files, err := src.Files(ctx)
	if err != nil {
		return nil, stuck("%v", err)
	}
	for _, f := range files {
		if f.Path == name {
			return src.Read(ctx, f)
		}
	}
	return nil, nil
}

func (v *workView) logOf(r treatment.Result) *logOut {
	out := &logOut{Verdict: string(r.Verdict), Reason: r.Reason, Readings: r.Readings}
	span := func(from, to time.Time, d time.Duration) runOut {
		return runOut{v.moment(from), v.moment(to), d.Hours()}
	}
	if r.Readings > 0 {
		c := r.Coldest.C
		out.Coldest = &c
	}
	if r.Reached {
		longest := span(r.Longest.From, r.Longest.To, r.Longest.Cold)
		out.Longest, out.Reached = &longest, v.moment(r.ReachedAt)
	}
	for _, g := range r.Gaps {
		out.Gaps = append(out.Gaps, span(g.From, g.To, g.To.Sub(g.From)))
	}
	for _, e := range r.Excursions {
		if !e.Pause {
			out.Excursions = append(out.Excursions, excursionOut{span(e.From, e.To, e.To.Sub(e.From)), e.Peak, e.Passed})
		}
	}
	return out
}

// showFreezer tells of a run of the freezer.
func (v *workView) showFreezer(f *freezerOut) {
	if f == nil {
		return
	}
	if f.Problem != "" {
		v.desk.say("%s", wrap(sentence("No plan: "+f.Problem), v.desk.Width, ""))
		return
	}
	p := f.Profile
	v.desk.say("Profile %q: %g h at %g °C or colder, %s.", p.Name, p.Hours, p.SetPoint, count(p.Cycles, "cycle"))
	var rows [][]string
	for _, s := range f.Plan {
		rows = append(rows, []string{"from " + v.desk.shownMoment(s.From), s.What})
	}
	if len(rows) > 0 {
		v.desk.say("To come, at the earliest:")
		v.desk.table("  ", rows)
	}
	for _, words := range f.Unread {
		v.desk.say("%s", wrap(sentence("Log not read: "+words), v.desk.Width, ""))
	}
	if f.Log != nil {
		v.showLog(f.Log, p)
	}
	if len(f.Cautions) > 0 {
		v.desk.say("%s", wrap("Caution: "+sentence(strings.Join(f.Cautions, "; ")), v.desk.Width, ""))
	}
}

func (v *workView) showLog(l *logOut, p *profileOut) {
	v.desk.say("%s", wrap(sentence(fmt.Sprintf("Log, %s: %s: %s", count(l.Readings, "reading"), l.Verdict, l.Reason)), v.desk.Width, ""))
	var rows [][]string
	add := func(what string, r runOut, rest string) {
		rows = append(rows, []string{what, v.desk.shownMoment(r.From) + " to " + v.desk.shownMoment(r.To), fmt.Sprintf("%.1f h", r.Hours), rest})
	}
	if l.Longest != nil {
		add("longest cold", *l.Longest, fmt.Sprintf("at or below %g °C", p.SetPoint))
	}
	for _, g := range l.Gaps {
		add("gap", g, "no reading")
	}
	for _, e := range l.Excursions {
		passed := ""
		if e.Passed {
			passed = ", the profile lets it pass"
		}
		add("warm", e.runOut, fmt.Sprintf("up to %g °C%s", e.Peak, passed))
	}
	v.desk.table("  ", rows)
}
