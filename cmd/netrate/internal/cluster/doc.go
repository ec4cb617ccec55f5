// Package cluster writes what a queue is given to run a question in shards: the script of a Slurm job
// array, the manifest of Kubernetes jobs, a script for GNU parallel. Nothing here talks to a queue.
package cluster
