package dates

var french = language{
	months: "janvier janv|février fév fevr fev|mars|avril avr|mai|juin|juillet juil juill jllet jlt jt|août aoust aoùt|" +
		"septembre 7bre 7tembre septemb|octobre 8bre octob|novembre 9bre novemb|décembre 10bre xbre decemb",
	shortest: 3,
	seasons:  "printemps|été|automne|hiver",
	weekdays: "lundi|mardi|mercredi|jeudi|vendredi|samedi|dimanche",
	parts:    "début debut commencement|mi milieu|fin",
	about:    "vers environ env",
	bounds:   "avant|jusque jusqu|après|depuis dès",
	to:       "au aux à jusqu'au",
	and:      "et ou",
	between:  "entre",
	decade:   "années",
	century:  "siècle s",
	times:    "midi minuit matin soir",
	hours:    "heures heure",
	fillers:  "le la les l d du de année an mois jour en reçu recu",
}

var spanish = language{
	months: "enero ene|febrero febr|marzo mzo|abril abr|mayo|junio|julio|agosto agto agt|septiembre setiembre set sep septbre sbre 7bre|" +
		"octubre octbre 8bre|noviembre novbre nbre 9bre|diciembre dicbre dbre dic xbre 10bre",
	shortest: 3,
	seasons:  "primavera|verano|otoño|invierno",
	weekdays: "lunes|martes|miércoles|jueves|viernes|sábado|domingo",
	parts:    "principios comienzos inicios temprano|mediados|fines finales final",
	about:    "hacia cerca aproximadamente aprox alrededor",
	bounds:   "antes|hasta|después despues|desde",
	to:       "al a hasta",
	and:      "y e o u",
	between:  "entre",
	decade:   "años década",
	century:  "siglo",
	times:    "mediodía tarde mañana noche",
	hours:    "horas hora ore",
	fillers:  "el los las de del la año mes día fecha",
}

var portuguese = language{
	months:   "janeiro|fevereiro|março|abril|maio|junho|julho|agosto|setembro 7bro|outubro out 8bro|novembro 9bro|dezembro dez 10bro xbro",
	shortest: 3,
	seasons:  "primavera|verão|outono|inverno",
	weekdays: "segunda|terça|quarta|quinta|sexta|sábado|domingo",
	parts:    "início inicio começo princípio|meados meio|fim finais",
	about:    "cerca aproximadamente",
	bounds:   "antes|até|depois após|desde",
	to:       "a até ao",
	and:      "e ou",
	between:  "entre",
	decade:   "anos década",
	century:  "século séc",
	fillers:  "data de do da dos das o ano mês dia",
}

var italian = language{
	months: "gennaio genn gen|febbraio febb|marzo|aprile|maggio magg mag|giugno giu|luglio lug|agosto ago|" +
		"settembre sett 7bre 7mbre|ottobre ott 8bre|novembre 9bre|dicembre 10bre xbre dic",
	shortest: 3,
	seasons:  "primavera|estate|autunno|inverno",
	weekdays: "lunedì|martedì|mercoledì|giovedì|venerdì|sabato|domenica",
	parts:    "inizio inizi principio primi|metà meta|fine ultimi",
	about:    "circa verso",
	bounds:   "prima|fino|dopo|dal",
	to:       "al fino",
	and:      "e o",
	between:  "tra fra",
	century:  "secolo sec",
	fillers:  "il lo gli i di del dell della dello nel anno anni mese giorno",
}

var catalan = language{
	months:   "gener gen|febrer|març|abril|maig|juny|juliol|agost|setembre|octubre|novembre|desembre",
	shortest: 4,
	seasons:  "primavera|estiu|tardor|hivern",
	weekdays: "dilluns|dimarts|dimecres|dijous|divendres|dissabte|diumenge",
	parts:    "principis|mitjans|finals",
	bounds:   "abans|fins|després|des",
	and:      "i",
	century:  "segle",
	fillers:  "any",
}

var latin = language{
	months: "januarius ianuarius januarii ianuarii januario ianuario januari januarij|februarius februarii februario februari februarij|" +
		"martius martii martio marti mart martij|aprilis aprili april|maius majus maii maji maio majo maij|" +
		"junius iunius junii iunii junio iunio junij iunij|julius iulius julii iulii julio iulio julij iulij quinctilis quintilis|" +
		"augustus augusti augusto sextilis|september septembris septembri septembre 7ber 7bris 7bri 7br viibris viiber viibr|" +
		"october octobris octobri octobre 8ber 8bris 8bri 8br viiibris viiiber viiibr|" +
		"november novembris novembri novembre 9ber 9bris 9bri 9br ixbris ixber ixbr|" +
		"december decembris decembri decembre 10ber 10bris 10bri 10br xber xbris xbri xbr",
	shortest: 3,
	seasons:  "vere ver veris vernalis|aestate aestas aestatis æstate æstas aest|autumno autumnus autumni auctumno|hieme hiems hiemis hyeme hyems",
	parts:    "initio ineunte init|medio med dimidio|fine exeunte ultimo",
	about:    "circiter",
	bounds:   "ante|usque|post|ab",
	to:       "ad usque",
	and:      "et vel seu",
	between:  "inter",
	century:  "saeculo saec",
	times:    "mane vespere meridie",
	fillers:  "die d dies mense m mensis anno a ann anni annis in exeunte legit coll legi dedit",
}
