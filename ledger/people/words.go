package people

import "strings"

// None is what the words say when they name nobody.
type None uint8

const (
	Stated      None = iota // the words are meant as persons
	NotRecorded             // unknown, s.coll., anonymous: none on the label
	Illegible               // [illegible]
	NotTyped                // nothing: not yet typed
)

// noneWords are words for none, folded, without dots, brackets and commas.
// Common practice, no source.
var noneWords = map[string]None{
	"": NotTyped, "not yet typed": NotTyped, "not typed": NotTyped,
	"s coll": NotRecorded, "scoll": NotRecorded, "sine coll": NotRecorded, "s leg": NotRecorded, "sleg": NotRecorded, "sn": NotRecorded, "s n": NotRecorded,
	"unknown": NotRecorded, "unknown collector": NotRecorded, "collector unknown": NotRecorded, "anonymous": NotRecorded, "anon": NotRecorded,
	"anonymous collector": NotRecorded, "not recorded": NotRecorded, "na": NotRecorded, "not specified": NotRecorded, "original identification": NotRecorded, "not stated": NotRecorded, "none": NotRecorded, "no data": NotRecorded,
	"unsigned": NotRecorded, "tbd": NotRecorded, "to be determined": NotRecorded, "xxx": NotRecorded, "ohne sammler": NotRecorded, "sans collecteur": NotRecorded, "sans nom": NotRecorded, "uten samler": NotRecorded, "sammler unbekannt": NotRecorded, "collecteur inconnu": NotRecorded, "samler ukjent": NotRecorded, "leg ign": NotRecorded, "ukjent": NotRecorded, "ukjent samler": NotRecorded, "unbekannt": NotRecorded, "inconnu": NotRecorded,
	"desconocido": NotRecorded, "keine angaben": NotRecorded, "ohne angaben": NotRecorded, "ohne angabe": NotRecorded, "sem coletor": NotRecorded,
	"sem data": NotRecorded, "sin colector": NotRecorded, "first name unknown": NotRecorded, "collector": NotRecorded, "collector not recorded": NotRecorded,
	"unk": NotRecorded, "unkn": NotRecorded, "unknown person": NotRecorded, "?": NotRecorded, "??": NotRecorded, "-": NotRecorded, "--": NotRecorded, "---": NotRecorded, "n/a": NotRecorded,
	"not given": NotRecorded, "not known": NotRecorded, "none given": NotRecorded, "no collector": NotRecorded, "no name": NotRecorded, "nil": NotRecorded, "null": NotRecorded, "sine collectore": NotRecorded,
	"no coll": NotRecorded, "no collector given": NotRecorded, "no collector listed": NotRecorded, "collector not stated": NotRecorded, "collector not given": NotRecorded, "collector unspecified": NotRecorded,
	"unspecified": NotRecorded, "unstated": NotRecorded, "unnamed": NotRecorded, "unidentified": NotRecorded, "undetermined": NotRecorded, "various": NotRecorded, "various collectors": NotRecorded,
	"several collectors": NotRecorded, "multiple collectors": NotRecorded, "ignotus": NotRecorded, "nn": NotRecorded, "n n": NotRecorded, "s det": NotRecorded, "anonyme": NotRecorded, "anonimo": NotRecorded,
	"anonym": NotRecorded, "desconhecido": NotRecorded, "coletor desconhecido": NotRecorded, "colector desconocido": NotRecorded, "sin dato": NotRecorded, "sin datos": NotRecorded, "sin recolector": NotRecorded,
	"no registrado": NotRecorded, "no disponible": NotRecorded, "not available": NotRecorded, "assumed to be collector": NotRecorded, "data not captured": NotRecorded, "no agent": NotRecorded, "see label": NotTyped, "not on label": NotRecorded, "not indicated": NotRecorded, "no info": NotRecorded, "no information": NotRecorded, "nao informado": NotRecorded, "okand": NotRecorded, "onbekend": NotRecorded, "non indique": NotRecorded, "illegible signature": Illegible, "name illegible": Illegible,
	"collector illegible": Illegible, "ilegible": Illegible, "ilegivel": Illegible, "illisible": Illegible,
	"person string": NotRecorded, "interim": NotRecorded,
	"illegible": Illegible, "unreadable": Illegible, "not legible": Illegible, "uleselig": Illegible, "unleserlich": Illegible,
}

// titles stand before a name.
var titles = wordSet("mr mrs ms miss mme messrs mssrs prof.dr. baron baroness graf count freiherr frhr hno hermano hna padre doña lic biol msgr mgr bishop archbishop captain sgt sergeant cpl pvt lieutenant admiral hon mag ingeniero mlle mile sr sra dr dra drs prof profa profª prof.dr professor doctor sir dame lady lord father fr pater pere rev reverend " +
	"bro brother sister soeur maj major capt captain col colonel lt lieut gen general sgt hr herr frau fru frk fraulein mag ing stud cand abbé abbe")

// suffixes stand after a name.
var suffixes = wordSet("jr jnr junior sr snr senior ii iii iv esq phd md msc bsc fils filho neto")

// degrees are suffixes that are titles, not part of the name.
var degrees = wordSet("phd md msc bsc esq frs fls")

// particles stand between given and family name.
var particles = wordSet("van von vom de der den del della delle di da das dos do du la le les las los zu zur zum ten ter 't af av al el bin ibn ben of y e d' und v. v v.d. vd vande vander do degli dei")

// joins are words between two persons.
var joins = wordSet("and & + und et og och y con with mit med avec en com e a. ja i w/ per or oder stet via fide for pro w w. para samt sammen mot med. und. u. u ja through vel")

// roles say what somebody did; they are dropped, and part two persons when
// they stand between them.
var roles = wordSet("leg legit coll colls collector collectors collector(s) colln collection collected det determined determinavit conf confirmed confirmavit confirmada checked " +
	"examined ex prep prepared preparator preparator(s) dup dupl duplicate by por communicated communicatd comm to annotated annot ded don exp exped expedition prob probably possibly perhaps scripsit curated illustrated drawn mounted transcribed catalogued databased digitized imaged gesammelt recolte recoltes legerunt lgt par undated ca circa prox revised rev. " +
	"verified teste auct in part source dedit misit and_party gathered samler samlet assisted accompanied accompagne company assistance help aided verif ver verified veri identified id ident accepted redet reviewed rec recorded photographed photographer photo photos photograph stud communicated given presented purchased donated donor don. gift sent source donavit ex. ded. confirmavit vidit vid")

// companions of others are such only behind a joining word: "og andre".
var companions = wordSet("andre andere otros outros wife family son sons daughter class team co co. staff crew other others party students friends co-workers alii")

// others stand for unnamed companions.
var others = wordSet("al al. et.al et.al. etal etal. alii others party co-workers coworkers students andre andere autres otros outros otras altri mfl m.fl m.fl. u.a u.a. e.a e.a. et.coll. collab collab. collaborators co co. wife family son sons daughter colleagues class team associates assistants helpers staff crew other friends etc etc.")

// monthWords are dropped beside figures, as part of a date.
var monthWords = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec " +
	"januar februar mars mai juni juli oktober desember janvier fevrier avril juin juillet aout septembre octobre novembre decembre " +
	"enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre marz dezember")

func wordSet(words string) map[string]bool {
	set := make(map[string]bool, strings.Count(words, " ")+1)
	start := 0
	for i := 0; i <= len(words); i++ {
		if i == len(words) || words[i] == ' ' {
			if i > start {
				set[words[start:i]] = true
			}
			start = i + 1
		}
	}
	return set
}
