#!/usr/bin/env bash
# Installs what the tests need on bare Debian and runs every check. Nothing is skipped for want of a database or a browser:
# where one cannot be had, its tests fail. Last line: N passed, N failed, N skipped.
# Needs the .NET SDK, Node.js with npm and git, and root or sudo for what is missing. More in docs/testing.md.
set -uo pipefail
cd "$(dirname "$0")/.."
exec < /dev/null
export DOTNET_CLI_TELEMETRY_OPTOUT=1 DOTNET_NOLOGO=1 PLANNER_TESTS_REQUIRE_ALL=1
export HOME=${HOME:-$(getent passwd "$(id -u)" | cut -d: -f6)} PATH=$PATH:/usr/local/sbin:/usr/sbin:/sbin
results=artifacts/test-results
run_folder=$(mktemp -d)
engine=
root=()
[ "$(id -u)" -eq 0 ] || root=(sudo -n --preserve-env=CONTAINERS_CONF)

clean_up() {
  [ -z "$engine" ] || { kill "$engine"; wait "$engine"; } 2> /dev/null
  rm -rf "$run_folder"
}
trap clean_up EXIT
trap 'exit 130' INT TERM

failed_steps=0
step() { echo "== $*"; "$@" || { failed_steps=$((failed_steps + 1)); echo "FAILED: $*"; }; }

# Installs those of the packages that are not installed yet, after one update of the package lists in this run.
install() {
  local package missing=() log=$run_folder/apt.log
  for package in "$@"; do
    [ "$(dpkg-query -W -f '${db:Status-Status}' "$package" 2> /dev/null)" = installed ] || missing+=("$package")
  done
  [ ${#missing[@]} -gt 0 ] || return 0
  echo "installing ${missing[*]}"
  local apt=("${root[@]}" env DEBIAN_FRONTEND=noninteractive apt-get -q -y -o DPkg::Lock::Timeout=300)
  if [ ! -e "$run_folder/updated" ]; then
    "${apt[@]}" update > "$log" 2>&1 && touch "$run_folder/updated" || { tail -n 20 "$log"; return 1; }
  fi
  "${apt[@]}" install --no-install-recommends "${missing[@]}" > "$log" 2>&1 || { tail -n 20 "$log"; return 1; }
}

install_tools() {
  [ -d /usr/share/zoneinfo/Europe ] || install tzdata || return
  command -v chromium-headless-shell > /dev/null || command -v chromium > /dev/null || install chromium-headless-shell || return
  command -v fc-list > /dev/null && [ -n "$(fc-list)" ] || install fontconfig fonts-dejavu-core
}

# A server that PLANNER_POSTGRES names; else the official image, where a container engine has or gets it; else an engine
# and an image made of Debian's packages.
prepare_postgres() {
  local official=${PLANNER_POSTGRES_IMAGE:-postgres:17}
  [ -z "${PLANNER_POSTGRES:-}" ] || return 0
  if command -v docker > /dev/null && docker info > /dev/null 2>&1; then
    docker image inspect "$official" > /dev/null 2>&1 || docker pull -q "$official" > /dev/null 2>&1
  else
    false
  fi && return
  install podman runc netavark aardvark-dns iptables debootstrap || return

  # Only runc works where control groups are mounted in hybrid mode; raising a limit may be forbidden.
  export CONTAINERS_CONF=$run_folder/containers.conf
  cat > "$CONTAINERS_CONF" << END
[containers]
default_ulimits = ["nofile=$(limit -n 20000)", "nproc=$(limit -u 1024)"]
[engine]
runtime = "runc"
cgroup_manager = "cgroupfs"
events_logger = "file"
[network]
network_backend = "netavark"
END

  # Kept between runs, and made again when its recipe has changed.
  local image
  image=localhost/transport-planner-postgres:$(cat tests/containers/postgres/* | sha256sum | cut -c1-16)
  if ! "${root[@]}" podman image exists "$image"; then
    echo "making $image"
    "${root[@]}" bash tests/containers/postgres/make-image.sh "$image" || return
  fi
  remove_leftovers

  # The engine ends with this script, also when the script is killed.
  local socket=$run_folder/podman.sock
  "${root[@]}" setpriv --pdeathsig TERM podman system service --time=0 "unix://$socket" &
  engine=$!
  for _ in $(seq 100); do [ -S "$socket" ] && break; sleep 0.1; done
  "${root[@]}" chown "$(id -u)" "$socket" || return
  export DOCKER_HOST=unix://$socket PLANNER_POSTGRES_IMAGE=$image
  export TESTCONTAINERS_RYUK_DISABLED=true TESTCONTAINERS_HOST_OVERRIDE=127.0.0.1
}

# soft:hard limit, not above the hard limit of this process.
limit() {
  local own
  own=$(ulimit -H "$1")
  if [ "$own" = unlimited ] || [ "$own" -gt "$2" ]; then own=$2; fi
  echo "$own:$own"
}

# Containers of a run that was killed: the test process that their label names is gone.
remove_leftovers() {
  local label=transport-planner.tests.owner container owner
  "${root[@]}" podman ps -a --filter "label=$label" --format "{{.ID}} {{index .Labels \"$label\"}}" |
    while read -r container owner; do
      [ -d "/proc/$owner" ] || "${root[@]}" podman rm -f "$container"
    done
}

# Sum of one counter over all test results.
count() {
  local sum=0 n
  for n in $(grep -ho '<Counters [^>]*' "$results"/*.trx 2> /dev/null | grep -o " $1=\"[0-9]*" | grep -o '[0-9]*$'); do sum=$((sum + n)); done
  echo "$sum"
}

# A test project whose tests failed is counted by them; one that failed in another way counts as a step.
run_tests() {
  local name before
  name=$(basename "$1" .csproj)
  before=$(($(count executed) - $(count passed)))
  dotnet test "$1" --no-build -c Release --logger "trx;LogFileName=$name.trx" --results-directory "$results" ||
    [ $(($(count executed) - $(count passed))) -gt "$before" ]
}

rm -rf "$results"
step install_tools
step prepare_postgres
step dotnet restore TransportPlanner.sln
step dotnet format TransportPlanner.sln --no-restore --verify-no-changes
step dotnet build TransportPlanner.sln --no-restore -c Release
for project in tests/*.Tests/*.csproj; do step run_tests "$project"; done

# A result file counts a skipped test as neither executed nor passed.
passed=$(count passed)
failed=$(($(count executed) - passed + failed_steps))
echo "$passed passed, $failed failed, $(($(count total) - $(count executed))) skipped"
[ "$failed" -eq 0 ] && [ "$passed" -gt 0 ]
