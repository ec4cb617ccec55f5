package stoplog

import "bytes"

// cut splits the first row of a text into cells and returns its length, with the line break
// at its end. Where quotes are not as they should be, the row is its first line, and fault
// says what is wrong.
func (r *rows) cut(view []byte) int {
	line := firstLine(view)
	if bytes.IndexByte(line, '"') >= 0 {
		view = firstLines(view, maxLines)
	} else {
		view = line // faster, and the same
	}
	for i := 0; ; i++ { // over the delimiter
		i = r.cell(view, i)
		switch {
		case r.fault != "":
			r.cells = r.cells[:0]
			return len(line)
		case i == len(view):
			return i
		case view[i] == '\n':
			return i + 1
		}
	}
}

// cell appends the cell that begins at i and returns where it ends: at a delimiter, at a
// line break or at the end of the text.
func (r *rows) cell(view []byte, i int) int {
	start := i
	for i < len(view) && r.isBlank(view[i]) {
		i++
	}
	if i < len(view) && view[i] == '"' {
		return r.quoted(view, i)
	}
	for i < len(view) && view[i] != r.delimiter && view[i] != '\n' {
		i++
	}
	r.add(view[start:i], start)
	return i
}

// quoted is cell for one with quotes, the first of which is at open.
func (r *rows) quoted(view []byte, open int) int {
	from, kept := open+1, len(r.scratch)
	for {
		k := bytes.IndexByte(view[from:], '"')
		if k < 0 {
			r.fault, r.faultAt = "this quote is not closed", open
			return open
		}
		end := from + k
		if end+1 < len(view) && view[end+1] == '"' {
			r.scratch = append(r.scratch, view[from:end+1]...) // one quote of the two
			from = end + 2
			continue
		}
		text := view[from:end]
		if len(r.scratch) > kept {
			r.scratch = append(r.scratch, text...)
			text = r.scratch[kept:]
		}
		r.add(text, open)
		return r.after(view, end+1)
	}
}

// after passes over the blanks after a closing quote.
func (r *rows) after(view []byte, i int) int {
	for i < len(view) && r.isBlank(view[i]) {
		i++
	}
	if i < len(view) && view[i] != r.delimiter && view[i] != '\n' {
		r.fault, r.faultAt = "there is text after the closing quote: a quote in a quoted text is written twice", i
	}
	return i
}

func (r *rows) add(text []byte, at int) {
	trimmed := bytes.TrimLeft(text, " \t\r\n")
	if len(trimmed) > 0 {
		at += len(text) - len(trimmed)
	}
	r.cells = append(r.cells, cell{bytes.TrimRight(trimmed, " \t\r\n"), at})
}

func (r *rows) isBlank(b byte) bool {
	return b == ' ' || b == '\r' || b == '\t' && r.delimiter != '\t'
}

// firstLine returns the first line of a text, with its line break.
func firstLine(view []byte) []byte { return firstLines(view, 1) }

func firstLines(view []byte, n int) []byte {
	end := 0
	for range n {
		k := bytes.IndexByte(view[end:], '\n')
		if k < 0 {
			return view
		}
		end += k + 1
	}
	return view[:end]
}
