#!/usr/bin/env bash
# Builds the planner as it is installed: one folder, compiled ahead for this kind of machine so that it starts quicker.
# Needs the .NET SDK and Node.js with npm. Usage: deploy/publish.sh [folder], default artifacts/publish.
set -euo pipefail
cd "$(dirname "$0")/.."
folder=${1:-artifacts/publish}
case $(uname -m) in
  x86_64) runtime=linux-x64 ;;
  aarch64) runtime=linux-arm64 ;;
  *) echo "No runtime is known for $(uname -m)." >&2; exit 2 ;;
esac
dotnet publish src/TransportPlanner.Web -c Release -r "$runtime" --no-self-contained -p:PublishReadyToRun=true -o "$folder"
cp deploy/transport-planner*.service deploy/transport-planner*.timer "$folder"
echo "The planner is in $folder. How to install it: deploy/README.md"
