"""SymPy's sparse rational nullspace on the equations that print_equations writes.

usage: print_equations A 1000 | sympy_nullspace.py NAME

Prints the fastest of a few runs in the form of Google Benchmark's JSON, under NAME.
"""

import json
import sys
import time

from sympy import QQ
from sympy.external.gmpy import GROUND_TYPES
from sympy.polys.matrices.sdm import SDM

RUNS = 3


def read_rows(lines):
    row_count, column_count = map(int, next(lines).split())
    rows = {}
    for number, line in enumerate(lines):
        terms = (term.split(":") for term in line.split())
        rows[number] = {int(column): QQ(int(coefficient)) for column, coefficient in terms}
    return SDM(rows, (row_count, column_count), QQ)


def fastest(matrix):
    seconds = []
    for _ in range(RUNS):
        start = time.process_time()
        nullspace, _ = matrix.nullspace()
        seconds.append(time.process_time() - start)
        assert nullspace.shape[0] == 1, "a train of freedom 1 has one motion"
    return min(seconds)


def main():
    matrix = read_rows(iter(sys.stdin))
    entry = {"name": sys.argv[1], "real_time": fastest(matrix) * 1e9, "time_unit": "ns", "ground_types": GROUND_TYPES}
    json.dump({"benchmarks": [entry]}, sys.stdout)


main()
