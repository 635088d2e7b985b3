#!/bin/sh
# run.sh [ARGUMENTS]: installs what is missing, builds, and runs couplet with the arguments. Without any: the coupling
# sheet of the harbour capstan.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
sh "$root/third_party/build.sh" couplet
[ $# -gt 0 ] || set -- couple "$root/scenes/harbour_capstan.toml"
exec "$root/build/release/couplet" "$@"
