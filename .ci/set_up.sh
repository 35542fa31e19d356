#!/bin/bash
# Sourced by start.sh and test.sh: what a machine needs before it can build, and how this build speaks.

project=$(cd "$(dirname "${BASH_SOURCE[0]}")/.." && pwd)

say() { printf '\n== %s\n' "$*"; }
fail() {
    printf '\n== Stopped: %s\n' "$*" >&2
    exit 1
}

# packages_for <what for>...: their names, from the list beside this file.
packages_for() {
    local group
    for group in "$@"; do
        sed -n "s/^$group  *//p" "$project/.ci/packages"
    done
}

# missing_packages <name>...: those that are not installed.
missing_packages() {
    local installed name
    installed=$(dpkg-query -W -f '${db:Status-Abbrev} ${Package}\n' "$@" 2>/dev/null | sed -n 's/^ii  *//p' || true)
    for name in "$@"; do
        grep -qxF -- "$name" <<<"$installed" || printf '%s\n' "$name"
    done
}

# as_root <command>...: as root, or through sudo.
as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        env DEBIAN_FRONTEND=noninteractive "$@"
    else
        sudo env DEBIAN_FRONTEND=noninteractive "$@"
    fi
}

# install_missing <what for>...: the packages of these groups that are not there yet.
install_missing() {
    local wanted missing
    mapfile -t wanted < <(packages_for "$@")
    [ "${#wanted[@]}" -gt 0 ] || fail "no packages are listed for: $*"
    if ! command -v dpkg-query >/dev/null || ! command -v apt-get >/dev/null; then
        say "This is no Debian system: going on with the libraries it has. Needed are: ${wanted[*]}"
        return
    fi
    mapfile -t missing < <(missing_packages "${wanted[@]}")
    if [ "${#missing[@]}" -eq 0 ]; then
        say "Packages: all ${#wanted[@]} are there"
        return
    fi
    say "Packages: ${#missing[@]} of ${#wanted[@]} are missing: ${missing[*]}"
    if [ "$(id -u)" -ne 0 ] && ! command -v sudo >/dev/null; then
        fail "installing them takes root, and there is no sudo. Ask whoever looks after this machine to run:
    apt-get update && apt-get install ${missing[*]}"
    fi
    as_root apt-get update || fail "the package lists could not be brought up to date (is the network there?)"
    as_root apt-get install -y --no-install-recommends "${missing[@]}" ||
        fail "the packages could not be installed; the lines above say why"
    mapfile -t missing < <(missing_packages "${wanted[@]}")
    [ "${#missing[@]}" -eq 0 ] || fail "still missing after the installation: ${missing[*]}"
}

# build_jobs: as many compilers as there are processors, and 1.5 GB of memory for each.
build_jobs() {
    local processors memory_kb by_memory
    processors=$(nproc)
    memory_kb=$(sed -n 's/^MemAvailable: *\([0-9]*\) kB/\1/p' /proc/meminfo 2>/dev/null || true)
    by_memory=$((${memory_kb:-4000000} / 1500000))
    [ "$by_memory" -ge 1 ] || by_memory=1
    [ "$processors" -le "$by_memory" ] && echo "$processors" || echo "$by_memory"
}

# configure <preset> [<cmake option>...]: quiet unless it fails.
configure() {
    local preset=$1
    shift
    say "Configuring the $preset build in .build/$preset"
    mkdir -p "$project/.build"
    (cd "$project" && cmake --preset "$preset" "$@") >"$project/.build/configure-$preset.log" 2>&1 || {
        cat "$project/.build/configure-$preset.log" >&2
        fail "CMake could not configure the build; its words are above"
    }
}

# build <preset> [<target>...]: ninja shows how far it is.
build() {
    local preset=$1
    shift
    say "Building ($(build_jobs) at a time; the first time takes some minutes)"
    (cd "$project" && cmake --build --preset "$preset" --parallel "$(build_jobs)" ${1:+--target "$@"}) ||
        fail "the build did not succeed; the compiler's words are above"
}
