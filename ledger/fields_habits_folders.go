package ledger

// folderFields are the habits of folder labels, packets and barcode strips.
var folderFields = []Field{
	{Path: "habits.covers", Kind: Group, Meaning: "Labels of genus and species folders."},
	{Path: "habits.covers.width", Unit: "mm", Example: "105", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The width of a folder label."},
	{Path: "habits.covers.height", Unit: "mm", Example: "40", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The height of a folder label; 27 and 68 are those of a slip and of a specimen label."},
	{Path: "habits.packets", Kind: Group, Meaning: "Packets for fragments, mosses and seeds, and their labels."},
	{Path: "habits.packets.width", Unit: "mm", Example: "140", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The width of a packet when it is folded."},
	{Path: "habits.packets.height", Unit: "mm", Example: "90", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The height of a packet when it is folded."},
	{Path: "habits.packets.label_height", Unit: "mm", Example: "34", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The height of a packet label, which is as wide as a specimen label."},
	{Path: "habits.strips", Kind: Group, Meaning: "Strips with a barcode, which are glued on sheets."},
	{Path: "habits.strips.code", Example: "datamatrix", Enum: []string{"datamatrix", "qr", "code128"}, Meaning: "Which barcode: Data Matrix, QR or Code 128."},
	{Path: "habits.strips.width", Unit: "mm", Example: "52.5", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The width of a strip."},
	{Path: "habits.strips.height", Unit: "mm", Example: "12", Shape: shapeMM, ShapeWords: "millimetres", Meaning: "The height of a strip."},
	{Path: "habits.strips.module", Unit: "mm", Example: "0.508", Shape: `^[0-9](\.[0-9]{1,3})?$`, ShapeWords: "millimetres, 0.508", Meaning: "How wide the smallest square or bar may be. It is a whole count of dots of a printer of 300 dots an inch, 0.508, 0.423, 0.339 or 0.254 mm, and no wider than this and the strip allow."},
}
