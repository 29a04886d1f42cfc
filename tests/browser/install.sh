#!/usr/bin/env bash
# Lays the browser tests' npm packages into a folder (by default build/npm, which is not tracked).
set -euo pipefail
here=$(cd "$(dirname "$0")" && pwd)
room=${SCARFWRIGHT_NPM:-$here/../../build/npm}
mkdir -p "$room"
cp "$here/package.json" "$room/"
npm install --no-save --no-package-lock --no-audit --no-fund --silent --prefix "$room"
