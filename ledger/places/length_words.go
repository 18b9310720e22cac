package places

// Words of heights and depths in the languages of labels, folded to lower case
// and without full stops; common practice, no source.
var (
	// lengthFillers say nothing of the value.
	lengthFillers = words(`elev elevation elevación elevação alt altitude altitud altitudine alti el depth profundidad profondeur tiefe dybde djup djupt height
		hoogte höhe höh hoehe høyde høgde höjd a s l asl msl amsl o h ü u d above at slm snm deep of in em en i auf på in gps radius within hoh the la le au aux de des du der dem den del do da dal di d l n von fra från between entre zwischen mellom mellem mellan tra from desde üm ünn üdm nn om sur
		mean üb tussen mezi над ур уровнем у н выс высота
		water vann vatten wasser eau agua acqua sul sobre supra`)
	// seaWords name the level of the sea.
	seaWords = words(`sea level sealevel havet havets hav havnivå havsnivå havoverflaten havflaten mer mar mare meer meere meeres meeresspiegel meereshöhe meeresniveau
		моря nivel niveau livello nível zee zeeniveau surface overflaten flaten`)
	lengthLoose = words(`ca c cca circa about approx approximately around roughly etwa ungefähr vers environ env cerca aprox aproximadamente omkring omkr omtrent omtr cirka cirk appr est
		estimated nearly abt zirka verso quasi near bij près`)
	lengthBelow = words(`below under unter sous bajo sob sotto onder beneath less up max maximum lower bsl bmsl`)
	lengthUpTo  = words(`to til till bis tot jusqu jusqu'à hasta até fino`)
	lengthAbove = words(`above over exceeding min minimum more higher plus über sobre över boven oberhalb sopra acima dessus выше`)
	lengthRange = words(`to til till bis tot and à a ad through thru und et y e og och en al hasta até`)
	lengthOther = words(`or oder ou eller o equals resp i.e ie`)
	lengthThan  = words(`than als que`)
)
