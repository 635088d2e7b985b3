#!/bin/sh
# window.sh [BUILD]: the window's figures on a display that nobody looks at (Xvfb): start to first frame, memory, idle.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
build=${1:-"$root/build/release"}
if [ -z "${COUPLET_ON_XVFB:-}" ]; then
    COUPLET_ON_XVFB=1 exec xvfb-run -a -s "-screen 0 1280x720x24 -noreset" sh "$0" "$build"
fi
kept=$(mktemp -d)
trap 'rm -rf "$kept"' EXIT
window="$build/couplet-window --size 1280x720 --keepsakes $kept"

echo "start to first frame and end, whole process, s (limit 0.6):"
for run in 1 2 3 4 5; do
    before=$(date +%s%N)
    $window --frames 1
    after=$(date +%s%N)
    echo "  $(((after - before) / 1000000)) ms"
done

$window &
pid=$!
sleep 5
echo "memory: $(awk '/VmRSS/ {print int($2 / 1024)}' /proc/$pid/status) MiB (limit 300)"
ticks() { awk '{print $14 + $15}' /proc/$pid/stat; }
before=$(ticks)
sleep 10
after=$(ticks)
echo "idle: $(echo "$before $after $(getconf CLK_TCK)" | awk '{printf "%.2f", ($2 - $1) / $3 / 10 * 100}') % of a core (limit 1)"
kill "$pid"
