// Package model is the inserting line: stations along a collating track, what goes
// wrong at them, what is then done, and the crew that does it. One replication in, one
// [Outcome] out.
//
// A [Line] is a specification and is never changed by a run. [Line.Check] says what
// cannot be; [New] makes a [Sim] of it, which can run any number of replications one
// after the other; [Line.Hand] does the sum an engineer does on paper.
//
// # The rules
//
// These are all the rules of the model. The engine follows them by jumping from one
// unusual event to the next; the tests hold a second, slow model that follows them
// cycle by cycle and piece by piece.
//
// Track. Stations stand at integer pitches, in strictly rising order. In cycle c = 1,
// 2, 3, … set number c starts at the first station; in cycle c the station x pitches
// further on handles set c-x. Whatever a station does in a cycle happens at the end of
// that cycle. The run starts with an empty track, full hoppers, empty bins and an empty
// belt, and the line running. It ends at the end of the shift, wherever everything then
// is: a cycle that ends with it is completed, a later one did nothing. Where a cycle
// ends at the very moment at which an operator finishes, the cycle is completed first.
//
// Speed. The line runs at the lowest of the speed asked for and the rated speeds of its
// stations. Fault probabilities (misfeed, double, jam; envelope misfeed, flap,
// insertion jam) are those at the station's rated speed, times (speed/rated)^[growth
// exponent], times the material factor of a feeder's insert. A station without a rated
// speed has no growth.
//
// Feeding. A feeder tries to feed every set that reaches it, unless the set is
// condemned, or the pocket was emptied by a jam or a gate, or the set is not to have
// this insert (a feeder with a share below 1 chooses each set anew, independently). One
// attempt has one outcome:
//
//   - misfeed: nothing is fed, and the feeder knows it.
//   - double: two pieces are fed. With the probability of being caught the feeder knows
//     it; otherwise the set is defective and nobody knows. A feeder with a single piece
//     left cannot double: that attempt is a good feed (and no false call).
//   - jam: the line stops; the piece and the whole set are spoiled, the pocket is empty.
//   - good feed: one piece. With the probability of a false call the feeder takes it for
//     a double, and the response to doubles follows.
//
// Streaks. Right after a misfeed the probability of a misfeed is Streak.Again, if that
// is given; those of double and jam are unchanged. "Right after" means at the feeder's
// next attempt. Where Streak.StopAfter is n > 0, the n-th misfeed in a row stops the
// line whatever the response to a misfeed is, and that set is put right. A stop of the
// line at the feeder for whatever fault ends its streak: the next attempt is then not
// right after a misfeed, and the count starts anew.
//
// Responses to a misfeed, or to a double that is known or called:
//
//   - stop: the line stops, an operator puts the set right: it then holds exactly one
//     piece of this feeder, taken from its hopper in that cycle (one too many goes back),
//     and goes on as good as it came.
//   - divert: the set is condemned, with what was fed in it. No later station handles it;
//     it leaves at the first track gate it comes to, and its pocket goes on empty.
//   - outsort: the set is condemned, with what was fed in it. Later feeders do not feed
//     it; the inserter handles it like any other; it leaves at the first exit gate.
//   - ship: the set goes on like any other; if it truly lacks a piece or has one too many
//     it is defective. (A false call that is shipped does nothing.)
//
// A jam has no response but stop.
//
// Inserter. It handles every set that reaches it and takes an envelope from its hopper
// for each. One attempt has one outcome:
//
//   - envelope misfeed: no envelope comes; the line stops, an operator puts one in by
//     hand (one envelope from the hopper, in that cycle). No other response is possible.
//   - unopened flap: an envelope came, but its flap stayed shut. Response stop: the line
//     stops, an operator puts it right with that envelope. Response outsort: set and
//     envelope go on together, condemned, to the exit gate. No other response.
//   - insertion jam: the line stops; set and envelope are spoiled, the pocket is empty.
//   - inserted.
//
// Fates. Every set started is in the end one of: diverted at a track gate, outsorted at
// an exit gate, spoiled in a jam, delivered at the delivery (good, or defective), or
// still on the line. A set counts as diverted, outsorted or delivered once that station
// has handled it. A set that is both defective and condemned counts as condemned.
//
// Stocks. Hoppers hold pieces and lose them; track gates and exit gates have a bin, the
// delivery has a belt, and these have room and lose it, one place a set. A stock with
// capacity 0 is a bin or belt that never fills up. When, at the end of a cycle, what is
// left is at or below the warning level, an operator is called (once); when nothing is
// left, the line stops. When the operator has finished his work the stock is full again
// (the hopper is at capacity, the bin or belt is empty). Refilling, emptying and
// sweeping are done while the line runs, or while it stands.
//
// Stops. The line stops at the end of the cycle in which a stop arises; several may
// arise in one cycle. Every stop has one task for the crew: clear the fault, or fill
// the stock that is used up. When the last open stop is over, the restart delay is
// drawn and runs once; then the line runs. Tasks go on meanwhile, and a stock is not
// looked at again until the line has run a cycle.
//
// Crew. Tasks that end a stop go first, in the order in which the stops arose, those of
// one cycle along the track (at one station, the fault before the stock). Then come
// stocks, in the order the crew keeps: the most urgent first, by the cycle in which it
// would be used up if the line only ran (at the cycle of the call: cycle + left /
// share); or along the track; or first come, first served, by the cycle of the call.
// Ties go by the order of call, in one cycle along the track. Operators choose when a
// cycle has ended and all its calls have come, and whenever one of them has finished.
// An operator walks to the task, then works; he is not interrupted. When a stock is
// used up while its task still waits for an operator, the task joins the stops.
//
// Time. While the line stands, each moment belongs to the stop that arose first among
// those still open (of one cycle: the first along the track), as "waiting" until an
// operator has arrived there and as "working" from then on. The restart delay belongs
// to the stop that began this standstill, as "restarting".
package model
