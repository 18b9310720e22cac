// Package paper is what stands where on paper, in millimetres: letters, rules
// and areas on pages of an exact size, set in one typeface, black only. A
// Paper is data; the same Paper is written as PDF or as HTML for those who
// print from a browser, with the same words at the same places. It knows
// nothing of records. Impose lays blocks on pages that are cut apart, Barcode
// draws symbols, SVG makes a picture of a page that needs no font.
//
// The origin of every measure is the upper left corner; x grows to the right,
// y downwards. Sizes of letters are in points of 1/72 inch, all else in
// millimetres.
package paper
