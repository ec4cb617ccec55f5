package say

// The width of an answer, in characters: that of the terminal on which it is shown, within limits,
// and the usual one everywhere else, so that what is written to a file is the same everywhere.
const (
	usualWidth = 80
	leastWidth = 60
	mostWidth  = 200
	proseWidth = 100 // longer lines of prose are hard to follow: common practice, no source
)

var screen = usualWidth

// Fit has all answers fit a terminal width characters wide; of 0, which is none that is known, one
// of the usual width. It is called once, before the first answer.
func Fit(width int) {
	if width == 0 {
		width = usualWidth
	}
	screen = min(max(width, leastWidth), mostWidth)
}

// Screen returns how many characters wide an answer is.
func Screen() int { return screen }

// Prose returns how many characters wide its paragraphs are.
func Prose() int { return min(screen, proseWidth) }

// ScreenLines is how many lines an answer has at most, where that is possible.
const ScreenLines = 24
