#!/usr/bin/env bash
# How long a large question takes in one process, and in shards under a Slurm of this host with what merges
# them; how much memory; and that the bytes are the same. large.sh NETRATE SHIFTS TASKS
# A shift is of one hour, so that there can be many: it costs an eighth of one of a day's length.
# Wants what slurm.sh wants, GNU time, and disk for 300 bytes a shift.
set -euo pipefail
netrate=$(realpath "$1")
shifts=$2
tasks=$3
here=$(dirname "$(realpath "$0")")
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
mkdir bin
cat >bin/netrate <<TIMED
#!/bin/sh
exec time --quiet --append --output="$work/times.txt" --format="\$1 %e %U %S %M" "$netrate" "\$@"
TIMED
chmod +x bin/netrate
PATH=$work/bin:$PATH
export PATH
netrate example small-shop >line.yaml
question=(run line.yaml --set "work.shift=1 h" --reps "$shifts")
nproc=$(nproc)
echo "$shifts shifts of an hour in $tasks shards, on $nproc cores:"

said() { # WHAT VERB WALL: of all that ran of a verb
	awk -v what="$1" -v verb="$2" -v wall="$3" '$1 == verb { cpu += $3 + $4; if ($5 > most) most = $5; if ($2 > longest) longest = $2; n++ }
	END { printf "%-12s %3d ran, %7.1f s on the wall, %8.1f s of CPU, the longest %7.1f s, %6.0f MB at most\n", what, n, wall == "" ? longest : wall, cpu, longest, most / 1024 }' times.txt
}

: >times.txt
netrate "${question[@]}" --json >one.json
said "one process" run ""
: >times.txt
cat >submit.sh <<'SUBMIT'
set -euo pipefail
start=$(date +%s.%N)
sh job.sh >submitted.txt
while [ -n "$(squeue -h)" ]; do sleep 0.2; done
end=$(date +%s.%N)
echo "$start $end" | awk '{ print $2 - $1 }' >wall.txt
SUBMIT
netrate cluster --tasks "$tasks" slurm "${question[@]}" --json >job.sh
"$here/slurm.sh" bash submit.sh
said "shards" run "$(cat wall.txt)"
said "merge" merge ""
awk -v shifts="$shifts" '{ printf "recorded     %.0f bytes, %.0f a shift\n", $1, $1 / shifts }' < <(du -sb shards)
cmp one.json netrate-merge.log
echo "the bytes are the same"
