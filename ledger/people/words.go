package people

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
	"unsigned": NotRecorded, "ukjent": NotRecorded, "ukjent samler": NotRecorded, "unbekannt": NotRecorded, "inconnu": NotRecorded,
	"desconocido": NotRecorded, "keine angaben": NotRecorded, "ohne angaben": NotRecorded, "ohne angabe": NotRecorded, "sem coletor": NotRecorded,
	"sem data": NotRecorded, "sin colector": NotRecorded, "first name unknown": NotRecorded, "collector": NotRecorded, "collector not recorded": NotRecorded,
	"person string": NotRecorded, "interim": NotRecorded,
	"illegible": Illegible, "unreadable": Illegible, "not legible": Illegible, "uleselig": Illegible, "unleserlich": Illegible,
}

// titles stand before a name.
var titles = wordSet("mr mrs ms miss mme mlle mile sr sra dr dra drs prof profa profª prof.dr professor doctor sir dame lady lord father fr pater pere rev reverend " +
	"bro brother sister soeur maj major capt captain col colonel lt lieut gen general sgt hr herr frau fru frk fraulein mag ing stud cand abbé abbe")

// suffixes stand after a name.
var suffixes = wordSet("jr jnr junior sr snr senior ii iii iv esq phd md msc bsc fils filho neto")

// degrees are suffixes that are titles, not part of the name.
var degrees = wordSet("phd md msc bsc esq frs fls")

// particles stand between given and family name.
var particles = wordSet("van von vom de der den del della delle di da das dos do du la le les las los zu zur zum ten ter 't af av al el bin ibn ben of y e d' und")

// joins are words between two persons.
var joins = wordSet("and & + und et og och y con with mit med avec en com e a. ja i w/ per or oder stet via fide")

// roles say what somebody did; they are dropped, and part two persons when
// they stand between them.
var roles = wordSet("leg legit coll colls collector collectors collector(s) colln collection collected det determined determinavit conf confirmed confirmavit confirmada checked " +
	"examined ex prep prepared preparator preparator(s) dup dupl duplicate by por communicated communicatd comm to annotated annot ded don exp expedition prob probably revised rev. " +
	"verified teste auct in part source dedit misit and_party gathered samler samlet")

// companions of others are such only behind a joining word: "og andre".
var companions = wordSet("andre other others party students friends co-workers alii")

// others stand for unnamed companions.
var others = wordSet("al al. et.al et.al. etal etal. alii others party co-workers students andre other friends etc etc.")

// institutions are words of bodies; a segment that holds one is no person
// unless it stands alone.
var institutions = wordSet("museum museums museo musee university universitet universitetet herbarium institute institut institutt department dept society club garden gardens " +
	"college school survey service station expedition victoria academy")

// monthWords are dropped beside figures, as part of a date.
var monthWords = wordSet("january february march april may june july august september october november december jan feb mar apr jun jul aug sep sept oct nov dec " +
	"januar februar mars mai juni juli oktober desember janvier fevrier avril juin juillet aout septembre octobre novembre decembre " +
	"enero febrero marzo abril mayo junio julio agosto septiembre octubre noviembre diciembre marz dezember")

func wordSet(words string) map[string]bool {
	set := map[string]bool{}
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
