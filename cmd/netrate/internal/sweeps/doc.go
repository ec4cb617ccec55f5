// Package sweeps is the verbs that change what a line is: sweep, along one value or two
// (SweepVerb), and sensitivity, every value by a little (SensitivityVerb).
package sweeps
