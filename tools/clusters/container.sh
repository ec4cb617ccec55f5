#!/usr/bin/env bash
# Builds the container of bin/netrate with buildah, from Debian, and runs it as its own user, who must be able
# to do all that a shard and a merge do. Wants root; fetches nothing.
set -euo pipefail
cd "$(dirname "$0")/../.."
work=$(mktemp -d)
buildah() { command buildah --root "$work/storage" --runroot "$work/run" --storage-driver vfs "$@"; }
container=
end() {
	[ -z "$container" ] || buildah rm "$container" >/dev/null
	rm -rf "$work"
}
trap end EXIT

buildah build --quiet --isolation chroot --tag netrate . >/dev/null
container=$(buildah from --pull-never netrate)
mkdir "$work/data"
chown 65532:65532 "$work/data"
inside() { buildah run --isolation chroot --volume "$work/data:/data" "$container" -- /netrate "$@"; }

inside version
inside example small-shop >"$work/data/line.yaml"
for shard in 1/2 2/2; do inside run line.yaml --reps 100 --shard $shard; done
inside merge shards --csv rows.csv --report report.html >/dev/null
bin/netrate run "$work/data/line.yaml" --reps 100 --csv "$work/one.csv" >/dev/null
cmp "$work/one.csv" "$work/data/rows.csv"
owners=$(find "$work/data" -mindepth 1 ! -name line.yaml -printf '%U:%G\n' | sort -u)
[ "$owners" = 65532:65532 ] || { echo "container.sh: files of $owners"; exit 1; }
echo "the container answers as the file outside, and what it writes is of user 65532"
