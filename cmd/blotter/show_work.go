package main

import (
	"context"
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// allWork is the word for the works of every kind.
const allWork = "work"

// asksForWork reports whether show is asked for works: their numbers, a kind,
// or all.
func (d *desk) asksForWork(words []string) bool {
	return len(words) > 0 && (d.isWork(words[0]) || slices.Contains(workKindNames(), words[0]) || words[0] == allWork)
}

// showWorks shows works one by one, or the list of a kind.
func (d *desk) showWorks(ctx context.Context, words []string) error {
	on, err := d.onDay()
	if err != nil {
		return err
	}
	w, err := d.worksAt(ctx, d.opts.text("at"))
	if err != nil {
		return err
	}
	if words[0] == allWork || slices.Contains(workKindNames(), words[0]) {
		if len(words) > 1 {
			return misuse("%q lists all of its kind; %q is too much", words[0], words[1])
		}
		return d.listWorks(w, words[0], on)
	}
	var have []ledger.WorkNumber
	for _, f := range w.Files {
		have = append(have, f.Number)
	}
	for i, word := range words {
		n, err := workAmong(word, have)
		if err != nil {
			return err
		}
		v := &workView{desk: d, works: w, file: w.Find(n), on: on}
		switch {
		case d.opts.on("path"):
			d.say("%s", v.file.Path)
		case d.asksJSON():
			out := v.json()
			out.Press = v.press()
			if out.Freezer, err = v.freezer(ctx); err != nil {
				return err
			}
			if err := d.printJSON(out); err != nil {
				return err
			}
		default:
			if i > 0 {
				d.say("")
			}
			if err := v.show(ctx); err != nil {
				return err
			}
		}
	}
	return nil
}

// listWorks lists the works of a kind; of all kinds those that need a hand.
func (d *desk) listWorks(w *work.Works, kind string, on dates.Day) error {
	var rows [][]string
	open, all := 0, 0
	for _, f := range w.Files {
		needs := w.Open(f, on)
		if kind != allWork && f.Kind.Name != kind || kind == allWork && !needs {
			continue
		}
		all++
		if needs {
			open++
		}
		if d.asksJSON() {
			if err := d.printJSON((&workView{desk: d, works: w, file: f, on: on}).json()); err != nil {
				return err
			}
			continue
		}
		last := "no line yet"
		if e := lastEvent(f, on); e != nil {
			last = joinNonEmpty(" ", verbWords(e.Verb), dates.Short(e.Day))
		}
		state := "done"
		switch {
		case needs:
			state = "open"
		case lastEvent(f, on) == nil && len(f.Events) > 0:
			state, last = "to come", joinNonEmpty(" ", verbWords(f.Events[0].Verb), dates.Short(f.Events[0].Day))
		}
		rows = append(rows, []string{string(f.Number), state, last, headWords(f.Work)})
	}
	if d.asksJSON() {
		return nil
	}
	d.table("", rows)
	switch {
	case kind == allWork:
		d.say("%s.", open1(open, "work"))
	default:
		d.say("%s, %s.", countWorks(all, kind), open1(open, ""))
	}
	return nil
}

// countWorks counts works of a kind; kinds that have no plural of their own
// ("traps", "climate", "drying") are counted as works.
func countWorks(n int, kind string) string {
	switch kind {
	case "press", "loan", "gift", "permit", "incident", "inventory", "accession":
		return count(n, kind)
	}
	return count(n, "work") + " of " + kind
}

func open1(n int, noun string) string {
	if noun == "" {
		return thousands(n) + " of them open"
	}
	return count(n, noun) + " open"
}

// lastEvent is the last event up to a day.
func lastEvent(f *work.File, on dates.Day) (last *work.Event) {
	for _, e := range f.Events {
		if e.Day <= on && (last == nil || e.Day >= last.Day) {
			last = e
		}
	}
	return last
}

// headWords is what a work is, in a line.
func headWords(w *ledger.Work) string {
	return joinNonEmpty(", ", w.Title.Text, w.Partner.Text, w.Purpose.Text, w.Place.Text, w.Plants.Text, joinNonEmpty(" ", w.Permit.For.Text, w.Permit.Number.Text))
}

// workView is one work as it is shown.
type workView struct {
	desk  *desk
	works *work.Works
	file  *work.File
	on    dates.Day
}

func (v *workView) show(ctx context.Context) error {
	f := v.file
	v.desk.say("%s", strings.TrimRight(hang(string(f.Number)+"  ", headWords(f.Work), v.desk.Width), " "))
	var rows [][]string
	for _, kv := range headFields(f.Work) {
		rows = append(rows, []string{fieldLabel(kv.Key), kv.Value})
	}
	v.desk.table("  ", rows)
	rows = nil
	for i := range f.Work.Lines {
		rows = append(rows, v.lineRow(i))
	}
	v.desk.table("  ", rows)
	if f.Kind.Name == "permit" {
		v.permit()
	} else {
		v.holds()
	}
	v.showPress(v.press())
	v.showCatch(v.catch())
	run, err := v.freezer(ctx)
	if err != nil {
		return err
	}
	v.showFreezer(run)
	if next := v.next(); next != "" {
		v.desk.next("%s", next)
	}
	return nil
}

// headFields are the fields of the heading, lists in one line each.
func headFields(w *ledger.Work) []ledger.KV {
	var out []ledger.KV
	for _, kv := range ledger.Flatten(w) {
		key, place, _ := cutPlace(kv.Key)
		switch n := len(out); {
		case kv.Key == "work" || strings.HasPrefix(kv.Key, "lines."):
		case place && n > 0 && out[n-1].Key == key:
			out[n-1].Value += "; " + kv.Value
		default:
			out = append(out, ledger.KV{Key: key, Value: kv.Value})
		}
	}
	return out
}

// cutPlace takes the place of an entry off a path: permits.2.
func cutPlace(path string) (key string, place bool, at int) {
	i := strings.LastIndexByte(path, '.')
	if n := atoi(path[i+1:]); i > 0 && n > 0 {
		return path[:i], true, n
	}
	return path, false, 0
}

// saidBehind are the fields of a line that are shown behind what it names, in
// this order, with the words before them.
var saidBehind = []struct{ key, before string }{
	{"to", "to "}, {"number", ""}, {"until", "until "}, {"result", ""}, {"grade", "grade "}, {"damage", ""}, {"method", ""}, {"material", ""}, {"weight", ""},
	{"trap", "trap "}, {"insect", ""}, {"stage", ""}, {"alive", "alive: "}, {"temperature", ""}, {"humidity", ""}, {"hours", "hours: "}, {"file", ""},
	{"by", "by "}, {"note", ""}, {"why", "because "},
}

// lineRow is one line as a row: its place, when, what happened, the rest.
func (v *workView) lineRow(i int) []string {
	l := v.file.Work.Lines[i]
	have := map[string]string{}
	for _, kv := range v.lineFields(i) {
		have[kv.Key] = joinNonEmpty(", ", have[kv.Key], kv.Value)
	}
	things := ""
	for _, e := range v.file.Events {
		if e.N == i {
			things = thingsOf(e.Items)
		}
	}
	if things == "" && l.Count.Set() { // insects, of a trap's reading
		things = l.Count.Text + " caught"
	}
	parts := []string{things}
	for _, s := range saidBehind {
		if words := have[s.key]; words != "" {
			if s.key == "until" {
				words = v.desk.shownDate(words)
			}
			parts = append(parts, s.before+words)
		}
	}
	rest := joinNonEmpty("; ", parts...)
	if l.Mistake.Set() {
		rest = joinNonEmpty("; ", "entered by mistake: "+l.Mistake.Text, rest)
	}
	return []string{itoa(i + 1), v.desk.shownMoment(l.Date.Text), verbWords(l.Event.Text), rest}
}

// lineFields are the fields of one line, without places in its lists.
func (v *workView) lineFields(i int) []ledger.KV {
	list := ledger.Lists(v.file.Work)[0].Entries[i].Fields
	out := make([]ledger.KV, len(list))
	for k, kv := range list {
		key, _, _ := cutPlace(kv.Key)
		out[k] = ledger.KV{Key: key, Value: kv.Value}
	}
	return out
}

// holds tells what the work holds and where each thing is.
func (v *workView) holds() {
	things := v.works.Holds(v.file, v.on)
	if len(things) == 0 {
		v.desk.say("Holds nothing on %s.", dates.Words(v.on))
		return
	}
	v.desk.say("Holds on %s:", dates.Words(v.on))
	var rows [][]string
	for _, g := range v.grouped(things) {
		rows = append(rows, []string{g.state, strings.Join(g.names, ", ")})
	}
	v.desk.table("  ", rows)
}

// inState are things that are in one state.
type inState struct {
	state string
	names []string
}

// grouped puts things together that are in one state, specimens as spans.
func (v *workView) grouped(things []work.Thing) []inState {
	var out []inState
	at := map[string]int{}
	sheets := map[string][]ledger.Number{}
	for _, t := range things {
		state := v.works.StateOf(t, v.on).Words()
		i, ok := at[state]
		if !ok {
			i = len(out)
			at[state], out = i, append(out, inState{state: state})
		}
		if t.Sheet != "" {
			sheets[state] = append(sheets[state], t.Sheet)
		} else {
			out[i].names = append(out[i].names, thingName(t.Item))
		}
	}
	for i, g := range out {
		slices.Sort(sheets[g.state])
		out[i].names = append(spansOf(sheets[g.state]), g.names...)
	}
	return out
}

// thingName is a thing that is no specimen, as its line names it.
func thingName(it work.Item) string {
	switch {
	case it.Who != "":
		return it.Who + " " + it.No
	case it.Other != "":
		return it.Other
	}
	return thingsOf([]work.Item{it})
}

// next is what is to be typed next, when the work needs a hand.
func (v *workView) next() string {
	if !v.works.Open(v.file, v.on) {
		return ""
	}
	if e := lastEvent(v.file, v.on); e != nil && e.Verb == "returned" && len(v.works.Holds(v.file, v.on)) > 0 {
		return "blotter log " + string(v.file.Number) + " returned" // the rest is still away
	}
	if plan := workPlans[v.file.Kind.Name]; plan.next != nil {
		return plan.next(&planned{desk: v.desk, file: v.file, event: lastEvent(v.file, v.on), habits: v.works.Habits})
	}
	return nextOn(v.file, v.on)
}

// workOut is a work as JSON.
type workOut struct {
	Work    string              `json:"work"`
	Kind    string              `json:"kind"`
	On      string              `json:"on"`
	Open    bool                `json:"open"`
	Heading map[string]string   `json:"heading"`
	Lines   []map[string]string `json:"lines"`
	Holds   []thingOut          `json:"holds"`
	Permit  *permitOut          `json:"permit,omitempty"`
	Press   *pressOut           `json:"press,omitempty"`
	Freezer *freezerOut         `json:"freezer,omitempty"`
	Catch   []catchOut          `json:"catch,omitempty"`
	Next    string              `json:"next,omitempty"`
}

type thingOut struct {
	Thing string `json:"thing"`
	Where string `json:"where"`
	Since string `json:"since,omitempty"`
}

func (v *workView) json() workOut {
	out := workOut{Work: string(v.file.Number), Kind: v.file.Kind.Name, On: v.on.String(), Open: v.works.Open(v.file, v.on), Heading: map[string]string{},
		Lines: []map[string]string{}, Holds: []thingOut{}, Catch: v.catch(), Next: v.next()}
	if v.file.Kind.Name == "permit" {
		out.Permit = v.permitJSON()
	}
	for _, kv := range headFields(v.file.Work) {
		out.Heading[kv.Key] = kv.Value
	}
	for i := range v.file.Work.Lines {
		line := map[string]string{}
		for _, kv := range v.lineFields(i) {
			line[kv.Key] = joinNonEmpty("; ", line[kv.Key], kv.Value)
		}
		out.Lines = append(out.Lines, line)
	}
	for _, t := range v.works.Holds(v.file, v.on) {
		s := v.works.StateOf(t, v.on)
		x := thingOut{Thing: string(t.Sheet), Where: s.Where.Words()}
		if t.Sheet == "" {
			x.Thing = thingName(t.Item)
		}
		if s.Since != 0 {
			x.Since = s.Since.String()
		}
		out.Holds = append(out.Holds, x)
	}
	return out
}
