package main

import (
	"context"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
	"blotter/render/document"
)

// partnersPrint is the list of those whom sheets go to and come from, with
// what stands between us and them.
func partnersPrint() printKind {
	return printKind{
		Name: "partners", Says: "every partner with its balance (lent, borrowed, exchange, gifts) and its address",
		Flags: []*flag{flagOn},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			if len(words) > 0 {
				return nil, misuse("%q is too much; the list has all partners", words[0])
			}
			w, on, err := d.worksOnDay(ctx)
			if err != nil {
				return nil, err
			}
			return d.partners(w, on), nil
		},
	}
}

func (d *desk) partners(w *work.Works, on dates.Day) *document.Document {
	doc := &document.Document{Title: "Partners of " + d.museum.Name.Text + ", " + dates.Words(on)}
	var rows [][]string
	listed := map[string]bool{}
	row := func(b work.Balance, p *ledger.Partner) {
		r := []string{b.Partner, strconv.Itoa(b.Out), strconv.Itoa(b.Late), strconv.Itoa(b.In), strconv.Itoa(b.Sent), strconv.Itoa(b.Received), strconv.Itoa(b.Owed()), strconv.Itoa(b.Given), "", ""}
		if p != nil {
			r[8], r[9] = p.Treaty.Text, strings.Join(append(leafList(p.Address), leafList([]ledger.Leaf{p.Country})...), ", ")
		}
		rows = append(rows, r)
	}
	for _, b := range w.Balances(on) {
		listed[b.Partner] = true
		row(b, w.PartnerOf(b.Partner))
	}
	for i := range d.museum.Partners {
		p := &d.museum.Partners[i]
		if words := w.PartnerWords(p.Code.Text); !listed[words] && p.Code.Text != d.museum.Code.Text {
			row(work.Balance{Partner: words}, p)
		}
	}
	if len(rows) == 0 {
		doc.Say("Neither blotter.yaml nor a work names a partner.")
	}
	doc.Table([]string{"partner", "lent", "overdue", "borrowed", "sent", "received", "owed", "given", "treaty code", "address"}, rows)
	return doc
}

// leafWords are the words of a list in one line.
func leafWords(ls []ledger.Leaf, sep string) string { return strings.Join(leafList(ls), sep) }
