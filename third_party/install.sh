#!/bin/sh
# Installs every package that building and testing Couplet needs. Does nothing, and needs no root, where all are there.
# Tried on Debian 12. The lists for dnf, pacman and brew are written from their package indexes and were never run; the
# font B612 on Arch, and stb's headers and an EGL with brew, have to be had from their makers.
set -eu

debian="g++ cmake ninja-build pkg-config clang-format libgmp-dev libfmt-dev libtomlplusplus-dev nlohmann-json3-dev
        libcli11-dev libgtest-dev libbenchmark-dev libflint-dev libeigen3-dev
        libgeos-dev libglm-dev libstb-dev libpng-dev zlib1g-dev fonts-b612 python3-glad libegl-dev libegl1
        libegl-mesa0 libgl1-mesa-dri libglfw3-dev libimgui-dev libgl1 xvfb xauth
        xdotool libx11-dev ffmpeg parallel libpugixml-dev"
fedora="gcc-c++ cmake ninja-build pkgconf clang-tools-extra gmp-devel gmp-static fmt-devel tomlplusplus-devel json-devel
        cli11-devel gtest-devel google-benchmark-devel flint-devel eigen3-devel geos-devel glm-devel
        stb_truetype-devel libpng-devel libpng-static zlib-static polarsys-b612-fonts-all python3-glad
        mesa-libEGL-devel mesa-dri-drivers glfw-devel imgui-devel xorg-x11-server-Xvfb xdotool
        libX11-devel ffmpeg-free parallel pugixml-devel"
arch="gcc cmake ninja pkgconf clang gmp fmt tomlplusplus nlohmann-json cli11 gtest benchmark flint eigen geos glm
      stb libpng python-glad mesa glfw-x11 imgui xorg-server-xvfb xdotool libx11 ffmpeg parallel pugixml"
homebrew="cmake ninja pkg-config clang-format gmp fmt tomlplusplus nlohmann-json cli11 googletest google-benchmark flint
          eigen geos glm libpng font-b612 glad glfw imgui ffmpeg parallel pugixml"

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

if command -v apt-get >/dev/null 2>&1; then
    missing=$(missing_on_debian)
    [ -n "$missing" ] || exit 0
    echo "install.sh: installing $missing" >&2
    as_root apt-get update -qq >&2
    # shellcheck disable=SC2086 # a list of packages
    as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $missing >&2
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
