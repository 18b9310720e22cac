package ledger

const shapeCount = `^[0-9]{1,6}$`

// habitFields are the museum's habits of work; the figures of the examples
// are those of standard.yaml, where the source of each stands.
var habitFields = []Field{
	{Path: "habits", Kind: Group, Meaning: "The figures of the museum's work. Where nothing stands that of the example holds; its source stands in ledger/standard.yaml."},
	{Path: "habits.loans", Kind: Group, Meaning: "Lending."},
	{Path: "habits.loans.months", Unit: "months", Example: "12", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How long a loan runs from the day of sending."},
	{Path: "habits.loans.type_months", Unit: "months", Example: "3", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How long a loan runs that has types among its sheets."},
	{Path: "habits.loans.remind", Kind: Texts, Unit: "days", Example: "60", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many days before the due day it is spoken of."},
	{Path: "habits.loans.overdue", Kind: Texts, Unit: "days", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many days after the due day the partner is written to."},
	{Path: "habits.loans.keep", Example: "1", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "How many sheets of a species stay in the house when others of it are lent."},
	{Path: "habits.loans.packing", Kind: Texts, Example: "each sheet in its own fold", Meaning: "How a parcel is packed, an advice an entry; it stands on the packing list."},
	{Path: "habits.loans.terms", Kind: Texts, Example: "no sample is taken without our leave in writing", Meaning: "The terms on which loans are made, one an entry; they stand on the receipt."},
	{Path: "habits.loans.answer", Unit: "days", Example: "14", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "Within how many days a request is answered."},
	{Path: "habits.loans.word", Unit: "days", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "After how many days one asks whether a parcel has come."},
	{Path: "habits.loans.named", Unit: "days", Example: "30", Shape: shapeCount, ShapeWords: "a whole figure", Meaning: "Within how many days the opinions on what came back are taken up as determinations."},
}
