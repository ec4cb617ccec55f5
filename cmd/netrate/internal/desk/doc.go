// Package desk is what all verbs share with the shell: the world around a verb (Env), errors
// with their exit statuses (Wrong, Status), flags and variables (NewFlags, PlanFlags,
// LineFlags), scenarios that are read (Load), files that are whole or not there (Create,
// Outputs), progress, and signals that end a run with the answer up to there (Watched).
//
// It runs nothing and words no answer.
package desk
