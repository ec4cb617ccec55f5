// Package tape takes what replications came to from many processes to one.
//
// A question is asked in stages: some replications in a row, of which the results decide what is
// asked next. A [Tape] goes along in the context ([With], [Of]), and whoever runs replications asks
// it for the next [Stage]. Of a stage it plays what is recorded; what is not, a shard records its part
// of, and a merge notes as missing. Both then end the stage with an error, [ErrElsewhere], because what the
// stage came to is not known here. So the same question, asked in the same way, is answered in one
// process or by many, and to the last bit: results are taken in by their numbers, whoever made
// them.
//
//   - [Values] are written and read by one and the same method of what is recorded.
//   - [Writer] writes the file of a shard, and [Open] reads one, whatever it holds: a file that is
//     cut or damaged is an error, never a result.
//   - [Shard] records its part of each stage; [Player] plays the files of all shards.
//
// The package opens no files, and knows nothing of what the questions are about.
package tape
