#!/bin/sh
# In 50 shards:
#   netrate run line.yaml --reps 1000 --set crew.operators=2
# Submit the shards, and what merges them:  sh THIS-FILE
# The shards alone:                         sbatch THIS-FILE
# Written by netrate cluster slurm. Add what your cluster wants: partition, account, time limit.
#SBATCH --job-name=netrate
#SBATCH --array=1-50
#SBATCH --cpus-per-task=2
#SBATCH --requeue
#SBATCH --open-mode=append
#SBATCH --output=netrate-%A.log
set -u

submit() {
	shards=$(sbatch --parsable "$NETRATE_JOB") || exit 1
	shards=${shards%%;*}
	sbatch --parsable --job-name=netrate-merge --dependency="afterok:$shards" --kill-on-invalid-dep=yes \
		--output=netrate-merge.log --wrap="sh '$NETRATE_JOB' merge" || exit 1
}

shard() {
	netrate run line.yaml --reps 1000 --set crew.operators=2 --shard auto
	status=$?
	case $status in
	2) scancel --state=PENDING "$SLURM_ARRAY_JOB_ID" ;; # the input is wrong: no other task can do better
	1 | 137) [ "${SLURM_RESTART_COUNT:-0}" -ge 2 ] || scontrol requeue "${SLURM_ARRAY_JOB_ID}_$SLURM_ARRAY_TASK_ID" ;;
	esac
	exit $status
}

merge() {
	netrate merge shards --json --report=r.html
	status=$?
	[ $status = 3 ] || exit $status
	submit # another round
}

if [ "${1:-}" = merge ]; then
	merge
elif [ -n "${SLURM_ARRAY_TASK_ID:-}" ]; then
	shard
else
	NETRATE_JOB=$(realpath "$0")
	export NETRATE_JOB
	submit
fi
