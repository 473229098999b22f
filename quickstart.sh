#!/usr/bin/env bash
# ./quickstart.sh demo   sets up, builds, runs the demo passage, compares crossings and reports on a higher speed; see out/
# ./quickstart.sh test   sets up the same way and runs every test: C++, Python, notebooks, pages in a browser
# ./quickstart.sh check  what a change must pass besides: sanitizers, random inputs, static checks, types, formatting, installed package
# Running any of them again only does what has changed. CI runs test, then check.
set -euo pipefail

cd "$(dirname "${BASH_SOURCE[0]}")"
ROOT=$PWD
export PATH="${PATH:-/usr/local/sbin:/usr/local/bin:/usr/sbin:/usr/bin:/sbin:/bin}" LC_ALL=C.UTF-8
export HOME="${HOME:-$ROOT/build/home}" MPLBACKEND=Agg MPLCONFIGDIR="$ROOT/build/matplotlib"
LOGS=$ROOT/build/logs
PREFIX=$ROOT/build/prefix
STEP="start"

# --- talking -----------------------------------------------------------------------------------------------------
clock() { printf '%02d:%02d' $((SECONDS / 60)) $((SECONDS % 60)); }
say() { printf '[%s] %s\n' "$(clock)" "$*"; }
stop() {
  printf '\nStopped: %s\n' "$*" >&2
  trap - ERR
  exit 1
}
step() {
  STEP=$1
  say "$1"
}
trap 'stop "the step \"$STEP\" failed (line $LINENO of quickstart.sh)."' ERR

# logged NAME COMMAND...: quiet when all is well, the end of the log when not.
logged() {
  local log="$LOGS/$1.log"
  shift
  if ! "$@" >"$log" 2>&1 </dev/null; then
    tail -n 60 "$log" >&2
    stop "\"$STEP\" failed; the whole log is ${log#"$ROOT"/}."
  fi
}

usage() {
  sed -n '2,5s/^# //p' "${BASH_SOURCE[0]}"
  exit "$1"
}

# --- what must be there ------------------------------------------------------------------------------------------
# at_least HAVE WANT: versions in order.
at_least() { [ "$(printf '%s\n%s\n' "$2" "$1" | sort -V | head -n 1)" = "$2" ]; }

# pick VERSION CANDIDATE...: the first candidate that runs and is new enough.
pick() {
  local want=$1 candidate have
  shift
  for candidate in "$@"; do
    have=$("$candidate" --version 2>/dev/null </dev/null | grep -oE '[0-9]+\.[0-9]+(\.[0-9]+)?' | head -n 1) || continue
    if [ -n "$have" ] && at_least "$have" "$want"; then
      command -v "$candidate"
      return 0
    fi
  done
  return 1
}

# A Python that can make virtual environments and compile extensions.
pick_python() {
  local candidate
  for candidate in "${PYTHON:-}" python3 /usr/bin/python3; do
    [ -n "$candidate" ] && "$candidate" - >/dev/null 2>&1 <<'EOF' && command -v "$candidate" && return 0
import ensurepip, os, sys, sysconfig, venv
ok = sys.version_info >= (3, 10) and os.path.exists(os.path.join(sysconfig.get_path("include"), "Python.h"))
sys.exit(not ok)
EOF
  done
  return 1
}

# A Clang that comes with its sanitizers.
pick_clang() {
  local clang
  clang=$(pick 14 clang++-14 clang++) || return 1
  echo 'int main() {}' | "$clang" -fsanitize=address,undefined -x c++ - -o /dev/null >/dev/null 2>&1 && echo "$clang"
}

missing_packages() {
  local package
  for package in libeigen3-dev libboost-dev libhdf5-dev catch2 libssl-dev libtomlplusplus-dev libcli11-dev nlohmann-json3-dev; do
    [ "$(dpkg-query -W -f='${db:Status-Status}' "$package" 2>/dev/null)" = installed ] || echo "$package"
  done
  pick 3.25 cmake /usr/bin/cmake >/dev/null || echo cmake
  pick 1.10 ninja /usr/bin/ninja >/dev/null || echo ninja-build
  pick 11 "${CXX:-g++}" >/dev/null || echo g++
  command -v "${CC:-cc}" >/dev/null || echo gcc
  pick_python >/dev/null || printf '%s\n' python3 python3-venv python3-dev
  if [ "$1" = check ]; then
    pick 14 clang-format-14 clang-format >/dev/null || echo clang-format
    pick 14 clang-tidy-14 clang-tidy >/dev/null || echo clang-tidy
    pick_clang >/dev/null || printf '%s\n' clang libclang-rt-dev
  fi
  if [ "$1" = test ]; then
    # The report is opened in a real browser, and its print looked through.
    command -v chromium >/dev/null || echo chromium
    command -v pdfinfo >/dev/null || echo poppler-utils
  fi
}

install_packages() {
  step "Looking for the Debian packages needed"
  command -v dpkg-query >/dev/null && command -v apt-get >/dev/null ||
    stop "this script sets up Debian machines; elsewhere install a C++20 compiler, CMake 3.25, Ninja, Eigen 3.4, Boost," \
      "HDF5, OpenSSL, Catch2, toml++, CLI11, nlohmann-json and Python 3.10 yourself and see DEVELOPERS.md."
  local missing
  mapfile -t missing < <(missing_packages "$1")
  if [ "${#missing[@]}" -gt 0 ]; then
    local root=()
    if [ "$(id -u)" != 0 ]; then
      command -v sudo >/dev/null ||
        stop "these packages are missing and there is neither root nor sudo here. Ask for: apt-get install ${missing[*]}"
      root=(sudo)
    fi
    step "Installing with apt-get: ${missing[*]}"
    logged apt "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get update -q
    logged apt "${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get install -q -y --no-install-recommends "${missing[@]}"
    mapfile -t missing < <(missing_packages "$1")
    [ "${#missing[@]}" -eq 0 ] || stop "still missing, or too old, after installing: ${missing[*]}"
  fi
  CMAKE=$(pick 3.25 cmake /usr/bin/cmake)
  CTEST=$(pick 3.25 "$(dirname "$CMAKE")/ctest" /usr/bin/ctest)
  NINJA=$(pick 1.10 ninja /usr/bin/ninja)
  BASE_PYTHON=$(pick_python)
  LAUNCHER=()
  if command -v ccache >/dev/null; then
    LAUNCHER=(-DCMAKE_CXX_COMPILER_LAUNCHER=ccache)
  fi
  # Eigen's templates need about 1.2 GB a job at worst.
  JOBS=$(awk -v cores="$(nproc)" '/MemAvailable/ { fit = int($2 / 1.2e6) } END { print (fit < 1 ? 1 : fit < cores ? fit : cores) }' /proc/meminfo)
}

# --- building ----------------------------------------------------------------------------------------------------
# build PRESET TARGET...
build() {
  local preset=$1 compiler=()
  shift
  if [ "$preset" = asan-ubsan ]; then
    compiler=(-DCMAKE_CXX_COMPILER="$(pick_clang)")
  fi
  step "Building the $preset preset in build/$preset ($JOBS jobs; minutes at first, seconds when nothing changed)"
  logged "configure-$preset" "$CMAKE" --preset "$preset" -DCMAKE_MAKE_PROGRAM="$NINJA" \
    -DCMAKE_INSTALL_PREFIX="$PREFIX" "${LAUNCHER[@]}" "${compiler[@]}"
  logged "build-$preset" "$CMAKE" --build "build/$preset" -j "$JOBS" --target "$@"
}

install_release() {
  step "Installing the release build to build/prefix"
  logged install "$CMAKE" --install build/release
}

# stamp_differs NAME VALUE: true when VALUE is not what keep_stamp stored.
stamp_differs() { [ "$(cat "build/stamps/$1" 2>/dev/null)" != "$2" ]; }
keep_stamp() {
  mkdir -p build/stamps
  printf '%s' "$2" >"build/stamps/$1"
}
sum_of() { find "$@" -type f ! -name '*.pyc' -print0 | sort -z | xargs -0 sha256sum | sha256sum; }

# python_requirements EXTRA...: what pyproject.toml asks for, one requirement a line; "build" is what building needs.
python_requirements() {
  "$BASE_PYTHON" - "$@" <<'EOF'
import sys
try:
    import tomllib
except ModuleNotFoundError:  # Python 3.10
    from pip._vendor import tomli as tomllib
with open("pyproject.toml", "rb") as file:
    known = tomllib.load(file)
wanted = list(known["project"]["dependencies"])
for extra in sys.argv[1:]:
    wanted += known["build-system"]["requires"] if extra == "build" else known["project"]["optional-dependencies"][extra]
print("\n".join(dict.fromkeys(one for one in wanted if not one.startswith("wingnose"))))
EOF
}

# The Python package is built against the installed libraries, so only the bindings are compiled here.
# `pip install .` alone works too and builds everything.
python_package() {
  # Names and versions have one home, pyproject.toml.
  local tools wanted for_tests
  mapfile -t wanted < <(python_requirements build report)
  mapfile -t for_tests < <(python_requirements test study dask report)
  tools="$("$BASE_PYTHON" --version) $(sha256sum pyproject.toml)"
  if [ ! -x .venv/bin/python ] || stamp_differs python-tools "$tools"; then
    step "Making the virtual environment .venv and fetching Python packages"
    logged venv "$BASE_PYTHON" -m venv --clear .venv
    rm -rf build/python build/stamps/python-package build/stamps/python-test-tools
    logged pip-tools .venv/bin/pip install -q --disable-pip-version-check "${wanted[@]}"
    keep_stamp python-tools "$tools"
  fi
  if [ "$1" != demo ] && stamp_differs python-test-tools "$tools"; then
    step "Fetching the Python packages of the tests"
    logged pip-test-tools .venv/bin/pip install -q --disable-pip-version-check "${for_tests[@]}"
    keep_stamp python-test-tools "$tools"
  fi
  local content
  content=$(sum_of bindings include pyproject.toml README.md LICENSE "$PREFIX/lib")
  if stamp_differs python-package "$content" || ! .venv/bin/python -c 'import wingnose' 2>/dev/null; then
    step "Installing the Python package into .venv"
    CMAKE_BUILD_PARALLEL_LEVEL=$JOBS PATH="$(dirname "$CMAKE"):$(dirname "$NINJA"):$PATH" \
      logged pip-package .venv/bin/pip install --disable-pip-version-check --no-build-isolation --no-deps \
      --force-reinstall --config-settings=cmake.define.WINGNOSE_USE_INSTALLED=ON \
      "--config-settings=cmake.define.wingnose_ROOT=$PREFIX" \
      ${LAUNCHER[0]:+"--config-settings=cmake.define.${LAUNCHER[0]#-D}"} .
    keep_stamp python-package "$content"
  fi
}

# --- checking ----------------------------------------------------------------------------------------------------
run_ctest() {
  step "C++ tests of the $1 build"
  local log="$LOGS/ctest-$1.log"
  if ! "$CTEST" --preset "$1" -j "$JOBS" >"$log" 2>&1 </dev/null; then
    grep -vE ' Passed +[0-9.]+ sec$|^ +Start +[0-9]+:' "$log" | tail -n 120 >&2
    stop "C++ tests of the $1 build failed; the whole log is ${log#"$ROOT"/}."
  fi
  grep -E '^100% tests passed|^Total Test time' "$log"
}

# Each target for a minute, with the seed of the day: every day tries other inputs.
run_fuzz() {
  step "Random inputs for a minute each: case files, sections, wheels, results"
  local seed
  seed=$(date +%Y%m%d)
  rm -rf build/fuzz
  # shellcheck disable=SC2016
  printf '%s\n' case sections wheel results | xargs -n 1 -P "$JOBS" bash -c '
    mkdir -p "build/fuzz/$2" && cd "build/fuzz/$2"
    corpus=("$1/tests/fuzz/corpus/$2")
    [ "$2" != case ] || corpus+=("$1/tests/input_errors")
    if "$1/build/asan-ubsan/tests/fuzz/fuzz_$2" --seconds 60 --seed "$0" "${corpus[@]}" >log 2>&1; then
      printf "%-10s%s\n" "$2" "$(tail -n 1 log)"
    else
      tail -n 40 log
      printf "%s: the input is build/fuzz/%s/fuzz_fault, the seed was %s\n" "$2" "$2" "$0"
      exit 1
    fi' "$seed" "$ROOT" || stop "a random input was not refused as it should be."
}

check_format() {
  step "Formatting (clang-format)"
  local tool
  tool=$(pick 14 clang-format-14 clang-format)
  find src include bindings tests -name '*.[ch]pp' -print0 | xargs -0 "$tool" --dry-run --Werror ||
    stop "the files above are not formatted; run $tool -i on them."
}

check_tidy() {
  step "Static checks (clang-tidy)"
  logged configure-tidy "$CMAKE" --preset tidy -DCMAKE_MAKE_PROGRAM="$NINJA"
  logged tidy "$BASE_PYTHON" tests/static_checks.py "$(pick 14 clang-tidy-14 clang-tidy)" build/tidy "$JOBS"
}

# Files of tests are shared out, not single tests: what a file prepares for its tests is prepared once.
run_pytest() {
  step "Python tests, notebooks and the report in a browser"
  WINGNOSE_NEED_BROWSER=1 .venv/bin/python -m pytest -n "$JOBS" --dist loadfile </dev/null
}

check_types() {
  step "Types of the Python package (mypy, strict)"
  logged mypy .venv/bin/python -m mypy --cache-dir build/mypy
}

check_consumer() {
  step "A consumer of the installed package"
  logged consumer-configure "$CMAKE" -S tests/consumer -B build/consumer -G Ninja -DCMAKE_MAKE_PROGRAM="$NINJA" \
    -DCMAKE_BUILD_TYPE=Release -DCMAKE_PREFIX_PATH="$PREFIX"
  logged consumer-build "$CMAKE" --build build/consumer
  build/consumer/consumer
}

print_scoreboard() {
  step "Reference values and ours"
  .venv/bin/python tests/print_scoreboard.py build/scoreboard.csv
}

# --- the three commands ------------------------------------------------------------------------------------------
demo() {
  install_packages demo
  build release wingnose wingnose_rooms
  install_release
  python_package demo
  mkdir -p out
  step "One passage over the designed crossing"
  build/release/wingnose run profiles/demo.toml -o out/demo.h5
  step "Designed, worn and repaired under the same wheels"
  build/release/wingnose compare profiles/compare.toml -o out/compare.h5
  step "Twenty kilometres an hour faster"
  build/release/wingnose speeds profiles/demo.toml --from 60 --to 160 --step 5 --today 100 --proposed 120 \
    --limit p2_kN=200 --source "invented for the demo" --limit lost_contact_ms=0 --source "invented for the demo" \
    -o out/speeds.h5
  step "Drawing and reporting"
  local file
  for file in demo compare speeds; do
    .venv/bin/python -m wingnose.sheets "out/$file.h5"
  done
  .venv/bin/python -m wingnose.report out/speeds.h5 -o out/speeds.html
  .venv/bin/python -m wingnose.report out/compare.h5 -o out/compare.html
  say "Done. Results, pictures and two reports to open in a browser (speeds.html, compare.html) are in out/."
}

tests() {
  install_packages test
  rm -f build/scoreboard.csv
  build release wingnose wingnose_rooms wingnose_tests
  export WINGNOSE_SCOREBOARD=$ROOT/build/scoreboard.csv
  run_ctest release
  unset WINGNOSE_SCOREBOARD
  install_release
  python_package test
  run_pytest
  print_scoreboard
  say "Every test passed. Before a change is handed on, ./quickstart.sh check has to pass as well."
}

check() {
  install_packages check
  check_format
  build release all
  install_release
  python_package check
  check_types
  check_consumer
  build asan-ubsan all
  run_ctest asan-ubsan
  run_fuzz
  check_tidy
  say "Every check passed."
}

mkdir -p "$LOGS" "$HOME"
case "${1:-}" in
demo) demo ;;
test) tests ;;
check) check ;;
-h | --help) usage 0 ;;
*) usage 2 >&2 ;;
esac
