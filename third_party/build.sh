#!/bin/sh
# build.sh [--tests] TARGET...: installs what is missing, then configures and builds the targets in build/release, with
# --tests those of the tests too; a build folder that has them keeps them. Talk goes to stderr, and only where something
# is done. COUPLET_WERROR=ON makes warnings errors.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build="$root/build/release"

with_tests=OFF
if [ "${1:-}" = --tests ]; then
    with_tests=ON
    shift
    sh "$root/third_party/install.sh" --tests
else
    sh "$root/third_party/install.sh"
fi
cd "$root"
configured=OFF
! grep -qs '^COUPLET_TESTS:BOOL=ON$' "$build/CMakeCache.txt" || configured=ON
if [ ! -f "$build/build.ninja" ] || [ -n "${COUPLET_WERROR:-}" ] || [ "$with_tests$configured" = ONOFF ]; then
    [ "$configured" = OFF ] || with_tests=ON
    cmake --preset release -DCOUPLET_WERROR="${COUPLET_WERROR:-OFF}" -DCOUPLET_TESTS="$with_tests" >&2
fi
if ! cmake --build "$build" --target "$@" -- -n | grep -q 'no work to do'; then
    cmake --build "$build" --target "$@" >&2
fi
