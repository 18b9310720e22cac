package main

import (
	"errors"

	"blotter/ledger/names"
)

// nameTold is the reading of a plant's name.
type nameTold struct {
	readHead
	Canonical  string `json:"canonical,omitempty"`
	Authorship string `json:"authorship,omitempty"` // as written; never filled in
	Rank       string `json:"rank,omitempty"`
	Qualifier  string `json:"qualifier,omitempty"` // with the part of the name that it governs
	Normal     string `json:"normal,omitempty"`    // the whole name in normal spelling
	words      string
}

func (t *nameTold) object() any { return t }

func readNameText(_ *readDesk, text string) told {
	t := &nameTold{readHead: headOf(text)}
	n, err := names.Read(text)
	var not *names.NotAName
	switch {
	case errors.As(err, &not) && not.None:
		t.words = "not named: " + not.Reason
		return t
	case errors.As(err, &not):
		t.refuse(not.Reason)
		return t
	case err != nil:
		t.refuse(err.Error())
		return t
	}
	for _, w := range n.Warnings {
		t.warn(w.Code, w.Message)
	}
	t.Canonical, t.Authorship, t.Rank, t.Normal = n.Canonical(), n.Authors, n.Rank.String(), n.String()
	t.Qualifier = n.IdentificationQualifier()
	t.words = "read as " + t.Normal
	return t
}

func (t *nameTold) lines() []string {
	var more []string
	if t.Canonical != "" {
		more = append(more, "canonical form: "+t.Canonical, "authors: "+orNone(t.Authorship), "rank: "+orNone(t.Rank))
	}
	if t.Qualifier != "" {
		more = append(more, "qualifier: "+t.Qualifier)
	}
	return t.linesWith(t.words, more...)
}

func orNone(s string) string {
	if s == "" {
		return "none written"
	}
	return s
}
