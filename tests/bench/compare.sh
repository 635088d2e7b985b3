#!/bin/sh
# Runs every benchmark and prints the ratios that matter, each with its target.
#
#     sh tests/bench/compare.sh [BUILD_FOLDER]       default: build/release
#
# Wants a build with -O2 and a quiet machine. PYTHON names an interpreter that has sympy.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
build=${1:-$here/../../build/release}
python=${PYTHON:-/usr/bin/python3}
results=$(mktemp -d)
trap 'rm -rf "$results"' EXIT

for program in "$build/tests/bench/bench_motion" "$build/couplet"; do
    if [ ! -x "$program" ]; then
        echo "$program: is not there; build the project first or name its build folder" >&2
        exit 2
    fi
done

"$build/tests/bench/bench_motion" --benchmark_out="$results/motion.json" --benchmark_out_format=json \
    --benchmark_repetitions="${REPETITIONS:-5}"

if "$python" -c "import sympy" 2>/dev/null; then
    for family in A B_near B_far; do
        "$build/tests/bench/print_equations" $family 1000 |
            "$python" "$here/sympy_nullspace.py" "sympy/$family/1000" >"$results/sympy_$family.json"
    done
else
    echo "$python has no sympy (package python3-sympy); going on without it" >&2
fi

# Whole processes: name, then the command.
process() {
    name=$1
    shift
    if command -v hyperfine >/dev/null; then
        hyperfine -N --warmup 20 --runs 300 --style none --export-json "$results/$name.hyperfine" "$*" >/dev/null 2>&1
    fi
    "$python" "$here/process_time.py" "process/$name" "$results/$name.hyperfine" "$@" >"$results/$name.json"
}
process empty "$build/tests/bench/empty_process"
process couple "$build/couplet" couple

"$python" "$here/ratios.py" "$results"/*.json
