#!/usr/bin/env bash
# Everything that is checked, stage by stage, with the seconds each takes.
# What is missing is installed where that is allowed (root, apt); otherwise it
# is named and the run ends with 1. Nothing is skipped.
set -euo pipefail
cd "$(dirname "$0")/../.."
out=web/check/out
mkdir -p "$out"

# How many times the usual cases each random test tries; see physics/trial.
if [[ ${SIZE:-small} == large ]]; then
  export WHEELROOM_RUNS=${WHEELROOM_RUNS:-50}
fi

stage() {
  local name=$1 start=$SECONDS
  shift
  printf '== %s\n' "$name"
  "$@"
  printf '== %s: %d s\n' "$name" $((SECONDS - start))
}

missing() {
  printf 'missing: %s. Install it, or run as root where apt may install it.\n' "$1" >&2
  exit 1
}

# need COMMAND PACKAGE...: the command, from Debian's packages if need be.
updated=
need() {
  local command=$1
  shift
  command -v "$command" >/dev/null && return
  [[ $(id -u) == 0 ]] && command -v apt-get >/dev/null || missing "$*"
  if [[ -z $updated ]]; then
    apt-get update -qq || missing "$*"
    updated=yes
  fi
  DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends "$@" >/dev/null || missing "$*"
  command -v "$command" >/dev/null || missing "$*"
}

# Debian's own Node may be too old for the checker of the markup; the same
# registry that has the checker has a newer one.
node_wanted=20.19
new_enough() { node -e 'const [a, b] = process.versions.node.split(".").map(Number); process.exit(a > 20 || (a === 20 && b >= 19) ? 0 : 1)'; }
newer_node() {
  new_enough && return
  npm install --silent --no-save --no-package-lock --prefix "$out/node" node@20.20.2 || missing "node $node_wanted or newer"
  PATH="$PWD/$out/node/node_modules/.bin:$PATH"
  new_enough || missing "node $node_wanted or newer"
}

tools() {
  command -v go >/dev/null || missing go
  need node nodejs
  need npm npm
  need chromium chromium
  need xmllint libxml2-utils
  need unzip unzip
  need ngspice ngspice
  need pdftotext poppler-utils
  newer_node
  (cd web/check && npm ci --silent)
}

vet() {
  local odd
  odd=$(find . -name node_modules -prune -o -name '*.go' -print0 | xargs -0 gofmt -l)
  [[ -z $odd ]] || { printf 'not formatted: %s\n' "$odd" >&2; return 1; }
  go vet ./...
  GOOS=js GOARCH=wasm go vet ./...
}

unit() { go test ./...; }

# Every package that has tests and needs neither a screen nor a network, built
# for the browser's processor and run under Node.
wasm() {
  local pure
  pure=$(GOOS=js GOARCH=wasm go list -f '{{if or .TestGoFiles .XTestGoFiles}}{{.ImportPath}} {{join .Deps " "}}{{end}}' \
    ./assets/... ./game/... ./lessons/... ./physics/... ./web/bridge ./web/cmd/wheelroom ./web/errand |
    grep -v hajimehoshi/ebiten | cut -d' ' -f1)
  [[ -n $pure ]]
  # shellcheck disable=SC2086
  GOOS=js GOARCH=wasm go test -exec="$(go env GOROOT)/lib/wasm/go_js_wasm_exec" $pure
}

# The second is for tests of the layout; its compression does not matter.
site() {
  go run ./web/build --quality 4
  go run ./web/build --lengthened --quality 0 --out "$out/long"
}

browser() {
  go build -o "$out/wheelroom" ./web/cmd/wheelroom
  (cd web/check && node --test --test-reporter=spec all.test.mjs)
}

# Named stages, or all of them.
for name in "${@:-}"; do
  case ${name:-all} in
    all)
      for each in tools vet unit wasm site browser; do stage "$each" "$each"; done
      printf 'all sound after %d s\n' "$SECONDS"
      ;;
    tools | vet | unit | wasm | site | browser) stage "$name" "$name" ;;
    *) printf 'no stage %s\n' "$name" >&2; exit 2 ;;
  esac
done
