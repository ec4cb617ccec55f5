// Package film is a page that plays a shift: its track, its stocks, its crew, its stops and its
// counts, at any moment. [Film] is what happened, as plain data. [Film.Page] writes the page,
// which needs nothing else and asks for nothing; [Film.Pack] and the [Player] are its parts, for
// who has a page of his own. Nothing is simulated here, nor in the page: it looks up, for the
// moment that is shown, what is in the data.
package film
