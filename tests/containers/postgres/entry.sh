#!/bin/sh
# Entry of the PostgreSQL test image. Does what the official image does for the same variables: makes a new
# cluster with POSTGRES_USER, POSTGRES_PASSWORD and POSTGRES_DB, then serves it. A first argument that begins
# with a dash is an argument for the server.
set -eu
bin=$(echo /usr/lib/postgresql/*/bin)
data=${PGDATA:-/var/lib/postgresql/data}
user=${POSTGRES_USER:-postgres}
database=${POSTGRES_DB:-$user}
: "${POSTGRES_PASSWORD:?POSTGRES_PASSWORD is required}"
case ${1:-} in '' | -*) set -- postgres "$@" ;; esac

as_postgres() { setpriv --reuid=postgres --regid=postgres --init-groups "$@"; }

mkdir -p "$data" /var/run/postgresql
chown postgres:postgres "$data" /var/run/postgresql
chmod 700 "$data"
if [ ! -s "$data/PG_VERSION" ]; then
  secret=$(mktemp)
  printf '%s\n' "$POSTGRES_PASSWORD" > "$secret"
  chown postgres "$secret"
  as_postgres "$bin/initdb" --pgdata "$data" --username "$user" --pwfile "$secret" --no-sync \
    --encoding UTF8 --locale C.UTF-8 --auth-local trust --auth-host scram-sha-256
  rm -f "$secret"
  echo 'host all all all scram-sha-256' >> "$data/pg_hba.conf"
  if [ "$database" != postgres ]; then
    printf 'CREATE DATABASE "%s";\n' "$database" | as_postgres "$bin/postgres" --single -D "$data" postgres
  fi
fi
program=$1
shift
exec setpriv --reuid=postgres --regid=postgres --init-groups "$bin/$program" -D "$data" -c listen_addresses='*' "$@"
