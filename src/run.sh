#!/bin/sh
# run.sh [ARGUMENTS]: installs what is missing, builds, and runs couplet with the arguments. Without any: the window,
# and where there is no display the coupling sheet of the harbour capstan.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)
sh "$root/third_party/build.sh" couplet couplet_window
if [ $# -eq 0 ] && [ -z "${DISPLAY:-}${WAYLAND_DISPLAY:-}" ] && [ "$(uname)" != Darwin ]; then
    echo "run.sh: there is no display here for the window; this is the coupling sheet of its scene" >&2
    set -- couple "$root/scenes/harbour_capstan.toml"
fi
exec "$root/build/release/couplet" "$@"
