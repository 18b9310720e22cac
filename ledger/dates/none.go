package dates

// noneWords are the words that say that there is no date, or none legible,
// folded by foldWord and without dots and brackets. s.d. is the trade's word
// (sine dato); the rest is common practice, no source.
var noneWords = map[string]None{
	"":              NotTyped,
	"sd":            NotRecorded,
	"s d":           NotRecorded,
	"n d":           NotRecorded,
	"nd":            NotRecorded,
	"no date":       NotRecorded,
	"undated":       NotRecorded,
	"not recorded":  NotRecorded,
	"not dated":     NotRecorded,
	"not stated":    NotRecorded,
	"not given":     NotRecorded,
	"none":          NotRecorded,
	"unknown":       NotRecorded,
	"date unknown":  NotRecorded,
	"sine dato":     NotRecorded,
	"sin fecha":     NotRecorded,
	"sans date":     NotRecorded,
	"ohne datum":    NotRecorded,
	"uten dato":     NotRecorded,
	"udatert":       NotRecorded,
	"illegible":     Illegible,
	"unreadable":    Illegible,
	"not legible":   Illegible,
	"uleselig":      Illegible,
	"unleserlich":   Illegible,
	"not yet typed": NotTyped,
	"not typed":     NotTyped,
}
