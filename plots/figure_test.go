package plots

import (
	"bytes"
	"encoding/xml"
	"errors"
	"flag"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"netrate/internal/golden"
)

// TestMain fixes the seed and the number of the property tests; the flags -rapid.seed
// and -rapid.checks change them.
func TestMain(m *testing.M) {
	if err := errors.Join(flag.Set("rapid.seed", "1"), flag.Set("rapid.checks", "400")); err != nil {
		panic(err)
	}
	os.Exit(m.Run())
}

var head = Head{Title: "A gate earns more", Subtitle: "Net rate, envelopes an hour, of invented shifts"}

// Each chart of small data is drawn as it was; on a difference the new drawing is
// left beside the old one.
func TestGolden(t *testing.T) {
	for _, d := range draws(head, 3, plainName) {
		t.Run(d.name, func(t *testing.T) {
			got := drawn(t, d)
			golden.CheckDrawing(t, filepath.Join("testdata", d.name+".svg"), string(got))
			assert.Equal(t, got, drawn(t, d), "drawn twice")
		})
	}
}

func drawn(t *testing.T, d draw) []byte {
	t.Helper()
	f, err := d.figure()
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	return svg
}

// Whatever the number of variants, the names and the width: nothing is drawn off
// the page, no text lies on another, and the drawing is well-formed.
func TestEverythingFits(t *testing.T) {
	names := map[string]func(int) string{
		"plain": plainName, "long": longName,
		"none":    func(int) string { return "" },
		"strange": func(i int) string { return strings.Repeat("\x00\xff\n包封機🙂", 1+5*i) },
	}
	wordy := Head{Title: strings.Repeat("A very long finding ", 20), Subtitle: strings.Repeat("word ", 200)}
	for kind, name := range names {
		for _, h := range []Head{head, {}, wordy, {Title: "narrow", Width: 6}, {Title: "wide", Width: 12}} {
			for _, n := range []int{1, 2, 12} {
				for _, d := range draws(h, n, name) {
					t.Run(fmt.Sprintf("%s/%s/%d/%.7s", d.name, kind, n, h.Title), func(t *testing.T) {
						f, err := d.figure()
						require.NoError(t, err)
						assert.Empty(t, misplaced(f))
						svg, err := f.SVG()
						require.NoError(t, err)
						assert.NoError(t, wellFormed(svg))
					})
				}
			}
		}
	}
}

// misplaced returns what lies off the page, and which texts lie on each other.
func misplaced(f *Figure) (wrong []string) {
	var texts []label
	for _, m := range f.marks {
		b := m.box()
		if !(b.left >= 0 && b.right <= f.width && b.top >= 0 && b.bottom <= f.height) {
			wrong = append(wrong, fmt.Sprintf("off the page of %.1f × %.1f: %+v", f.width, f.height, m))
		}
		l, ok := m.(label)
		if !ok || l.face == tagFace || strings.TrimSpace(l.text) == "" {
			continue
		}
		for _, other := range texts {
			o := other.box()
			if min(b.right, o.right) > max(b.left, o.left) && min(b.bottom, o.bottom) > max(b.top, o.top) {
				wrong = append(wrong, fmt.Sprintf("%q lies on %q", l.text, other.text))
			}
		}
		texts = append(texts, l)
	}
	return wrong
}

func TestMisplacedIsSeen(t *testing.T) {
	at := func(x, y float64, s string) label { return label{at: point{x, y}, text: s, face: textFace} }
	f := &Figure{width: 100, height: 50, marks: []mark{at(10, 20, "one"), at(10, 40, "two")}}
	assert.Empty(t, misplaced(f))
	for _, bad := range []mark{at(12, 22, "on one"), at(90, 30, "over the edge"), at(10, 3, "high"), dot{centre: point{99, 10}, radius: 2}} {
		f.marks = append(f.marks[:2:2], bad)
		assert.Len(t, misplaced(f), 1, "%+v", bad)
	}
}

func wellFormed(svg []byte) error {
	d := xml.NewDecoder(bytes.NewReader(svg))
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

func TestSVGStandsAlone(t *testing.T) {
	f, err := Boxes(boxesOf(Head{Title: `One "gate" & more`, Subtitle: "Net rate."}, 2, longName))
	require.NoError(t, err)
	svg, err := f.SVG()
	require.NoError(t, err)
	s := string(svg)
	assert.True(t, strings.HasPrefix(s, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 475.2 `), s[:80])
	assert.Contains(t, s, `role="img" aria-label="One &#34;gate&#34; &amp; more. Net rate"`)
	assert.Contains(t, s, `font-family="'Liberation Sans',Arial,Helvetica,sans-serif"`)
	assert.Contains(t, s, "&lt;remark&gt;")
	assert.NotContains(t, s, "href")
	assert.Error(t, wellFormed([]byte("<svg><text></svg>")), "a check that cannot fail")
}

func TestPNG(t *testing.T) {
	for _, d := range draws(head, 2, longName) {
		f, err := d.figure()
		require.NoError(t, err)
		var b bytes.Buffer
		require.NoError(t, f.PNG(&b, 72))
		m, err := png.Decode(&b)
		require.NoError(t, err)
		w, h := f.Inches()
		assert.InDelta(t, 6.6, w, 1e-9)
		assert.InDelta(t, 72*w, m.Bounds().Dx(), 1, d.name)
		assert.InDelta(t, 72*h, m.Bounds().Dy(), 1, d.name)
		require.ErrorContains(t, f.PNG(&b, 0), "0 dots an inch, want from 36 to 600")
		require.ErrorIs(t, f.PNG(broken{}, 72), errBroken)
	}
}

var errBroken = errors.New("disk full")

type broken struct{}

func (broken) Write([]byte) (int, error) { return 0, errBroken }

func TestUnmadeFigure(t *testing.T) {
	_, err := new(Figure).SVG()
	require.ErrorIs(t, err, errNotMade)
	require.ErrorIs(t, new(Figure).PNG(io.Discard, 96), errNotMade)
}
