// Package workbench has the verb that opens a scenario in a browser (OpenVerb): the line drawn to
// its pitches, forms for what is selected, the file itself, and the answer, which moves while any
// of them is changed.
//
// The state is on the server, and a page is a view of it. The files, each on those before it:
//
//	change    a change of a text, its inverse, and as an editor in a browser writes it
//	history   all steps of a text, undone and done again
//	journal   what a crash must not lose, in the user's state directory
//	work      the work in hand: the text, its file, the pins; every operation on them (op)
//	asking    the answer to what stands in the text, sharper and sharper, until the next change
//	view      parts of the page, made of the same tables and figures as a report
//	hub       what is told to all tabs
//	server    addresses, and who may ask for them (guard)
//
// A page draws no numbers by itself: all regions come as HTML from the server.
package workbench
