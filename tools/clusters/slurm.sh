#!/usr/bin/env bash
# Runs a command under a Slurm of this host alone, made for it and ended after it: slurm.sh COMMAND…
# Wants root, and slurm-wlm and munge from Debian.
set -euo pipefail
dir=$(mktemp -d)
pids=()
end() {
	for pid in "${pids[@]}"; do kill "$pid" 2>/dev/null || true; done
	for pid in "${pids[@]}"; do wait "$pid" 2>/dev/null || true; done
	rm -rf "$dir"
}
trap end EXIT

install -d -o munge -g munge -m 755 "$dir/munge"
[ -f /etc/munge/munge.key ] || { dd if=/dev/urandom bs=1 count=1024 of=/etc/munge/munge.key status=none; chown munge /etc/munge/munge.key; chmod 400 /etc/munge/munge.key; }
chmod 755 "$dir"
cp /etc/munge/munge.key "$dir/munge/key"
chown munge "$dir/munge/key"
setpriv --reuid=munge --regid=munge --init-groups /usr/sbin/munged --foreground --key-file="$dir/munge/key" --socket="$dir/munge/socket" \
	--pid-file="$dir/munge/pid" --seed-file="$dir/munge/seed" --log-file="$dir/munge/log" >/dev/null 2>&1 &
pids+=($!)

host=$(hostname -s)
mkdir "$dir/state" "$dir/spool"
cat >"$dir/slurm.conf" <<CONF
ClusterName=here
SlurmctldHost=$host(127.0.0.1)
SlurmUser=root
SlurmctldPort=27817
SlurmdPort=27818
AuthType=auth/munge
AuthInfo=socket=$dir/munge/socket,cred_expire=5
CredType=cred/munge
StateSaveLocation=$dir/state
SlurmdSpoolDir=$dir/spool
SlurmctldPidFile=$dir/slurmctld.pid
SlurmdPidFile=$dir/slurmd.pid
SlurmctldLogFile=$dir/slurmctld.log
SlurmdLogFile=$dir/slurmd.log
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
AccountingStorageType=accounting_storage/none
JobAcctGatherType=jobacct_gather/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
SchedulerParameters=defer_batch,batch_sched_delay=0,sched_interval=1
SchedulerTimeSlice=5
MpiDefault=none
SwitchType=switch/none
ReturnToService=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc)
PartitionName=all Nodes=$host Default=YES State=UP MaxTime=INFINITE
CONF
export SLURM_CONF=$dir/slurm.conf
for _ in $(seq 50); do [ -S "$dir/munge/socket" ] && break; sleep 0.1; done
slurmctld -D >/dev/null 2>&1 &
pids+=($!)
slurmd -D >/dev/null 2>&1 &
pids+=($!)
for _ in $(seq 100); do
	if sinfo -h -o %T 2>/dev/null | grep -q idle; then
		"$@"
		exit
	fi
	sleep 0.2
done
echo "slurm.sh: the node does not come up" >&2
tail -n 5 "$dir"/*.log >&2 || true
exit 1
