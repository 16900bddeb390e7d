#!/usr/bin/env bash
# Installs what the tests need on bare Debian and runs every check. Last line: N passed, N failed, N skipped.
set -uo pipefail
cd "$(dirname "$0")/.."
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1

echo 'not built yet: persistence tests on PostgreSQL'
echo 'not built yet: browser tests'

failures=0
step() { echo "== $*"; "$@" || { failures=$((failures + 1)); echo "FAILED: $*"; }; }

step dotnet restore TransportPlanner.sln
step dotnet format TransportPlanner.sln --no-restore --verify-no-changes
step dotnet build TransportPlanner.sln --no-restore -c Release
rm -rf artifacts/test-results
for project in tests/*.Tests/*.csproj; do
  name=$(basename "$project" .csproj)
  step dotnet test "$project" --no-build -c Release --logger "trx;LogFileName=$name.trx" --results-directory artifacts/test-results
done

# A test result file counts a skipped test as neither executed nor passed, so skipped = total - executed.
sum() { cat artifacts/test-results/*.trx 2>/dev/null | grep -o '<Counters [^>]*' | grep -o " $1=\"[0-9]*" | grep -o '[0-9]*$' | paste -sd+ | sed 's/^$/0/' | { read -r e; echo $((e)); }; }
total=$(sum total); executed=$(sum executed); passed=$(sum passed)
failed=$((executed - passed + failures))
echo "$passed passed, $failed failed, $((total - executed)) skipped"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
