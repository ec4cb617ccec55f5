#!/bin/sh
# In 50 shards, as many at a time as the cores are enough for, and the answer of all:
#   netrate run line.yaml --reps 1000 --set crew.operators=2
# Run it with sh THIS-FILE; again, if it was ended: what is recorded is not run again.
# Written by netrate cluster parallel. Over several machines: give parallel --sshloginfile and --workdir.
set -u

task() {
	for attempt in $(seq 3); do
		netrate run line.yaml --reps 1000 --set crew.operators=2 --workers 2 --shard "$1/50" >&2 # what is printed is the answer
		status=$?
		case $status in 1 | 137) ;; *) break ;; esac # failed, or killed; else done, or the input is wrong
	done
	exit $status
}

if [ -n "${1:-}" ]; then
	task "$1"
fi
while :; do
	seq 50 | parallel --jobs 50% --halt now,fail=1 sh "$0" || exit $?
	netrate merge shards --json --report=r.html
	status=$?
	[ $status = 3 ] || exit $status # else another round
done
