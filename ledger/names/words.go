package names

import "strings"

// Words that stand in names; all in lower case and, where said, without dots.

// particles are words in lower case that belong to authors' names when a word
// with a capital follows.
var particles = wordSet("van von vom v v. de der den dem d. d do dos da das du del della delle dello degli dei di dal dalla la le les lo los las y i e " +
	"af av zu zur zum ten ter te 't ’t ‘t in't in’t al el bin ibn ben ver und och og auf op à a o und st. s. v.d. v.d v.d.l. van't")

// joiners join authors or say how they share a name.
var joiners = wordSet("& et ex ex. in and apud und og och y ap. ap e. con.")

// neverEpithets are words in lower case that are never epithets.
var neverEpithets = wordSet("ex et and apud vel seu sive oder eller und och hort ht cf aff sensu auct auctt nom sched herb litt group clone strain serovar serotype biovar culture enrichment auctorum hortulan hortulanorum pers char ecotype cytotype chemotype")

// vernacular are words of everyday English that show, behind the first word,
// that no scientific name is meant: "Small tree".
var vernacular = wordSet("tree trees shrub shrubs herb herbs grass grasses fern ferns moss mosses flower flowers weed weeds fungus plant plants leaf leaves seed seeds fruit fruits lily daisy rose")

// senseStarts are first words of a remark on the sense in two words.
var senseStarts = wordSet("s. sensu s (s. [s. sens. sens (sens. (sensu")

// specialis are the second words of "f. sp.", forma specialis (Art. 4 Note 4).
var specialis = wordSet("sp. sp spec. specialis")

// newWords stand between a rank term and a new epithet: "var. nov. alba".
var newWords = wordSet("nov. nov n. nova novum novus")

// trailers follow an author's name.
var trailers = wordSet("f. fil. fil filius f bis ter junior jr. jr sen. senior al. al alii ht. ht et.al. &al. etal. aliq. ms ms. mss. p. pr. mihi mihi. nobis nob. hort. hort auct. auctt. anon. anon p.p. pers.comm. pat. pater")

// doubts are the qualifiers that stand before the part in doubt.
var doubts = map[string]string{
	"cf": "cf.", "cfr": "cf.", "cff": "cf.", "confer": "cf.", "conf": "cf.", "aff": "aff.", "?": "?", "??": "?", "???": "?", "cf./aff": "cf./aff.", "aff./cf": "aff./cf.",
	"cf/aff": "cf./aff.", "c.f": "cf.", "?cf": "cf.", "?aff": "aff.", "poss": "poss.", "possibly": "possibly", "prob": "prob.", "probably": "probably", "perhaps": "perhaps",
	"maybe": "maybe", "ca": "ca.", "vermutlich": "vermutlich", "trolig": "trolig",
}

// nearWords say that the plant is near a species and not of it: the name ends
// before them, as with "sp.".
var nearWords = wordSet("nr. nr near prope")

// senses are the qualifiers that stand after the name and say how wide it is
// taken; keys without spaces and dots.
var senses = map[string]string{
	"agg": "agg.", "aggr": "agg.", "aggregate": "agg.", "sl": "s.l.", "slat": "s.l.", "sensulato": "s.l.",
	"sstr": "s.str.", "ss": "s.str.", "senslat": "s.l.", "sensl": "s.l.", "sensstr": "s.str.", "sensampl": "s.ampl.", "sensulat": "s.l.", "sensustr": "s.str.",
	"sensul": "s.l.", "slato": "s.l.", "group": "group", "grp": "group", "aggreg": "agg.", "gruppe": "group", "sstricto": "s.str.", "sensustricto": "s.str.", "sampl": "s.ampl.", "sensuamplo": "s.ampl.",
	"coll": "coll.", "scoll": "s.coll.", "ined": "ined.", "complex": "complex", "gr": "gr.",
}

// plainWords are words of remarks that would pass for epithets.
var plainWords = wordSet("of the found in on at from with beside under along above below between among behind near by inside outside against upon into here there here. this see note label this that was were plant plants and not but by as vide fide genera continuation sentence")

// openWords end a name at genus or family: what follows names no species.
var openWords = wordSet("sp sp. spp spp. spec spec. species indet indet. gen. gen morphosp. morphosp morphospecies indeterminate undet. undet incertae")

// notes begin a remark that is no part of the name: nomenclatural notes and
// references to the sense of other authors (Rec. 47A, 50).
var notes = wordSet("nom. nom nomen comb. comb combinatio stat. stat status nov. nov sensu sensu. sec. sec auct. auct auctt. auctt emend. emend " +
	"p.p. p.p pro non not nec ♀ ♂ excl. excl incl. incl syn. syn synonym str. pv. strain serovar serotype biovar clone hybrid hybrids hybr hyb cult. cultivated kult. em. em juv. ster. steril veg. fl. fl flore hort.ined ms.ined [sic] sic det. conf. mut. descr. – - = publ. basionym fide vide auctorum hortulan. hortulan hortulanorum pers. ecotype cytotype chemotype")

// firstNone are first words of remarks that name no plant.
var firstNone = wordSet("not none no unknown unidentified undetermined unnamed unamed see plant herb tree shrub incertae incertaesedis inc. inc.sed. " +
	"ukjent ubestemt unbestimmt indet. indet indeterminate genus gen. genn. sp. sp spec. species")

// provisional is the first word of names of prokaryotes that are not yet
// published by their own Code.
const provisional = "candidatus"

// organisms are words that show that the words name no plant but a virus or
// a thing of the laboratory.
var organisms = wordSet("virus viruses viroid viroids phage bacteriophage virophage cyanophage prion prions plasmid plasmids alphasatellite alphasatellites " +
	"betasatellite betasatellites a-particles particle particles npv mnpv snpv npv-a phytoplasma symbiont endosymbiont proteobacterium cyanobacterium " +
	"rhabdovirus lyssavirus rhinovirus rna dna ictv expression clade herpesviruses")

// has reports whether w in small letters is a word of set.
func has(set map[string]bool, w string) bool {
	var buf [28]byte
	if len(w) > len(buf) {
		return false
	}
	for i := 0; i < len(w); i++ {
		c := w[i]
		if c >= 'A' && c <= 'Z' {
			c += 'a' - 'A'
		}
		buf[i] = c
	}
	return set[string(buf[:len(w)])]
}

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
