// Package field is the form on which a gathering is written down where the
// plant grows: the pages of the field book, the tags that go into the
// newspaper fold with the plant, and the same questions as plain text, to be
// typed in afterwards. One list of questions makes all three, and says which
// field of a record each answer fills. It reads no clock and no files.
package field
