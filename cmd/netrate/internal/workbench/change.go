package workbench

import (
	"encoding/json"
	"errors"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// change is one part of a text that another takes the place of.
type change struct {
	At  int    `json:"at"` // bytes
	Old string `json:"old"`
	New string `json:"new"`
}

// changeBetween returns the one change that leads from a text to another; between characters, never
// within one.
func changeBetween(a, b string) change {
	from := 0
	for from < min(len(a), len(b)) && a[from] == b[from] {
		from++
	}
	for from > 0 && (from < len(a) && !utf8.RuneStart(a[from]) || from < len(b) && !utf8.RuneStart(b[from])) {
		from--
	}
	behind := 0
	for behind < min(len(a), len(b))-from && a[len(a)-1-behind] == b[len(b)-1-behind] {
		behind++
	}
	for behind > 0 && !utf8.RuneStart(a[len(a)-behind]) {
		behind--
	}
	return change{from, a[from : len(a)-behind], b[from : len(b)-behind]}
}

// made returns a text after the change; false if it is of another text.
func (c change) made(text string) (string, bool) {
	if c.At < 0 || c.At > len(text) || !strings.HasPrefix(text[c.At:], c.Old) {
		return text, false
	}
	return text[:c.At] + c.New + text[c.At+len(c.Old):], true
}

// inverse returns the change that takes it back.
func (c change) inverse() change { return change{c.At, c.New, c.Old} }

// The editor in the page writes a change of a whole text as a list: how many units of UTF-16 are
// kept, or [how many are deleted, then the lines that are put in].

// edited returns a text after a change as the editor writes it.
func edited(text string, set json.RawMessage) (string, error) {
	var parts []json.RawMessage
	if err := json.Unmarshal(set, &parts); err != nil {
		return "", errNoChange
	}
	units, at := utf16.Encode([]rune(text)), 0
	var out []uint16
	for _, p := range parts {
		kept, lines := 0, []json.RawMessage(nil)
		put := json.Unmarshal(p, &kept) != nil
		if put {
			if err := json.Unmarshal(p, &lines); err != nil || len(lines) == 0 || json.Unmarshal(lines[0], &kept) != nil {
				return "", errNoChange
			}
		}
		if kept < 0 || kept > len(units)-at {
			return "", errNoChange
		}
		if put {
			texts := make([]string, len(lines)-1)
			for i, l := range lines[1:] {
				if json.Unmarshal(l, &texts[i]) != nil {
					return "", errNoChange
				}
			}
			out = append(out, utf16.Encode([]rune(strings.Join(texts, "\n")))...)
		} else {
			out = append(out, units[at:at+kept]...)
		}
		at += kept
	}
	if at != len(units) {
		return "", errNoChange
	}
	return string(utf16.Decode(out)), nil
}

var errNoChange = errors.New("this is no change of the text")

// asEdit returns the change as the editor writes it, of a text.
func (c change) asEdit(text string) json.RawMessage {
	var parts []any
	if n := unitsOf(text[:c.At]); n > 0 {
		parts = append(parts, n)
	}
	put := []any{unitsOf(c.Old)}
	if c.New != "" {
		for line := range strings.SplitSeq(c.New, "\n") {
			put = append(put, line)
		}
	}
	parts = append(parts, put)
	if n := unitsOf(text[c.At+len(c.Old):]); n > 0 {
		parts = append(parts, n)
	}
	set, err := json.Marshal(parts)
	if err != nil {
		panic("workbench: a change cannot be written: " + err.Error())
	}
	return set
}

func unitsOf(text string) (n int) {
	for _, r := range text {
		n += utf16.RuneLen(r)
	}
	return n
}
