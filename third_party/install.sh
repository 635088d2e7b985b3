#!/bin/sh
# install.sh: installs every package that building Couplet needs. Does nothing, and needs no root, where all are there.
# install.sh --tests: also what only its tests and benchmarks need, and into build/npm the Khronos glTF validator, from
# npm's registry.
# Tried on Debian 12. The lists for dnf, pacman and brew are written from their package indexes and were never run; the
# font B612 on Arch, stb's headers and an EGL with brew, and what they lack of the tests' programs have to be had from
# their makers.
set -eu
root=$(CDPATH='' cd -- "$(dirname -- "$0")/.." && pwd)

debian="g++ cmake ninja-build pkg-config libgmp-dev libfmt-dev libtomlplusplus-dev nlohmann-json3-dev
        libcli11-dev libglm-dev libstb-dev libpng-dev zlib1g-dev libminizip-dev fonts-b612 python3-glad libegl-dev
        libegl1 libegl-mesa0 libgl1-mesa-dri libglfw3-dev libimgui-dev libgl1 ffmpeg"
fedora="gcc-c++ cmake ninja-build pkgconf gmp-devel gmp-static fmt-devel tomlplusplus-devel json-devel
        cli11-devel glm-devel stb_truetype-devel libpng-devel libpng-static zlib-static minizip-compat-devel
        polarsys-b612-fonts-all python3-glad mesa-libEGL-devel mesa-dri-drivers glfw-devel imgui-devel ffmpeg-free"
arch="gcc cmake ninja pkgconf gmp fmt tomlplusplus nlohmann-json cli11 glm stb libpng minizip python-glad mesa glfw-x11
      imgui ffmpeg"
homebrew="cmake ninja pkg-config gmp fmt tomlplusplus nlohmann-json cli11 glm libpng minizip font-b612 glad glfw imgui
          ffmpeg"

debian_tests="clang-format libgtest-dev libbenchmark-dev libflint-dev libeigen3-dev libgeos-dev xvfb xauth xdotool
              libx11-dev libpugixml-dev parallel admesh liburdfdom-dev lib3mf-dev python3-ezdxf librsvg2-bin chromium poppler-utils
              ca-certificates"
fedora_tests="clang-tools-extra gtest-devel google-benchmark-devel flint-devel eigen3-devel geos-devel
              xorg-x11-server-Xvfb xdotool libX11-devel pugixml-devel parallel admesh urdfdom-devel lib3mf-devel
              python3-ezdxf librsvg2-tools chromium poppler-utils nodejs npm"
arch_tests="clang gtest benchmark flint eigen geos xorg-server-xvfb xdotool libx11 pugixml parallel admesh urdfdom lib3mf librsvg
            python-ezdxf chromium poppler nodejs npm"
homebrew_tests="clang-format googletest google-benchmark flint eigen geos pugixml parallel admesh urdfdom lib3mf librsvg
                chromium poppler node"
validator=2.0.0-dev.3.10

for_tests=
case "${1:-}" in
    "") ;;
    --tests) for_tests=yes ;;
    *)
        echo "install.sh: unknown option $1; --tests installs what the tests need too" >&2
        exit 2
        ;;
esac
if [ -n "$for_tests" ]; then
    debian="$debian $debian_tests"
    fedora="$fedora $fedora_tests"
    arch="$arch $arch_tests"
    homebrew="$homebrew $homebrew_tests"
    # A node of another source has an npm of its own, beside which Debian's cannot be installed.
    command -v node >/dev/null 2>&1 || debian="$debian nodejs"
    command -v npm >/dev/null 2>&1 || debian="$debian npm"
fi

as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    elif command -v sudo >/dev/null 2>&1; then
        sudo "$@"
    else
        echo "install.sh: installing packages needs root, and there is no sudo; as root run: $*" >&2
        exit 1
    fi
}

missing_on_debian() {
    for package in $debian; do
        status=$(dpkg-query -W -f='${Status}' "$package" 2>/dev/null || true)
        [ "$status" = "install ok installed" ] || printf '%s ' "$package"
    done
}

install_on_debian() {
    missing=$(missing_on_debian)
    [ -n "$missing" ] || return 0
    echo "install.sh: installing $missing" >&2
    as_root apt-get update -qq >&2
    # shellcheck disable=SC2086 # a list of packages
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >&2
}

install_validator() {
    grep -qs "\"version\": \"$validator\"" "$root/build/npm/node_modules/gltf-validator/package.json" && return 0
    echo "install.sh: installing gltf-validator $validator into build/npm" >&2
    mkdir -p "$root/build/npm"
    npm install --prefix "$root/build/npm" --no-save --no-audit --no-fund --loglevel=error \
        "gltf-validator@$validator" >&2
}

if command -v apt-get >/dev/null 2>&1; then
    install_on_debian
elif command -v dnf >/dev/null 2>&1; then
    # shellcheck disable=SC2086
    rpm -q $fedora >/dev/null 2>&1 || as_root dnf install -y $fedora >&2
elif command -v pacman >/dev/null 2>&1; then
    # shellcheck disable=SC2086
    pacman -Q $arch >/dev/null 2>&1 || as_root pacman -S --needed --noconfirm $arch >&2
elif command -v brew >/dev/null 2>&1; then
    # shellcheck disable=SC2086
    brew list $homebrew >/dev/null 2>&1 || brew install $homebrew >&2
else
    echo "install.sh: no apt-get, dnf, pacman or brew here; install by hand what answers to: $debian" >&2
    exit 1
fi
[ -z "$for_tests" ] || install_validator
