package main

import (
	"slices"
	"strings"

	"blotter/ledger"
	"blotter/ledger/dates"
	"blotter/ledger/work"
)

// Flags that fill the field of that name of a work: of its heading where its
// kind has it there and it is being opened, else of the line.
var (
	flagTitle       = &flag{Name: "title", Value: "TEXT", Help: "a few words by which people know it"}
	flagPartner     = &flag{Name: "partner", Value: "HERBARIUM", Help: "the other herbarium, institution or person: its registered code, its name, or both"}
	flagTheirs      = &flag{Name: "their-number", Value: "NUMBER", Help: "the number that the partner gave it"}
	flagPerson      = &flag{Name: "person", Value: "PERSON", Help: "whom it is for, or who answers for it"}
	flagPurpose     = &flag{Name: "purpose", Value: "TEXT", Help: "what it is for"}
	flagPlace       = &flag{Name: "place", Value: "PLACE", Help: "where it stands: room, cabinet, machine"}
	flagPlants      = &flag{Name: "plants", Value: "KIND", Help: "what kind of plants: thin herb, woody, fern, conifer, succulent, aquatic, bulb, large fruit, mixed"}
	flagMethod      = &flag{Name: "method", Value: "TEXT", Help: "how it is done"}
	flagWeather     = &flag{Name: "weather", Value: "WORDS", Help: "the weather while it dries: dry, ordinary, humid, and what else matters"}
	flagProfile     = &flag{Name: "profile", Value: "NAME", Help: "the profile of the museum's settings that it follows"}
	flagStanding    = &flag{Name: "standing", Value: "WHAT", Help: "herbarium, teaching or student"}
	flagMaterial    = &flag{Name: "material", Value: "TEXT", Help: "what is taken, used or printed"}
	flagPeriod      = &flag{Name: "period", Value: "TIME", Help: "for how long, from the day of sending: 12 months"}
	flagEvery       = &flag{Name: "every", Value: "TIME", Help: "how often it is read: 1 month"}
	flagPermits     = &flag{Name: "permits", Value: "NUMBER", Many: true, Help: "a permit under which it is done"}
	flagConditions  = &flag{Name: "conditions", Value: "TEXT", Many: true, Help: "a condition that binds it"}
	flagCautions    = &flag{Name: "cautions", Value: "TEXT", Many: true, Help: "a danger for whoever handles it: toxic, spiny, treated, fumigated"}
	flagNoteText    = &flag{Name: "note", Value: "TEXT", Help: "what else is to be said"}
	flagOthers      = &flag{Name: "others", Value: "NUMBER", Many: true, Help: "a sheet of another herbarium, by its number: \"FJ3 20112\""}
	flagGatherings  = &flag{Name: "gatherings", Value: "GATHERING", Many: true, Help: "collector and number of what has no specimen number yet: \"Signe Rask 1311..1320\""}
	flagWhat        = &flag{Name: "what", Value: "TEXT", Help: "what a counted bundle is: \"Carex, box 3\"; of an incident insects, mould, water, fire, theft"}
	flagHow         = &flag{Name: "how", Value: "WORD", Help: "whether a bundle was counted or estimated"}
	flagPaperNumber = &flag{Name: "number", Value: "TEXT", Help: "the number of the paper that goes with it: \"invoice 31\""}
	flagResult      = &flag{Name: "result", Value: "WORD", Help: "what came of it: dry, not-dry, passed, failed, times-only, clear, intact"}
	flagGrade       = &flag{Name: "grade", Value: "N", Help: "condition: 1 good, 2 fair, 3 poor, 4 not to be lent or handled"}
	flagDamage      = &flag{Name: "damage", Value: "WORD", Many: true, Help: "what is wrong with it"}
	flagWeight      = &flag{Name: "weight", Value: "WEIGHT", Help: "the weight of what is drying: \"412 g\""}
	flagTrap        = &flag{Name: "trap", Value: "TRAP", Help: "which trap"}
	flagInsect      = &flag{Name: "insect", Value: "NAME", Help: "which insect"}
	flagStage       = &flag{Name: "stage", Value: "STAGE", Help: "in which stage: egg, larva, pupa, adult, frass, mould"}
	flagAlive       = &flag{Name: "alive", Value: "yes|no", Help: "whether it lives"}
	flagTemperature = &flag{Name: "temperature", Value: "T", Help: "the temperature: \"-30 °C\""}
	flagHumidity    = &flag{Name: "humidity", Value: "H", Help: "the relative humidity: \"48 %\""}
	flagPercent     = &flag{Name: "percent", Value: "N", Help: "of an inventory or a survey: which share of the sheets it looks for"}
	flagSeed        = &flag{Name: "seed", Value: "WORDS", Help: "of an inventory or a survey: words that settle the draw; rounds with the same words see the whole in turn"}
	flagHours       = &flag{Name: "hours", Value: "HOURS", Help: "how many hours of work it took"}
)

// workHeadFlags fill fields of the heading, when a work is opened.
var workHeadFlags = []*flag{flagTitle, flagPartner, flagTheirs, flagPerson, flagPurpose, flagPlace, flagPlants, flagWeather, flagProfile, flagSource,
	flagStanding, flagPeriod, flagEvery, flagPercent, flagSeed, flagPermits, flagConditions, flagCautions}

// workLineFlags fill fields of the line.
var workLineFlags = []*flag{flagDate, flagBy, flagTo, flagUntil, flagPaperNumber, flagNoteText, flagWhy, flagResult, flagMethod, flagMaterial, flagGrade,
	flagDamage, flagWeight, flagTrap, flagInsect, flagStage, flagAlive, flagTemperature, flagHumidity, flagHours}

// contentFlags name what a line is about, beside the arguments.
var contentFlags = []*flag{flagGatherings, flagOthers, flagWhat, flagHow}

// hoursMatter are the kinds whose lines have a time of day.
var hoursMatter = map[string]bool{"freezer": true, "treatment": true, "mounting": true}

// lineFields are the fields of a line that flags fill, who and when before
// all; flags that head takes are left out.
func (d *desk) lineFields(kind string, head []string) ([]ledger.KV, error) {
	date, err := d.lineDate(kind)
	if err != nil {
		return nil, err
	}
	by := d.opts.text("by")
	if by == "" {
		by = "me"
	}
	if by, err = d.whoSays(by); err != nil {
		return nil, err
	}
	out := []ledger.KV{{Key: "date", Value: date}, {Key: "by", Value: by}}
	for _, f := range workLineFlags {
		values := d.opts.list(f.Name)
		if f == flagDate || f == flagBy || len(values) == 0 || slices.Contains(head, f.Name) {
			continue
		}
		if row, _ := ledger.FieldAt(ledger.WorkFileKind, "lines."+f.Name); row.Kind == ledger.Texts {
			out = append(out, entryWords(f.Name, values...)...)
			continue
		}
		out = append(out, ledger.KV{Key: f.Name, Value: values[0]})
	}
	for i, kv := range out {
		if kv.Key == "until" {
			if out[i].Value, err = d.dayWords(kv.Value); err != nil {
				return nil, err
			}
		}
	}
	return out, nil
}

// lineDate is --date fit for a line; without it today, with the time of day
// where hours matter. 09:40 alone is that time today.
func (d *desk) lineDate(kind string) (string, error) {
	typed := strings.TrimSpace(d.opts.text("date"))
	if typed == "" {
		if hoursMatter[kind] {
			return d.Now().In(d.zone).Format("2006-01-02 15:04"), nil
		}
		return d.today(), nil
	}
	if _, clock := work.ReadMoment("2000-01-01 " + typed); clock >= 0 {
		typed = d.today() + " " + typed
	}
	typed = strings.Replace(typed, "today", d.today(), 1)
	day, clock := typed, ""
	if r, minutes := work.ReadMoment(typed); minutes >= 0 && r.Known() {
		i := strings.LastIndexAny(typed, " T")
		day, clock = strings.TrimSpace(typed[:i]), " "+clockWords(minutes)
	}
	day, err := d.dayWords(day)
	if err != nil {
		return "", err
	}
	if clock != "" && len(day) != len("2026-11-03") {
		return "", misuse("%s: a time of day belongs to one day", typed)
	}
	return day + clock, nil
}

// dayWords is a day as typed, as ISO day where it is one; a month or a year
// stays as it is, and what is no date at all is asked back.
func (d *desk) dayWords(typed string) (string, error) {
	checked, err := d.dateArgument(typed)
	if err != nil {
		return "", err
	}
	r := dates.Read(checked, dates.OrderOf(d.museum.Dates.Order.Text))
	switch {
	case !r.Known() || r.OpenEnd || r.OpenStart:
		return "", misuse("%q is not read as a date", typed).try("As ISO day (2026-11-03), with a time (2026-11-03 09:40), a month (2026-11), or today")
	case r.Single():
		return r.First.String(), nil
	}
	return checked, nil
}

// clockWords is 09:40 for 580 minutes after midnight.
func clockWords(minutes int) string {
	return string([]byte{byte('0' + minutes/600), byte('0' + minutes/60%10), ':', byte('0' + minutes%60/10), byte('0' + minutes%10)})
}
