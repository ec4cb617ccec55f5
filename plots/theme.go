package plots

import (
	"image/color"
	"math"
)

// Sizes, in points.
const (
	usualWidth = 6.6 * 72 // of a figure, unless the caller asks for another
	margin     = 14.0     // left free on all sides
	gap        = 10.0     // between a name and what it names
	mostGutter = 150.0    // widest column of names
)

// Faces of the text.
var (
	titleFace    = face{size: 13, bold: true}
	subtitleFace = face{size: 9.5}
	nameFace     = face{size: 9, bold: true}
	textFace     = face{size: 9}
	smallFace    = face{size: 8}
	tagFace      = face{size: 8, bold: true}
)

// Colours without a meaning of their own.
var (
	paper = rgb(0xFFFFFF)
	ink   = rgb(0x222B36)
	muted = rgb(0x5D6875) // 5.7 : 1 on paper, enough for small text
	grid  = rgb(0xE3E7EC)
	faint = rgb(0xA9B2BC)
)

// Colours with a meaning: see [Role] for those of lines. Vermilion means one thing in all figures:
// what is lost, be it envelopes, a set, money or time after the hour when a job is due. Blue,
// vermilion and green are those of Okabe and Ito, Color universal design (2008, from memory), the
// blue and the green darkened.
var (
	blue      = rgb(0x00548A)
	vermilion = rgb(0xD55E00)
	green     = rgb(0x00694E)
	sky       = rgb(0x3D9CD2)
	night     = rgb(0x303B48)
	purple    = rgb(0xA04E80)

	neutral = rgb(0x737C86)
	dashing = [][]float64{nil, {6, 2}, {2, 2}, {8, 2, 2, 2}}
)

func rgb(hex uint32) color.NRGBA {
	return color.NRGBA{R: uint8(hex >> 16), G: uint8(hex >> 8), B: uint8(hex), A: 255}
}

// tint returns c on white paper, a share of it strong. It is opaque.
func tint(c color.NRGBA, share float64) color.NRGBA { return mix(paper, c, share) }

// mix returns the colour a share of the way from a to b.
func mix(a, b color.NRGBA, share float64) color.NRGBA {
	part := func(a, b uint8) uint8 {
		return uint8(math.Round(float64(a) + share*(float64(b)-float64(a))))
	}
	return color.NRGBA{R: part(a.R, b.R), G: part(a.G, b.G), B: part(a.B, b.B), A: 255}
}

// lightness returns L* of c, from 0 (black) to 100 (white): how light the colour
// is in grey print. Source: CIE 15 and IEC 61966-2-1 (both from memory).
func lightness(c color.NRGBA) float64 {
	linear := func(v uint8) float64 {
		x := float64(v) / 255
		if x <= 0.04045 {
			return x / 12.92
		}
		return math.Pow((x+0.055)/1.055, 2.4)
	}
	y := 0.2126*linear(c.R) + 0.7152*linear(c.G) + 0.0722*linear(c.B)
	if y <= 216.0/24389 {
		return y * 24389 / 27
	}
	return 116*math.Cbrt(y) - 16
}

// textOn returns the colour in which text is read best on c.
func textOn(c color.NRGBA) color.NRGBA {
	if lightness(c) < 55 {
		return paper
	}
	return ink
}
