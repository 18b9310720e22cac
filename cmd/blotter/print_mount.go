package main

import (
	"bytes"
	"context"
	"fmt"
	"strconv"
	"strings"

	"blotter/ledger"
	"blotter/render/mount"
	"blotter/render/paper"
)

var (
	flagPlant = &flag{Name: "plant", Value: "SIZE", Help: "of mount: width by height of the plant as it is to lie: \"200 x 300 mm\"; a sheet that has no room for it is told of"}
	flagBlank = &flag{Name: "blank", Help: "of mount: a template for any sheet, with the pieces that most have"}
)

// mountPrint is the guide that says where each piece goes on the sheet.
func mountPrint() printKind {
	return printKind{
		Name: "mount", Takes: "SHEETS", Says: "where label, slips, packet, barcode and plant go on the mounting sheet, at true size; --blank: a template",
		Flags: []*flag{flagPlant, flagBlank}, Pages: mountPages, Text: mountText,
	}
}

// mounted is one mounting sheet and what the guide says beside the places.
type mounted struct {
	mount.Plan
	head mount.Head
}

// title names the sheet: "LK7-0000482, Sheet 1 of 2".
func (m mounted) title() string { return joinNonEmpty(", ", m.head.Number, m.head.Of) }

// mountPages draws the guides of the sheets that are typed.
func mountPages(ctx context.Context, d *desk, words []string) (*paper.Paper, error) {
	size, err := d.paperSize()
	if err != nil {
		return nil, err
	}
	all, err := d.mountings(ctx, words)
	if err != nil {
		return nil, err
	}
	from, state, err := d.documentState(ctx)
	if err != nil {
		return nil, err
	}
	if !from.when.IsZero() {
		state = d.shownDate(from.when.In(d.zone).Format("2006-01-02")) + ", " + state
	}
	p := &paper.Paper{Title: "mount, " + d.museum.Name.Text, Lang: ledger.WithStandard(d.museum).Labels.Language.Text}
	for _, m := range all {
		m.head.From = state
		pages, err := m.Guide(size, m.head)
		if err != nil {
			return nil, misuse("%s%v", prefixedWords(m.head.Number), err).try("Larger paper: --paper A4", "As words: leave --to out")
		}
		p.Pages = append(p.Pages, pages...)
	}
	d.sayMounted(all, len(p.Pages))
	return p, nil
}

func prefixedWords(of string) string {
	if of == "" {
		return ""
	}
	return of + ": "
}

// sayMounted tells how the pages are used, and which plants have no room.
func (d *desk) sayMounted(all []mounted, pages int) {
	one := all[0]
	if pages > len(all) {
		d.tell("%s", wrap(fmt.Sprintf("%s for each sheet of %s. Cut along the line through the crosses and lay cross on cross; on paper as large as the sheet it is one page: --paper \"%s\"",
			count(pages/len(all), "page"), measures(one.W, one.H), measures(one.W, one.H)), d.Width, ""))
	}
	d.tell("Measure the line of 50 mm before it is used.")
	d.warnMounted(all)
}

// warnMounted tells of each sheet that has no room for all.
func (d *desk) warnMounted(all []mounted) {
	for _, m := range all {
		for _, w := range m.Warnings("en") {
			d.tell("%s", wrap(joinNonEmpty(": ", m.title(), w), d.Width, ""))
		}
	}
}

// mountText is the same as words: each piece with its size and its distances.
func mountText(ctx context.Context, d *desk, words []string) ([]byte, error) {
	all, err := d.mountings(ctx, words)
	if err != nil {
		return nil, err
	}
	var b bytes.Buffer
	for i, m := range all {
		if i > 0 {
			b.WriteByte('\n')
		}
		fmt.Fprintf(&b, "%s\n", joinNonEmpty(", ", m.title(), "mounting sheet "+measures(m.W, m.H)))
		for _, row := range m.Rows("en") {
			fmt.Fprintf(&b, "%s\n", hang("  "+pad(row.No, 2)+"  "+pad(row.What, 11)+"  "+pad(row.Size, 14)+"  ", row.Where, d.Width))
		}
	}
	d.warnMounted(all)
	return b.Bytes(), nil
}

// mountings are the plans of the sheets that are typed, or that of the template.
func (d *desk) mountings(ctx context.Context, words []string) ([]mounted, error) {
	in, err := d.mountingSheet()
	if err != nil {
		return nil, err
	}
	lang := ledger.WithStandard(d.museum).Labels.Language.Text
	if d.opts.on(flagBlank.Name) {
		if len(words) > 0 || d.opts.given("where") {
			return nil, misuse("--blank is a template for any sheet; SHEETS are given too")
		}
		in.Pieces = d.usualPieces()
		m := mounted{mount.Lay(in), mount.Head{Language: lang}}
		return []mounted{m}, d.mustHoldLabel(m)
	}
	if len(words) == 0 && !d.opts.given("where") {
		return nil, misuse("which sheets?").try("blotter print mount 482 --to mount.pdf", "A template for any sheet: blotter print mount --blank --to mount.pdf")
	}
	records, refused, err := d.recordsWith(ctx, words, func(*ledger.Record) bool { return true })
	if err != nil {
		return nil, err
	}
	if len(refused) > 0 {
		return nil, stuck("%s %s", refused[0].Of, refused[0].Why)
	}
	ins, err := d.labelInputs(ctx, records)
	if err != nil {
		return nil, err
	}
	var all []mounted
	for _, one := range ins {
		set := setOf(one)
		in.Pieces = d.piecesOf(one, set)
		m := mounted{mount.Lay(in), mountHead(one, set)}
		if err := d.mustHoldLabel(m); err != nil {
			return nil, err
		}
		all = append(all, m)
	}
	return all, nil
}

// mountingSheet is the museum's sheet, and the plant's size where it is typed.
func (d *desk) mountingSheet() (mount.Input, error) {
	set := ledger.WithStandard(d.museum).Mounting
	in := mount.Input{
		Sheet:     mount.Sheet{W: millimetresOr(set.SheetWidth, 292), H: millimetresOr(set.SheetHeight, 419), Margin: plainMillimetres(set.Margin), Gap: plainMillimetres(set.Gap)},
		StripLeft: set.Strip.Text == "upper left",
	}
	typed := strings.TrimSpace(d.opts.text(flagPlant.Name))
	if typed == "" {
		return in, nil
	}
	w, h, ok := readMeasures(typed)
	if !ok || w <= 0 || h <= 0 || w > 5000 || h > 5000 {
		return in, misuse("--plant %s is no size of a plant", typed).try(`Width by height: --plant "200 x 300 mm", or "20 x 30 cm"`)
	}
	in.Plant = paper.Size{W: w, H: h}
	return in, nil
}

// plainMillimetres is a measure that may be 0.
func plainMillimetres(l ledger.Leaf) float64 {
	v, _ := strconv.ParseFloat(l.Text, 64)
	return max(v, 0)
}

// mustHoldLabel refuses a sheet that has no place even for the label.
func (d *desk) mustHoldLabel(m mounted) error {
	for _, p := range m.Left {
		if p.Kind == mount.Label || p.Kind == mount.OldLabel {
			return stuck("%sa label of %s has no place on a mounting sheet of %s with margins of %s mm", prefixedWords(m.title()), measures(p.W, p.H), measures(m.W, m.H), millimetres(m.Margin)).
				try("The sheet: habits.mounting.sheet_width, sheet_height and margin of blotter.yaml")
		}
	}
	return nil
}
