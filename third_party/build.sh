#!/bin/sh
# build.sh TARGET...: installs what is missing, then configures and builds the targets in build/release. Talk goes to
# stderr, and only where something is done. COUPLET_WERROR=ON makes warnings errors.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
build="$root/build/release"

sh "$root/third_party/install.sh"
cd "$root"
if [ ! -f "$build/build.ninja" ] || [ -n "${COUPLET_WERROR:-}" ]; then
    cmake --preset release -DCOUPLET_WERROR="${COUPLET_WERROR:-OFF}" >&2
fi
if ! cmake --build "$build" --target "$@" -- -n | grep -q 'no work to do'; then
    cmake --build "$build" --target "$@" >&2
fi
