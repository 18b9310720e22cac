package mount

import (
	"math"
	"strconv"
	"strings"

	"blotter/render/label"
	"blotter/render/paper"
)

// language is the fixed words of the guide; {1}, {2}, ... are filled. The
// languages are those of the labels (label.LanguageCodes).
type language struct {
	Label, OldLabel, Pencil, Transcript, TypeLabel, Slip, Packet, Strip, Field, Number string

	Title, Sheet                              string // "Mounting sheet {1}"
	FromLeft, FromRight, FromAbove, FromBelow string // {1} mm
	Assumed                                   string
	Room, Plant                               string // {1} the size
	GlueLabel, GluePlant, KeepLabel           string
	Leave                                     string // {1} the pieces, {2} and {3} sizes
	Second, Apart, NoPlace, NoField           string
	Measure                                   string // of the line of 50 mm
	Page                                      string // {1} of {2}
	Join, Edge                                string
	Colon                                     string // behind words
}

// of is the name of a kind.
func (l *language) of(k Kind) string {
	return [...]string{l.Label, l.OldLabel, l.Pencil, l.Transcript, l.TypeLabel, l.Slip, l.Packet, l.Strip}[k]
}

// languageOf is the words in a language that labels speak.
func languageOf(code string) *language {
	return words[label.LanguageOf(code).Code]
}

// What is glued how: label along its upper edge only, or whole: Royal Botanic
// Garden Edinburgh and NZ Plant Conservation Network, mounting pages; stems and
// midribs, not nodes or flowers: NZ Plant Conservation Network, mounting page;
// straps of linen tape: Conserve O Gram 11/12 (2009); nothing is written on the
// original label: Florida Museum herbarium, annotation.
var words = map[string]*language{
	"en": {
		Colon: ":", Label: "label", OldLabel: "old label", Pencil: "in pencil", Transcript: "transcript", TypeLabel: "type label", Slip: "slip", Packet: "packet", Strip: "barcode", Field: "free field", Number: "the number",
		Title: "Where it goes", Sheet: "mounting sheet {1}", FromLeft: "{1} mm from the left", FromRight: "{1} mm from the right", FromAbove: "{1} mm from above", FromBelow: "{1} mm from below",
		Assumed: "size not known; so it is assumed", Room: "room for the plant: {1}", Plant: "the plant: {1}",
		GlueLabel: "Glue it along its upper edge only, or whole.", GluePlant: "Glue stems and midribs, not nodes or flowers; straps of linen tape hold the rest.", KeepLabel: "It stays; nothing is written on it.",
		Leave: "{1} leave {2}; the plant needs {3}", Second: "a second sheet", Apart: "a second sheet, or the packet kept apart", NoPlace: "no place for: {1}", NoField: "{1} leave no room",
		Measure: "this line must measure 50 mm", Page: "page {1} of {2}", Join: "Cut along the line through the crosses, lay cross on cross, letter beside letter.", Edge: "The sheet lies at the left and the lower edge of the paper.",
	},
	"nb": {
		Colon: ":", Label: "etikett", OldLabel: "gammel etikett", Pencil: "med blyant", Transcript: "avskrift", TypeLabel: "typeetikett", Slip: "lapp", Packet: "konvolutt", Strip: "strekkode", Field: "fritt felt", Number: "nummeret",
		Title: "Hvor det skal ligge", Sheet: "monteringsark {1}", FromLeft: "{1} mm fra venstre", FromRight: "{1} mm fra høyre", FromAbove: "{1} mm ovenfra", FromBelow: "{1} mm nedenfra",
		Assumed: "størrelsen er ikke kjent; antatt slik", Room: "plass til planten: {1}", Plant: "planten: {1}",
		GlueLabel: "Lim den bare langs øvre kant, eller helt.", GluePlant: "Lim stengler og midtnerver, ikke ledd eller blomster; remser av linbånd holder resten.", KeepLabel: "Den blir; ingenting skrives på den.",
		Leave: "{1} levner {2}; planten trenger {3}", Second: "et ark til", Apart: "et ark til, eller konvolutten for seg", NoPlace: "ingen plass til: {1}", NoField: "{1} levner ingen plass",
		Measure: "denne linjen skal måle 50 mm", Page: "side {1} av {2}", Join: "Klipp langs linjen gjennom kryssene, legg kryss på kryss, bokstav ved bokstav.", Edge: "Arket ligger ved venstre og nedre kant av papiret.",
	},
	"sv": {
		Colon: ":", Label: "etikett", OldLabel: "gammal etikett", Pencil: "med blyerts", Transcript: "avskrift", TypeLabel: "typetikett", Slip: "lapp", Packet: "kuvert", Strip: "streckkod", Field: "fritt fält", Number: "numret",
		Title: "Var det ska ligga", Sheet: "monteringsark {1}", FromLeft: "{1} mm från vänster", FromRight: "{1} mm från höger", FromAbove: "{1} mm uppifrån", FromBelow: "{1} mm nedifrån",
		Assumed: "storleken är inte känd; antagen så", Room: "plats för växten: {1}", Plant: "växten: {1}",
		GlueLabel: "Limma den bara längs övre kanten, eller helt.", GluePlant: "Limma stjälkar och mittnerver, inte leder eller blommor; remsor av linneband håller resten.", KeepLabel: "Den blir kvar; inget skrivs på den.",
		Leave: "{1} lämnar {2}; växten behöver {3}", Second: "ett ark till", Apart: "ett ark till, eller kuvertet för sig", NoPlace: "ingen plats för: {1}", NoField: "{1} lämnar ingen plats",
		Measure: "denna linje ska mäta 50 mm", Page: "sida {1} av {2}", Join: "Klipp längs linjen genom kryssen, lägg kryss på kryss, bokstav vid bokstav.", Edge: "Arket ligger vid papperets vänstra och nedre kant.",
	},
	"de": {
		Colon: ":", Label: "Etikett", OldLabel: "altes Etikett", Pencil: "mit Bleistift", Transcript: "Abschrift", TypeLabel: "Typusetikett", Slip: "Zettel", Packet: "Kapsel", Strip: "Strichcode", Field: "freies Feld", Number: "die Nummer",
		Title: "Wohin es gehört", Sheet: "Montagebogen {1}", FromLeft: "{1} mm von links", FromRight: "{1} mm von rechts", FromAbove: "{1} mm von oben", FromBelow: "{1} mm von unten",
		Assumed: "Größe nicht bekannt; so angenommen", Room: "Platz für die Pflanze: {1}", Plant: "die Pflanze: {1}",
		GlueLabel: "Nur an der oberen Kante kleben, oder ganz.", GluePlant: "Stängel und Mittelrippen kleben, nicht Knoten oder Blüten; Streifen aus Leinenband halten den Rest.", KeepLabel: "Es bleibt; darauf wird nichts geschrieben.",
		Leave: "{1} lassen {2}; die Pflanze braucht {3}", Second: "ein zweiter Bogen", Apart: "ein zweiter Bogen, oder die Kapsel getrennt", NoPlace: "kein Platz für: {1}", NoField: "{1} lassen keinen Platz",
		Measure: "diese Linie muss 50 mm messen", Page: "Seite {1} von {2}", Join: "An der Linie durch die Kreuze schneiden, Kreuz auf Kreuz legen, Buchstabe an Buchstabe.", Edge: "Der Bogen liegt am linken und am unteren Rand des Papiers.",
	},
	"fr": {
		Colon: "\u00a0:", Label: "étiquette", OldLabel: "ancienne étiquette", Pencil: "au crayon", Transcript: "transcription", TypeLabel: "étiquette de type", Slip: "étiquette de révision", Packet: "sachet", Strip: "code-barres", Field: "champ libre", Number: "le numéro",
		Title: "Où chaque pièce se place", Sheet: "planche {1}", FromLeft: "à {1} mm de la gauche", FromRight: "à {1} mm de la droite", FromAbove: "à {1} mm du haut", FromBelow: "à {1} mm du bas",
		Assumed: "taille inconnue, supposée telle", Room: "place pour la plante\u00a0: {1}", Plant: "la plante\u00a0: {1}",
		GlueLabel: "À coller par le bord supérieur seulement, ou en entier.", GluePlant: "Coller tiges et nervures médianes, non les nœuds ni les fleurs\u00a0; des bandes de lin tiennent le reste.", KeepLabel: "Elle reste\u00a0; on n’y écrit rien.",
		Leave: "{1} laissent {2}\u00a0; la plante demande {3}", Second: "une seconde planche", Apart: "une seconde planche, ou le sachet à part", NoPlace: "pas de place pour\u00a0: {1}", NoField: "{1} ne laissent pas de place",
		Measure: "cette ligne doit mesurer 50 mm", Page: "page {1} sur {2}", Join: "Couper sur la ligne des croix, poser croix sur croix, lettre contre lettre.", Edge: "La planche touche le bord gauche et le bord inférieur du papier.",
	},
	"es": {
		Colon: ":", Label: "etiqueta", OldLabel: "etiqueta antigua", Pencil: "a lápiz", Transcript: "transcripción", TypeLabel: "etiqueta de tipo", Slip: "etiqueta de revisión", Packet: "sobre", Strip: "código de barras", Field: "campo libre", Number: "el número",
		Title: "Dónde va cada pieza", Sheet: "pliego {1}", FromLeft: "a {1} mm de la izquierda", FromRight: "a {1} mm de la derecha", FromAbove: "a {1} mm de arriba", FromBelow: "a {1} mm de abajo",
		Assumed: "tamaño desconocido, se supone este", Room: "sitio para la planta: {1}", Plant: "la planta: {1}",
		GlueLabel: "Pegar solo por el borde superior, o entera.", GluePlant: "Pegar tallos y nervios medios, no nudos ni flores; tiras de lino sujetan el resto.", KeepLabel: "Se queda; no se escribe en ella.",
		Leave: "{1} dejan {2}; la planta necesita {3}", Second: "un segundo pliego", Apart: "un segundo pliego, o el sobre aparte", NoPlace: "no hay sitio para: {1}", NoField: "{1} no dejan sitio",
		Measure: "esta línea debe medir 50 mm", Page: "página {1} de {2}", Join: "Cortar por la línea de las cruces, poner cruz sobre cruz, letra junto a letra.", Edge: "El pliego está en el borde izquierdo y el inferior del papel.",
	},
	"la": {
		Colon: ":", Label: "schedula", OldLabel: "schedula vetus", Pencil: "plumbo", Transcript: "exemplum schedulae", TypeLabel: "schedula typi", Slip: "schedula revisionis", Packet: "capsula", Strip: "virgulae numeri", Field: "locus liber", Number: "numerus",
		Title: "Ubi ponendum", Sheet: "plagula {1}", FromLeft: "{1} mm a sinistra", FromRight: "{1} mm a dextra", FromAbove: "{1} mm a summo", FromBelow: "{1} mm ab imo",
		Assumed: "magnitudo ignota, sic sumpta", Room: "locus plantae: {1}", Plant: "planta: {1}",
		GlueLabel: "Margine superiore tantum, vel tota glutinanda.", GluePlant: "Caules nervique medii glutinandi, non nodi neque flores; cetera taeniis linteis tenentur.", KeepLabel: "Manet; nihil in ea scribitur.",
		Leave: "{1} relinquunt {2}; planta eget {3}", Second: "plagula altera", Apart: "plagula altera, vel capsula separata", NoPlace: "locus deest: {1}", NoField: "{1} locum non relinquunt",
		Measure: "haec linea 50 mm habere debet", Page: "pagina {1} ex {2}", Join: "Seca per lineam crucium, crucem cruci, litteram litterae appone.", Edge: "Plagula ad marginem sinistrum et inferiorem chartae iacet.",
	},
}

// measures is "105 x 68 mm" as the commands say it.
func measures(w, h float64) string { return number(w) + " x " + number(h) + " mm" }

// onPaper is "105 × 68 mm".
func onPaper(w, h float64) string { return number(w) + " × " + number(h) + " mm" }

// number is v with at most two places.
func number(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// where is how far a piece lies from two edges of the sheet: the side that it
// is nearer to, the lower one, or the upper one when it hangs from above.
func (l *language) where(s Sheet, b paper.Box, hangs bool) string {
	across, down := label.Fill(l.FromLeft, number(b.X)), label.Fill(l.FromBelow, number(s.H-b.Bottom()))
	if right := s.W - b.Right(); right < b.X {
		across = label.Fill(l.FromRight, number(right))
	}
	if hangs {
		down = label.Fill(l.FromAbove, number(b.Y))
	}
	return across + ", " + down
}

// hangs tells of a piece in the upper half whether its place is told from above.
func (p Placed) hangs(s Sheet) bool {
	return (p.Kind == Strip || p.Kind == Packet) && p.Y < s.H-p.Bottom()
}

// Warnings say what the sheet has no room for, in the words of a language of
// labels, and what helps: "label + 2 × slip + packet leave 282 x 293 mm;
// the plant needs 250 x 300 mm: a second sheet".
func (p Plan) Warnings(code string) []string { return p.warnings(languageOf(code), measures) }

func (p Plan) warnings(l *language, measures func(w, h float64) string) []string {
	var out []string
	if len(p.Left) > 0 {
		out = append(out, label.Fill(l.NoPlace, l.counted(p.Left))+l.Colon+" "+l.Second)
	}
	var placed []Piece
	for _, one := range p.Placed {
		placed = append(placed, one.Piece)
	}
	help := l.Second
	if p.Apart {
		help = l.Apart
	}
	switch {
	case p.Fits():
	case p.Free.W <= 0:
		out = append(out, label.Fill(l.NoField, l.counted(placed))+l.Colon+" "+help)
	default:
		out = append(out, label.Fill(l.Leave, l.counted(placed), measures(p.Free.W, p.Free.H), measures(p.Plant.W, p.Plant.H))+l.Colon+" "+help)
	}
	return out
}

// counted names pieces: "label + 3 × slip + packet"; the pencil line is part of
// the label.
func (l *language) counted(all []Piece) string {
	var n [Strip + 1]int
	for _, p := range all {
		n[p.Kind]++
	}
	if n[Label]+n[OldLabel] > 0 {
		n[Pencil] = 0
	}
	var out []string
	for k, many := range n {
		switch w := l.of(Kind(k)); {
		case many == 1:
			out = append(out, w)
		case many > 1:
			out = append(out, strconv.Itoa(many)+" × "+w)
		}
	}
	return strings.Join(out, " + ")
}

// Row is one line of the guide in words.
type Row struct{ No, What, Size, Where string }

// Rows are the guide in words: each piece, then the field for the plant.
func (p Plan) Rows(code string) []Row {
	l := languageOf(code)
	var out []Row
	for _, one := range p.Placed {
		r := Row{No: strconv.Itoa(one.No), What: l.of(one.Kind), Size: measures(one.Box.W, one.Box.H), Where: l.where(p.Sheet, one.Box, one.hangs(p.Sheet))}
		if one.Says != "" {
			r.Where += "; " + one.Says
		}
		if one.Assumed {
			r.Where += "; " + l.Assumed
		}
		out = append(out, r)
	}
	if p.Free.W > 0 {
		out = append(out, Row{What: l.Field, Size: measures(p.Free.W, p.Free.H), Where: l.where(p.Sheet, p.Free, true)})
	}
	return out
}
