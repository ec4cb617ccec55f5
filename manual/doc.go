// Package manual holds the manual of netrate, a topic a file: the repository shows the files as
// they are, and netrate help TOPIC prints what [Topic.Plain] makes of them for a terminal.
// [Topics] returns them all in their order, [Named] one of them.
//
// A block of a topic that begins with "$ netrate …" shows what that command prints. The tests
// of the command run it and compare.
package manual
