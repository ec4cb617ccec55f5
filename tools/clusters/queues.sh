#!/usr/bin/env bash
# What queues make of shards, with GNU parallel and a Slurm of this host: the same bytes as one process, a
# task that is killed, and wrong input, which ends a job at once. queues.sh NETRATE
set -euo pipefail
netrate=$(realpath "$1")
here=$(dirname "$(realpath "$0")")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
PATH=$(dirname "$netrate"):$PATH
export PATH
[ "$(basename "$netrate")" = netrate ]
netrate example small-shop >line.yaml
netrate example seventh-feeder >two.yaml
netrate example flats-season >weeks.yaml
cat >questions.txt <<'QUESTIONS'
run line.yaml --precision 1%
compare two.yaml --reps 20
strategy line.yaml --reps 10
sweep line.yaml --vary crew.operators=1,2 --reps 10
season weeks.yaml --reps 2
QUESTIONS

failed() {
	echo "queues.sh: $*" >&2
	tail -n 20 ./*/netrate*.log 2>/dev/null >&2 || true
	exit 1
}

mapfile -t questions <questions.txt
for i in "${!questions[@]}"; do
	question=${questions[i]}
	netrate $question --json >"one-$i.json"
	for tasks in 1 2 3 7; do
		rm -rf shards
		netrate cluster --tasks $tasks parallel $question --json >job.sh
		sh job.sh 2>parallel.log >merged.json || failed "parallel, $tasks shards of $question: $(cat parallel.log)"
		cmp -s "one-$i.json" merged.json || failed "parallel, $tasks shards of $question: another answer"
	done
done
echo "GNU parallel: 1, 2, 3 and 7 shards of ${#questions[@]} questions give the bytes of one process, $SECONDS s"

# A task that is killed loses itself alone.
rm -rf shards
question="run line.yaml --reps 20000" # a second for each
netrate $question --json >one-killed.json
netrate $question --shard 1/2
netrate $question --workers 1 --shard 2/2 &
pid=$!
until ls shards/*.part-* >/dev/null 2>&1; do
	kill -0 $pid 2>/dev/null || failed "the task ended before it could be killed"
	sleep 0.01
done
kill -9 $pid
wait $pid 2>/dev/null && failed "the task ended before it was killed"
netrate merge shards --json >merged.json 2>said.txt && failed "a merge without the task that was killed"
grep -q -- "--shard 2/2" said.txt || failed "what to run again is not said"
netrate $question --shard 2/2
netrate merge shards --json | cmp -s - one-killed.json || failed "another answer after a task was killed"
echo "a task that is killed is run again, $SECONDS s"

"$here/slurm.sh" bash "$here/underslurm.sh" || failed "under Slurm"
echo "all of it in $SECONDS s"
