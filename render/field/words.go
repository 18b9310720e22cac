package field

// Words of the form beside its questions, in English.
const (
	saysDrying   = "BEFORE IT DRIES"
	saysDryingIt = "what nobody can tell afterwards"
	saysTaken    = "at most 1 of {1} seen"
	saysSafety   = "Toxic sap, spines, stinging hairs: gloves, wash your hands, tick it here, so that whoever opens the fold knows. Somebody knows your way and the hour you are back. What the permit, the owner of the ground and your own rules say comes first."
	saysPencil   = "Pencil: ink runs."
	saysBack     = "More stands on the back, behind its number."
	saysNone     = "none"
	saysPress    = "press"
	saysFold     = "fold"
	saysOf       = "of"
)

// Comments at the head of the form as text.
const (
	saysHead   = "Field form. One answer a line, behind the colon, in the words of the sheet; what is empty is left out."
	saysNoneIs = "-  means that there is none. A line that begins with blanks goes on with the answer above it. A line that begins with # is a comment."
	saysTyped  = "When it is filled in:  blotter new --from FILE  makes a draft of each gathering that has an answer."
	saysCommon = "What holds for all gatherings of this file. Any question may be answered here once; an answer further below goes before it."
	saysTick   = "for example:"
)

// inNorwegian are the words of the form in Norwegian (bokmål); a test asks for
// every one.
var inNorwegian = map[string]string{
	"collector": "samler", "with": "sammen med", "permit": "tillatelse", "project": "prosjekt", "field book": "feltbok", "page": "side",
	"number": "nummer", "date": "dato", "name": "navn",
	"country": "land", "province": "fylke", "district": "kommune", "locality": "sted",
	"position": "posisjon", "datum": "datum", "accuracy": "nøyaktighet", "elevation": "høyde o.h.", "elevation by": "høyde fra",
	"habitat": "voksested", "substrate": "underlag", "origin": "opphav", "associates": "følgearter",
	"height": "plantehøyde", "trunk girth": "stammeomkrets", "scent": "duft", "colours": "farger", "latex": "melkesaft", "nectar": "nektar",
	"texture": "konsistens", "abundance": "mengde", "plants seen": "planter sett", "plants taken": "planter tatt",
	"phenology": "fenologi", "description": "beskrivelse", "cautions": "forsiktig", "photos": "bilder", "tissue in silica": "vev i silika",
	"in spirit": "på sprit", "duplicates made": "dubletter laget", "remarks": "merknader",

	"GPS": "GPS", "altimeter": "høydemåler", "map": "kart",
	"wild": "vill", "planted": "plantet", "escaped": "forvillet", "cultivated": "dyrket",
	"rare": "sjelden", "occasional": "spredt", "frequent": "hyppig", "common": "vanlig",
	"bud": "knopp", "flower": "blomst", "fruit": "frukt", "seed": "frø", "spores": "sporer", "sterile": "steril",
	"toxic sap": "giftig saft", "spines": "torner", "stinging": "brennende",

	saysDrying:   "FØR DEN TØRKER",
	saysDryingIt: "det ingen kan si etterpå",
	saysTaken:    "høyst 1 av {1} sett",
	saysSafety:   "Giftig saft, torner, brennhår: hansker, vask hendene, kryss av her, så den som åpner arket vet det. Noen kjenner ruten din og når du er tilbake. Det tillatelsen, grunneieren og egne regler sier, går foran.",
	saysPencil:   "Blyant: blekk flyter ut.",
	saysBack:     "Mer står på baksiden, bak nummeret.",
	saysNone:     "ingen",
	saysPress:    "presse",
	saysFold:     "omslag",
	saysOf:       "av",

	saysHead:   "Feltskjema. Ett svar per linje, bak kolonet, med ordene fra arket; det som står tomt, utelates.",
	saysNoneIs: "-  betyr at det ikke finnes noe. En linje som begynner med mellomrom, fortsetter svaret over. En linje som begynner med #, er en kommentar.",
	saysTyped:  "Når det er fylt ut:  blotter new --from FIL  lager et utkast av hver innsamling som har et svar.",
	saysCommon: "Det som gjelder alle innsamlinger i denne filen. Hvert spørsmål kan besvares her én gang; et svar lenger nede går foran.",
	saysTick:   "for eksempel:",
}
