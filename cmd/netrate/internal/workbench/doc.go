// Package workbench has the verb that opens a scenario in a browser (OpenVerb): the line drawn to
// its pitches, forms for what is selected, the file itself, and the answer, which moves while any
// of them is changed.
//
// The state is on the server, and a page is a view of it. The files, each on those before it:
//
//	change    a change of a text, its inverse, and as an editor in a browser writes it
//	history   all steps of a text, undone and done again
//	journal   what a crash must not lose, in the user's state directory
//	work      the work in hand: the text, its file, the pins; every operation on them (op, opline,
//	          oppin, opfile, designing, and what the palette puts in)
//	question  what the text asks, with the command that asks it in a terminal; asking: its answer,
//	          sharper and sharper, until the next change (turns); room: the axis that stays meanwhile
//	planning what the text's plan comes to: on paper, then sharper and sharper (planview, opplan)
//	view      parts of the page, of the same tables and figures as a report (track, form)
//	hub       what is told to all tabs
//	bench     the work with all that looks at it; asked, film: what other verbs are asked; export
//	server    addresses, and who may ask for them (guard); browse, verb: how it is opened
//
// A page draws no numbers by itself: all regions come as HTML from the server.
package workbench
