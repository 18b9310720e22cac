package georeference

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// Words of localities in the languages of labels; common practice, no source.
// Where several begin alike the longest stands first.
var (
	roadWords = []string{"by the road", "by road", "by rd.", "by rd", "by trail", "by track", "by path", "by highway", "by hwy", "by river", "by boat", "by rail",
		"along the road", "along road", "along the trail", "along trail", "along the track", "along the path", "along the highway", "along highway", "along hwy",
		"along the river", "along the railway", "on the road", "on road", "via the road", "via road", "up the road", "down the road", "road", "road miles", "road km",
		"langs veien", "langs vegen", "langs vei", "etter veien", "etter vegen", "på veien", "längs vägen", "utmed vägen", "längs väg",
		"längs der straße", "längs der strasse", "auf der straße", "auf der strasse", "an der straße", "an der strasse",
		"par la route", "sur la route", "par route", "por la carretera", "por carretera", "por el camino", "por camino", "pela estrada", "por estrada", "per strada", "lungo la strada", "over de weg"}
	airWords = []string{"by air", "air miles", "in a straight line", "straight line", "as the crow flies", "airline", "i luftlinje", "luftlinje", "i luftlinja", "luftlinie", "in der luftlinie",
		"à vol d'oiseau", "en línea recta", "en linea recta", "em linha reta", "in linea d'aria", "fågelvägen", "hemelsbreed"}
	towardsWords = []string{"in the direction of", "in a direction", "to the", "in the", "towards the", "towards", "toward", "due", "directly", "direction", "on a bearing of", "at a bearing of",
		"bearing", "heading", "(", "i retning", "mot", "rett", "rakt", "nach", "im", "in", "genau", "en direction", "vers le", "vers l'", "au", "à l'", "a l'", "à", "al", "ao", "a", "hacia el", "hacia", "rumbo", "ten", "ad", "para"}
	ofWords = []string{"away from the", "away from", "off the", "off", "of the", "of", "from the", "from", "for", "fra", "från", "frå", "om", "von der", "von dem", "von", "vom", "av", "van de", "van het", "van",
		"de la", "de l'", "de las", "de los", "del", "de", "des", "du", "d'", "dos", "das", "do", "da", "dalla", "dal", "della", "dell'", "di"}
	andWords     = []string{"and then", "and", "then", "und", "og", "och", "et", "y", "e", "en", "&", "+"}
	nearWords    = []string{"near to", "near the", "near", "nr.", "nr", "close to the", "close to", "in the vicinity of", "vicinity of", "vic. of", "vic.", "vic", "adjacent to", "around", "nær", "nära", "nahe", "bei", "près de", "près du", "cerca de", "cerca del", "cerca", "perto de", "presso", "nabij"}
	atWords      = []string{"at the", "at", "ved", "vid", "in", "i", "am", "an der", "à", "en", "em", "a", "op", "på", "on the"}
	betweenWords = []string{"midway between", "halfway between", "half way between", "between", "midt mellom", "mellom", "mellan", "mellem", "zwischen", "entre", "tra", "fra", "tussen"}
	looseWords   = []string{"ca.", "ca", "c.", "circa", "about", "approx.", "approx", "approximately", "around", "omkring", "omtrent", "etwa", "env.", "environ", "cerca de", "some", "roughly", "nearly", "at", "à", "a", "om lag", "cirka", "ungefähr", "~"}
)

// goingOn are words behind a name that say more of the spot: the name has ended.
var goingOn = wordSet(`above below near along by on at in between beside under over behind towards toward opposite just and to with where
		up down off from before beyond around side bank
		ovenfor ovanfor nedenfor nedanfor ved langs mellom mot på i under bak nær nordsiden sørsiden østsiden vestsiden
		ovanför nedanför vid längs mellan
		oberhalb unterhalb am an bei auf im in zwischen gegen nahe
		au à sur sous près dans vers entre
		cerca junto sobre bajo en hacia por con
		boven onder langs bij op aan`)

func wordSet(list string) map[string]bool {
	out := map[string]bool{}
	for _, w := range strings.Fields(list) {
		out[w] = true
	}
	return out
}

// continues reports whether words go on about the spot rather than begin with a
// name.
func continues(text string) bool {
	w := text[:letterEnd(text, 0)]
	return goingOn[w] || w == ""
}

// cutAny takes the first of words that text begins with, as whole words in any
// case.
func cutAny(text string, list []string) (rest string, ok bool) {
	for _, w := range list {
		if len(text) < len(w) || !strings.EqualFold(text[:len(w)], w) {
			continue
		}
		rest := text[len(w):]
		last, _ := utf8.DecodeLastRuneInString(w)
		next, _ := utf8.DecodeRuneInString(rest)
		if rest != "" && unicode.IsLetter(last) && (unicode.IsLetter(next) || unicode.IsDigit(next)) {
			continue
		}
		return strings.TrimLeft(rest, " "), true
	}
	return text, false
}
