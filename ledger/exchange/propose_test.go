package exchange

import (
	"fmt"
	"strings"
	"testing"

	"blotter/ledger"
)

// brought is what a table becomes by the mapping that it suggests itself: the
// proposal written out, read again and run.
func brought(t *testing.T, name, content string) (proposal string, made []Made) {
	t.Helper()
	x, err := OpenText(name, opened(content), nil)
	if err != nil {
		t.Fatal(err)
	}
	p, err := NewProfile(x)
	if err != nil {
		t.Fatal(err)
	}
	proposal = string(Propose(name, p, "LK7-").Text())
	m, fs := ledger.DecodeMapping("map.yaml", []byte(proposal))
	if len(fs) > 0 {
		t.Fatalf("%v\n%s", fs, proposal)
	}
	plan, err := NewPlan(x.Heads(), m, options())
	if err != nil {
		t.Fatalf("%v\n%s", err, proposal)
	}
	for m, err := range plan.Make(x) {
		if err != nil {
			t.Fatal(err)
		}
		if m.Record == nil {
			t.Fatalf("line %d: %s", m.Line, m.Why)
		}
		made = append(made, m)
	}
	return proposal, made
}

func words(r *ledger.Record) string {
	var all []string
	for _, kv := range ledger.Flatten(r) {
		all = append(all, kv.Key+"="+kv.Value)
	}
	return strings.Join(all, "\n")
}

// Tables of five languages as people keep them; headings and rows made up.
func TestProposedMappings(t *testing.T) {
	cases := []struct{ name, table, record, proposal string }{
		{"German", "Lfd. Nr.;Sammler;Sammelnr.;Funddatum;Fundort;Bundesland;Höhe (m);Wiss. Name;Bestimmt von;Bemerkungen;Schrank\n" +
			"1;H. Kübler;12;14.6.1931;Allgäu, Oytal;Bayern;1450;Ranunculus acris L.;H. Kübler;k.A.;3\n" +
			"2;unbekannt;s.n.;3.7.1932;Oytal;Bayern;ca. 1500 m;Ranunculus repens L.;;häufig;3\n",
			"entry=full\ncollector=H. Kübler\ncoll_no=12\ndate=14.6.1931\nplace.province=Bayern\nplace.locality=Allgäu, Oytal\nplace.elevation=1450\ndeterminations.1.name=Ranunculus acris L.\ndeterminations.1.kind=det\ndeterminations.1.by=H. Kübler\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nimport.Lfd. Nr.=1\nimport.Schrank=3",
			"# key: Lfd. Nr.: no cell stands twice"},
		{"Norwegian", "Løpenr\tInnsamler\tDato\tFylke\tKommune\tSted\tMoh\tSone\tØst\tNord\tSlekt\tArt\tAutor\tBestemt av\tBest. dato\tMerknader\n" +
			"7\tA. Vik\t14/6 1931\tVestland\tVoss\tMølster\t340\t32V\t367508\t6738721\tRanunculus\tacris\tL.\tO. Lie\t1950\tfin\n",
			"entry=full\ncollector=A. Vik\ndate=14/6 1931\nplace.province=Vestland\nplace.district=Voss\nplace.locality=Mølster\nplace.position=32V 367508 6738721\nplace.elevation=340 m\ndeterminations.1.name=Ranunculus acris L.\ndeterminations.1.kind=det\ndeterminations.1.by=O. Lie\ndeterminations.1.date=1950\ndeterminations.1.from=list\nremarks=fin\nimport.Løpenr=7",
			"and:\n      - Art\n      - Autor"},
		{"French", "Numéro;Récolteur;Date de récolte;Département;Commune;Lieu-dit;Altitude;Nom scientifique;Déterminateur;Milieu\n" +
			"1;J. Roux;13/04/1955;Isère;Corps;La Salette;1800 m;Primula veris;J. Roux;prairie\n2;J. Roux;02/05/1955;Isère;Corps;La Salette;1800 m;Primula elatior;;prairie\n",
			"entry=full\ncollector=J. Roux\ndate=13/04/1955\nplace.province=Isère\nplace.district=Corps\nplace.elevation=1800 m\nhabitat=prairie\ndeterminations.1.name=Primula veris\ndeterminations.1.kind=det\ndeterminations.1.by=J. Roux\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nimport.Numéro=1\nimport.Lieu-dit=La Salette",
			"order: day-month"},
		{"Spanish", "Colector,Número de colecta,Fecha,País,Provincia,Localidad,Latitud,Longitud,Altitud (m),Nombre científico,Determinado por,Observaciones\n" +
			"M. Ruiz,15,12-III-1961,España,Jaén,Sierra de Cazorla,37.9,-2.9,1200,Viola cazorlensis Gand.,M. Ruiz,sin datos\n",
			"entry=full\ncollector=M. Ruiz\ncoll_no=15\ndate=12-III-1961\nplace.country=España\nplace.province=Jaén\nplace.locality=Sierra de Cazorla\nplace.position=37.9, -2.9\nplace.elevation=1200 m\ndeterminations.1.name=Viola cazorlensis Gand.\ndeterminations.1.kind=det\ndeterminations.1.by=M. Ruiz\ndeterminations.1.date=s.d.\ndeterminations.1.from=list",
			"nothing:\n  - sin datos"},
		{"English with parts of dates", "Collector,Day,Month,Year,Location,Elev. (ft),Earlier names,Name,Det. by\n" +
			"S. Rask,14,6,1931,Voss,1200,\"Ranunculus repens, Ranunculus auricomus L.\",Ranunculus acris,O. Lie\n",
			"entry=full\ncollector=S. Rask\ndate=14.6.1931\nplace.locality=Voss\nplace.elevation=1200 ft\ndeterminations.1.name=Ranunculus repens\ndeterminations.1.kind=det\ndeterminations.1.by=unsigned\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\ndeterminations.2.name=Ranunculus auricomus L.\ndeterminations.2.kind=det\ndeterminations.2.by=unsigned\ndeterminations.2.date=s.d.\ndeterminations.2.from=list\ndeterminations.3.name=Ranunculus acris\ndeterminations.3.kind=det\ndeterminations.3.by=O. Lie\ndeterminations.3.date=s.d.\ndeterminations.3.from=list",
			"split: \",\""},
		{"Darwin Core with prefixes", "dwc:recordedBy,http://rs.tdwg.org/dwc/terms/eventDate,dwc:verbatimEventDate,decimalLatitude,decimalLongitude,verbatimCoordinates,scientificName,typeStatus\n" +
			"S. Rask,1934-04-03,3/4/34,60.1,6.2,60°06'N 6°12'E,Poa annua L.,\n",
			"entry=full\ncollector=S. Rask\ndate=3/4/34\nplace.position=60°06'N 6°12'E\ndeterminations.1.name=Poa annua L.\ndeterminations.1.kind=det\ndeterminations.1.by=unsigned\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nread.date.is=1934-04-03\nread.date.by=Tiril Aune\nread.date.date=2026-11-25\nread.date.from=the column http://rs.tdwg.org/dwc/terms/eventDate\nread.position.is=60.1, 6.2\nread.position.by=Tiril Aune\nread.position.date=2026-11-25\nread.position.from=the column decimalLatitude",
			"read: \"yes\""},
		{"numbered opinions, angles in columns", "Herb. no.,Genus,Species,Collector,No.,Date,Locality,Lat deg,Lat min,Lat sec,N/S,Long deg,Long min,Long sec,E/W,Alt (m),Det. 1,Det. by 1,Det. date 1,Det. 2,Det. by 2,Det. date 2\n" +
			"LK7-0000901,Ranunculus,acris,A. Lid,33,14.vii.1987,Bulken,60,38,12,N,6,25,30,E,120,Ranunculus repens L.,A. Lid,1987,Ranunculus acris L.,B. Moe,1999-05-01\n" +
			"LK7-0000902,Carex,dioica,A. Lid,34,15.vii.1987,Bulken,60,38,12,N,6,25,30,E,NA,Carex dioica L.,A. Lid,1990,,,\n",
			"specimen=LK7-0000901\nentry=full\ncollector=A. Lid\ncoll_no=33\ndate=14.vii.1987\nplace.locality=Bulken\nplace.position=60 38 12 N 6 25 30 E\nplace.elevation=120 m\ndeterminations.1.name=Ranunculus repens L.\ndeterminations.1.kind=det\ndeterminations.1.by=A. Lid\ndeterminations.1.date=1987\ndeterminations.1.from=list\ndeterminations.2.name=Ranunculus acris L.\ndeterminations.2.kind=det\ndeterminations.2.by=B. Moe\ndeterminations.2.date=1999-05-01\ndeterminations.2.from=list\nimport.Genus=Ranunculus\nimport.Species=acris",
			"taken for the collector's number"},
		{"title above the headings, number sign, datum, ranks", "Herbarium of the Voss survey, typed in 1998\nBox 3\n\nSheet;Collector;Coll#;Date;Locality;Lat;Long;Datum;Genus;Species;Author;Subsp.;Var.;Author 2\n" +
			"k1;A. Lid;33;14.vii.1987;Bulken;60.6;6.4;ED50;Ranunculus;acris;L.;pumilus;;(Wahlenb.) Á.Löve\n" +
			"k2;A. Lid;34;15.vii.1987;Bulken;60.6;6.4;WGS84;Carex;dioica;L.;;;\n",
			"entry=full\ncollector=A. Lid\ncoll_no=33\ndate=14.vii.1987\nplace.locality=Bulken\nplace.position=60.6, 6.4\nplace.datum=ED50\ndeterminations.1.name=Ranunculus acris L. subsp. pumilus\ndeterminations.1.kind=det\ndeterminations.1.by=unsigned\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nimport.Sheet=k1\nimport.Author 2=(Wahlenb.) Á.Löve",
			"head_line: \"4\""},
		{"Darwin Core parts of a name", "recordedBy,genus,specificEpithet,taxonRank,infraspecificEpithet,scientificNameAuthorship\nS. Rask | O. Bannister | A. Vik,Ranunculus,acris,subspecies,pumilus,(Wahlenb.) Á.Löve\nS. Rask,Carex,dioica,species,,L.\n",
			"entry=draft\ncollector=S. Rask\nwith.1=O. Bannister\nwith.2=A. Vik\ndeterminations.1.name=Ranunculus acris subsp. pumilus (Wahlenb.) Á.Löve\ndeterminations.1.kind=det\ndeterminations.1.by=unsigned\ndeterminations.1.date=s.d.\ndeterminations.1.from=list",
			"- taxonRank"},
		{"Italian", "N. progressivo;Raccoglitore;N. raccolta;Data;Regione;Comune;Località;Quota (m);Genere;Epiteto;Autore;Sottospecie;Determinato da;Osservazioni\n1;A. Béguinot;12;14.6.1931;Veneto;Asiago;Val d'Assa;1000;Primula;veris;L.;columnae;A. Béguinot;rara\n",
			"entry=full\ncollector=A. Béguinot\ncoll_no=12\ndate=14.6.1931\nplace.province=Veneto\nplace.district=Asiago\nplace.locality=Val d'Assa\nplace.elevation=1000 m\ndeterminations.1.name=Primula veris L. subsp. columnae\ndeterminations.1.kind=det\ndeterminations.1.by=A. Béguinot\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nremarks=rara\nimport.N. progressivo=1", ""},
		{"Dutch", "Volgnr,Verzamelaar,Verzamelnummer,Verzameldatum,Provincie,Gemeente,Vindplaats,Hoogte (m),Wetenschappelijke naam,Gedetermineerd door,Opmerkingen\n1,J. de Wit,7,3-5-1955,Gelderland,Ede,Hoekelum,20,Primula elatior (L.) Hill,J. de Wit,bloeiend\n",
			"entry=full\ncollector=J. de Wit\ncoll_no=7\ndate=3-5-1955\nplace.province=Gelderland\nplace.district=Ede\nplace.locality=Hoekelum\nplace.elevation=20 m\ndeterminations.1.name=Primula elatior (L.) Hill\ndeterminations.1.kind=det\ndeterminations.1.by=J. de Wit\ndeterminations.1.date=s.d.\ndeterminations.1.from=list\nremarks=bloeiend\nimport.Volgnr=1", ""},
		{"our own paths", "specimen,entry,collector,with.1,with.2,date,place.locality,determinations.1.name,determinations.1.by,determinations.1.date,determinations.2.name,determinations.2.by,determinations.2.date,duplicates.1.sent,import.Shelf,read.date.is,read.date.by,read.date.date\n" +
			"LK7-0000001,draft,S. Rask,A,B,1931,Voss,Poa annua,S. Rask,1931,Poa supina,O. Lie,1950,Fjellheim Museum,'=K4,1931-06-14,S. Rask,2026-01-01\n",
			"specimen=LK7-0000001\nentry=draft\ncollector=S. Rask\nwith.1=A\nwith.2=B\ndate=1931\nplace.locality=Voss\ndeterminations.1.name=Poa annua\ndeterminations.1.by=S. Rask\ndeterminations.1.date=1931\ndeterminations.2.name=Poa supina\ndeterminations.2.by=O. Lie\ndeterminations.2.date=1950\nduplicates.1.sent=Fjellheim Museum\nread.date.is=1931-06-14\nread.date.by=S. Rask\nread.date.date=2026-01-01\nimport.Shelf==K4",
			"number: specimen"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			proposal, made := brought(t, "register.csv", c.table)
			if got := words(made[0].Record); got != c.record {
				t.Errorf("got\n%s\nwant\n%s\nby\n%s", got, c.record, proposal)
			}
			if !strings.Contains(proposal, c.proposal) {
				t.Errorf("the proposal lacks %q:\n%s", c.proposal, proposal)
			}
		})
	}
}

// Figures that stand for nothing are found by how often they stand.
func TestProposedSentinels(t *testing.T) {
	table := "Collector,Elevation (m),Latitude,Longitude,Date\n"
	for i := range 40 {
		elev, lat, lon := fmt.Sprint(300+7*i), fmt.Sprintf("%.2f", 60.1+float64(i)/100), fmt.Sprintf("%.2f", 6.1+float64(i)/100)
		if i%4 == 0 {
			elev = "9999"
		}
		if i%5 == 0 {
			lat, lon = "0", "0"
		}
		table += fmt.Sprintf("S. Rask,%s,%s,%s,%d\n", elev, lat, lon, 1900+i)
	}
	proposal, made := brought(t, "a.csv", table)
	if got := words(made[0].Record); strings.Contains(got, "9999") || strings.Contains(got, "position") {
		t.Errorf("%s\n%s", got, proposal)
	}
	if got := words(made[1].Record); !strings.Contains(got, "place.elevation=307 m") || !strings.Contains(got, "place.position=60.11, 6.11") {
		t.Errorf("%s\n%s", got, proposal)
	}
	if !strings.Contains(proposal, "nothing: 9999 stands in 10 cells, no other figure in more than 1") {
		t.Errorf("no reason is given:\n%s", proposal)
	}
}
