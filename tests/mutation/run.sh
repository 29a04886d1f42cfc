#!/usr/bin/env bash
# Mutation testing of the rooms whose numbers can hurt, from the tree's root:
#   tests/mutation/run.sh [--max-children 1] [NAME-GLOB ...]      MUTATION_ROOM=... to go on with an earlier run
# Wants mutmut (pip install mutmut). Lays out a copy of the package under its own name, because here the folders are the package.
set -euo pipefail
tree=$(cd "$(dirname "$0")/../.." && pwd)
room=${MUTATION_ROOM:-$(mktemp -d)}
mkdir -p "$room/scarfwright"
cp -r "$tree"/{models,outputs,cli,examples} "$room/scarfwright/"
cp -r "$tree"/{tests,README.md,DEVELOPERS.md} "$room/"
cp "$tree/tests/mutation/setup.cfg" "$room/"
python "$tree/tests/mutation/bare_properties.py" "$room"/scarfwright/models/{joint,sled,cut}
cd "$room"
echo "in $room"
python -m mutmut run "$@"
python -m mutmut results | grep -v ": not checked" || true
