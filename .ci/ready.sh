# shellcheck shell=sh
# What ./run and ./test share: install what is missing, nothing else.
# Read with `.`; it defines functions and does nothing by itself. The first
# line of `run` and `test` has gone to the root of the checkout.

# The oldest Rust that builds the program; the same stands in Cargo.toml.
oldest_rust=1.90

# Each word of its own on a line of its own.
say() { printf '%s\n' "$@"; }

# One clear line, and out.
stop() {
    printf '%s: %s\n' "${0##*/}" "$*" >&2
    exit 1
}

has() { command -v "$1" >/dev/null 2>&1; }

# The Debian packages found missing so far.
missing=''

# want PACKAGE…: notes each once.
want() {
    for package in "$@"; do
        case " $missing " in *" $package "*) ;; *) missing="$missing $package" ;; esac
    done
}

# need COMMAND PACKAGE: the package is wanted when the command is not there.
need() {
    has "$1" || want "$2"
}

# A compiler without the C library's headers is no compiler.
need_compiler() {
    if ! { has cc && printf '#include <stdlib.h>\nint main(void){return 0;}\n' | cc -x c -fsyntax-only - 2>/dev/null; }; then
        want gcc libc6-dev
    fi
}

need_certificates() {
    [ -e /etc/ssl/certs/ca-certificates.crt ] || want ca-certificates
}

# Runs a command as root: as it is, with sudo that asks nothing, or with sudo
# that asks when somebody sits at a terminal.
as_root() {
    if [ "$(id -u)" -eq 0 ]; then
        "$@"
    else
        sudo "$@"
    fi
}

can_be_root() {
    [ "$(id -u)" -eq 0 ] && return 0
    has sudo || return 1
    sudo -n true 2>/dev/null || { [ -t 0 ] && [ -t 2 ]; }
}

# need_reading LANGUAGE…: what Tesseract needs to read each of them.
need_reading() {
    readable=$(tesseract --list-langs 2>/dev/null || true)
    for language in "$@"; do
        printf '%s\n' "$readable" | grep -qx "$language" || want "tesseract-ocr-$language"
    done
}

# Installs packages named, with the lists of packages brought up to date once.
lists_fresh=no
install() {
    has apt-get || stop "needs these Debian packages, and there is no apt-get here: $*"
    can_be_root || stop "needs these Debian packages; install them as root and call again: apt-get install $*"
    say "installing: $*"
    if [ "$lists_fresh" = no ]; then
        as_root apt-get -qq update || stop "apt-get could not bring its lists up to date (what it said stands above)"
        lists_fresh=yes
    fi
    as_root env DEBIAN_FRONTEND=noninteractive apt-get -qq install -y --no-install-recommends "$@" >/dev/null ||
        stop "apt-get could not install: $* (what it said stands above)"
}

install_missing() {
    [ -n "$missing" ] || return 0
    # A list of package names: one word each.
    # shellcheck disable=SC2086
    install $missing
    missing=''
}

# at_least HAVE WANTED: versions such as 1.95.0 and 1.90.
at_least() {
    have_major=${1%%.*}
    have_rest=${1#*.}
    have_minor=${have_rest%%.*}
    case "$have_major$have_minor" in '' | *[!0-9]*) return 1 ;; esac
    [ "$have_major" -gt "${2%%.*}" ] ||
        { [ "$have_major" -eq "${2%%.*}" ] && [ "$have_minor" -ge "${2#*.}" ]; }
}

rust_is_here() {
    has cargo && has rustc || return 1
    version=$(rustc --version 2>/dev/null) || return 1
    version=${version#rustc }
    at_least "${version%% *}" "$oldest_rust"
}

# The version that Debian would install of a package; nothing when it has none.
debian_offers() {
    has apt-cache || return 0
    apt-cache policy "$1" 2>/dev/null |
        sed -n 's/^  Candidate: \([0-9][0-9.]*\).*/\1/p'
}

from_rustup() {
    has rustup || return 1
    say "fetching Rust with rustup"
    rustup toolchain install stable --profile minimal --component clippy --component rustfmt || return 1
    RUSTUP_TOOLCHAIN=stable
    export RUSTUP_TOOLCHAIN
    rust_is_here
}

# Rust as it is, else by rustup, else from Debian, else one line saying how.
need_rust() {
    if [ -d "${CARGO_HOME:-$HOME/.cargo}/bin" ]; then
        PATH="$PATH:${CARGO_HOME:-$HOME/.cargo}/bin"
        export PATH
    fi
    rust_is_here && return 0
    from_rustup && return 0
    if at_least "$(debian_offers rustc)" "$oldest_rust"; then
        install rustc cargo rust-clippy rustfmt
    elif [ -n "$(debian_offers rustup)" ]; then
        install rustup
        from_rustup || true
    fi
    rust_is_here ||
        stop "needs Rust $oldest_rust or newer, which this machine's packages do not have: install it with rustup as rust-lang.org says under Install, then call again"
}

# What building and running the program needs.
need_program() {
    need_compiler
    need_certificates
    need pkg-config pkg-config
    need ffmpeg ffmpeg
    need ffprobe ffmpeg
    # The page is built with Node.
    need node nodejs
    need npm npm
    install_missing
    need_rust
}

# The reference package of OpenTimelineIO and the reference validator of BagIt, with
# which the tests compare our files: in a place of their own in the build folder,
# versions and hashes pinned. Not 0 when they cannot be had; the tests then say that
# nothing was compared.
reference_package() {
    place=target/reference-package
    exchange=crates/exchange/tests/reference/requirements.txt
    archive=crates/archive/tests/reference
    pinned=$(cat "$exchange" "$archive/build.txt" "$archive/requirements.txt")
    if [ "$pinned" != "$(cat "$place/requirements.txt" 2>/dev/null)" ]; then
        rm -rf "$place"
        python3 -m venv "$place" || return 1
        reference_install --only-binary :all: -r "$exchange" || return 1
        reference_install --only-binary :all: -r "$archive/build.txt" || return 1
        # Its makers publish no wheel: it is built by what was just installed.
        reference_install --no-build-isolation -r "$archive/requirements.txt" || return 1
        printf '%s\n' "$pinned" >"$place/requirements.txt"
    fi
    ONESTRAND_REFERENCE_PYTHON=$PWD/$place/bin/python
    export ONESTRAND_REFERENCE_PYTHON
}

reference_install() {
    "$place/bin/python" -m pip install --quiet --disable-pip-version-check \
        --require-hashes --no-deps "$@"
}

# The libraries of the page, as the lock file has them.
page_libraries() {
    if [ web/node_modules/.package-lock.json -nt web/package-lock.json ] && [ "${CI-}" != true ]; then
        return 0
    fi
    # Browsers for tests come from Debian, not from the library.
    (cd web && PLAYWRIGHT_SKIP_BROWSER_DOWNLOAD=1 npm ci --no-audit --no-fund --loglevel=error)
}

# The page itself, which the program carries inside.
build_page() {
    page_libraries || stop "the page's libraries could not be fetched (what npm said stands above)"
    (cd web && npm run --silent build) || stop "the page could not be built (what vite said stands above)"
}
