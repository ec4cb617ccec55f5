// Package tracing has the verb that shows single shifts in full (TraceVerb), and writes what
// happened in them to files: the stops and the counts as a shop's own log has them, the trail of
// every set, what the crew did, and all of it for trace viewers.
package tracing
