package main

import (
	"strings"

	"blotter/ledger"
)

// bareMistake is what is typed for an opinion that was entered by mistake:
// blotter set 482 mistake=REASON.
const bareMistake = "mistake"

// mistaken finds the opinion that mistake=REASON is about and writes its place
// into the assignment; given is what to type to put it on another sheet.
func (d *desk) mistaken(ns []ledger.Number, picked bool, assigned []assignment) (given string, err error) {
	for i, a := range assigned {
		if a.path == bareMistake {
			if len(ns) != 1 || picked {
				return "", misuse("an opinion is marked as a mistake one sheet at a time, by its number")
			}
			if assigned[i].path, err = d.opinionMeant(ns[0], a.value); err != nil {
				return "", err
			}
		}
		path := assigned[i].path
		if place, ok := strings.CutSuffix(path, ".mistake"); ok && strings.HasPrefix(path, "determinations.") && a.value != "" && len(ns) == 1 {
			given = d.givenAgain(ns[0], place)
		}
	}
	return given, nil
}

// opinionMeant is the one opinion of a sheet that is no mistake yet. Of
// several a person must say which.
func (d *desk) opinionMeant(n ledger.Number, reason string) (string, error) {
	_, _, r, err := d.record(n)
	if err != nil {
		return "", err
	}
	var places, shown []string
	for i, x := range r.Determinations {
		if x.Mistake.Set() {
			continue
		}
		place := "determinations." + itoa(i+1) + ".mistake"
		places = append(places, place)
		words := x.Name.Text
		if x.By.Set() {
			words += ", " + x.By.Text
		}
		shown = append(shown, "blotter set "+d.brief(n)+" "+place+"="+shellWord(reason)+"   "+words)
	}
	switch len(places) {
	case 0:
		return "", misuse("%s has no opinion that could be a mistake", n)
	case 1:
		return places[0], nil
	}
	return "", misuse("%s has %d opinions; which one is the mistake?", n, len(places)).try(shown...)
}

// givenAgain is the command that gives the same opinion of another sheet.
func (d *desk) givenAgain(n ledger.Number, place string) string {
	_, _, r, err := d.record(n)
	if err != nil {
		return ""
	}
	at := atoi(place[strings.LastIndexByte(place, '.')+1:])
	if at < 1 || at > len(r.Determinations) {
		return ""
	}
	x := r.Determinations[at-1]
	cmd := "blotter determine SHEET " + shellWord(x.Name.Text)
	for _, f := range []struct {
		flag string
		leaf ledger.Leaf
	}{{"--by", x.By}, {"--date", x.Date}, {"--why", x.Why}} {
		if f.leaf.Set() {
			cmd += " " + f.flag + " " + shellWord(f.leaf.Text)
		}
	}
	return cmd
}
