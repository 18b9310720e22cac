package main

import (
	"context"
	"strings"

	"blotter/ledger"
	"blotter/render/document"
)

// partnersPrint is the list of those whom sheets go to and come from.
func partnersPrint() printKind {
	return printKind{
		Name: "partners", Says: "the partners of blotter.yaml, with their addresses",
		Make: func(_ context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the list has all partners", words[0])
			}
			doc := &document.Document{Title: "Partners of " + d.museum.Name.Text}
			var rows [][]string
			for _, p := range d.museum.Partners {
				if p.Code.Text != d.museum.Code.Text {
					rows = append(rows, []string{p.Code.Text, p.Name.Text, p.Country.Text, p.Treaty.Text, leafWords(p.Address, ", ")})
				}
			}
			if len(rows) == 0 {
				doc.Say("blotter.yaml names no partners.")
			}
			doc.Table([]string{"code", "name", "country", "treaty code", "address"}, rows)
			return doc, nil
		},
	}
}

// leafWords are the words of a list in one line.
func leafWords(ls []ledger.Leaf, sep string) string {
	all := make([]string, len(ls))
	for i, l := range ls {
		all[i] = l.Text
	}
	return strings.Join(all, sep)
}
