package places

import "strings"

// Words of positions in the languages of labels, folded to lower case. Common
// practice, no source.

func sides(negative bool, s side, words string) map[string]token {
	m := map[string]token{}
	for _, w := range strings.Fields(words) {
		m[w] = token{kind: letter, side: s, negative: negative}
	}
	return m
}

// sideWords name a side of the world.
var sideWords = func() map[string]token {
	all := map[string]token{"o": {kind: letter, side: east, letterO: true}}
	for _, m := range []map[string]token{
		sides(false, north, "n north nord norte noord nb noorderbreedte nbr northern norra bor boreal boreali ln с сев 北緯 北纬 北"),
		sides(true, north, "s south sør sud süd sur sul syd zuid z zb zuiderbreedte sbr southern södra austr austral ls ю юж 南緯 南纬 南"),
		sides(false, east, "e east ø ö øst öst ost or est este leste oost ol oosterlengte eastern östra le в вост 東経 东经 東經 東 东"),
		sides(true, east, "w west vest väst v ouest oeste ovest wl westerlengte western västra lo occ з зап 西経 西经 西經 西"),
	} {
		for w, t := range m {
			all[w] = t
		}
	}
	return all
}()

// sideStems begin longer words for a side: nördlicher, meridionale.
var sideStems = []struct {
	stem string
	token
}{
	{"nördl", token{kind: letter, side: north}}, {"noerdl", token{kind: letter, side: north}}, {"nordl", token{kind: letter, side: north}}, {"septentr", token{kind: letter, side: north}}, {"boreal", token{kind: letter, side: north}},
	{"südl", token{kind: letter, side: north, negative: true}}, {"suedl", token{kind: letter, side: north, negative: true}}, {"sydl", token{kind: letter, side: north, negative: true}}, {"sørl", token{kind: letter, side: north, negative: true}}, {"meridional", token{kind: letter, side: north, negative: true}}, {"austral", token{kind: letter, side: north, negative: true}},
	{"östl", token{kind: letter, side: east}}, {"oestl", token{kind: letter, side: east}}, {"østl", token{kind: letter, side: east}}, {"orient", token{kind: letter, side: east}},
	{"westl", token{kind: letter, side: east, negative: true}}, {"vestl", token{kind: letter, side: east, negative: true}}, {"västl", token{kind: letter, side: east, negative: true}}, {"occident", token{kind: letter, side: east, negative: true}},
}

func wordSet[T any](v T, words string) map[string]T {
	m := make(map[string]T, strings.Count(words, " ")+1)
	for _, w := range strings.Fields(words) {
		m[w] = v
	}
	return m
}

// axisWords say which coordinate a value is.
var axisWords = func() map[string]side {
	m := wordSet(north, "lat latit latitude latitud latitudine latitudo br breite bredde breddegrad breddgrad breedte широта шир ш")
	for w, s := range wordSet(east, "lon long lng longit longitude longitud longitudine longitudo länge laenge lengde lengdegrad længde längd längdgrad lengte долгота долг д") {
		m[w] = s
	}
	return m
}()

// unitWords are words for degrees, minutes and seconds.
var unitWords = func() map[string]kind {
	m := wordSet(degree, "d deg degs degree degrees grad grade grader graden grados graus gradi degré degrés degre degres g gr градусов град 度")
	for w, k := range wordSet(minute, "m min mins minute minutes minutter minuten minutos minuti minuta мин 分") {
		m[w] = k
	}
	for w, k := range wordSet(second, "sec secs second seconds sek sekunder sekunden segundos secondi secondes seconde сек 秒") {
		m[w] = k
	}
	return m
}()

// fillers say nothing.
var fillers = wordSet(true, "and y og und et och en ca c circa approx about b l gps coord coords coordinates coordinate coordenadas koordinaten koordinater koord coordonnées pos position geogr geographic geographical dms dd gr greenwich greenw grw of from")

// meridians are places from which older maps count their longitudes.
var meridians = wordSet(true, "paris ferro hierro pulkovo pulkowo madrid lisbon lisboa rome roma oslo christiania kristiania stockholm amsterdam bern brussels jakarta batavia athens пулково")
