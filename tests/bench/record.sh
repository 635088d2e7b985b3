#!/bin/sh
# record.sh [BUILD [FILTER]]: the recorder against its bounds, and its memory against the length of a clip. Where a
# GPU draws, give height:1080 as the filter.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/../.." && pwd)
build=${1:-"$root/build/release"}
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

"$build/tests/bench/bench_record" --benchmark_format=json --benchmark_repetitions=1 "--benchmark_filter=${2:-frames:(20|60)/}" >"$work/times.json"
python3 - "$work/times.json" <<'PYTHON'
import json, sys

# Seconds for so many frames; what a further frame takes is the difference, without the start of renderer and encoder.
seconds = {}
for row in json.load(open(sys.argv[1]))["benchmarks"]:
    name, height, quality, frames = row["name"].split("/")[:4]
    count = int(frames.split(":")[1])
    seconds.setdefault(f"{height}, {quality}", {}).setdefault(name, {})[count] = count / row["fps"]
for case, times in seconds.items():
    rate = {}
    print(case)
    for name, taken in times.items():
        few, many = min(taken), max(taken)
        rate[name] = (many - few) / (taken[many] - taken[few]) if many > few else many / taken[many]
        print(f"  {name:24} {rate[name]:8.1f} fps")
    draw, encode, clip, ring = (rate[k] for k in ("draw_only", "encode_only", "record_clip", "draw_and_read_by_ring"))
    print(f"  clip of 1 / (1/draw + 1/encode) {clip * (1 / draw + 1 / encode):6.2f}  (limit 0.90 where one processor does both)")
    print(f"  ring over draw only             {ring / draw:6.2f}  (limit 0.95 where a GPU draws)")
    print(f"  waiting over draw only          {rate['draw_and_read_at_once'] / draw:6.2f}")
    print(f"  clip over ring                  {clip / ring:6.2f}  (limit 0.80 where a GPU draws and nothing is encoded)")
    print(f"  without a thread over ring      {rate['record_without_thread'] / ring:6.2f}")
PYTHON

echo "peak memory, MiB, of clips of 30, 120 and 480 frames (320x180):"
for seconds in 1 4 16; do
    python3 -c 'import resource, subprocess, sys
subprocess.run(sys.argv[1:], check=True)
print("  ", resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss // 1024)' \
        "$build/couplet" record --quiet --size 320x180 --quality light --seconds $seconds -o "$work/clip.mp4"
done
