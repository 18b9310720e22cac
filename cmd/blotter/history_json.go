package main

import (
	"time"

	"blotter/ledger"
	"blotter/ledger/history"
)

type (
	accountOut struct {
		Number   ledger.Number `json:"number"`
		Pending  bool          `json:"edits_not_entered"`
		Whole    bool          `json:"history_is_whole"`
		Opinions []opinionOut  `json:"opinions"`
		Changes  []changeOut   `json:"revisions"`
	}
	opinionOut struct {
		At      int      `json:"opinion"`
		What    string   `json:"what"`
		State   string   `json:"state"`
		Name    string   `json:"name"`
		Kind    string   `json:"kind"`
		By      string   `json:"by"`
		Date    string   `json:"date"`
		Why     string   `json:"why,omitempty"`
		Entered *entryOf `json:"entered,omitempty"`
	}
	entryOf struct {
		By       string `json:"by"`
		On       string `json:"on"`
		Revision string `json:"revision"`
		Subject  string `json:"subject"`
	}
	changeOut struct {
		Number ledger.Number `json:"number"`
		What   string        `json:"what"`
		Before string        `json:"name_before,omitempty"`
		After  string        `json:"name_after,omitempty"`
		Reason string        `json:"reason,omitempty"`
		Fields []fieldOut    `json:"fields,omitempty"`
		Entry  *entryOf      `json:"entry,omitempty"`
	}
	fieldOut struct {
		Path   string `json:"path"`
		Before string `json:"before"`
		After  string `json:"after"`
	}
)

func entryAt(view *history.View, place int) *entryOf {
	if place < 0 {
		return nil
	}
	c := view.Commit(place)
	return &entryOf{c.Author.Name, c.Author.When.Format(time.RFC3339), c.ID, c.Subject()}
}

func changeJSON(view *history.View, ch history.Change) changeOut {
	out := changeOut{Number: ch.Number, What: ch.Kinds.String(), Before: ch.Before, After: ch.After, Reason: ch.Reason, Entry: entryAt(view, ch.Place)}
	for _, f := range ch.Fields {
		out.Fields = append(out.Fields, fieldOut{f.Path, f.Before, f.After})
	}
	return out
}

func (d *desk) accountJSON(view *history.View, a *history.Account, r *ledger.Record) accountOut {
	out := accountOut{Number: a.Number, Pending: a.Pending, Whole: !view.Incomplete(), Opinions: []opinionOut{}, Changes: []changeOut{}}
	for _, o := range a.Opinions {
		x := r.Determinations[o.At-1]
		out.Opinions = append(out.Opinions, opinionOut{o.At, o.Happened.String(), o.State.String(), x.Name.Text, kindWord(x.Kind.Text),
			x.By.Text, x.Date.Text, x.Why.Text, entryAt(view, o.Entered)})
	}
	for _, ch := range a.Changes {
		out.Changes = append(out.Changes, changeJSON(view, ch))
	}
	return out
}
