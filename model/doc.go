// Package model is the inserting line: stations along a collating track, what goes
// wrong at them, what is then done, and the crew that does it. One replication in, one
// [Outcome] out.
//
// A [Line] is a specification and is never changed by a run. [Line.Check] says what
// cannot be; [New] makes a [Sim] of it, which can run any number of replications one
// after the other; [Line.Analytic] does the sum an engineer does on paper.
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
// belt, and the line running, where nothing else is said under Beginning. It ends at the
// end of the shift, wherever everything then is: a cycle that ends with it is completed, a
// later one did nothing. Where a cycle ends at the very moment at which an operator
// finishes, the cycle is completed first.
//
// Beginning. [Begins] says how a shift begins:
//
//   - Level: each hopper, a channel's too, holds that share of its capacity, to the nearest
//     piece, a half up, and one piece at least. So in each pass of a job. A stock that begins
//     at or below its warning calls at the end of the first cycle.
//   - Before: the line has worked before, for so long, from full hoppers and an empty track.
//     What was left in its hoppers, bins and belt is there when the shift begins, but one that
//     was used up is full again. All else begins as always: the track is empty, the lanes are
//     in step, nobody is at work, the buffer of a channel is full.
//   - Before and Track: the same, but nothing is cleared away at the handover. Sets stand where
//     they stood, lanes are as they were, stops stay open, tasks and the operators at them go
//     on. A set that is on the line at the handover counts as started in the shift, what it
//     holds as loaded, and so does what the hoppers hold then. All else counts in the shift in
//     which it happens: a stop when it arises and its time as it passes, a fault when it occurs,
//     a set and its remakes when it leaves. A run of defective sets that goes on over the
//     handover was begun before it, and has its whole length.
//   - Kept: of jobs. Hoppers whose pieces are in no order, of feeders without a stream, of envelopes
//     that are all alike and of devices, begin with what was left in them: in a further pass of a job
//     with what the pass before left; in a job that takes over from another ([Sim.TakeOver]) with
//     what that has left in its last pass, where the same pieces stay in. One that was used up is full again.
//     The lot that is open there goes on. All other hoppers are full, bins and the belt are
//     empty, so that the mail of each job is kept apart (common practice, no source), and all else begins as always: the track is empty,
//     nobody is at work, and the pieces are the right ones.
//
// The times of a crew that changes, and of its breaks, are counted from the start of what came
// before, and anew from the handover: a break that is under way then is over. With Track a day
// and a lot go on over the handover; without it both are drawn anew, as for any replication.
//
// What came before is drawn anew for each replication, so that replications stay independent.
//
// Work. A replication is a shift, which ends as said, or a job of n sets: set n is the
// last, no pocket after it is a set, and no station does anything with it. The job's pass
// ends when the cycle ends in which set n, or its empty pocket, reaches the delivery. If
// the line has lanes and there were remakes, they are then closed: by a second pass, a job
// of as many sets that starts like a first one (full hoppers, unless they are kept; nothing on the track) after
// the setup, and so on until there is no remake; or by hand at a number an hour, once the line
// is done; or by hand beside it, at a bench where somebody who is not of the crew makes one at
// a time, at a number an hour, first come first served. A remake comes to the bench when it
// arises: at the end of the cycle in which its set leaves, or its piece is taken out for an
// empty pocket, or when an operator takes the set off. The job is finished when its pass has
// ended and the last remake is made. Nothing but lots is carried from pass to pass. A job may begin
// while the bench is still at what came before ([Sim.BenchBusy]): it then makes the first remake of the
// job no sooner than it is done with that.
//
// Speed. The line runs at the lowest of the speed asked for and the rated speeds of its
// stations. Fault probabilities (misfeed, double, jam; envelope misfeed, flap,
// insertion jam) are those at the station's rated speed, times (speed/rated)^[growth
// exponent], times the material factor of a feeder's insert. A station without a rated
// speed has no growth.
//
// Slow cycles. The line may run some cycles at a share of its speed ([Slow]); they take so much
// longer. Where more than one of these applies to a cycle it is run at the lowest share, for the
// first that has it:
//
//   - starting: the first so many cycles after each start, that of the replication and that after
//     a line has starved too;
//   - after a jam: the first so many cycles after a standstill in which a stop for a jam, of a
//     feeder, a device or the inserter, was open;
//   - repeated stops: when a stop for a fault arises and is, with those before it that arose no
//     longer ago than a stated time, at least the n-th, the crew lets the line run slower. From then on
//     the first cycles after each start are slow, as many as take a stated time at the lower
//     speed, the last one whole. Once the line has run through all of them without standing
//     still, it runs at its speed again, until the same comes about again; stops from before
//     count then too. If that is stated, it does so sooner: from the end of the cycle in which an operator has filled
//     or emptied the stock of the station of the stop that made the crew do so (of the last
//     such, and of stops for faults in one cycle of the last along the track); to change a wrong stock is not to fill it. A stop for a stock, a breakdown, a break or an empty buffer is none for a fault.
//
// A stop in a slow cycle is like any other: after it the line starts again, with slow cycles
// counted from the first. The odds of faults that grow with the speed are, in a slow
// cycle, those at its speed; Streak.Again is not, nor are breakdowns, which are as likely in a
// slow cycle as in any. What slow cycles take beyond others is a part of the running time, and
// is counted for each of the three.
//
// Slowing down. The line stands at the end of the cycle in which a stop arises, and is at rest at once
// or, if that is stated ([Slow].Stopping), after as much time as so many cycles at a share of its speed
// take beyond others: the cycles through which it slows down, which count as done before. Operators are called when the
// stop arises. Whoever sets off meanwhile to clear a fault, to realign or to change a wrong stock arrives
// when the line is at rest and no sooner, whether he walks or not; who fills a stock or helps need not wait for that. The restart
// delay begins when the line is at rest and no sooner; what is waited for belongs to the stop that began the
// standstill, as "restarting". A line that stops for a break, or starves, is at rest at once.
//
// Feeding. A feeder tries to feed every set that reaches it, unless the set is
// condemned, or the pocket was emptied by a jam or a gate, or the set is not to have
// this insert (a feeder with a share below 1 chooses each set anew, independently; see also
// Attributes). What is different where the pieces are personalised is said under Streams. One attempt has
// one outcome:
//
//   - misfeed: nothing is fed. With the probability of being noticed the feeder knows it;
//     otherwise the set is defective and nobody knows.
//   - double: two pieces are fed. With the probability of being caught the feeder knows
//     it; otherwise the set is defective and nobody knows. A feeder with a single piece
//     left cannot double: that attempt is a good feed (and no false call).
//   - jam: the line stops; the piece and the whole set are spoiled, the pocket is empty.
//   - good feed: one piece. With the probability of a false call the feeder takes it for
//     a double, and the response to doubles follows.
//
// Attributes. A line may name attributes of its sets ([Attribute]), each with a share: what some
// sets have and others do not. A set has an attribute with the probability that is its share,
// independently of all other sets and of its other attributes, in each pass of a job anew. What a
// set has it keeps. A feeder that is only for an attribute ([Feeder.Only]) feeds the sets that
// have it; to those that have not it does nothing, as if they were not to have this insert. So
// several feeders that are only for one attribute are to feed the same sets. A device that is only
// for an attribute does its work on the sets that have it, and takes a piece of its stock for these. For
// a feeder that carries a stream see Streams that some sets have.
//
// Lots. The pieces of a feeder, the envelopes in an inserter's hopper and the sheets of a
// document channel may come in lots of so many pieces ([Lots]). Each lot has a factor, drawn
// anew, with mean 1. An attempt has the factor of the lot that is open at the station: it
// multiplies the probabilities of misfeed, double and jam (envelope misfeed, flap, insertion
// jam), beside speed and material, and nothing else. A lot is over, and the next one open,
// when as many pieces as it holds have left the hopper, by the end of a cycle or by an
// operator's hand; of two pieces fed at its end the second counts in the next. Pieces that go
// back into the hopper make the open lot longer by as many. A shift and a job begin somewhere
// in a lot: what is left of it is any number of pieces from 1 to all, equally likely. In the
// further passes of a job the lots go on where they were, and so they do in a shift that goes on from
// the one before. (Its day is that of what came before, too.) The sheets of a channel count as
// their documents are begun, all of them, whatever comes of them, but for those of the
// documents that are in the buffer at the start.
//
// Days. All stations of a line may have good days and bad days ([Days]): a factor, drawn anew
// for each day, on the probabilities that lots multiply and on those of all else that stations
// do to each set ([Seat.Trials]); not on what readers do. A day is a replication or a pass; or,
// if it is said how many hours of running make a day, that many cycles, as often as it takes.
// Several jobs may be said to be of one day ([Sim.OnDay]), with all their passes, and to go on with
// the lots of the one before ([Sim.KeepLots]). Within a day the factor may drift, in steps: from so
// many hours of running on, so many times as high. The day and the step of an attempt are those of
// its cycle; of a sheet, those of the cycle in which its document is fed.
//
// The factors of lot, day and drift multiply. They make no attempt fail more often than nine
// times in ten, nor more often than is left by Streak.Again, unless it does so by itself: there
// they are taken as lower.
//
// Streaks. Right after a misfeed the probability of a misfeed is Streak.Again, if that
// is given; those of double and jam are unchanged. "Right after" means at the feeder's
// next attempt. Where Streak.StopAfter is n > 0, the n-th misfeed in a row, if it is
// noticed, stops the line whatever the response to a misfeed is, and that set is put
// right; if it is not noticed, the first one after it that is. A stop of the
// line at the feeder for whatever fault ends its streak: the next attempt is then not
// right after a misfeed, and the count starts anew.
//
// Responses to a misfeed that is noticed, or to a double that is known or called:
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
// Streams. A feeder may carry a stream: personalised pieces in the order of the sets, so
// that piece k is the one for set k. So may a document channel, always; and an envelope
// feeder, which is a feeder whose pieces are the personalised envelopes, on a path of
// their own to the inserter. These are the lanes of the line. A stream has one lane, or
// two if both are marked as its halves. What is said of feeders holds for a lane too, with
// these differences:
//
//   - It feeds every set that reaches it, condemned or not. For a pocket that a jam or a
//     gate has emptied its next piece is taken out in that cycle, without an attempt; the
//     piece is counted with the set that was there.
//   - A lane is in step if the piece it feeds next is the one for the set that reaches it
//     next. It is out of step by d pieces if it is the one for the d-th set after that: a
//     misfeed makes d one less, a double one more, whether they are noticed or not. A stop
//     that puts the set right leaves d as it is, and so does a jam. The sets fed while d is
//     not 0 hold a wrong piece. (A lane that is the only one of its line and a feeder has
//     nothing to be matched to: d stays 0 whatever it feeds, and the response divert or
//     outsort costs that set alone.)
//   - A set is good if it holds exactly one piece of each station that is to feed it, and
//     its personalised pieces are all for the same person: pieces of feeders with the same
//     d and, if there is a document channel, documents fed with d = 0 and others too.
//   - Responses to a misfeed or a double are stop, which is recovery by hand, and divert or
//     outsort, which is recovery in line. Ship is possible in a lane with nothing to be
//     matched to.
//
// Recovery in line. The faulty set is condemned, and the lane, if it is then out of step, is
// in recovery. (So a false call costs its set alone, and begins a recovery only in a lane that
// an unnoticed fault has put out of step before.) In recovery the next set
// that is in its pocket when it reaches the lane is a catch-up set: it is condemned by the
// same response, if it is not condemned yet, and
//
//   - if d > 0 the lane holds: it feeds nothing, without an attempt, and d falls by one;
//   - if d < 0 the lane makes one attempt with all the pieces that are due, 1-d of them,
//     or as many as are left in its hopper if that is fewer. A good feed brings these
//     pieces; a misfeed none; a double, if the hopper holds one more, one more; a jam
//     counts as a jam with one piece. d changes by the pieces fed less one.
//
// The recovery is over when d is 0, or when a misfeed or a double in it goes unnoticed.
// A noticed misfeed of a catch-up set leaves the lane in recovery until as many of them
// have come in one recovery as Stream.Tries says; that one, and a noticed double, a
// false call or a jam in a catch-up set, is a second fault. (A false call has fed what a
// good feed feeds.) Second faults are also a noticed misfeed or double, a false call or
// a jam in another lane, and an alarm of a reader, while a lane is in recovery: from the
// cycle after the one in which its recovery began, up to and including the one in which
// it ended. At a second fault the line stops, whatever the response. The set in which it
// arose is put right as with stop, condemned or not (a jam spoils it); a catch-up set
// keeps what was fed to it. When the operator has cleared it he realigns every lane that
// is in recovery then, also where the second fault was a false call or a false alarm and
// nothing was wrong with its set. A streak that is complete in a catch-up set is a second fault
// too.
//
// Realigning a lane. Everything is where the last cycle has left it, and set n is the next
// to reach the lane.
//
//   - Sets with a wrong piece, too many or none of this lane, not condemned: those that the
//     inserter has not handled yet are taken off and count as spoiled; the others are
//     condemned to the next exit gate, if there is one.
//   - d < 0: the pieces in the hopper for sets before n, -d of them, are taken out and count
//     as spoiled. (The operator brings what the hopper lacks for this, so that one piece at
//     least is left; what he brings counts as loaded. The hopper is looked at again at the
//     end of the next cycle.)
//   - d > 0: the pieces for set n and those after it that are in sets taken off just now, or
//     in condemned sets that the inserter has not handled and that have not left, go back
//     into the hopper. For each one that is not there the lane holds for one set, the next
//     ones from n on, in their pockets or not: it feeds nothing, nothing is taken out, and d
//     falls by one; a set in its pocket is spoiled at that station, unless it is condemned.
//   - A document channel has no pieces to give back or take out: d is 0 at once.
//
// After that the lane is in step (or holds until it is) and not in recovery.
//
// Streams that some sets have. A feeder that carries a stream may be only for an attribute, and then
// the stream is; both halves of one are for the same sets. Personalised envelopes and documents are for all sets, and
// a line with a stream that only some sets have needs one that all have. Of the sets that have not
// the attribute the lane knows nothing: it feeds none of them and takes out nothing for their
// pockets, holds for none, none is a catch-up set, and none has a wrong piece of it, too many or none. Its
// pieces are in the order of the sets that have it, piece k for the k-th of these, and d counts
// such sets: the lane is out of step by d pieces if the piece it feeds next is the one for the d-th set
// with the attribute after the next one to reach it; what is said of sets before and after set n
// is said of such sets. The pieces in a set are those of lanes that are to feed it, and they are for the same
// person if they are for the same set: pieces of two lanes with d not 0 can be so with
// different d. A reader does nothing to a set that is not to have the stream that it reads. In one that is not
// to have the stream that it matches to that, a match is one of the lanes of the stream that it reads, of which none
// must have fed nothing.
//
// Document channel. It feeds each set that reaches it one document, the sheets of one
// person. It works by the shop clock: sheets come at a constant rate, also while the
// line stands. The number that makes a document is drawn for each from the distribution of
// pages. Documents are gathered in order, one after the other. When one is gathered
// it goes to the buffer, or stays where it was gathered while the buffer is full, and
// the next one is begun when the place is free; a document leaves the buffer at the end
// of the cycle in which it is fed. So document k+1 is begun when document k is gathered
// and document k - buffer has been fed. At the start the buffer is full of good
// documents, and document buffer+1 is begun.
//
// A cycle in which the channel is to feed a set only begins if the document for it is
// gathered. If not, the line starves: it stands until the document is gathered, and then
// runs at once, without a restart delay. A line that stands for a stop looks for the
// document when it would run again.
//
// Several channels. A line may have more than one channel, each with a stream, a buffer and faults
// of its own. A cycle only begins if the document is gathered of each channel that is to feed a set
// in it; the line starves until all are.
//
// Each sheet has one outcome, independent of all others, with the probabilities of
// misfeed, double and jam; the time of a document does not depend on them. The first sheet
// of a document that is not good decides about the document (the rest of its sheets come
// as they should):
//
//   - misfeed, noticed, and response stop; double, noticed or called falsely (a false call
//     is for a good sheet), and response stop; jam: the channel, not the line, stops when
//     the document would be gathered. An operator clears it: a task for a stop, taken in the
//     order of these. When he is done the document is gathered. After a jam the document is
//     spoiled: its set comes to the channel's pitch as a set that a jam has emptied there,
//     and is lost to the jam.
//   - all else is a misfeed or a double of the lane, in the cycle in which the document is
//     fed: each sheet missing or too many counts as one for d, but the lane still has one
//     document in each set: no set lacks one or has two. A set fed in that cycle, and all
//     later ones until d is 0, have wrong documents. The first of them looks right to a
//     reader, which sees no more than with what d it was fed.
//
// In recovery in line a catch-up set gets the next document, and d is then 0. If that
// document has itself a misfeed or a double, what is said of catch-up sets holds: after a
// noticed misfeed the recovery goes on, after an unnoticed one it is over with d = -1. If
// the lane is to recover by hand when such a fault comes as a second fault, the line stops.
//
// Hopper: a channel may have one, counted in documents, taken from as they are fed;
// without one it has paper without end.
//
// Readers. A reader stands on the track, after the lanes it reads, and may stand at the
// same pitch as the station before it. It reads the pieces of one stream in every set that
// reaches it and is not condemned, or in an emptied pocket. Readers read at the end of the
// cycle, when all stations have done their work, one after the other along the track, and
// what they find is answered at once. With the probability of a no-read it reads nothing.
// Otherwise it sees what it verifies:
//
//   - presence: a lane of the stream that fed nothing.
//   - sequence: a lane of the stream that fed nothing, or fed with d not 0.
//   - match: a lane of the stream or of the other stream that fed nothing, or lanes of the
//     two that fed pieces for different persons. (A document channel with d not 0 differs from all
//     lanes.)
//
// That is an alarm. It does not see a second piece; the sets after it show it. A good set
// is taken for a mismatch with the probability of a false alarm.
//
//   - No-read, response stop: the line stops, an operator reads it himself. If he sees what
//     the reader would have seen, it is an alarm with response stop instead. Divert and
//     outsort: the set is condemned, alone. Ship: it goes on.
//   - False alarm, response stop or a second fault: the line stops, an operator looks, and
//     the set goes on; lanes in recovery he realigns. Divert and outsort: the set is condemned, alone.
//   - Alarm, response stop or a second fault: the line stops, and the operator realigns the
//     lanes that the reader reads and matches, and every lane that is in recovery.
//     Divert and outsort: every set with a wrong piece, too many or none of these lanes, and
//     not condemned, is condemned, and those of the lanes with d not 0 are in recovery, with
//     this response for their catch-up sets. Ship is not possible.
//
// A set that is condemned stays condemned as it is, whatever comes after, unless a jam
// spoils it. A set condemned by a reader leaves at the first gate ahead that its
// response says, track gate or exit gate. Where a wrong set has passed the last track
// gate it leaves at the next exit gate, in its envelope, and where there is none it is
// delivered. A gate, or any station, at which a set stands in the cycle in which it is
// condemned has been passed.
//
// Personalised envelopes. With an envelope feeder the inserter has no hopper and takes
// no envelope: there is no envelope misfeed. A set condemned before the inserter must
// not go out in its envelope, so outsort is not a response then (but for a flap). The
// envelope of a set that has left at a track gate, or was spoiled before, leaves alone
// at the inserter's own outlet, which is never full.
//
// Causes. A set that is not delivered good is lost to the first fault that made it
// wrong, condemned or spoiled it. A set that a lane handles while d is not 0 is lost to
// the misfeed or double by which the lane came out of step (the last one, noticed or
// not, that found d = 0), whatever else befalls it there in that cycle.
//
// Remakes. In a line with lanes every set that is not delivered good, still on the line
// apart, is a remake: a person's pieces have to be printed again. Where the only lane is a
// feeder, its pieces in such sets are.
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
// Devices. A device does one thing to every set that reaches it, on the track, or in its envelope
// behind the inserter: it prints, affixes, turns, seals, weighs. It does nothing to a set that is
// condemned, or whose pocket is empty. It may have a stock, of which it takes one piece for each
// set. One attempt has one outcome:
//
//   - misfeed: nothing is done, and no piece is taken. With the probability of being noticed the
//     device knows it; otherwise the set is defective and nobody knows.
//   - jam: the line stops; the piece and the whole set are spoiled, the pocket is empty.
//   - done.
//
// Responses to a misfeed that is noticed are those of a feeder. At a stop the operator does by
// hand what was not done, with one piece of the stock in that cycle; a set that is condemned or
// shipped has none, and one that is shipped is defective. Odds grow with the speed as a feeder's.
// Readers see nothing of it.
//
// Fates. Every set started is in the end one of: diverted at a track gate, outsorted at
// an exit gate, spoiled in a jam, delivered at the delivery (good, or defective), or
// still on the line. A set counts as diverted, outsorted or delivered once that station
// has handled it. A set that is both defective and condemned counts as condemned. Sets
// delivered defective one right after another are a run: the first good one delivered ends
// it, a set that leaves elsewhere does not. The run is due to what its first set was lost to.
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
// cycle has ended and all its calls have come, when a channel has stopped, and whenever one
// of them has finished.
// An operator walks to the task, then works; he is not interrupted. How long he works at a
// fault: the station's time for that fault, if it has one (a false call is a double, too many
// misfeeds in a row are a misfeed); if not, for a misfeed or a double of a lane that stops
// the line, and for an alarm, the time for realigning of the lane (of an alarm: the first lane
// of the stream that the reader reads), if there is one; and if not, the usual clearing time
// of the station, or of that lane. When a stock is
// used up while its task still waits for an operator, the task joins the stops, or keeps
// its place among the stocks, as the crew does ([Exhausted]). So does the task of a stock
// that calls only when it is used up.
//
// Presence. In a shift (what is stated for a time after its end does not come) the number of operators may change at stated times ([Crew.Later]), each in
// force until the next. (Of a change and what else people do at the very same moment either may come
// first.) Where it is no whole
// number, so many and a share: the time from such a change to the next is cut into blocks of the
// stated length, of which the last may be shorter, and in each block one operator more is there in
// one stretch, which has that share of the length of the block and begins at a moment drawn evenly
// from those that leave room for it. In a break ([Break]) as many remain as it says, or as many as
// there were if these are fewer. An operator who comes is free at once. When there are to be
// fewer, those who are free go; if these are not enough, those who are at work (or on the way)
// finish what they have in hand, and the first to finish go. Who was to go and has not gone when
// there are to be more again stays.
//
// If the line is to stand for a break, it stops at the end of the first cycle that ends in the
// break, unless it stands for something else, and does not run before the break is over. A line
// that is to run on is not told of the break: it runs until it stops for something. When the break
// is over the restart delay is drawn and runs, if no stop is open; if there is one, the delay comes
// after it as always; one that a break has interrupted is drawn anew. The time from when the line
// stops for a break, or from when the break begins if it stands then, until the break is over
// belongs to the break, whatever else is open; and so does the restart delay after it, if it had
// stopped for the break or a break had interrupted the delay.
//
// Skills. The operators may be stated one by one or by groups of equals ([Person]): each may do all
// works or only some (clearing faults, realigning among it; filling and emptying stocks; of lines at jobs, changing
// over), at all stations or at some.
// They count in the order in which they are stated: if n are to be there, these are the first n;
// one who is to go and is at work finishes first, and one who is to come and has not gone stays. The first of the tasks,
// by the order of the crew, is taken for which somebody is free who may do it. Of
// several it is one who stays at that station, then one who stays at none, then one who stays
// elsewhere; of equals the one stated first. An operator who stays at a station takes no walk to
// a task there, unless he comes from elsewhere. He takes tasks elsewhere only if that is stated.
//
// Help. Two may work at one fault ([Crew.Help]). An operator who is free when no task waits that he
// may do, at the moments at which operators choose, goes to help where somebody has set off to clear
// a fault that he may clear too, and nobody has set off to help yet: at that which arose first. He walks as to any
// task. From when both are there the work that is left takes Help times less. When it is done both are
// free; if it is done before he has come, he is free where he is.
//
// Breakdowns. A station may break down ([Breakdowns]), at random in the time that the line runs:
// in every cycle, whatever is in its pocket, with the probability 1 - exp(-cycle/every), where
// every is the mean running time from one breakdown to the next, and cycle is one at the speed of the
// line, however slowly it then runs. The line stops at the end of that
// cycle; nothing happens to any set, and no streak ends. It is a stop of that station, after its
// others of that cycle, with a task for a technician, not for the crew. Technicians take such
// tasks in the order in which they arose, those of one cycle along the track. One who is free comes in
// the time that it takes to come, then repairs; he is not interrupted, and is free again. There are as many
// of them as are stated, for all lines of a line group together, or as many as are needed. Until he
// has come the line is "waiting", then "working". They know no breaks.
//
// Time. While the line starves, each moment belongs to the channel that lacks its document; of
// several that do, to the first along the track. Where one has its document and another still lacks
// it, the line begins to starve for that one. From when the channel stops
// until an operator has cleared it, that is to the fault for which it has stopped (a false call
// counts as a double), as "waiting" until he has arrived there and as "working" from then on; all
// other moments, also those that an empty buffer costs later, are "starved": the channel is too
// slow. The first of these moments counts as a stop, be it a stop of the channel while the line
// starves or the line that starves when the channel has stopped; and so does the moment in which
// the line begins to starve for a channel that has not stopped. (A channel that stops in the
// moment in which a cycle ends stops after it.) While the line stands for a stop, each moment belongs to the stop that arose first among
// those still open (of one cycle: the first along the track), as "waiting" until an
// operator has arrived there and as "working" from then on. The restart delay belongs
// to the stop that began this standstill, as "restarting".
//
// Left over. What is left to do for faults when a replication ends belongs to no moment of it: of
// every stop for a fault or a breakdown for which the line stands, what an operator or a technician who is on his way or at work
// there has ahead of him; and, if the standstill began with a stop that is for no stock, what is left
// of the restart delay or, while stops are open or a break is not over, its mean. What a stop needs that still waits for
// an operator is not drawn, and not counted. (The channel's own stops are not counted either: they
// are no stops of the line.)
//
// # Lines with one crew
//
// Several lines may share a crew through one shift ([LineGroup]). Each is run as a line by itself;
// tasks of all of them wait for the same people, with these differences:
//
//   - The order of the crew is by the clock on the wall, as cycles of one line say nothing to another:
//     the most urgent stock is the one that would be used up first if its line only ran from the moment
//     of the call; first come, first served is by the moment of the call. Along the track, a stock of a line
//     and one of another go by where each stands on its own.
//   - The number of operators, parts of one, and breaks are of all lines at once; so are technicians.
//   - An operator may be stated to work at some of the lines only ([Person].Lines), and then does
//     nothing elsewhere. A station is known by its name: the work that he may do at it he may do at
//     the station of that name on each of these lines that has one. Who stays at a station stays at
//     the one on the first of his lines, or, where none are stated, on the only line that has it; stations
//     of that name on others are elsewhere.
//
// # Lines at jobs with one crew
//
// Several lines that share a crew may each do a list of jobs, one after the other ([GroupAtJobs]).
// Each job is run as said under Work, with these differences:
//
//   - A line is changed over for a job when the one before it is finished and the stated time has
//     come, and begins it when the changeover is done. The pieces of that work are tasks of the
//     crew, one operator at each, all called at once, in the order in which they are stated. They
//     come after stops and stocks, first come, first served, and are not interrupted; nobody walks
//     for them. What a line does by itself goes on meanwhile. With nothing to do the job begins at once.
//   - When a pass ends, calls for this line that nobody has answered are withdrawn, and operators and
//     technicians who are on the way to it or at work there leave off: they are free at once. Then they choose.
//   - A setup between passes, and remakes by hand, take nobody of the crew.
//   - Where remakes are made by hand beside the line, the line is free for its next job when the pass
//     has ended; the job is finished when its last remake is made. There is one bench for all lines, first
//     come first served over all jobs; remakes that come at the same moment go in the order of the lines. It
//     works all the time, whoever of the crew is there and whatever line is down. Remakes may lie there from
//     the start: it makes these first.
//   - The number of operators may change at stated times ([Staffing]), as said under Presence. There
//     may be none for a while.
//   - What each operator may do may be stated, as said under Skills and Lines with one crew, by the names of
//     the lines, whatever they make. At a job that does not use the station at which somebody stays, he
//     does what he does elsewhere. To change a line over is a work of its own. A piece of it that is of a
//     station is for those who may do it there; one that is of the line as a whole for those who may do it at any
//     station: for whom no stations are stated, and who stay at none or go elsewhere too.
//   - If n are to be there they are the first n, less those who are absent then ([Staffing].Absent), for a shift or
//     for a break that is theirs alone, for whom nobody comes. What nobody who is there may do waits until somebody is there who may. He who comes again after
//     he had gone begins at the station at which he stays.
//   - A line may be down from one stated time to another. It then stands as for a break, and begins
//     neither a changeover nor a pass; a changeover under way goes on.
//
// The streams of a job are those of its line for that product and of its own replication, so that
// what befalls it by itself does not depend on what other lines do, or on what came before.
//
// # People and readers who err
//
// These rules add to those above where their probabilities are not 0. Each error is a fault of its
// own in the outcome, at the station given here.
//
// Misread. A reader that reads a set in which it would see something wrong takes it, with the
// probability of a misread, for one in order: there is no alarm, and the set goes on. The set stays
// lost to what made it wrong. (A set in order that is taken for a wrong one is a false alarm.)
//
// Wrong repair. Where an operator is to put a set right after a misfeed or a double (response stop,
// too many misfeeds in a row, or a second fault in a set that is not a catch-up set), he leaves it
// with the probability of a wrong repair as it was fed: with no piece, or with two. It goes on as if
// nobody had noticed, and in a lane d changes by it. A document with which a channel has stopped for
// a misfeed or a double then keeps that, and nobody notices it when it is fed. What follows from it
// is lost to the wrong repair at that station: the set and, where the lane was in step, all that it
// costs to be out of step. After a false call there is nothing to put right, and nothing to err in.
// An operator who reads a set himself takes, with the same probability, what he would have seen for
// right: this is an error at the reader, and it is a no-read like others.
//
// Wrong realigning. When an operator realigns a lane that is out of step he is one short, with the
// probability of a wrong realigning: where pieces are to be taken out he takes one less, so that d is
// -1 when he is done; otherwise one piece is missing from the hopper when he is done (it counts as
// spoiled; the operator brings what the hopper lacks for this, as above), and d is 1 when the lane
// has held as often as it was to hold. A channel keeps d = 1 or d = -1, on the side on which it was.
// The lane is then not in recovery, and what it costs from that moment on is lost to the wrong
// realigning at that station.
//
// Wrong stock. Each time an operator has brought pieces to the hopper of a feeder that carries no
// stream, or envelopes to that of the inserter, they are, with the probability of a wrong stock, the
// wrong ones: from then on, until he
// has next brought some, all pieces in it are taken for wrong. The hopper that a replication begins
// with is right. A set that gets a wrong piece is wrong, and is lost to the wrong stock at that
// station whatever else befalls it there in that cycle. (So does every set that the inserter handles, in each outcome:
// one that is condemned is lost to what it was condemned for.) It is found
//
//   - by the reader that the station names, if it names one, in a set that it reads, be it of a
//     stream or not: as said of what a reader sees, it takes a no-read, a misread, an operator who
//     reads himself. Where it sees something wrong in the streams too, that is answered first.
//   - by an operator, if the station says after what time: at the end of the first cycle that is
//     completed after it, counted from when he brought the pieces, if they are still wrong.
//
// Then the line stops at the station, whatever the responses are. (It is not a second fault.) In the
// order of stops this one comes after the others of its station. The operator's work is that of
// filling the hopper, if the station has no time for it. When he is done the sets with a wrong
// piece of the station that are not condemned are treated as when a lane is realigned: taken off
// before the inserter, condemned to the next exit gate behind it. If the pieces in the hopper are
// wrong then, they are thrown away (spoiled), and the hopper is filled with right ones.
//
// # What is not known
//
// Rates and times of a line may be uncertain ([UncertainInput]). A run takes them as given.
// [RunUncertain] draws them anew, each independent of the others, and runs some replications
// of each line that comes of it: what these vary by is chance, what the lines vary by is
// not knowing them. What is drawn holds for a whole replication: rates that change from
// lot to lot and from day to day are something else, see Lots and Days.
package model
