package dates

// language holds the words of one language that stand in dates, written with
// their accents; they are compared by fold, so that case and missing accents
// do not matter. Groups are parted by |, the words of a group by spaces. The
// words are from memory of common usage and of herbarium labels, no source.
type language struct {
	months   string // January to December; the first word of a group in full, then other forms
	shortest int    // the first letters of a month's first word count as its abbreviation from this many on; 0: none do
	seasons  string // spring, summer, autumn, winter
	weekdays string // Monday to Sunday
	parts    string // early, middle, late
	about    string
	bounds   string // before, up to, after, since
	to       string // join the first and last day of a span
	and      string // join days of a list
	between  string // what comes before "A and B" when that is a span
	decade   string // after a year: ten years
	century  string // after a number: a century
	times    string // times of day: noon
	hours    string // what stands after an hour: 14 Uhr
	fillers  string // say nothing of the day
}

// languages in the order in which a word that means two things is settled:
// the first wins.
var languages = []language{english, german, norwegian, danish, swedish, dutch, french, spanish, portuguese,
	italian, latin, catalan, icelandic, finnish, polish, czech, russian, cyrillic, eastAsian}

var english = language{
	months: "january jany janry|february feby febry febr|march mch mrch mr|april apl aprl ap apr|may my|june je jn|" +
		"july jly jy jl|august augt aug ag au|september sept septr sepr septb sp|october octr octbr|november novr novbr|december decr decbr",
	shortest: 3,
	seasons:  "spring springtime|summer summertime|autumn fall aut|winter wintertime",
	weekdays: "monday mon|tuesday tue tues|wednesday wed weds|thursday thu thur thurs|friday fri|saturday sat|sunday sun",
	parts:    "early beginning begin|mid middle midst|late end latter",
	about:    "ca c cca circa about approx approximately around abt near roughly probably prob",
	bounds:   "before pre prior|until till earlier previously|after post|since later",
	to:       "to through thru until till",
	and:      "and or",
	between:  "between bet betw",
	decade:   "s",
	century:  "century cent",
	times:    "noon midday midnight morning afternoon evening night dawn dusk sunrise sunset",
	hours:    "hrs hours hour",
	fillers: "the of in on at at date dated utc gmt cet cest day days anno year month coll collected leg gathered season some from up sometime this it " +
		"during ad ce than possibly fl fls fr frt flower flowers flowering fruit fruits fruiting leaves lvs",
}

var german = language{
	months: "januar jänner jaenner jenner jän jän|februar feber hornung|märz maerz mrz lenzmonat|april ostermonat|mai|juni brachmonat|juli heumonat|" +
		"august erntemonat|september septbr sptbr herbstmonat|oktober october octbr oktbr weinmonat|november novbr|dezember december dezbr dec christmonat",
	shortest: 3,
	seasons:  "frühling frühjahr fruehling fruehjahr vorfrühling|sommer hochsommer spätsommer|herbst spätherbst|winter",
	weekdays: "montag|dienstag|mittwoch|donnerstag|freitag|samstag sonnabend|sonntag",
	parts:    "anfang anfangs beginn frühe früher|mitte|ende spät später",
	about:    "um etwa ungefähr gegen wohl",
	bounds:   "vor|bis|nach|seit ab",
	to:       "bis",
	and:      "und u oder od",
	between:  "zwischen zw",
	decade:   "er ern erjahre jahre",
	century:  "jahrhundert jahrhunderts jahrh jh jhdt jhd",
	hours:    "uhr",
	times:    "mittags morgens abends nachmittags vormittags nachts früh",
	fillers:  "datum der die das den dem des im am in vom von zum zu jahre jahr jahres monat tag gesammelt ges",
}

var norwegian = language{
	months:   "januar|februar|mars|april|mai|juni|juli|august|september septbr|oktober|november novbr|desember",
	shortest: 3,
	seasons:  "vår vaar våren|sommer sommeren|høst hösten høsten høstmnd|vinter vinteren",
	weekdays: "mandag|tirsdag|onsdag|torsdag|fredag|lørdag loerdag|søndag soendag",
	parts:    "tidlig begynnelsen primo|midt midten medio|sent slutten seint ultimo",
	about:    "omkring cirka omtrent omtr rundt",
	bounds:   "før foer|inntil|etter|siden",
	to:       "til",
	and:      "og eller",
	between:  "mellom",
	decade:   "årene aarene tallet åra",
	century:  "århundre aarhundre",
	times:    "kl klokka klokken kveld formiddag ettermiddag",
	fillers:  "dato de fra år aar i på paa av dag måned uke",
}

var danish = language{
	months:   "januar|februar|marts|april|maj|juni|juli|august|september|oktober|november|december",
	shortest: 3,
	seasons:  "forår foraar|sommer|efterår efteraar|vinter",
	weekdays: "mandag|tirsdag|onsdag|torsdag|fredag|lørdag|søndag",
	parts:    "tidligt begyndelsen|midten|slutningen",
	about:    "omkr",
	bounds:   "før|indtil|efter|siden",
	to:       "til",
	and:      "og eller",
	between:  "mellem",
	century:  "århundrede aarhundrede",
	fillers:  "af",
}

var swedish = language{
	months:   "januari|februari|mars|april|maj|juni|juli|augusti|september|oktober|november|december",
	shortest: 3,
	seasons:  "vår våren|sommar sommaren|höst hösten|vinter vintern",
	weekdays: "måndag|tisdag|onsdag|torsdag|fredag|lördag|söndag",
	parts:    "tidigt början|mitten|sent slutet",
	about:    "omkring cirka",
	bounds:   "före|tills|efter|sedan",
	to:       "till",
	and:      "och eller",
	between:  "mellan",
	decade:   "talet",
	century:  "århundradet seklet",
	fillers:  "från av år",
}

var dutch = language{
	months:   "januari louwmaand|februari sprokkelmaand|maart mrt lentemaand|april grasmaand|mei bloeimaand|juni zomermaand|juli hooimaand|augustus oogstmaand|september herfstmaand|oktober october wijnmaand|november slachtmaand|december wintermaand",
	shortest: 3,
	seasons:  "voorjaar lente|zomer|najaar herfst|winter",
	weekdays: "maandag|dinsdag|woensdag|donderdag|vrijdag|zaterdag|zondag",
	parts:    "begin|midden half|eind einde",
	about:    "omstreeks ongeveer rond",
	bounds:   "voor vóór|tot|na|sinds vanaf",
	to:       "tot t/m",
	and:      "en of",
	between:  "tussen",
	decade:   "jaren",
	century:  "eeuw",
	hours:    "uur",
	fillers:  "het van jaar",
}
