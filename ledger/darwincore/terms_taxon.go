package darwincore

import (
	"blotter/ledger"
	"blotter/ledger/opinion"
	"blotter/ledger/reading"
)

// currentTerms repeat the name that holds now in the core.
var currentTerms = append([]Term{
	{"previousIdentifications", DwC, "every other `determinations` entry: name, person, day", func(r Row) string { return previous(r.Sheet) }},
	{"verbatimIdentification", DwC, "the words of the name that holds now, of `determinations` or of `filed_under`", func(r Row) string { return r.now().words }},
	{"taxonFormula", DwC, "how the words use the name: A, A cf., A aff., A ?, A or B, A x B", func(r Row) string { return r.now().formula }},
	{"identificationQualifier", DwC, "cf., aff., ? and what they govern; agg., s.l., sp. 3", func(r Row) string { return r.now().qualifier }},
	{"typeStatus", DwC, "`types` that hold and are not merely suspected, of all names: status, name, publication", func(r Row) string { return typeStatus(r.Sheet, "") }},
	{"identifiedBy", DwC, "`by` of that opinion, as written; of `filed_under` when that decides", func(r Row) string { return r.identifiedBy() }},
	{"identifiedByID", DwC, "ORCID iD of that person, when people.yaml has it", func(r Row) string { return r.orcidsOf(r.identifiedBy()) }},
	{"dateIdentified", DwC, "the reading of its date", func(r Row) string { return r.identifiedOn() }},
	{"identificationReferences", DwC, "`source` of that opinion", func(r Row) string { return r.ofOpinion(func(d *ledger.Determination) ledger.Leaf { return d.Source }) }},
	{"identificationRemarks", DwC, "`why` of that opinion; that it is the curator's filing; that opinions differ", func(r Row) string { return r.currentRemarks() }},
}, taxonTerms(func(r Row) *named { return r.now().named })...)

// taxonTerms are the parts of one name.
func taxonTerms(of func(Row) *named) []Term {
	part := func(name, from string, value func(*named) string) Term {
		return Term{Name: name, Space: DwC, From: from, Value: func(r Row) string { return value(of(r)) }}
	}
	return []Term{
		part("scientificName", "the name as the Code has it: without qualifiers, the lowest epithet only, with authors if the words have them; of `A or B` the genus of both", func(n *named) string { return n.scientific }),
		part("scientificNameAuthorship", "its authors", func(n *named) string { return n.authors }),
		part("acceptedNameUsage", "the accepted name by names/, when names/ has the name", func(n *named) string { return n.acceptedName() }),
		part("nameAccordingTo", "`source` of the name in names/", func(n *named) string {
			return n.fromList(func(e *ledger.NameEntry) ledger.Leaf { return e.Source })
		}),
		part("namePublishedIn", "`published` of the name in names/", func(n *named) string {
			return n.fromList(func(e *ledger.NameEntry) ledger.Leaf { return e.Published })
		}),
		{"family", DwC, "the family of the name by names/, else `family` as written", func(r Row) string { return of(r).familyOr(r.Record.Family) }},
		part("genus", "the genus of the name", func(n *named) string { return n.genus }),
		part("genericName", "the same, of a name of two or more parts", func(n *named) string {
			if n.epithet == "" {
				return ""
			}
			return n.genus
		}),
		part("specificEpithet", "its second part", func(n *named) string { return n.epithet }),
		part("infraspecificEpithet", "its lowest epithet below species", func(n *named) string { return n.infraspecific }),
		part("cultivarEpithet", "the cultivar, without quotation marks", func(n *named) string { return n.cultivar }),
		part("taxonRank", "the rank of the name", func(n *named) string { return n.rank }),
		part("verbatimTaxonRank", "the rank term of the lowest epithet", func(n *named) string { return n.verbatimRank }),
		part("vernacularName", "`common` of the name in names/", func(n *named) string {
			return n.fromList(func(e *ledger.NameEntry) ledger.Leaf { return e.Common })
		}),
		part("nomenclaturalCode", "ICN; ICNCP of cultivars", func(n *named) string { return n.code }),
		part("taxonomicStatus", "accepted or synonym, of a name that names/ has", func(n *named) string { return n.status() }),
	}
}

// previous is the other determinations in one line.
func previous(s *Sheet) string {
	var out []string
	now := s.now()
	for i := range s.Reading.Opinions {
		o := &s.Reading.Opinions[i]
		if i == now.at || o == now.by || o.State == opinion.Mistake || !o.Given.Name.Set() {
			continue
		}
		words := o.Given.Name.Text
		if o.Kind == opinion.Not {
			words = "not " + words
		}
		for _, w := range saidTexts(o.Given.By, o.Given.Date) {
			words += ", " + w
		}
		out = append(out, words)
	}
	return Join(out)
}

// identifiedBy is who holds the current opinion.
func (s *Sheet) identifiedBy() string {
	if s.Reading.Chain.Filed && s.now().at < 0 {
		return s.Record.FiledUnder.By.Text
	}
	return s.ofOpinion(func(d *ledger.Determination) ledger.Leaf { return d.By })
}

func (s *Sheet) identifiedOn() string {
	if o := s.now().by; o != nil {
		return isoDate(&o.Date)
	}
	if s.Reading.Chain.Filed {
		return isoWords(s.Record.FiledUnder.Date.Text)
	}
	return ""
}

// ofOpinion is one field of the opinion behind the current name.
func (s *Sheet) ofOpinion(field func(*ledger.Determination) ledger.Leaf) string {
	if o := s.now().by; o != nil {
		return field(o.Given).Text
	}
	return ""
}

func (s *Sheet) currentRemarks() string {
	var out []string
	if why := s.ofOpinion(func(d *ledger.Determination) ledger.Leaf { return d.Why }); why != "" {
		out = append(out, why)
	}
	c := &s.Reading.Chain
	if c.Filed && s.now().at < 0 {
		out = append(out, "filed so by the curator: "+s.Record.FiledUnder.Why.Text)
	}
	if c.Disputed {
		out = append(out, "opinions differ")
	}
	return Join(out)
}

// Identification has one row for each determination, in the order of the
// record.
var Identification = Kind{
	Name: "Identification", Noun: "determination", Type: string(DwC) + "Identification", File: "names-given.csv", Says: "one entry of `determinations`, in the record's order, oldest first",
	Rows: func(s *Sheet) int { return len(s.Record.Determinations) },
	Terms: append([]Term{
		{"identificationID", DwC, "occurrenceID, with a mark made of the name's words and `kind`", func(r Row) string { return r.identificationID(r.At) }},
		{"verbatimIdentification", DwC, "`determinations.name`, as written", func(r Row) string { return r.determination().Name.Text }},
		{"isAcceptedIdentification", DwC, "true for the entry whose words are the name that holds now", func(r Row) string {
			if r.now().at == r.At {
				return "true"
			}
			return "false"
		}},
		{"taxonFormula", DwC, "how the words use the name; `not A` of an entry that says what it is not", func(r Row) string { return formulaFor(r.given(), r.opinion().Kind) }},
		{"identificationQualifier", DwC, "cf., aff., ? and what they govern; agg., s.l., sp. 3", func(r Row) string { return r.given().qualifier }},
		{"typeStatus", DwC, "`types` that hold and are not merely suspected, of this name", func(r Row) string { return r.typeOfName() }},
		{"identifiedBy", DwC, "`determinations.by`, as written", func(r Row) string { return r.determination().By.Text }},
		{"identifiedByID", DwC, "ORCID iD of that person, when people.yaml has it", func(r Row) string { return r.orcidsOf(r.determination().By.Text) }},
		{"dateIdentified", DwC, "the reading of `determinations.date`", func(r Row) string { return isoDate(&r.opinion().Date) }},
		{"identificationReferences", DwC, "`determinations.source`", func(r Row) string { return r.determination().Source.Text }},
		{"identificationVerificationStatus", DwC, "`determinations.kind`: det, conf (looked and agrees), not, name-change (nobody looked)", func(r Row) string { return r.determination().Kind.Text }},
		{"identificationRemarks", DwC, "`determinations.why`; then, behind their names, `at`, `from`, `seen`, `part`, `mistake`, and `date` as written when it is not dateIdentified", func(r Row) string { return r.opinionRemarks() }},
	}, taxonTerms(func(r Row) *named { return r.given() })...),
}

func (r Row) determination() *ledger.Determination { return &r.Record.Determinations[r.At] }

func (r Row) opinion() *reading.Opinion { return &r.Reading.Opinions[r.At] }

// given is the name of the determination.
func (r Row) given() *named { return r.name(r.opinion().Name) }

func (r Row) typeOfName() string {
	if len(r.Reading.Types) == 0 {
		return ""
	}
	if key := r.opinion().Name.Key(); key != "" {
		return typeStatus(r.Sheet, key)
	}
	return ""
}

// OpinionKeys are the fields of a determination that stand in
// identificationRemarks behind their names; why stands there without.
var OpinionKeys = []string{"at", "from", "seen", "part", "mistake", "date"}

func (r Row) opinionRemarks() string {
	fields := opinionFields(r.determination())
	if last := &fields[len(fields)-1]; last.Value == isoDate(&r.opinion().Date) {
		last.Value = ""
	}
	return Pack("why", fields)
}

// opinionFields are why and OpinionKeys of a determination, the date last.
func opinionFields(d *ledger.Determination) []ledger.KV {
	return []ledger.KV{{Key: "why", Value: d.Why.Text}, {Key: "at", Value: d.At.Text}, {Key: "from", Value: d.From.Text}, {Key: "seen", Value: d.Seen.Text},
		{Key: "part", Value: d.Part.Text}, {Key: "mistake", Value: d.Mistake.Text}, {Key: "date", Value: d.Date.Text}}
}
