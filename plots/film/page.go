package film

import (
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"html"
	"strings"
)

// The player is plain files, in the order in which they are read: each uses what stands before it.
//
//go:embed page
var page embed.FS

var scripts = []string{"words", "read", "track", "show", "ink", "plan", "stations", "sets", "scene", "strip", "play", "begin"}

// Player is what shows a film in a page.
type Player struct {
	Body   string // HTML: an element main with the attribute data-player, in which all else stands
	Style  string // CSS
	Script string // defines playFilm(element, data in base64), which shows the film in that element
}

// NewPlayer returns the player.
func NewPlayer() Player {
	var script strings.Builder
	script.WriteString("'use strict';\n(() => {\n")
	for _, name := range scripts {
		script.WriteString(read(name + ".js"))
	}
	script.WriteString("})();\n")
	return Player{Body: read("player.html"), Style: read("style.css"), Script: script.String()}
}

// read returns a file of the page. What is embedded is there.
func read(name string) string {
	text, err := page.ReadFile("page/" + name)
	if err != nil {
		panic(err)
	}
	return string(text)
}

// Page returns the film as a page that needs nothing else: its policy lets it fetch nothing, and
// run nothing but its own script.
func (f *Film) Page() ([]byte, error) {
	data, err := f.Pack()
	if err != nil {
		return nil, err
	}
	p := NewPlayer()
	policy := "default-src 'none'; script-src " + hash(p.Script) + "; style-src " + hash(p.Style) + "; img-src data:; base-uri 'none'; form-action 'none'"
	var b strings.Builder
	for _, part := range []string{
		"<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n",
		`<meta http-equiv="Content-Security-Policy" content="`, policy, "\">\n",
		"<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>", html.EscapeString(f.Title), "</title>\n",
		"<link rel=\"icon\" href=\"data:,\">\n<style>", p.Style, "</style>\n</head>\n<body>\n", p.Body,
		"<script type=\"application/octet-stream\" data-film>", base64.StdEncoding.EncodeToString(data), "</script>\n",
		"<script>", p.Script, "</script>\n</body>\n</html>\n",
	} {
		b.WriteString(part)
	}
	return []byte(b.String()), nil
}

// hash returns the source expression of a text, as in Content Security Policy.
func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}
