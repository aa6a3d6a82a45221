#!/bin/sh
# Sets everything up on first use, then runs Legsheet.
#   sh start.sh demo      the embedded, invented passage: sheets into ./demo, window where there is a screen
#   sh start.sh test      all tests
#   sh start.sh check     formatting, lint, types, import contracts
#   sh start.sh WORDS     legsheet WORDS   (no words: the window)
set -e
cd "$(dirname "$0")"

say() { printf '%s\n' "$*" >&2; }

# Debian and Ubuntu: libraries that Qt needs, and venv; only as root and only when missing.
system_packages() {
  command -v apt-get >/dev/null 2>&1 || return 0
  packages=""
  if ! ldconfig -p 2>/dev/null | grep -q 'libEGL\.so\.1' || ! ldconfig -p | grep -q 'libxcb-cursor\.so\.0' \
     || ! ldconfig -p | grep -q 'libxcb-icccm\.so\.4' || ! ldconfig -p | grep -q 'libxcb-keysyms\.so\.1'; then
    packages="libgl1 libegl1 libxkbcommon0 libdbus-1-3 libfontconfig1 libxcb-cursor0 libxcb-icccm4 \
      libxcb-keysyms1 libxcb-shape0 libxcb-xkb1 libxkbcommon-x11-0 GLIB"
  fi
  "$PY" -c 'import ensurepip' 2>/dev/null || packages="$packages python3-venv"
  [ "$1" = test ] && { command -v pdftotext >/dev/null 2>&1 || packages="$packages poppler-utils"; }
  [ -n "$packages" ] || return 0
  if [ "$(id -u)" != 0 ]; then
    say "Not root: if Qt reports missing libraries, ask for: $packages"
    return 0
  fi
  apt-get -o DPkg::Lock::Timeout=300 update -qq
  glib=libglib2.0-0
  apt-cache show libglib2.0-0t64 >/dev/null 2>&1 && glib=libglib2.0-0t64
  packages=$(printf '%s' "$packages" | sed "s/GLIB/$glib/")
  # shellcheck disable=SC2086  # a list of words is meant
  DEBIAN_FRONTEND=noninteractive apt-get -o DPkg::Lock::Timeout=300 install -y -qq --no-install-recommends $packages >/dev/null
}

find_python() {
  for name in "$PYTHON" python3.11 python3.12 python3.13 python3; do
    [ -n "$name" ] && command -v "$name" >/dev/null 2>&1 \
      && "$name" -c 'import sys; sys.exit(sys.version_info < (3, 11))' && { PY=$name; return 0; }
  done
  say "Python 3.11 or newer is needed"; exit 2
}

# A virtual environment of exact versions; made again when the lock file changes.
environment() {
  wanted=$(cksum requirements.lock pyproject.toml | cksum)
  [ -f .venv/ready ] && [ "$(cat .venv/ready)" = "$wanted" ] && return 0
  say "Setting up (once) ..."
  if [ ! -x .venv/bin/python ]; then
    rm -rf .venv
    "$PY" -m venv .venv >/dev/null 2>&1 || { rm -rf .venv
      "$PY" -m pip install -q --break-system-packages virtualenv 2>/dev/null || "$PY" -m pip install -q virtualenv
      "$PY" -m virtualenv -q .venv; }
  fi
  .venv/bin/python -m pip install -q --disable-pip-version-check -r requirements.lock
  .venv/bin/python -m pip install -q --disable-pip-version-check --no-deps -e .
  printf '%s' "$wanted" > .venv/ready
}

find_python
system_packages "$1"
environment
export LC_ALL="${LC_ALL:-C.UTF-8}"
case "$1" in
  demo)
    shift
    .venv/bin/legsheet demo "${1:-demo}"
    if [ -n "$DISPLAY$WAYLAND_DISPLAY" ] && [ -z "$CI" ]; then exec .venv/bin/legsheet; fi ;;
  test)
    shift
    # A worker that crashes ends the run: in its place the next one would wait without end.
    exec .venv/bin/python -m pytest -n 2 --dist loadscope --max-worker-restart=0 "$@" ;;
  check)
    .venv/bin/ruff format --check .
    .venv/bin/ruff check .
    .venv/bin/mypy
    .venv/bin/lint-imports ;;
  *)
    exec .venv/bin/legsheet "$@" ;;
esac
