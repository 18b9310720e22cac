package dates

import "sync"

// One table of month words per language, folded by foldWord (lower case,
// letters without accents). A word is also taken when it is an abbreviation:
// the first three or more letters of a month of one of the languages, if all
// languages that have such a beginning agree on the month.
var monthTables = [][12]string{
	{"january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"},                 // English
	{"januar", "februar", "mars", "april", "mai", "juni", "juli", "august", "september", "oktober", "november", "desember"},                    // Norwegian
	{"januari", "februari", "mars", "april", "maj", "juni", "juli", "augusti", "september", "oktober", "november", "december"},                 // Swedish
	{"januar", "februar", "marts", "april", "maj", "juni", "juli", "august", "september", "oktober", "november", "december"},                   // Danish
	{"januar", "februar", "marz", "april", "mai", "juni", "juli", "august", "september", "oktober", "november", "dezember"},                    // German
	{"januari", "februari", "maart", "april", "mei", "juni", "juli", "augustus", "september", "oktober", "november", "december"},               // Dutch
	{"janvier", "fevrier", "mars", "avril", "mai", "juin", "juillet", "aout", "septembre", "octobre", "novembre", "decembre"},                  // French
	{"enero", "febrero", "marzo", "abril", "mayo", "junio", "julio", "agosto", "septiembre", "octubre", "noviembre", "diciembre"},              // Spanish
	{"janeiro", "fevereiro", "marco", "abril", "maio", "junho", "julho", "agosto", "setembro", "outubro", "novembro", "dezembro"},              // Portuguese
	{"gennaio", "febbraio", "marzo", "aprile", "maggio", "giugno", "luglio", "agosto", "settembre", "ottobre", "novembre", "dicembre"},         // Italian
	{"januarius", "februarius", "martius", "aprilis", "maius", "junius", "julius", "augustus", "september", "october", "november", "december"}, // Latin
	{"januarii", "februarii", "martii", "aprilis", "maii", "junii", "julii", "augusti", "septembris", "octobris", "novembris", "decembris"},    // Latin, of the month
	{"ianuarii", "februario", "martio", "aprili", "maio", "iunii", "iulii", "augusto", "septembri", "octobri", "novembri", "decembri"},         // Latin, other forms
	{"januario", "februarii", "martio", "aprili", "majo", "junio", "julio", "augusto", "septembri", "octobri", "novembri", "decembri"},         // Latin, in the month
}

// otherMonths are spellings that no table's beginning gives.
var otherMonths = map[string]int{
	"jaenner": 1, "janner": 1, "jenner": 1, "feber": 2, "hornung": 2, "maerz": 3, "jly": 7, "jy": 7,
	"sept": 9, "septbr": 9, "setiembre": 9, "7bris": 9, "7ber": 9, "8bris": 10, "8ber": 10, "octbr": 10,
	"9bris": 11, "9ber": 11, "novbr": 11, "10bris": 12, "10ber": 12, "decbr": 12, "dez": 12, "dic": 12, "des": 12,
	"ene": 1, "gen": 1, "abr": 4, "avr": 4, "mag": 5, "giu": 6, "lug": 7, "ago": 8, "set": 9, "out": 10, "ott": 10,
	"janv": 1, "fev": 2, "fevr": 2, "juil": 7, "mrz": 3, "okt": 10,
}

// monthWords holds every whole word and every sure abbreviation; made on
// first use.
var monthWords = sync.OnceValue(buildMonths)

func buildMonths() map[string]int {
	words := map[string]int{}
	put := func(w string, m int) {
		if old, ok := words[w]; ok && old != m {
			m = 0 // two languages disagree
		}
		words[w] = m
	}
	for _, table := range monthTables {
		for i, w := range table {
			for n := 3; n < len(w); n++ {
				put(w[:n], i+1)
			}
		}
	}
	for _, table := range monthTables {
		for i, w := range table {
			words[w] = i + 1
		}
	}
	for w, m := range otherMonths {
		words[w] = m
	}
	for w, m := range words {
		if m == 0 {
			delete(words, w)
		}
	}
	return words
}

// roman is the month that a roman numeral I to XII names, in either case;
// 0 when it is none. IIII and VIIII are accepted as old labels have them.
func roman(w string) int {
	switch w {
	case "i":
		return 1
	case "ii":
		return 2
	case "iii":
		return 3
	case "iv", "iiii":
		return 4
	case "v":
		return 5
	case "vi":
		return 6
	case "vii":
		return 7
	case "viii":
		return 8
	case "ix", "viiii":
		return 9
	case "x":
		return 10
	case "xi":
		return 11
	case "xii":
		return 12
	}
	return 0
}

// seasonWords name a season, 1 spring to 4 winter.
var seasonWords = map[string]int{
	"spring": 1, "summer": 2, "autumn": 3, "fall": 3, "winter": 4,
	"var": 1, "vaar": 1, "sommer": 2, "host": 3, "hoest": 3, "vinter": 4,
	"fruhling": 1, "fruhjahr": 1, "herbst": 3,
	"printemps": 1, "ete": 2, "automne": 3, "hiver": 4,
	"primavera": 1, "verano": 2, "otono": 3, "invierno": 4,
	"vere": 1, "aestate": 2, "autumno": 3, "hieme": 4,
}

// fillers say nothing of the day and are passed over.
var fillers = map[string]bool{
	"th": true, "st": true, "nd": true, "rd": true, "d": true, "of": true, "the": true, "de": true, "den": true,
	"del": true, "le": true, "el": true, "er": true, "em": true, "in": true, "im": true, "anno": true, "a": true,
	"on": true, "date": true, "coll": true, "leg": true, "ad": true, "year": true, "month": true, "die": true, "mense": true,
	"monday": true, "tuesday": true, "wednesday": true, "thursday": true, "friday": true, "saturday": true, "sunday": true,
	"mandag": true, "tirsdag": true, "onsdag": true, "torsdag": true, "fredag": true, "lordag": true, "sondag": true,
	"montag": true, "dienstag": true, "mittwoch": true, "donnerstag": true, "freitag": true, "samstag": true, "sonntag": true,
}

// looseWords make a date approximate.
var looseWords = map[string]bool{
	"ca": true, "c": true, "circa": true, "about": true, "approx": true, "approximately": true, "around": true, "cca": true,
	"um": true, "etwa": true, "omkring": true, "vers": true, "environ": true, "hacia": true, "cerca": true,
	"early": true, "late": true, "mid": true, "middle": true, "beginning": true, "end": true, "last": true,
	"anfang": true, "mitte": true, "ende": true, "debut": true, "fin": true, "mi": true, "principios": true,
	"tidlig": true, "sent": true, "midt": true, "initio": true, "medio": true, "fine": true,
}

// rangeWords join the first and the last day of a span.
var rangeWords = map[string]bool{
	"to": true, "through": true, "thru": true, "until": true, "and": true, "or": true, "bis": true, "und": true, "til": true, "till": true,
	"og": true, "och": true, "au": true, "et": true, "al": true, "y": true, "e": true, "tot": true, "en": true, "ad": true,
}
