"""Prints the ratios of measured times that the project promises, each beside its target.

usage: ratios.py RESULTS.json...        files in the form of Google Benchmark's JSON

Processor time where it is known, and of several repetitions the fastest: the rest of what a run takes is the rest of
the machine's.
"""

import json
import sys

NANOSECONDS = {"ns": 1, "us": 1e3, "ms": 1e6, "s": 1e9}

# What is compared: the first time over the second one, and the target for that.
RATIOS = [
    ("matrix of a simple set, FLINT nullspace / ours", "flint_nullspace/A/4", "ours/null_vector", "at least", 4),
    ("A, n = 20, FLINT nullspace / ours", "flint_nullspace/A/20", "ours/A/20", "at least", 5),
    ("B near, n = 20, FLINT nullspace / ours", "flint_nullspace/B_near/20", "ours/B_near/20", "at least", 3),
    ("B far, n = 20, FLINT nullspace / ours", "flint_nullspace/B_far/20", "ours/B_far/20", "at least", 3),
    ("A, n = 100, FLINT solve / ours", "flint_solve/A/100", "ours/A/100", "at least", 40),
    ("B near, n = 100, FLINT solve / ours", "flint_solve/B_near/100", "ours/B_near/100", "at least", 10),
    ("B far, n = 100, FLINT solve / ours", "flint_solve/B_far/100", "ours/B_far/100", "at least", 10),
    ("A, n = 1000, SymPy nullspace / ours", "sympy/A/1000", "ours/A/1000", "at least", 10),
    ("B near, n = 1000, SymPy nullspace / ours", "sympy/B_near/1000", "ours/B_near/1000", "at least", 7),
    ("B far, n = 1000, SymPy nullspace / ours", "sympy/B_far/1000", "ours/B_far/1000", "at least", 7),
    ("A, n = 1000, ours / Eigen SparseLU in doubles", "ours/A/1000", "eigen_lu/A/1000", "at most", 1.2),
    ("C, n = 10000 / n = 1000", "ours/C/10000", "ours/C/1000", "at most", 30),
    ("couplet couple / an empty process", "process/couple", "process/empty", "at most", 3),
]

# Times by themselves, in microseconds.
TIMES = [
    ("train to rates of a simple set, us", "ours/A/4", 1),
    ("pose of 10000 members' joints, us", "ours/joint_pose/10000", 500),
    ("the same against the frame too, us", "ours/frame_pose/10000", 500),
]


def read_results(paths):
    nanoseconds = {}
    steps_beyond_words = {}
    for path in paths:
        with open(path, encoding="utf-8") as results:
            for entry in json.load(results)["benchmarks"]:
                if entry.get("run_type") == "aggregate":
                    continue
                name = entry["name"]
                time = entry.get("cpu_time", entry["real_time"]) * NANOSECONDS[entry["time_unit"]]
                nanoseconds[name] = min(time, nanoseconds.get(name, time))
                steps_beyond_words[name] = entry.get("steps_beyond_words")
    return nanoseconds, steps_beyond_words


def print_line(what, figure, bound, target):
    holds = figure >= target if bound == "at least" else figure <= target
    print(f"{what:<50} {figure:>10.3g}   {bound:<8} {target:>5}   {'holds' if holds else 'MISSES'}")


def main():
    nanoseconds, steps_beyond_words = read_results(sys.argv[1:])
    print()
    for what, first, second, bound, target in RATIOS:
        if first not in nanoseconds or second not in nanoseconds:
            print(f"{what:<50} not measured")
            continue
        print_line(what, nanoseconds[first] / nanoseconds[second], bound, target)
    for what, name, target in TIMES:
        print_line(what, nanoseconds[name] / 1e3, "at most", target)
    print_line("C, n = 10000, steps beyond machine words", steps_beyond_words["ours/C/10000"], "at most", 0)


main()
