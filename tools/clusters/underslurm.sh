#!/usr/bin/env bash
# The part of queues.sh that Slurm runs: where questions.txt, the scenarios and the answers of one process are.
set -euo pipefail
shopt -s nullglob
mapfile -t questions <questions.txt

await() { # until the queue is empty
	for _ in $(seq 1200); do
		[ -z "$(squeue -h)" ] && return
		sleep 0.2
	done
	squeue
	return 1
}

submit() { # DIRECTORY TASKS QUESTION…, in a directory of its own
	mkdir "$1"
	cp ./*.yaml "$1"
	(
		cd "$1"
		netrate cluster --tasks "$2" slurm "${@:3}" >job.sh
		sh job.sh >submitted.txt
	)
}

kill_one() { # the first task that is found at work in a DIRECTORY
	for _ in $(seq 3000); do
		for pid in $(pgrep -x netrate); do
			[ "$(readlink "/proc/$pid/cwd")" = "$PWD/$1" ] || continue
			for _ in "$1"/shards/*.part-*; do
				kill -9 "$pid" && return
			done
		done
		sleep 0.02
	done
	echo "no task could be killed"
	return 1
}

submit slurm-killed 3 run line.yaml --reps 20000 --json
kill_one slurm-killed
for i in "${!questions[@]}"; do
	for tasks in 1 2 3 7; do
		submit "slurm-$i-$tasks" $tasks ${questions[i]} --json
	done
done
await
for i in "${!questions[@]}"; do
	for tasks in 1 2 3 7; do
		cmp "one-$i.json" "slurm-$i-$tasks/netrate-merge.log"
	done
done
echo "Slurm: arrays of 1, 2, 3 and 7 shards of ${#questions[@]} questions give the bytes of one process, $SECONDS s"
cmp one-killed.json slurm-killed/netrate-merge.log
grep -q Killed slurm-killed/netrate-[0-9]*.log
echo "Slurm: a task that is killed is run again, $SECONDS s"

echo "nothing: here" >wrong.yaml
start=$SECONDS
submit slurm-wrong 200 run wrong.yaml
await
ran=$(cat slurm-wrong/netrate-[0-9]*.log | grep -c '^netrate: wrong.yaml' || true)
echo "Slurm: the array of a wrong scenario was over after $((SECONDS - start)) s, $ran of its 200 tasks were run"
[ "$ran" -ge 1 ]
[ "$ran" -lt 100 ]
[ ! -e slurm-wrong/netrate-merge.log ]
