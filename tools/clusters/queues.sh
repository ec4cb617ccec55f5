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
questions=("run line.yaml --precision 1%" "compare two.yaml --reps 20" "strategy line.yaml --reps 10" "sweep line.yaml --vary crew.operators=1,2 --reps 10")

failed() {
	echo "queues.sh: $*" >&2
	tail -n 20 netrate*.log 2>/dev/null >&2 || true
	exit 1
}

i=0
for question in "${questions[@]}"; do
	i=$((i + 1))
	netrate $question --json >"one-$i.json"
	for tasks in 1 2 3 7; do
		rm -rf shards
		netrate cluster --tasks $tasks parallel $question --json >job.sh
		sh job.sh 2>parallel.log >merged.json || failed "parallel, $tasks shards of $question: $(cat parallel.log)"
		cmp -s "one-$i.json" merged.json || failed "parallel, $tasks shards of $question: another answer"
	done
done
echo "GNU parallel: 1, 2, 3 and 7 shards of ${#questions[@]} questions give the bytes of one process"

# A task that is killed loses itself alone.
rm -rf shards
question="run line.yaml --reps 4000"
netrate $question --json >one.json
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
netrate merge shards --json | cmp -s - one.json || failed "another answer after a task was killed"
echo "a task that is killed is run again"

cat >under-slurm.sh <<'JOB'
set -euo pipefail
await() { for _ in $(seq 300); do [ -z "$(squeue -h -r)" ] && return; sleep 0.1; done; squeue; return 1; }
rm -rf shards netrate*.log
netrate cluster --tasks 3 slurm run line.yaml --precision 1% --json > job.sh
sh job.sh
for _ in $(seq 300); do grep -q net_rate netrate-merge.log 2>/dev/null && break; sleep 0.1; done
await
sed '/^[0-9;a-z]*$/d' netrate-merge.log > slurm.json
grep -v "run round\|netrate run\|^to \|^netrate: what" slurm.json > merged.json || true

echo "nothing: here" > wrong.yaml
netrate cluster --tasks 200 slurm run wrong.yaml > wrong.sh
start=$(date +%s)
sh wrong.sh
await
echo "the array of a wrong scenario was over after $(($(date +%s) - start)) s"
ran=$(cat netrate-[0-9]*.log | grep -c '^netrate: wrong.yaml' || true)
echo "$ran of its 200 tasks were run"
[ "$ran" -ge 1 ]
[ "$ran" -lt 100 ]
JOB
"$here/slurm.sh" bash under-slurm.sh || failed "under Slurm"
cmp -s one-1.json merged.json || { cat netrate-merge.log >&2; failed "Slurm: another answer"; }
echo "Slurm: an array of 3 shards in rounds, and what merges them, give the bytes of one process"
