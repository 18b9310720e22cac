package main

import (
	"context"
	"slices"
	"strings"

	"blotter/examples"
	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/places"
)

// practiceField is how one field of a typed label compares with the model.
type practiceField struct {
	path, typed string
	best        string // of the model; "" when nothing was expected
	agrees      bool
	near        string // how it agrees though the words are others
	why         string
}

// practiceOutside are fields that the program fills in by itself, or that no
// label settles.
var practiceOutside = []string{"specimen", "entry", "phenology", "remarks", "determinations.1.kind", "determinations.1.from", "determinations.1.date"}

// compare holds a record against the model, field by field. Only the words
// count, since they are what is kept; a stop at the end and doubled blanks are
// no words. More of the label's own words than the model has, "Alt. 1150 ft",
// are as good when they are read as the same.
func (l practiceLabel) compare(r *ledger.Record) []practiceField {
	var out []practiceField
	have := map[string]string{}
	for _, kv := range ledger.Flatten(r) {
		have[kv.Key] = kv.Value
	}
	asked, text := map[string]bool{}, strings.Join(strings.Fields(l.text("")), " ")
	for _, row := range l.model {
		asked[row[0]] = true
		f := practiceField{path: row[0], typed: have[row[0]], why: l.lessons[row[0]]}
		for i, words := range strings.Split(row[1], "|") {
			words = strings.TrimSpace(words)
			if i == 0 {
				f.best = words
			}
			f.agrees = f.agrees || wordsAgree(words, f.typed)
		}
		typed := strings.Join(strings.Fields(f.typed), " ")
		f.agrees = f.agrees || strings.Contains(typed, f.best) && strings.Contains(text, typed) && readSame(f.path, f.best, typed)
		if f.path == "place.locality" && parted(f.best, f.typed, have["habitat"]) {
			f.agrees, asked["habitat"] = true, true
		}
		if !f.agrees {
			f.near = nearWords(f.path, f.best, f.typed)
		}
		if f.best != "" || f.typed != "" {
			out = append(out, f)
		}
	}
	for _, kv := range ledger.Flatten(r) {
		if !asked[kv.Key] && !slices.Contains(practiceOutside, kv.Key) && !strings.HasPrefix(kv.Key, "determinations.2.") {
			out = append(out, practiceField{path: kv.Key, typed: kv.Value, why: l.lessons[kv.Key]})
		}
	}
	return out
}

// parted reports whether a locality that labels write in one run, "limestone
// scree at Skjervet", was typed in two fields: each a piece of the run, and all
// of it but small words between them, as "at". Where one ends is a judgement.
func parted(whole, locality, habitat string) bool {
	if locality == "" || habitat == "" {
		return false
	}
	rest := strings.Join(strings.Fields(whole), " ")
	for _, piece := range []string{locality, habitat} {
		before, after, found := strings.Cut(rest, strings.TrimSuffix(strings.Join(strings.Fields(piece), " "), "."))
		if !found {
			return false
		}
		rest = before + " " + after
	}
	return !slices.ContainsFunc(strings.Fields(rest), func(word string) bool { return len(strings.Trim(word, ",.;:")) > len("auf") })
}

func wordsAgree(a, b string) bool {
	plain := func(s string) string { return strings.TrimSuffix(strings.Join(strings.Fields(s), " "), ".") }
	return plain(a) == plain(b)
}

// nearWords says in what words that differ are still the same; "" when in
// nothing.
func nearWords(path, best, typed string) string {
	if best == "" || typed == "" {
		return ""
	}
	squeeze := func(s string) string { return strings.ToLower(strings.Join(strings.Fields(s), "")) }
	if squeeze(best) == squeeze(typed) {
		return "only blanks or capitals are others"
	}
	if readSame(path, best, typed) {
		return "it is read as the same, but the words of the label are what is kept"
	}
	return ""
}

// readSame reports whether two words of a field can be read, and as the same.
func readSame(path, best, typed string) bool {
	switch path {
	case "date":
		a, b := dates.Read(best, dates.OrderOf("")), dates.Read(typed, dates.OrderOf(""))
		return a.Known() && b.Known() && a.String() == b.String()
	case "place.elevation":
		a, b := places.ReadElevation(best), places.ReadElevation(typed)
		return a.Known() && b.Known() && a.String() == b.String()
	case "place.position":
		a, b := places.ReadPosition(best), places.ReadPosition(typed)
		return a.Known() && b.Known() && a.String() == b.String()
	}
	return false
}

// comparePractice compares what was typed with the models and says so; it
// does nothing for a sheet that is none of the ten labels.
func (d *desk) comparePractice(numbers []ledger.Number) error {
	labels, err := practiceLabels(examples.Practice())
	if err != nil {
		return stuck("%v", err)
	}
	for _, l := range labels {
		if !slices.Contains(numbers, l.number) {
			continue
		}
		_, _, r, err := d.record(l.number)
		if err != nil {
			return err
		}
		d.sayPractice(l, l.compare(r))
	}
	for _, l := range labels {
		if !d.has(l.number.Path()) {
			d.next("blotter new, label %s", strings.TrimPrefix(string(l.number), practicePrefix))
			return nil
		}
	}
	d.say("%s", wrap("All ten labels are typed. Your museum's own ledger: blotter join ADDRESS DIR. This folder may be thrown away.", d.Width, ""))
	return nil
}

// compareMended compares a label of a practice museum once more, after its file
// was edited.
func (d *desk) compareMended(path string) error {
	if n, ok := ledger.NumberOfPath(path); ok && d.isPractice() {
		return d.comparePractice([]ledger.Number{n})
	}
	return nil
}

func (d *desk) sayPractice(l practiceLabel, fields []practiceField) {
	agree := 0
	var good []string
	for _, f := range fields {
		if f.agrees {
			agree++
			good = append(good, practiceWord(f.path))
		}
	}
	d.say("")
	d.say("%s beside its label: %s of %s as the label has them.", l.number, thousands(agree), count(len(fields), "field"))
	if agree > 0 {
		d.say("%s", hang("  agrees   ", strings.Join(good, ", "), d.Width))
	}
	for _, f := range fields {
		if f.agrees {
			continue
		}
		d.say("  differs  %s", practiceWord(f.path))
		d.say("%s", hang("           you typed  ", typedOrNot(f.typed), d.Width))
		d.say("%s", hang("           the label  ", typedOrNot(f.best), d.Width))
		if f.near != "" {
			d.say("%s", hang("           ", f.near, d.Width))
		}
		if f.why != "" {
			d.say("%s", hang("           ", f.why, d.Width))
		} else {
			meaning, _ := explainField(f.path)
			d.say("%s", hang("           ", meaning+" (FORMAT.md, "+strings.Replace(f.path, ".1.", ".", 1)+")", d.Width))
		}
	}
	if agree == len(fields) {
		d.say("  Well read: nothing is to be mended.")
		for _, row := range l.model {
			if why := l.lessons[row[0]]; why != "" {
				d.say("%s", hang("  worth knowing  ", practiceWord(row[0])+": "+why, d.Width))
				break
			}
		}
		return
	}
	d.say("  To mend it: blotter edit %s", d.brief(l.number))
}

func typedOrNot(s string) string {
	if s == "" {
		return "(nothing)"
	}
	return s
}

// practiceWord is a field as new asks for it.
func practiceWord(path string) string {
	switch path {
	case "coll_no":
		return "number"
	case "description":
		return "plant"
	case "with.1":
		return "with"
	case "determinations.1.name":
		return "name"
	case "determinations.1.by":
		return "det. by"
	case "determinations.1.date":
		return "det. date"
	case "duplicates.1.made":
		return "duplicates"
	}
	return strings.TrimPrefix(path, "place.")
}

// runPracticeReview compares labels that were typed.
func (d *desk) runPracticeReview(ctx context.Context, args []string) error {
	if !d.isPractice() {
		return misuse("this is no practice museum").try("To make one: blotter demo --practice")
	}
	numbers := d.numbers()
	if len(args) > 0 {
		var err error
		if numbers, _, err = d.sheets(ctx, args); err != nil {
			return err
		}
	}
	if len(numbers) == 0 {
		d.say("No label is typed yet.")
	}
	return d.comparePractice(numbers)
}
