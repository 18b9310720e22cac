package dates

var icelandic = language{
	months:   "janúar|febrúar|mars|apríl|maí|júní|júlí|ágúst|september|október|nóvember|desember",
	shortest: 4,
	seasons:  "vorið|sumar|haust|vetur",
}

var finnish = language{
	months: "tammikuu tammikuuta tammikuun|helmikuu helmikuuta helmikuun|maaliskuu maaliskuuta maaliskuun|huhtikuu huhtikuuta huhtikuun|" +
		"toukokuu toukokuuta toukokuun|kesäkuu kesäkuuta kesäkuun|heinäkuu heinäkuuta heinäkuun|elokuu elokuuta elokuun|" +
		"syyskuu syyskuuta syyskuun|lokakuu lokakuuta lokakuun|marraskuu marraskuuta marraskuun|joulukuu joulukuuta joulukuun",
	shortest: 4,
	seasons:  "kevät keväällä|kesä kesällä|syksy syksyllä|talvi talvella",
	weekdays: "maanantai|tiistai|keskiviikko|torstai|perjantai|lauantai|sunnuntai",
	about:    "noin",
	bounds:   "ennen|asti|jälkeen|alkaen",
	and:      "ja tai",
	decade:   "luku luvulla luvun",
}

var polish = language{
	months: "styczeń stycznia|luty lutego|marzec marca|kwiecień kwietnia|maj maja|czerwiec czerwca|lipiec lipca|sierpień sierpnia|" +
		"wrzesień września|październik października|listopad listopada|grudzień grudnia",
	shortest: 4,
	seasons:  "wiosna wiosną|lato latem|jesień jesienią|zima zimą",
	weekdays: "poniedziałek|wtorek|środa|czwartek|piątek|sobota|niedziela",
	parts:    "początek|połowa|koniec",
	about:    "około ok",
	bounds:   "przed|do|po|od",
	to:       "do",
	and:      "i lub",
	between:  "między",
	century:  "wiek wieku",
	fillers:  "dnia r roku rok w",
}

var czech = language{
	months: "leden ledna|únor února|březen března|duben dubna|květen května|červen června|červenec července|srpen srpna|" +
		"září|říjen října|listopad listopadu|prosinec prosince",
	shortest: 4,
	seasons:  "jaro|léto|podzim|zima",
	weekdays: "pondělí|úterý|středa|čtvrtek|pátek|sobota|neděle",
	parts:    "začátek|polovina|konec",
	about:    "kolem asi",
	bounds:   "před|do|po|od",
	to:       "až",
	and:      "a nebo",
	fillers:  "dne roku rok v",
}

// russian is Russian in Latin letters, by the common systems.
var russian = language{
	months: "yanvar yanvarya janvarja yanvarja ianvaria janvar janv|fevral fevralya fevralja fevralia|mart marta|aprel aprelya aprelja aprelia|" +
		"may maya maia maja|iyun iyunya ijunja iiunia ijun iun|iyul iyulya ijulja iiulia ijul iul|avgust avgusta avg|" +
		"sentyabr sentyabrya sentjabrja sentjabr sentiabria|oktyabr oktyabrya oktjabrja oktjabr oktiabria|" +
		"noyabr noyabrya nojabrja nojabr noiabria|dekabr dekabrya dekabrja dekabria dek",
	shortest: 4,
	seasons:  "vesna vesnoy|leto letom|osen osenyu|zima zimoy",
	fillers:  "g goda",
}

var cyrillic = language{
	months: "январь января|февраль февраля|март марта|апрель апреля|май мая|июнь июня|июль июля|август августа|" +
		"сентябрь сентября|октябрь октября|ноябрь ноября|декабрь декабря",
	shortest: 3,
	seasons:  "весна весной|лето летом|осень осенью|зима зимой",
	bounds:   "до||после|с",
	to:       "по до",
	and:      "и или",
	about:    "около ок",
	century:  "век века",
	fillers:  "г года год",
}

// eastAsian is Chinese and Japanese, and the marks after figures, 1985年5月9日.
var eastAsian = language{
	months:  "一月|二月|三月|四月|五月|六月|七月|八月|九月|十月|十一月|十二月",
	seasons: "春 春季|夏 夏季|秋 秋季|冬 冬季",
	decade:  "年代",
	fillers: "年 日 号 년 일",
}
