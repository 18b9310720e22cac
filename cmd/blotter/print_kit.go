package main

import (
	"context"
	"fmt"
	"math"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/drying"
	"blotter/ledger/work"
	"blotter/ledger/work/due"
	"blotter/render/document"
)

// kitPlants is for how many plants a kit is when nobody says.
const kitPlants = 50

// kitPrint is what to take into the field.
func kitPrint() printKind {
	return printKind{
		Name: "kit", Takes: "PLANTS", Says: "what to take into the field: papers, numbers, permits, how many plants may be taken, what is dangerous",
		Flags: []*flag{flagFor, flagDate, flagMethod},
		Make: func(ctx context.Context, d *desk, words []string) (*document.Document, error) {
			k, err := d.kit(ctx, words)
			if err != nil {
				return nil, err
			}
			doc := &document.Document{Title: fmt.Sprintf("Kit for %s, %s, %s", k.who, count(k.plants, "plant"), dates.Words(k.day))}
			if err := k.press(doc); err != nil {
				return nil, err
			}
			if err := k.numbers(ctx, doc); err != nil {
				return nil, err
			}
			k.permits(doc)
			k.taking(doc)
			k.safety(doc)
			return doc, nil
		},
	}
}

// kit is a way into the field: who, when, for how many plants.
type kit struct {
	desk   *desk
	works  *work.Works
	who    string
	plants int
	day    dates.Day
	method drying.Method
}

func (d *desk) kit(ctx context.Context, words []string) (*kit, error) {
	k := &kit{desk: d, who: d.opts.text("for"), plants: kitPlants, day: d.todayAsDay(), method: drying.Unheated}
	if len(words) > 1 {
		return nil, misuse("%q is too much; behind kit stands for how many plants", words[1])
	}
	if len(words) == 1 {
		if k.plants = atoi(words[0]); k.plants < 1 || k.plants > 10000 {
			return nil, misuse("%q is no count of plants from 1 to 10,000", words[0])
		}
	}
	if k.who == "" {
		return nil, misuse("for whom? --for PERSON: permits and numbers are a person's").try(`blotter print kit 40 --for "Signe Rask"`)
	}
	if typed := d.opts.text("date"); typed != "" && typed != "today" {
		r := dates.Read(typed, dates.OrderOf(d.museum.Dates.Order.Text))
		if !r.Known() || r.OpenEnd {
			return nil, misuse("--date %s is not read as a day", typed)
		}
		k.day = r.First
	}
	if typed := d.opts.text("method"); typed != "" {
		k.method = drying.Method(typed)
		if due.BuildOf(k.method) == "" {
			return nil, misuse("--method %s: one of unheated, warm air, alcohol", typed)
		}
	}
	var err error
	k.works, err = d.works(ctx)
	return k, err
}

// press is what the plants go into.
func (k *kit) press(doc *document.Document) error {
	h := k.works.Habits.Drying
	trip := drying.Trip{Presses: 1, Plants: k.plants, Build: due.BuildOf(k.method), Plant: figureOf(h.Stack.Plant), Blotters: max(int(figureOf(h.Trip.Blotters)), 1),
		Straps: int(figureOf(h.Trip.Straps)), Spare: figureOf(h.Trip.Spare)}
	pack, err := trip.Pack(due.Thickness(h.Stack), due.DryingSettings(h).Keeping)
	if err != nil {
		return stuck("%v", err)
	}
	stack, err := trip.Build.Counts(k.plants)
	if err != nil {
		return stuck("%v", err)
	}
	in := map[drying.Item]string{}
	for _, q := range stack {
		in[q.Item] = itoa(q.Count)
	}
	var rows [][]string
	for _, q := range pack.Items {
		rows = append(rows, []string{string(q.Item), in[q.Item], itoa(q.Count)})
	}
	doc.Heading("For the plants (" + string(k.method) + ")")
	doc.Table([]string{"item", "one stack", "to take"}, append(rows, []string{"tag with a string, one a plant", itoa(k.plants), itoa(k.plants + int(math.Ceil(float64(k.plants)*trip.Spare)))}))
	doc.Say(fmt.Sprintf("To take: %s, and spares. The stack stands about %.0f cm high as it is built; each further press takes one divider and one set of straps or frames more. The figures are habits.drying of blotter.yaml.",
		count(trip.Blotters, "set")+" of blotters", math.Ceil(pack.Height/10)))
	if pack.LitresTo > 0 {
		doc.Say(fmt.Sprintf("Alcohol: %.1f to %.1f litres.", math.Ceil(pack.LitresFrom*10)/10, math.Ceil(pack.LitresTo*10)/10))
	}
	doc.Items("Field book, pencils (ink runs), pen knife, trowel, secateurs, hand lens, bags that close, packets for seeds and mosses",
		"Receiver for positions with its datum noted, map, spare batteries, camera, measuring tape",
		"Copies of the permits on paper; whoever owns the ground has been asked")
	return nil
}

// figureOf is a setting as a figure; 0 when it is none.
func figureOf(l ledger.Leaf) float64 {
	n, err := strconv.ParseFloat(l.Text, 64)
	if err != nil || math.IsNaN(n) || math.IsInf(n, 0) {
		return 0
	}
	return n
}

// numbers are the collector's next ones and the specimen numbers kept for him.
func (k *kit) numbers(ctx context.Context, doc *document.Document) error {
	doc.Heading("Numbers")
	all := k.works.SeriesOf(k.who)
	if len(all) == 0 {
		doc.Say("Neither a record nor a work has a number of " + k.who + ". A run that begins at 1: 1 to " + itoa(k.plants) + ".")
	} else {
		s := all[0]
		words := "The last number of " + k.who + " in the ledger is " + s.After(0) + prefixedAny(", of ", dayOrNone(s.Day)) + ". This trip: " + s.After(1) + " to " + s.After(k.plants) + "."
		doc.Say(words + " Look into the field book first: what is not entered yet is not counted.")
	}
	for i, s := range all {
		if i > 0 && i < 4 {
			doc.Say("Another run: last " + s.After(0) + prefixedAny(", of ", dayOrNone(s.Day)) + ".")
		}
	}
	return k.blocks(ctx, doc)
}

func dayOrNone(d dates.Day) string {
	if d == 0 {
		return ""
	}
	return dates.Words(d)
}

// blocks are the runs of specimen numbers that blotter.yaml keeps for a person.
func (k *kit) blocks(ctx context.Context, doc *document.Document) error {
	used, err := k.desk.everUsed(ctx)
	if err != nil {
		return err
	}
	kept := false
	for _, b := range k.desk.museum.Blocks {
		from, errA := strconv.ParseUint(b.From.Text, 10, 63)
		to, errB := strconv.ParseUint(b.To.Text, 10, 63)
		if errA != nil || errB != nil || !k.works.SamePerson(b.For.Text, k.who) {
			continue
		}
		kept = true
		next := from
		for _, n := range used {
			if v, ok := n.Serial(); ok && v >= next && v <= to && k.desk.short(v).Key() == n.Key() {
				next = v + 1
			}
		}
		left := "used up; another is needed"
		if next <= to {
			left = "next " + string(k.desk.short(next)) + ", " + count(int(to-next+1), "number") + " left"
		}
		doc.Say("Specimen numbers kept: " + string(k.desk.short(from)) + " to " + string(k.desk.short(to)) + ", " + left + ".")
	}
	if !kept {
		doc.Say("blotter.yaml keeps no block of specimen numbers for " + k.who + ": specimens get theirs at the museum.")
	}
	return nil
}

// permits are those that hold on the day, and why the others do not help.
func (k *kit) permits(doc *document.Document) {
	doc.Heading("Permits on " + dates.Words(k.day))
	var rows [][]string
	var not []string
	for _, s := range standings(k.works, k.day) {
		paper := &s.File.Work.Permit
		name := joinNonEmpty(", ", string(s.File.Number), paper.Number.Text)
		switch {
		case !s.Holds(k.day):
			not = append(not, name+": "+s.days())
			continue
		case !k.works.AllowsPerson(s.File, k.who):
			not = append(not, name+": does not name "+k.who)
			continue
		}
		most := "no most said"
		if s.most > 0 {
			most = s.leftWords() + " of " + itoa(s.most) + " left"
			if s.Taken >= s.most {
				most = "nothing left: " + itoa(s.Taken) + " of " + itoa(s.most) + " taken"
			}
		} else if paper.Most.Set() {
			most = paper.Most.Text
		}
		rows = append(rows, []string{name, paper.For.Text, placesOf(paper.Places, "no place said"), placesOf(paper.Taxa, "no plant said"), placesOf(paper.Persons, "nobody named"), s.days(), most})
		for _, c := range s.File.Work.Conditions {
			not = append(not, name+": condition: "+c.Text)
		}
	}
	if len(rows) == 0 {
		doc.Caution("No permit in work/permit/ holds for " + k.who + " on that day. Whether one is needed the ledger cannot know: ask before you go.")
	}
	doc.Table([]string{"permit", "for", "places", "plants", "persons", "days", "plants left"}, rows)
	doc.Items(not...)
}

// taking is how many plants may be taken of how many that were seen.
func (k *kit) taking(doc *document.Document) {
	n := int(figureOf(k.works.Habits.Collecting.OneIn))
	if n < 1 {
		return
	}
	source := "habits.collecting.one_in"
	if n == 20 {
		source += "; Wagner 1995, a rule of thumb"
	}
	doc.Heading(fmt.Sprintf("One in %d", n))
	doc.Say("Count first, then take no more than this (" + source + "). Of plants that are protected, rare or under a permit: what the permit says, or none.")
	var rows [][]string
	for _, seen := range []int{n - 1, n, 2*n - 1, 2 * n, 5 * n} {
		rows = append(rows, []string{itoa(seen), itoa(seen / n)})
	}
	doc.Table([]string{"plants seen", "may be taken"}, rows)
}

// fieldDangers is from memory and common practice, without a source.
var fieldDangers = []string{
	"Toxic saps: hogweeds, spurges, monkshood burn or poison through the skin: gloves, long sleeves, wash, mind the sun afterwards; mark the fold",
	"Stinging and urticating plants, spines and thorns: thick gloves; mark the fold for whoever opens the press",
	"Ticks: long trousers, look yourself over in the evening; snakes: boots, look before you reach",
	"Heat, cold and sun: water, hat, warm and dry clothes; weather looked up before leaving",
	"Floods, tides, loose slopes, bogs: turn back in time; no stream is crossed for a plant",
	"Roads and railways: be seen, stand off the carriageway; on railways only with leave",
	"Sprayed verges and fields: neither touch nor gather",
	"Alone: somebody knows the way and the hour; an hour of a call is agreed, who is called, who is sent when no call comes",
	"First-aid kit, charged telephone, the number for emergencies where you go; no plant is tasted",
}

func (k *kit) safety(doc *document.Document) {
	doc.Heading("Safety")
	doc.Items(fieldDangers...)
	doc.Blank("Hour of the call", "who is called", "who is sent")
	doc.Caution(strings.TrimSpace("Alcohol burns: never near a flame, a stove, a heated press or in a hot closed car; no smoking. " + ownRules + " This list is common practice and cannot know your ground."))
}
