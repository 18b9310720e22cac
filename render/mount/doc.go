// Package mount says where on a mounting sheet each piece goes: label, slips,
// packet, barcode, and which field is left for the plant. Lay computes it;
// Guide draws it at true size, on one page or on several that are joined.
// All measures are millimetres, the origin is the upper left corner.
package mount
