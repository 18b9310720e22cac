// Package treatment has the arithmetic of treating a collection against
// insects by cold: it reads what a temperature logger wrote, judges it against a
// profile, and plans when a load comes out, goes in again and may be opened.
//
// Read takes a logger's table in any common layout; Judge works out the time
// continuously at or below the set point, gaps and warm excursions, and says
// pass, fail, times only or not enough data, with the reason in words;
// Profile.Plan gives the times still to come. Profiles are the museum's
// settings; SETTINGS.md lists protocols found, which differ, with their sources.
//
// A pass says that the log keeps the profile. That insects are dead is for
// inspection to say, and treatments other than cold (fumigants, low oxygen,
// carbon dioxide, heat) are for licensed practice and local rules: Cautions says
// so in words.
//
// Where two ways of reading a log differ, the one that makes it warmer or
// shorter is taken, so that doubt never makes a pass.
//
// The package imports nothing of ours and reads no clock.
package treatment
