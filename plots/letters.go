package plots

// letter returns the letter of the i-th of many, counted from 0: after z come aa, ab
// and so on.
func letter(i int) string {
	last := string(rune('a' + i%26))
	if i < 26 {
		return last
	}
	return letter(i/26-1) + last
}

// letters stand for words that have no room where they belong.
type letters struct{ words []string }

// of returns the letter of words, the next one free if they have none yet.
func (l *letters) of(words string) string {
	for i, w := range l.words {
		if w == words {
			return letter(i)
		}
	}
	l.words = append(l.words, words)
	return letter(len(l.words) - 1)
}

// list sets the letters and their words below the chart, in as many columns as have
// room.
func (f *Figure) list(l letters) { f.listed(l, nil) }

// listed is list with a swatch after each letter; look draws it, if it is not nil.
func (f *Figure) listed(l letters, look func(i int, within box) []mark) {
	const between, swatch = 16.0, 24.0
	if len(l.words) == 0 {
		return
	}
	indent := bold(smallFace).width(letter(len(l.words)-1)) + 5
	thumb := indent
	if look != nil {
		indent += swatch + 5
	}
	columns := max(1, int((f.inner()+between)/(indent+smallFace.widest(l.words...)+between)))
	wide := (f.inner() + between) / float64(columns)
	f.y += 6
	for i, words := range l.words {
		if i > 0 && i%columns == 0 {
			f.y += smallFace.leading()
		}
		x, middle := margin+float64(i%columns)*wide, f.y+smallFace.leading()/2
		lines := smallFace.wrap(words, wide-between-indent, 3)
		f.beside(x, middle, 0, letter(i), bold(smallFace))
		if look != nil {
			f.draw(look(i, box{x + thumb, middle - 4, x + thumb + swatch, middle + 4})...)
		}
		for k, line := range lines {
			f.beside(x+indent, middle+float64(k)*smallFace.leading(), 0, line, smallFace)
		}
		if columns == 1 {
			f.y += float64(max(0, len(lines)-1)) * smallFace.leading()
		}
	}
	f.y += smallFace.leading() + 2
}
