// Package output says what replications show: output analysis.
//
//   - [Paired] and [Pairwise] compare alternatives that ran on common random numbers;
//     [Leads] says by how much each is ahead of the best of the others.
//   - [Selection] finds the best of several in as few replications as it takes, with a
//     stated probability of being right (indifference zone).
//   - [ANOVA] tells variance components apart; [Contributions] says what a figure's
//     variance comes from; [Another] is an interval that holds another observation.
//   - [ExactInterval] is of a share that was counted, [Counted] and its kind are priors of
//     inputs that are not known for certain.
//   - [AmongDrawn] and [Holm] test one record among simulated ones; [FindPeak] finds where
//     a curve is highest.
//
// A mean with its interval is [netrate/sim.Sample] and [netrate/sim.Estimate].
package output
