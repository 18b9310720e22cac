package ledger

import (
	"path"
	"slices"
	"strings"
)

// workLaws are the laws of a work's number, heading and events that its field
// table cannot say.
func (d *decoder) workLaws(w *Work) {
	if d.path == "" || !w.Work.Set() {
		return
	}
	n, ok := WorkNumberOfPath(d.path)
	if !ok {
		return
	}
	at := func(code string, l Leaf, field, message, hint string) {
		d.add(code, int(l.Line), int(l.Col), field, message, hint)
	}
	if string(n) != w.Work.Text {
		at("work-file", w.Work, "work", "the file is named "+path.Base(d.path)+", and the number in it is another one", "If the file's name is right: work: "+string(n))
		return
	}
	if !n.Valid() || path.Dir(d.path) != path.Dir(n.Path()) {
		at("work-file", w.Work, "work", "the number of a work is its kind, a year and three figures, and its file lies in the folder of its kind", "For example "+WorkNumber("loan-2026-004").Path())
		return
	}
	kind, _ := WorkKindOf(n.Kind())
	anyKind := []string{EventClosed, EventNoted, EventRenumbered, EventSwapped}
	for _, l := range w.Lines {
		if l.Event.Set() && !slices.Contains(anyKind, l.Event.Text) && !slices.Contains(kind.Events, l.Event.Text) && slices.Contains(workEvents(), l.Event.Text) {
			at("work-event", l.Event, "lines.event", "a "+kind.Name+" has no such event", "Its events are "+strings.Join(kind.Events, ", ")+", "+EventClosed+", "+EventNoted)
		}
	}
	d.workHeading(w, kind)
}

// workHeading tells of fields of the heading that the kind does not have.
func (d *decoder) workHeading(w *Work, kind WorkKind) {
	texts := func(ls []Leaf) Leaf {
		if len(ls) > 0 {
			return ls[0]
		}
		return Leaf{}
	}
	for _, f := range []struct {
		key  string
		leaf Leaf
	}{
		{"partner", w.Partner}, {"their_number", w.Theirs}, {"purpose", w.Purpose}, {"place", w.Place}, {"plants", w.Plants}, {"method", w.Method},
		{"weather", w.Weather}, {"profile", w.Profile}, {"source", w.Source}, {"standing", w.Standing}, {"material", w.Material},
		{"period", w.Period}, {"every", w.Every}, {"percent", w.Percent}, {"seed", w.Seed}, {"permits", texts(w.Permits)},
		{"conditions", texts(w.Conditions)}, {"cautions", texts(w.Cautions)}, {"permit", Leaf{Line: w.Permit.Line, Col: 1}},
	} {
		if f.leaf.Line > 0 && !slices.Contains(kind.Heading, f.key) {
			d.add("work-heading", int(f.leaf.Line), int(f.leaf.Col), f.key, "the heading of a "+kind.Name+" has no such field", "Its fields are "+strings.Join(append([]string{"title", "person", "note"}, kind.Heading...), ", "))
		}
	}
}
