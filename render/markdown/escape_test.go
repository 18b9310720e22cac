package markdown

import (
	"bytes"
	"html"
	"regexp"
	"strings"
	"testing"

	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/extension"
	"pgregory.net/rapid"

	_ "blotter/ledger/ledgertest/seed"

	"blotter/render/page"
)

var judge = goldmark.New(goldmark.WithExtensions(extension.GFM))

// shown is what a reader sees of Markdown, when it must be one plain
// paragraph; the markup that should not be there stays and is seen.
func shown(t interface{ Fatal(...any) }, md string) string {
	var b bytes.Buffer
	if err := judge.Convert([]byte(md), &b); err != nil {
		t.Fatal(err)
	}
	out := strings.TrimSpace(b.String())
	out = strings.TrimSuffix(strings.TrimPrefix(out, "<p>"), "</p>")
	return out
}

var blanks = regexp.MustCompile(`[ \t\n\r\f\v]+`)

func oneLine(s string) string { return strings.Trim(blanks.ReplaceAllString(s, " "), " ") }

// TestEscapeShowsTheTextAlone is the law of engineering.md section 10.
func TestEscapeShowsTheTextAlone(t *testing.T) {
	check := func(t interface{ Fatal(...any) }, s string) {
		md := Escape(s)
		got := shown(t, md)
		if strings.ContainsAny(got, "<>") || html.UnescapeString(got) != oneLine(page.Visible(s)) {
			t.Fatal("escape ", s, "\nas    ", md, "\nshows ", got)
		}
	}
	for _, s := range []string{
		"Signe Rask 1207", "14.vii.2025", "14. July", "1) x", "- x", "+ x", "# x", "= =", "===", "> x", "a | b", "~~x~~", "*x*", "_x_", "__x__",
		"<script>alert(1)</script>", "&copy; &#60;", "[a](javascript:x)", "![a](b)", "www.example.org", "https://example.org/a", "a@example.org",
		"mailto:a@example.org", "ftp://example.org", "`x`", "\\", "a\\", "  x  ", "- [ ] x", "a\n- b\n\n# c", "\u202etxt", "\x00", "\xff",
		"http:example", "HTTP://EXAMPLE.ORG", "WWW.EXAMPLE.ORG", "&amp;", "\\&", "----", "***", "-", "--", "1.", "10)", ":--", "xmpp:a@b.c", "٣. x", "\u00a0x",
		"[^1]", "[^1]: x", "[a]: b", "a  \nb", "!", "![", "~", "~~", "|", "|-|", "a\n===",
	} {
		check(t, s)
	}
	rapid.Check(t, func(t *rapid.T) {
		check(t, rapid.StringOf(rapid.RuneFrom([]rune("ab 1.-+=#>*_`[]()<>&;:/@~|\\!\"'\n\tw.wéß\u202e×"))).Draw(t, "s"))
	})
	rapid.Check(t, func(t *rapid.T) { check(t, rapid.String().Draw(t, "s")) })
}
