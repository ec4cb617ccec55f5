// Package buy is what a buyer of a line asks: the verb design, which finds what to buy (DesignVerb), and
// the verb accept, which plans the acceptance test of a contract (AcceptVerb).
package buy
