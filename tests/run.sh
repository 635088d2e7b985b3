#!/bin/sh
# run.sh: installs what is missing, for the tests too, builds everything, checks the formatting and runs all tests;
# CTest's summary closes.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
sh "$root/third_party/build.sh" --tests all

# Another version of the formatter breaks lines elsewhere, so only the one that the project uses may judge.
formatter=$(command -v clang-format-14 || command -v clang-format || true)
if [ -n "$formatter" ] && "$formatter" --version | grep -q 'version 14\.'; then
    find "$root/src" "$root/tests" -name '*.[ch]pp' -exec "$formatter" --dry-run --Werror {} +
else
    echo "tests/run.sh: formatting not checked, clang-format 14 is not here" >&2
fi

cd "$root/build/release"
ctest --output-on-failure --parallel 2 "$@"
