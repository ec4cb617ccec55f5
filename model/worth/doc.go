// Package worth says what a line costs a year, and what one line is worth against another.
package worth
